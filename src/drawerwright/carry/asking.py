"""What the study of carrying may be asked: what cannot be computed with is refused, all of it together."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Final

from drawerwright.carry.closing import STEEPEST
from drawerwright.carry.nearest import HEAVIEST, on_nearest
from drawerwright.errors import Fault
from drawerwright.model.fitted import FittedDrawer

POSITIONS: Final = 41
LEAST_POSITIONS: Final = 2
MOST_POSITIONS: Final = 10_001
FARTHEST: Final = 5000.0
"""How far off the middle a load is computed where no drawer's box says less [mm]. Own choice."""


def asking_faults(positions: int, sag_limit: float | None, tilt_deg: float, where: str) -> Iterator[Fault]:
    """Numbers that no drawer can be asked with [mm, degrees]; `where` goes before their names."""
    if not LEAST_POSITIONS <= positions <= MOST_POSITIONS:
        says = f"is not a number of positions from {LEAST_POSITIONS} to {MOST_POSITIONS}"
        yield Fault(f"{where}positions", str(positions), says, str(POSITIONS))
    if sag_limit is not None and not 0.0 < sag_limit < math.inf:
        yield Fault(_place(where, "sag-limit"), f"{sag_limit:g} mm", "is not above 0", "4")
    if not abs(tilt_deg) <= STEEPEST:
        says = f"is no cabinet out of level: up to {STEEPEST:g}° either way"
        yield Fault(f"{where}tilt", f"{tilt_deg:g}°", says, "1")


def load_faults(drawers: Iterable[FittedDrawer], off_centre: float, where: str) -> Iterator[Fault]:
    """Loads that no drawer holds: beside its box [mm], or heavier than anything that is computed."""
    boxes = [] if off_centre == 0.0 else [*_boxes(drawers)]
    half, narrowest = min(boxes, default=(FARTHEST, ""))
    if not abs(off_centre) <= half:
        outside = f"lies outside the box of {narrowest}{', the narrowest' if len(boxes) > 1 else ''}"
        says = f"{outside if boxes else 'is no distance from the middle'}: up to {half:g} mm either way"
        yield Fault(_place(where, "off-centre"), f"{off_centre:g} mm", says, f"{min(half / 2, 100.0):g}")
    for one in drawers:
        if one.mass is not None and not one.mass.moving <= HEAVIEST:
            says = f"move, which is beyond what is computed: up to {HEAVIEST:g} kg"
            yield Fault(f"{where}drawer {one.id}", f"{one.mass.moving:g} kg", says, "30 kg")


def _place(where: str, option: str) -> str:
    """An option as a command names it, or, where nothing goes before it, as a key."""
    return f"{where}{option}" if where else option.replace("-", "_")


def _boxes(drawers: Iterable[FittedDrawer]) -> Iterator[tuple[float, str]]:
    """Half the inside width [mm] of each box that is drawn out, and its drawer's id."""
    for one in drawers:
        there = one if one.slide is not None else on_nearest(one)
        if there is not None and there.box is not None:
            yield there.box.inside_width / 2.0, one.id
