"""The heading of a table: which of its columns is which, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from drawerwright.errors import Fault, InputError
from drawerwright.files.cells import shown
from drawerwright.files.column_names import (
    ColumnNames,
    Name,
    plain_names,
    with_unit_of_heading,
)
from drawerwright.files.columns import Column
from drawerwright.files.grid import Cell, Grid, is_blank
from drawerwright.units import show_value

Placed = tuple[int, Fault]
"""A fault, and a number to sort it by."""


@dataclass(frozen=True)
class Heading:
    """Known columns by their position in a grid, the units beside their names, and the faults of the others.

    `row` is the row of the names; `groups` the row above it, where groups stand there.
    """

    row: int
    columns: Mapping[int, Column]
    units: Mapping[int, str]
    faults: tuple[Placed, ...]
    groups: int | None = None

    def cell(self, at: int, cell: Cell) -> Cell:
        """A cell of a column, with the unit that stands in its heading where a number has none."""
        unit = self.units.get(at)
        if unit is None or isinstance(cell, bool) or not isinstance(cell, (str, int, float)):
            return cell
        return with_unit_of_heading(cell if isinstance(cell, str) else shown(cell), unit)


def is_heading(cell: Cell, known: ColumnNames) -> bool:
    """Whether a cell is the heading of a known column."""
    return isinstance(cell, str) and not is_blank(cell) and known.named(cell) is not None


def names_in(cells: Sequence[Cell]) -> list[str]:
    """A row of cells as the names that may stand in it."""
    return ["" if is_blank(cell) else cell if isinstance(cell, str) else shown(cell) for cell in cells]


def read_heading(
    grid: Grid,
    row: int,
    known: ColumnNames,
    *,
    elsewhere: Mapping[str, str] | None = None,
    names: Sequence[Name] | None = None,
    groups: int | None = None,
) -> Heading:
    """The columns that a row names. `elsewhere`: what to say of words that are no column, by word.

    `names`: those of the row, where `groups` stand in another one above it. Raises InputError when the row is
    no heading at all.
    """
    names = plain_names(names_in(grid.rows[row])) if names is None else names
    columns: dict[int, Column] = {}
    faults: list[Placed] = []
    taken: set[str] = set()
    for at in range(max((len(one) for one in grid.rows[row:]), default=0)):
        name = names[at] if at < len(names) else Name("")
        if not name.name:
            faults += _unnamed(grid, row, at)
            continue
        column = name.column(known)
        key = name.whole.casefold() if column is None else column.key
        fault = _fault_of(name, column, known, elsewhere or {}, is_twice=key in taken)
        if fault is None and column is not None:
            columns[at] = column
        elif fault is not None:
            in_names = at < len(grid.rows[row]) and not is_blank(grid.rows[row][at])
            order, place = grid.place(row if groups is None or in_names else groups, at)
            faults.append((order, replace(fault, where=f"{place} heading")))
        if fault is None or column is None:
            taken.add(key)
    if not columns:
        raise InputError([_no_heading(grid, row, known.known)])
    units = {at: unit for at in columns if (unit := names[at].unit(known)) is not None}
    return Heading(row, columns, units, tuple(faults), groups)


def _fault_of(
    name: Name, column: Column | None, known: ColumnNames, elsewhere: Mapping[str, str], *, is_twice: bool
) -> Fault | None:
    """What is wrong with a name that heads a column."""
    told = show_value(name.name)
    under = f'under "{name.group}" ' if name.group else ""
    if is_twice and (column is None or column.key == name.name.casefold()):
        return Fault("", told, "heads two columns: each is given once", "one column of it")
    if is_twice and column is not None:
        says = f"names {column.key}, as another heading does: each is given once"
        return Fault("", told, says, "one column of it")
    if column is None:
        key = name.name.casefold()
        if key in elsewhere:
            return Fault("", told, "is not a column", elsewhere[key])
        missed = name.under_ended(known)
        if missed is not None:
            says = f'is not a known column: the merged cell "{name.ended}" ends before it'
            return Fault("", told, says, f'"{missed.key}", or merging "{name.ended}" over it as well')
        close = known.nearest(name.whole)
        return Fault("", told, f'{under}is not a known column: the nearest is "{close}"', close)
    if name.is_foreign(known):
        says = f"{under}is no column: without the group it would be {column.key}"
        return Fault("", told, says, column.key)
    other = name.other(known)
    if other is None:
        return None
    says = f"could be {column.key}, {under.rstrip()}, which no merged cell tells, or {other.key}"
    return Fault("", told, says, f'"{column.key}" or "{other.key}", whichever is meant')


def no_rows(grid: Grid, known: Mapping[str, Column]) -> InputError:
    """The error of a table that holds nothing at all."""
    says = "holds no table: its first line names the columns"
    return InputError([Fault(grid.name, "", says, _example(known))])


def _no_heading(grid: Grid, row: int, known: Mapping[str, Column]) -> Fault:
    found = next((cell for cell in grid.rows[row] if not is_blank(cell)), "")
    says = "begins a line that should name the columns, and none of its cells does"
    return Fault(grid.place(row)[1], shown(found), says, _example(known))


def _example(known: Mapping[str, Column]) -> str:
    needed = [column.key for column in known.values() if column.required]
    return ",".join(needed or list(known)[:5])


def _unnamed(grid: Grid, row: int, position: int) -> list[Placed]:
    """The fault of a column that holds values under no heading."""
    for below in grid.filled():
        cells = grid.rows[below]
        if below > row and position < len(cells) and not is_blank(cells[position]):
            order, place = grid.place(below, position)
            says = "stands under no heading"
            try_ = "a heading for the column"
            if grid.sheet is None:
                try_ += ", or quotes around a cell that holds the separator"
            return [(order, Fault(place, shown(cells[position]), says, try_))]
    return []
