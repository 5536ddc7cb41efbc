"""The heading of a table: which of its columns is which, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drawerwright.errors import Fault, InputError
from drawerwright.files.cells import shown
from drawerwright.files.columns import Column
from drawerwright.files.grid import Grid, is_blank
from drawerwright.model.spelling import nearest

Placed = tuple[int, Fault]
"""A fault, and a number to sort it by."""


@dataclass(frozen=True)
class Heading:
    """Known columns by their position in a grid, and the faults of the others."""

    row: int
    columns: Mapping[int, Column]
    faults: tuple[Placed, ...]


def is_heading(cell: str, known: Mapping[str, Column]) -> bool:
    """Whether a cell is the heading of a known column."""
    return cell.strip().casefold() in known


def read_heading(
    grid: Grid, row: int, known: Mapping[str, Column], elsewhere: Mapping[str, str] | None = None
) -> Heading:
    """The columns that a row names. `elsewhere`: what to say of words that are no column, by word.

    Raises InputError when the row is no heading at all.
    """
    columns: dict[int, Column] = {}
    faults: list[Placed] = []
    first: dict[str, int] = {}
    for position in range(max((len(one) for one in grid.rows[row:]), default=0)):
        cell = grid.rows[row][position] if position < len(grid.rows[row]) else ""
        if is_blank(cell):
            faults += _unnamed(grid, row, position)
            continue
        key = cell.strip().casefold() if isinstance(cell, str) else shown(cell)
        order, place = grid.place(row, position)
        if key in first:
            says = "heads two columns: each is given once"
            faults.append((order, Fault(f"{place} heading", shown(cell), says, "one column of it")))
        elif key in known:
            columns[position] = known[key]
        else:
            close = nearest(key, known)
            says = f'is not a known column: the nearest is "{close}"'
            if elsewhere and key in elsewhere:
                says, close = "is not a column", elsewhere[key]
            faults.append((order, Fault(f"{place} heading", shown(cell), says, close)))
        first.setdefault(key, position)
    if not columns:
        raise InputError([_no_heading(grid, row, known)])
    return Heading(row, columns, tuple(faults))


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
            try_ = "a heading for the column, or quotes around a cell that holds the separator"
            return [(order, Fault(place, shown(cells[position]), says, try_))]
    return []
