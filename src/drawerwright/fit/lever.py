"""One thing that a shop can change about a drawer, and what a step of it does to the drawer's values."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from drawerwright.equations.equation import Q

Values = Mapping[str, Q]


@dataclass(frozen=True, slots=True)
class Lever:
    """Something a shop can change: its key, unit, the directions it goes, how far, and how it is said.

    A step is added to the values that it `moves`, unless `moved_by` tells their new values. `starts_at` is
    the reading that a limit is counted from: such a change is told as the limit that no reading may pass.
    `closes` says it where the readings do not close on one another: then nothing is made, but measured
    again; a lever without `says` is for that alone.
    """

    key: str
    unit: str
    directions: tuple[int, ...]
    farthest: float
    moves: tuple[str, ...]
    says: Mapping[int, str]
    room: Callable[[Values], float]
    readings: str = ""
    moved_by: Callable[[Q], Values] | None = None
    starts_at: float | None = None
    keeps: float = 0.0
    closes: Mapping[int, str] | None = None

    def moved_values(self, drawer: Values, step: Q) -> Values:
        """The lever's own values of a drawer, moved by a step."""
        if self.moved_by is not None:
            return self.moved_by(step)
        return {name: drawer[name] + step for name in self.moves}
