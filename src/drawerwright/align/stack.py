"""Fronts that are lined up together: one alone, or neighbours of a column, which share the gap between them.

The state of a stack of n fronts is an array (7 n + 1,): the six coordinates of each front, then by how much
the gaps left and right of each are wider than designed (both together halved), then the same for the gaps
under, between and over the fronts. So a reading is its designed value plus one row times the state.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from drawerwright.align.adjusters import Adjusters
from drawerwright.align.front_geometry import Array, FrontGeometry
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, GapName, Reading

_ROWS: Final = {name: row for row, name in enumerate(GAP_NAMES)}
_ACROSS: Final = tuple(_ROWS[name] for name in GAP_NAMES if name.startswith(("left", "right")))
_UPRIGHT: Final = tuple(_ROWS[name] for name in GAP_NAMES if name.startswith(("top", "bottom")))
SHARED: Final[tuple[tuple[GapName, GapName], ...]] = (
    ("top_left", "bottom_left"),
    ("top_right", "bottom_right"),
)
"""A gap over the lower front, and its name at the front above."""


@dataclass(frozen=True)
class MeasuredFront:
    """One front with what was measured around it; `gap`, `under`, `over`: designed gaps [mm]."""

    fitted: FittedDrawer
    told: FrontGaps
    geometry: FrontGeometry
    adjusters: Adjusters
    gap: float
    under: float
    over: float

    @property
    def id(self) -> str:
        """The drawer's id."""
        return self.told.drawer

    @property
    def is_bare(self) -> bool:
        """Whether no front is told, so that the box's own front was taken: gaps around it have no design."""
        return self.fitted.front is None or self.fitted.front.style == "none"

    def designed(self, name: GapName) -> float:
        """What a reading is where the front stands centred, square and flush [mm]."""
        if name.startswith("out_"):
            return 0.0
        return self.over if name.startswith("top") else self.under if name.startswith("bottom") else self.gap


@dataclass(frozen=True)
class Stack:
    """Fronts from the lowest up, each the neighbour of the next."""

    fronts: tuple[MeasuredFront, ...]

    @cached_property
    def design(self) -> Array:
        """Designed value of every reading, taken or not (12 n,) [mm]."""
        return np.array([front.designed(name) for front in self.fronts for name in GAP_NAMES])

    @cached_property
    def rows(self) -> Array:
        """Change of every reading with the state: array (12 n, 7 n + 1)."""
        return _rows(tuple(front.geometry for front in self.fronts))

    @cached_property
    def turning(self) -> Array:
        """Change of every reading with the adjusters of every front [mm per mm]: array (12 n, 6 n)."""
        count = len(self.fronts)
        changes = self.rows[:, : 6 * count].reshape(-1, count, 6)
        poses = np.stack([front.geometry.pose_changes for front in self.fronts])
        turning: Array = np.einsum("rfp,fpa->rfa", changes, poses).reshape(-1, 6 * count)
        return turning

    @cached_property
    def readings(self) -> tuple[tuple[int, Reading], ...]:
        """Place among the rows and value of each reading taken; of a shared gap at the lower front, once."""
        found: dict[int, Reading] = {}
        for at, front in enumerate(self.fronts):
            for name, reading in front.told.readings.items():
                row = self.row(at, name)
                found[row] = reading if row not in found else both_readings(found[row], reading)
        return tuple(sorted(found.items()))

    def row(self, at: int, name: GapName) -> int:
        """The row of a reading of the front at that place; a shared gap has that of the lower front."""
        if at > 0:
            for over, under in SHARED:
                if name == under:
                    return 12 * (at - 1) + _ROWS[over]
        return 12 * at + _ROWS[name]


def both_readings(one: Reading, other: Reading) -> Reading:
    """Two readings of one thing as one: their mean weighed by certainty, and its uncertainty."""
    a, b = one.uncertainty**-2, other.uncertainty**-2
    value = (one.value * a + other.value * b) / (a + b)
    return Reading(value, float((a + b) ** -0.5), one.told)


def _rows(geometries: Sequence[FrontGeometry]) -> Array:
    count = len(geometries)
    rows = np.zeros((12 * count, 7 * count + 1))
    for at, geometry in enumerate(geometries):
        block = slice(12 * at, 12 * at + 12)
        rows[block, 6 * at : 6 * at + 6] = geometry.gap_changes
        rows[[12 * at + row for row in _ACROSS], 6 * count + at] = 1.0
        rows[[12 * at + row for row in _UPRIGHT], 7 * count] = 1.0
        for over, under in SHARED:
            if at + 1 < count:  # the front above moves away from this gap
                rows[12 * at + _ROWS[over], 6 * (at + 1) : 6 * (at + 2)] = geometries[at + 1].gap_changes[
                    _ROWS[under]
                ]
            if at > 0:
                rows[12 * at + _ROWS[under], 6 * (at - 1) : 6 * at] = geometries[at - 1].gap_changes[
                    _ROWS[over]
                ]
    return rows
