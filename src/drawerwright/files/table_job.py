"""A job as tables tell it: its values by key, and where in the file each of them stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from drawerwright.errors import Fault
from drawerwright.files.grid import Grid
from drawerwright.files.remarks import FileRemark
from drawerwright.model.faults import Loc


@dataclass(frozen=True)
class Spot:
    """Where the keys of one entry stand: its row, and the column of each key by its path."""

    grid: Grid
    row: int
    columns: Mapping[tuple[str, ...], int]

    def place(self, rest: Sequence[str | int]) -> tuple[int, str]:
        """The place of a key of the entry, or of what is nearest around it."""
        path = tuple(step for step in rest if isinstance(step, str))
        for end in range(len(path), 0, -1):
            if path[:end] in self.columns:
                return self.grid.place(self.row, self.columns[path[:end]])
        inside = [at for other, at in self.columns.items() if path and other[: len(path)] == path]
        return self.grid.place(self.row, min(inside, default=None))


@dataclass(frozen=True)
class Refused:
    """A cell that could not be used, or a heading: the key that is lost by it (none: all is there)."""

    loc: Loc | None
    order: int
    fault: Fault


@dataclass
class TableJob:
    """A job as its tables tell it: values by key, their places, and the cells that could not be used."""

    name: str
    values: dict[str, Any] = field(default_factory=lambda: {"drawer": []})
    refused: list[Refused] = field(default_factory=list)
    remarks: list[FileRemark] = field(default_factory=list)
    spots: dict[Loc, Spot] = field(default_factory=dict)

    def place(self, loc: Sequence[str | int]) -> tuple[int, str]:
        """Where a key stands: a number to sort by, and the place in words."""
        for end in range(len(loc), 0, -1):
            spot = self.spots.get(tuple(loc[:end]))
            if spot is not None:
                return spot.place(loc[end:])
        return 0, self.name
