"""Edits of a schedule, applied to a job's values: the same for a form, a script and a replay after an outage.

Each edit counts rows in the job as the edits before it left it, so that a list of them done on the revision
that they began with always gives the same values. Done twice they change nothing the second time.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Annotated, Any, Final, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, ValidationError

from drawerwright.errors import Fault, InputError
from drawerwright.store.shape import settle_part
from drawerwright.units import show_value
from drawerwright.web.schedule.columns import ScheduleColumn, schedule_columns, text_of, value_from, with_cell
from drawerwright.web.schedule.paste import (
    Block,
    Heading,
    heading_of_block,
    nearest_column,
    parted,
    read_block,
)
from drawerwright.web.schedule.units import with_units_written

MOST_ROWS: Final = 5_000
"""As many drawers as the store keeps in a job."""

OWN_UNITS: Final = {"mm": ("mm", "kg"), "in": ("in", "inch", "inches", "lb")}
"""Units that a bare number has in a job, as headings name them."""

Place: TypeAlias = Annotated[int, Field(ge=0, le=MOST_ROWS)]
Rows: TypeAlias = Annotated[list[Place], Field(max_length=MOST_ROWS)]
Key: TypeAlias = Annotated[str, Field(max_length=80)]
Typed: TypeAlias = Annotated[str, Field(max_length=5_000_000)]


class _Edit(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class SetCell(_Edit):
    """One cell typed anew; a row beyond the last becomes a new drawer."""

    do: Literal["set"] = "set"
    row: Place
    key: Key
    text: Typed


class SetShared(_Edit):
    """A key of the whole job: `title`, `units`, or `defaults.` before a drawer's key.

    `numbers`, with `units`: those without a unit keep what they mean, or are read anew in the other units.
    """

    do: Literal["share"] = "share"
    key: Key
    text: Typed
    numbers: Literal["keep", "reread"] = "keep"


class AddRow(_Edit):
    """An empty row before the row `at`."""

    do: Literal["add"] = "add"
    at: Place


class RemoveRows(_Edit):
    """Rows taken away."""

    do: Literal["remove"] = "remove"
    rows: Rows


class CopyRows(_Edit):
    """Rows written once more, together behind the last of them."""

    do: Literal["copy"] = "copy"
    rows: Rows


class MoveRows(_Edit):
    """Rows moved one place up (-1) or down (1), as far as the schedule goes."""

    do: Literal["move"] = "move"
    rows: Rows
    by: Literal[-1, 1]


class Paste(_Edit):
    """A block of cells: onto a cell and to its right and down, or by its own heading.

    `columns` are those on the screen, in their order.
    """

    do: Literal["paste"] = "paste"
    row: Place
    key: Key = "id"
    columns: Annotated[list[Key], Field(max_length=200)] = []
    text: Typed


Edit: TypeAlias = Annotated[
    SetCell | SetShared | AddRow | RemoveRows | CopyRows | MoveRows | Paste, Field(discriminator="do")
]


_READ: Final[TypeAdapter[Edit]] = TypeAdapter(Edit)


def read_edits(told: Sequence[Any]) -> tuple[list[Edit], list[tuple[int, Fault]]]:
    """Edits as a script tells them, as far as they read; from the first that does not, none is taken.

    Those behind one that does not read count rows that it may have moved.
    """
    edits: list[Edit] = []
    for at, one in enumerate(told):
        try:
            edits.append(_READ.validate_python(one))
        except ValidationError as error:
            return edits, [(at, _unread(at, error)), *((later, _AFTER) for later in range(at + 1, len(told)))]
    return edits, []


_AFTER: Final = Fault("edits", "", "comes after an edit that does not read", "it again, once that is gone")


def _unread(at: int, error: ValidationError) -> Fault:
    first = error.errors()[0]
    place = ".".join(str(part) for part in (f"edits.{at}", *first["loc"]))
    return Fault(place, show_value(first["input"])[:80], first["msg"].lower(), "see /openapi.json")


@dataclass
class Edited:
    """Values after edits: rows typed in, whether rows came, went or moved, and what is to be told.

    `refused`: edits that cannot be kept, by their place among the edits, and why; the others are done.
    `stages`: the values before each of the last edits but the first, where they were asked for.
    """

    values: dict[str, Any]
    rows: set[int] = field(default_factory=set)
    moved: bool = False
    shared: bool = False
    remarks: list[str] = field(default_factory=list)
    refused: list[tuple[int, Fault]] = field(default_factory=list)
    stages: list[dict[str, Any]] = field(default_factory=list)

    @property
    def drawers(self) -> list[dict[str, Any]]:
        """The rows."""
        found: list[dict[str, Any]] = self.values["drawer"]
        return found


def edit_values(values: Mapping[str, Any], edits: Sequence[Edit], *, stages: int = 0) -> Edited:
    """A job's values after edits. Keys and rows that are not there are passed over.

    `stages`: before how many of the last edits the values are wanted, too.
    """
    done = Edited({**values, "drawer": list(values.get("drawer", ()))})
    for at, edit in enumerate(edits):
        if at and at > len(edits) - stages - 1:
            done.stages.append({**done.values, "drawer": list(done.drawers)})
        if isinstance(edit, SetCell):
            fault = _set(done, edit.row, edit.key, edit.text)
            if fault is not None:
                done.refused.append((at, fault))
        elif isinstance(edit, SetShared):
            fault = _share(done, edit.key, edit.text, keep=edit.numbers == "keep")
            if fault is not None:
                done.refused.append((at, fault))
        elif isinstance(edit, Paste):
            _paste(done, edit)
        else:
            done.moved = True
            _arrange(done, edit)
    return done


def is_empty(drawer: Mapping[str, Any]) -> bool:
    """Whether nothing is told of a drawer yet, but maybe its id."""
    return all(key == "id" or value in ({}, "", None) for key, value in drawer.items())


def _set(done: Edited, row: int, key: str, text: str) -> Fault | None:
    """Type a cell; why it cannot be kept, where it cannot."""
    column = schedule_columns().get(key)
    if column is None:
        return None
    if row >= len(done.drawers) and not text.strip():
        return None
    fault = _not_kept(f"row {min(row, len(done.drawers)) + 1}", column, text)
    if fault is not None:
        return fault
    if row >= len(done.drawers):
        if len(done.drawers) >= MOST_ROWS:
            says = f"does not go in: a job has {MOST_ROWS} drawers at most"
            return Fault(f"row {row + 1} {column.key}", text[:40], says, "another job")
        row = len(done.drawers)
        done.drawers.append({} if key == "id" else {"id": next_id(done.drawers)})
        done.moved = True
    if text_of(done.drawers[row], column.column) != text:
        done.drawers[row] = with_cell(done.drawers[row], column.column, text)
        done.rows.add(row)
    return None


def _not_kept(where: str, column: ScheduleColumn, text: str) -> Fault | None:
    """Why the store would not keep a typed cell; None where it does."""
    try:
        settle_part(where, {column.key: value_from(text, column.column)})
    except InputError as error:
        return error.faults[0]
    return None


def _share(done: Edited, key: str, text: str, *, keep: bool) -> Fault | None:
    """Type what all drawers share; why it cannot be kept, where it cannot."""
    column = schedule_columns().get("note" if key == "title" else key.removeprefix("defaults."))
    if key == "units":
        units = "in" if text.strip().casefold() == "in" else "mm"
        if keep and units != done.values.get("units", "mm"):
            done.values = with_units_written(done.values)
        done.values["units"] = units
    elif column is None or (column.key == "id"):
        return None
    elif (fault := _not_kept("the whole job,", column, text)) is not None:
        return replace(fault, where="title") if key == "title" else fault
    elif key == "title":
        done.values["title"] = text
    else:
        done.values["defaults"] = with_cell(done.values.get("defaults") or {}, column.column, text)
    done.shared = True
    return None


def _arrange(done: Edited, edit: AddRow | RemoveRows | CopyRows | MoveRows) -> None:
    drawers = done.drawers
    if isinstance(edit, AddRow):
        at = min(edit.at, len(drawers))
        drawers.insert(at, {"id": next_id(drawers, before=at)})
        return
    wanted = sorted({row for row in edit.rows if row < len(drawers)})
    if isinstance(edit, RemoveRows):
        gone = set(wanted)
        done.values["drawer"] = [one for at, one in enumerate(drawers) if at not in gone]
    elif isinstance(edit, CopyRows) and wanted:
        behind = wanted[-1] + 1
        for row in reversed(wanted):
            told = drawers[row]
            drawers.insert(behind, {**told, "id": next_id(drawers, like=str(told.get("id", "")))})
    elif isinstance(edit, MoveRows):
        _move(drawers, wanted, edit.by)


def _move(drawers: list[dict[str, Any]], rows: Sequence[int], by: int) -> None:
    """Each row past its neighbour; those that stand at the end already stay."""
    blocked = -1 if by < 0 else len(drawers)
    for row in rows if by < 0 else reversed(rows):
        to = row + by
        if to == blocked:
            blocked = row
        else:
            drawers[row], drawers[to] = drawers[to], drawers[row]


_NUMBERED: Final = re.compile(r"(.*?)(\d{1,6})\Z", re.DOTALL)


def next_id(
    drawers: Sequence[Mapping[str, Any]], *, before: int | None = None, like: str | None = None
) -> str:
    """An id that no drawer has: the one above counted on ("B1-2" → "B1-3"), else "D1".

    `before`: the row that the new one stands before, None: the end. `like`: the id to count on from.
    """
    taken = {str(one.get("id", "")).strip() for one in drawers}
    if like is None:
        above = drawers[: len(drawers) if before is None else before]
        like = next((str(one["id"]).strip() for one in reversed(above) if one.get("id")), "D0")
    found = _NUMBERED.fullmatch(like.strip())
    stem, number = (found[1][:70], found[2]) if found else (f"{like.strip()[:70]}-", "1")
    count = int(number) + 1
    while f"{stem}{count:0{len(number)}}" in taken:
        count += 1
    return f"{stem}{count:0{len(number)}}"


def _paste(done: Edited, edit: Paste) -> None:
    block = read_block(edit.text)
    if not block:
        done.remarks.append("nothing was pasted: the text holds no cells")
        return
    rows = parted(block, edit.key)
    if rows is not None:
        block = rows
        done.remarks.append("parted into cells as the lines of a CSV file")
    heading = heading_of_block(block)
    if heading is not None:
        _paste_by_heading(done, edit, block[heading.rows :], heading)
    else:
        _paste_onto(done, edit, block)


def _paste_onto(done: Edited, edit: Paste, block: Block) -> None:
    known = [key for key in edit.columns if key in schedule_columns()]
    keys = known[known.index(edit.key) :] if edit.key in known else [edit.key]
    beyond = max(len(row) for row in block) - len(keys)
    if beyond > 0:
        done.remarks.append(f"{_columns(beyond)} beyond the last of the schedule, not taken")
    taken = keys[: max(len(row) for row in block)]
    if keys[0] == "id" and len(taken) > 1:
        names = ", ".join(schedule_columns()[key].heading for key in taken)
        done.remarks.append(f"no heading line: the cells stand in the order of the table, {names}")
    for at, cells in enumerate(block):
        row = _row_for(done, edit.row + at, cells[0] if keys[0] == "id" else "")
        if row is None:
            return
        for key, cell in zip(keys, cells, strict=False):
            _paste_cell(done, row, key, cell.strip() if key != "note" else cell)


def _paste_by_heading(done: Edited, edit: Paste, rows: Block, heading: Heading) -> None:
    """Rows with the id of a drawer go to it, others fill empty rows from the chosen one on, then new ones."""
    for name in heading.unknown:
        done.remarks.append(
            f'column "{name}" was not taken: the nearest that there is, is "{nearest_column(name)}"'
        )
    at_id = next((at for at, column in heading.columns.items() if column.key == "id"), None)
    places = {str(one.get("id", "")).strip(): at for at, one in enumerate(done.drawers)}
    here = edit.row
    own = OWN_UNITS["in" if done.values.get("units") == "in" else "mm"]
    for cells in rows:
        named = cells[at_id].strip() if at_id is not None and at_id < len(cells) else ""
        row: int | None
        if named and named in places:
            row = places[named]
        elif at_id is None:
            row, here = _row_for(done, here, ""), here + 1
        else:
            while here < len(done.drawers) and not is_empty(done.drawers[here]):
                here += 1
            row, here = _row_for(done, here, named), here + 1
        if row is None:
            return
        for at, column in heading.columns.items():
            if at < len(cells) and (cells[at].strip() or at_id is None):
                _paste_cell(
                    done,
                    row,
                    column.key,
                    cells[at] if column.key == "note" else heading.cell(at, cells[at].strip(), own),
                )


def _paste_cell(done: Edited, row: int, key: str, text: str) -> None:
    """A cell of a block; what cannot be kept is told, and the rest of the block goes in."""
    fault = _set(done, row, key, text)
    if fault is not None:
        done.remarks.append(f"{fault.where} was not taken: {fault.says}")


def _row_for(done: Edited, row: int, named: str) -> int | None:
    """The row to fill, made where it is not there yet; None where the job is full."""
    if row < len(done.drawers):
        return row
    if len(done.drawers) >= MOST_ROWS:
        done.remarks.append(f"a job has {MOST_ROWS} drawers at most: the rest was not taken")
        return None
    done.drawers.append({"id": named.strip() or next_id(done.drawers)})
    done.moved = True
    return len(done.drawers) - 1


def _columns(count: int) -> str:
    return "1 column stands" if count == 1 else f"{count} columns stand"
