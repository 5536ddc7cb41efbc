"""Where the heading of a table of drawers stands: one row, or two where groups stand above the names."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.files.column_names import Name, columns_named, plain_names, under_groups
from drawerwright.files.grid import Grid, is_blank
from drawerwright.files.heading import Heading, names_in, read_heading
from drawerwright.files.job_columns import JOB_SETTINGS, job_column_names
from drawerwright.files.merged import MergedCells, listed
from drawerwright.files.remarks import FileRemark

_LOOKED_AT: Final = 200
"""Rows that say something among which the heading is looked for."""
_ELSEWHERE: Final = {
    "title": "a line of its own above the headings: title,Kitchen",
    "units": "a line of its own above the headings: units,in",
}


def find_heading(grid: Grid, rows: Sequence[int], merged: MergedCells) -> tuple[int, int]:
    """Where among the filled `rows` the heading begins, and how many of them it takes, one or two.

    It is the first row that names two columns, or that does so as groups above the next row: where the next
    row alone names fewer, or as many of which a group names one. Without any it is the first row that is no
    key of the whole job; it may be none.
    """
    above = _count(plain_names(names_in(grid.rows[rows[0]]))) if rows else 0
    for at, row in enumerate(rows[:_LOOKED_AT]):
        below = 0
        if at + 1 < len(rows):
            below = _count(plain_names(names_in(grid.rows[rows[at + 1]])))
            names = [] if is_setting(grid, row) else _grouped(grid, row, rows[at + 1], merged)
            tells = any(one.is_grouped(job_column_names()) for one in names)
            if _count(names) > max(above, below - tells, 1):
                return at, 2
        if above > 1:
            return at, 1
        above = below
    return next((at for at, row in enumerate(rows) if not is_setting(grid, row)), len(rows)), 1


def read_job_heading(
    grid: Grid, rows: Sequence[int], merged: MergedCells
) -> tuple[Heading, list[FileRemark]]:
    """The heading in one or two rows, and what it was taken for where it has two. Raises InputError."""
    if len(rows) == 1:
        return read_heading(grid, rows[0], job_column_names(), elsewhere=_ELSEWHERE), []
    groups, row = rows
    names = _grouped(grid, groups, row, merged)
    heading = read_heading(grid, row, job_column_names(), elsewhere=_ELSEWHERE, names=names, groups=groups)
    columns = [heading.columns[at].key for at in sorted(heading.columns)]
    says = f"was read as a row of groups above the names in the next one: {listed(columns)}"
    return heading, [FileRemark(grid.place(groups)[1], says)]


def _grouped(grid: Grid, groups: int, row: int, merged: MergedCells) -> list[Name]:
    return under_groups(
        names_in(grid.rows[groups]), names_in(grid.rows[row]), lambda at: merged.reach(groups, at)
    )


def is_setting(grid: Grid, row: int) -> bool:
    """Whether a row that is no heading is a key of the whole job."""
    first = next(cell for cell in grid.rows[row] if not is_blank(cell))
    key = first.strip().casefold() if isinstance(first, str) else ""
    return key in JOB_SETTINGS or key.startswith("defaults.")


def _count(names: Sequence[Name]) -> int:
    """How many columns the names come to."""
    return len(columns_named(names, job_column_names()))
