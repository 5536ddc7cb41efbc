"""Merged cells of a sheet: a value stands in the first of them alone, and people see it in all."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from typing import Final

from drawerwright.errors import ReadingError
from drawerwright.files.cells import shown
from drawerwright.files.grid import Grid, Merge, is_blank, reference
from drawerwright.files.remarks import FileRemark

_SHOWN_PLACES: Final = 8
_MOST_ROWS: Final = 2_000_000
"""Most rows of all merges together: as many as there may be cells. A sound sheet has no more."""


class MergedCells:
    """The merges of a grid, by the rows that they reach over."""

    def __init__(self, grid: Grid) -> None:
        self._grid = grid
        self._by_row: defaultdict[int, list[Merge]] = defaultdict(list)
        left = _MOST_ROWS
        for merge in grid.merged:
            rows = range(merge.top, min(merge.low + 1, len(grid.rows)))
            left -= len(rows)
            if left < 0:
                break
            for row in rows:
                self._by_row[row].append(merge)

    def at(self, row: int, column: int) -> Merge | None:
        """The merge that a cell belongs to."""
        if row not in self._by_row:
            return None
        return next((one for one in self._by_row[row] if one.left <= column <= one.right), None)

    def reach(self, row: int, column: int) -> int:
        """How many columns the merge covers that begins at a cell; 0 where none does."""
        merge = self.at(row, column)
        return merge.right - merge.left + 1 if merge is not None and merge.left == column else 0

    def hidden_value(self, row: int, column: int) -> ReadingError | None:
        """Why a blank cell is not simply empty: people see there the value of the merge's first cell."""
        merge = self.at(row, column)
        if merge is None:
            return None
        cells = self._grid.rows[merge.top]
        first = cells[merge.left] if merge.left < len(cells) else ""
        if is_blank(first) or (merge.top, merge.left) == (row, column):
            return None
        holder = reference(merge.top + 1, merge.left)
        says = f"is merged with others, {merge}, of which {holder} alone holds the value {shown(first)}"
        down, across = merge.low > merge.top, merge.right > merge.left
        where = "cell" if down and across else "row" if down else "column"
        return ReadingError("", says, f"{merge} unmerged, and the value in each {where} that it is meant for")


def remarks_on_merged(grid: Grid, headings: Collection[int] = ()) -> list[FileRemark]:
    """What is to be told of merges outside the heading rows."""
    told = [str(one) for one in grid.merged if one.top not in headings]
    if not told:
        return []
    says = f"merged cells {listed(told)}: the value counts for the first cell of each alone"
    return [FileRemark(grid.name, says)]


def listed(places: Sequence[str]) -> str:
    """The first of several places, and how many more there are."""
    told = ", ".join(places[:_SHOWN_PLACES])
    return told if len(places) <= _SHOWN_PLACES else f"{told} and {len(places) - _SHOWN_PLACES} more"
