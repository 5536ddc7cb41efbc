"""A table as it stands in a file: cells in rows, and the place of each of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import TypeAlias

Progress: TypeAlias = Callable[[int, int], None]
"""Called with how much is done and how much there is to do."""


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A cell without a usable value: what it shows, what is wrong with it, what would do."""

    shows: str
    says: str
    try_: str


Cell: TypeAlias = str | float | bool | date | datetime | time | timedelta | Unreadable
"""An empty cell is the empty text."""

MOST_COLUMNS = 1_000_000
"""More columns than any file has: a place is numbered by row, then by column."""


@dataclass(frozen=True, slots=True)
class Merge:
    """Cells merged into one: first and last row and column, from 0. Its value stands in the first cell."""

    top: int
    left: int
    low: int
    right: int

    def __str__(self) -> str:
        return f"{reference(self.top + 1, self.left)}:{reference(self.low + 1, self.right)}"


@dataclass(frozen=True)
class Grid:
    """Rows of cells. `numbers`: line or row of each, as people count; `rank`: which sheet of the file."""

    file: str
    sheet: str | None
    rows: Sequence[Sequence[Cell]]
    numbers: Sequence[int]
    rank: int = 0
    merged: tuple[Merge, ...] = ()

    def place(self, row: int, column: int | None = None) -> tuple[int, str]:
        """A number to sort by, and the place in words: "job.csv:7" or "job.xlsx:drawers!C7"."""
        number = self.numbers[row]
        order = (self.rank << 48) + number * MOST_COLUMNS + (column or 0)
        if self.sheet is None:
            return order, f"{self.file}:{number}"
        return order, f"{self.file}:{self.sheet}!{reference(number, column or 0)}"

    @property
    def name(self) -> str:
        """The file, with the sheet where it has several."""
        return self.file if self.sheet is None else f"{self.file}:{self.sheet}"

    def filled(self) -> Iterator[int]:
        """Positions of the rows that say something: neither blank nor a comment, which `#` begins."""
        for position, row in enumerate(self.rows):
            first = next((cell for cell in row if not is_blank(cell)), None)
            if first is not None and not (isinstance(first, str) and first.lstrip().startswith("#")):
                yield position


def is_blank(cell: Cell) -> bool:
    """Whether a cell holds nothing, or blanks alone."""
    return isinstance(cell, str) and not cell.strip()


def reference(row: int, column: int) -> str:
    """A cell as a spreadsheet names it: row from 1, column from 0."""
    letters, rest = "", column + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(65 + letter) + letters
    return f"{letters}{row}"
