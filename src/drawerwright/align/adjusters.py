"""What a drawer's adjusters can still do: ranges in whole marks from where they stand, both sides kept alike.

Adjusters of one front are an array (6,) in the order of `front_geometry.COLUMNS`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from drawerwright.align.front_geometry import COLUMNS, Array
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import AdjusterName, Hand, Setting

_HAIR: Final = 1e-6
"""Share of a mark that floats may be off by."""

TURNED: Final[tuple[tuple[AdjusterName, tuple[Hand, ...]], ...]] = (
    ("side", ("left", "right")),
    ("height", ("left",)),
    ("height", ("right",)),
    ("depth", ("left",)),
    ("depth", ("right",)),
    ("tilt", ("left", "right")),
)
"""Adjuster and hands of each column."""


@dataclass(frozen=True)
class Adjusters:
    """Adjusters of one front: `step` of a mark [mm], fewest and most marks that they may be turned by.

    `evening`: marks by which the left and the right side adjuster are turned first, because they stand too
    unlike; `settings` in marks by column as they then stand, of both hands their mean. `none_because`: why
    there is nothing to turn, "" where there is.
    """

    step: Array
    low: Array
    high: Array
    evening: tuple[int, int] = (0, 0)
    none_because: str = ""
    settings: Mapping[Setting, float] | None = None

    @property
    def are_told(self) -> bool:
        """Whether anybody told where the adjusters stand."""
        return bool(self.settings)


def travel_of(family: SlideFamily, adjuster: AdjusterName) -> tuple[float, float, float]:
    """Travel from the place as delivered, low and high, and the move of one mark [mm]; zeros without one."""
    if adjuster == "tilt":
        tilt = family.tilt
        return (*tilt.travel, tilt.step) if tilt is not None else (0.0, 0.0, 1.0)
    return (*getattr(family.adjust, adjuster), getattr(family.adjust_step, adjuster))


def marks_between(family: SlideFamily, adjuster: AdjusterName) -> tuple[int, int]:
    """Fewest and most whole marks from the place as delivered."""
    low, high, step = travel_of(family, adjuster)
    return math.ceil(low / step - _HAIR), math.floor(high / step + _HAIR)


def adjusters_of(
    fitted: FittedDrawer, settings: Mapping[Setting, float], travel: Mapping[Setting, float]
) -> Adjusters:
    """What can be turned at a drawer, from `settings` in marks (0 where not told).

    `travel`: true move of a mark [mm] by hand and adjuster, where it is better known than from the family.
    """
    nothing = np.zeros(len(COLUMNS))
    because = _none_because(fitted)
    if because or fitted.slide is None:
        return Adjusters(np.ones(len(COLUMNS)), nothing, nothing, (0, 0), because, settings)
    family = fitted.slide.family
    evening = _evening(family, settings)
    step, low, high = nothing.copy(), nothing.copy(), nothing.copy()
    for column, (adjuster, hands) in enumerate(TURNED):
        least, most = marks_between(family, adjuster)
        moves = [travel.get((hand, adjuster), travel_of(family, adjuster)[2]) for hand in hands]
        step[column] = sum(moves) / len(moves)
        at = [settings.get((hand, adjuster), 0.0) for hand in hands]
        if adjuster == "side":
            at = [one + by for one, by in zip(at, evening, strict=True)]
        low[column] = min(math.ceil(max(least - one for one in at) - _HAIR), 0)
        high[column] = max(math.floor(min(most - one for one in at) + _HAIR), 0)
    return Adjusters(step, low, high, evening, "", settings)


def _evening(family: SlideFamily, settings: Mapping[Setting, float]) -> tuple[int, int]:
    """Marks that bring the two side adjusters alike, where they stand further apart than the pair takes.

    The one that stands further from its place as delivered comes back to the other.
    """
    left, right = (settings.get((hand, "side"), 0.0) for hand in ("left", "right"))
    if abs(left - right) * family.adjust_step.side <= family.side_strain + _HAIR:
        return 0, 0
    apart = round(right - left)
    return (apart, 0) if abs(left) >= abs(right) else (0, -apart)


def _none_because(fitted: FittedDrawer) -> str:
    if fitted.slide is None:
        return "no slide fits this drawer, so there is nothing to turn"
    family = fitted.slide.family
    if family.carriage == "side-mounted":
        return (
            f"{family.id} is side-mounted: it has no adjusters at brackets, its screws are loosened instead"
        )
    if all(marks_between(family, adjuster) == (0, 0) for adjuster, _ in TURNED):
        return f"{family.id} has no adjusters"
    return ""
