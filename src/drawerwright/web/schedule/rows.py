"""Rows of the schedule as a page shows them: cells with their faults, then what was computed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple
from urllib.parse import quote

from drawerwright.cli.wording import box_sizes, margin_alone
from drawerwright.errors import Fault
from drawerwright.files.column_names import heading_of
from drawerwright.model.check_names import check_name_within
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, State, Verdict
from drawerwright.units import ShownUnits, format_length
from drawerwright.web.fitting import DrawerAnswer, place_of
from drawerwright.web.reading_places import fault_in_words
from drawerwright.web.schedule.answers import answers_of, units_of, worst_check
from drawerwright.web.schedule.columns import ScheduleColumn, text_of
from drawerwright.web.schedule.edits import is_empty, next_id

AT_A_TIME = 200
"""Rows of one page of a long schedule. Own choice: more make a page of over half a megabyte."""


class Computed(NamedTuple):
    """What came of a drawer: verdict; state, margin, name and sentence of its worst check; slide and box."""

    verdict: Verdict | None = None
    state: State | None = None
    margin: str = ""
    check: str = ""
    says: str = ""
    slide: str = ""
    box: str = ""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: what was typed, what the defaults say where nothing was, and what is wrong with it."""

    column: ScheduleColumn
    text: str
    default: str
    fault: Fault | None


@dataclass(frozen=True, slots=True)
class Row:
    """One drawer of the schedule. `place` counts from 0; `verdict` is empty while it has no answer.

    `faults` are those of no cell that is on the screen; `waits`: something that it shares does not read.
    """

    place: int
    name: str
    href: str
    cells: tuple[Cell, ...]
    verdict: Verdict | None
    state: State | None
    margin: str
    check: str
    says: str
    slide: str
    box: str
    faults: tuple[Fault, ...]
    waits: bool
    empty: bool

    @property
    def wrong(self) -> tuple[Fault, ...]:
        """Every fault of the row, those at cells first."""
        return (*(cell.fault for cell in self.cells if cell.fault is not None), *self.faults)

    @property
    def headed(self) -> tuple[tuple[str, Fault], ...]:
        """The same, each under the heading of what it belongs to."""
        return tuple((fault_heading(fault), fault) for fault in self.wrong)


def rows_of(
    job_id: str,
    values: Mapping[str, Any],
    places: Iterable[int],
    columns: Sequence[ScheduleColumn],
    families: Sequence[SlideFamily],
) -> list[Row]:
    """The rows at these places, answered."""
    drawers = values.get("drawer", [])
    wanted = [place for place in places if place < len(drawers)]
    answers = answers_of(values, wanted, families)
    defaults = values.get("defaults") or {}
    given = {column.key: text_of(defaults, column.column) for column in columns}
    units = units_of(values)
    return [_row(job_id, place, drawers[place], answers[place], columns, given, units) for place in wanted]


def blank_row(values: Mapping[str, Any], place: int, columns: Sequence[ScheduleColumn]) -> Row:
    """A row to write a new drawer into; its id's default is the one that it would get."""
    defaults = values.get("defaults") or {}
    given = {column.key: text_of(defaults, column.column) for column in columns}
    given["id"] = next_id(values.get("drawer", []))
    cells = tuple(Cell(column, "", given[column.key], None) for column in columns)
    return Row(place, "", "", cells, None, None, "", "", "", "", "", (), False, True)


def drawer_address(job_id: str, name: str) -> str:
    """Where a drawer's sheet is."""
    return f"/jobs/{quote(job_id, safe='')}/drawers/{quote(name, safe='')}"


def _row(
    job_id: str,
    place: int,
    drawer: Mapping[str, Any],
    answer: DrawerAnswer,
    columns: Sequence[ScheduleColumn],
    given: Mapping[str, str],
    units: ShownUnits,
) -> Row:
    empty = is_empty(drawer)
    at, rest = _placed([] if empty else answer.faults, columns)
    cells = tuple(
        Cell(column, text_of(drawer, column.column), given[column.key], at.get(column.key))
        for column in columns
    )
    name = str(drawer.get("id") or "").strip()
    fitted = answer.fitted
    told = Computed() if fitted is None else computed(fitted, units)
    return Row(
        place,
        name or f"row {place + 1}",
        drawer_address(job_id, name) if name else "",
        cells,
        *told,
        tuple(rest),
        answer.waits and not empty,
        empty,
    )


def computed(fitted: FittedDrawer, units: ShownUnits) -> Computed:
    """What came of a drawer, in words of these units."""
    check = worst_check(fitted)
    slide, box = fitted.slide, fitted.box
    slide_words = ""
    if slide is not None:
        slide_words = f"{slide.family.id} / {format_length(slide.length.nominal, 'mm').removesuffix(' mm')}"
    box_words = "" if box is None else box_sizes(box.outside_width, box.height, box.length, units)
    if check is None:
        return Computed(fitted.verdict, slide=slide_words, box=box_words)
    margin = margin_alone(check.id, check.margin, check.unit, units)
    return Computed(
        fitted.verdict,
        check.state,
        margin,
        check_name_within(check.id),
        check.says,
        slide_words,
        box_words,
    )


def fault_heading(fault: Fault) -> str:
    """What a fault of a drawer belongs to, as its column is headed: "Width back top", "Depth, no. 2"."""
    key, item, number = place_of(fault)[2].partition(" item ")
    return heading_of(key) + (f", no. {number}" if item else "")


def _placed(
    faults: Iterable[Fault], columns: Sequence[ScheduleColumn]
) -> tuple[dict[str, Fault], list[Fault]]:
    """Faults by the column on the screen that they belong to, and those that belong to none."""
    keys = [column.key for column in columns]
    at: dict[str, Fault] = {}
    rest: list[Fault] = []
    for fault in map(fault_in_words, faults):
        key = place_of(fault)[2].partition(" item ")[0]
        named = next((one for one in keys if key == one or key.startswith(f"{one}.")), None)
        named = named or next((one for one in keys if key and one.startswith(f"{key}.")), None)
        if named is None or named in at:
            rest.append(fault)
        else:
            at[named] = fault
    return at, rest
