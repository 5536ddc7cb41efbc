"""Gaps that are too tight for the year: room that fronts of a column leave each other, or wood to plane."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

HARDLY: Final = 0.05
"""A gap that lacks less than this is wide enough [mm]: nobody sets one finer. Own choice."""

LOWER: Final = 2.0
"""How much lower a front with nothing under it may hang [mm]: more is seen beside others. Own choice."""


@dataclass(frozen=True, slots=True)
class Cure:
    """What one front needs [mm]: `lacks`, to come off it; or `shift`, to hang higher or further right."""

    lacks: float = 0.0
    shift: float = 0.0


def cures(margins: Sequence[float], sizes: Sequence[float]) -> list[Cure]:
    """What the fronts of a column need, from the lowest (or leftmost) on.

    `margins`: how much wider than wanted each gap is as drawn [mm], one more than there are fronts: below the
    first, between, over the last; inf below a first that hangs free. `sizes` of the fronts across the grain
    [mm]. Where the gaps have room enough together, fronts are shifted so that every gap has as much to spare;
    else each loses its share. A front that hangs free goes up to `LOWER` lower.
    """
    if min(margins) >= -HARDLY:
        return [Cure()] * len(sizes)
    if math.isinf(margins[0]):
        margins = [min(max(-sum(margins[1:]), 0.0), LOWER), *margins[1:]]
    room = sum(margins)
    if room < -HARDLY:
        return [Cure(lacks=-room * size / sum(sizes)) for size in sizes]
    spare = room / len(margins)
    return [Cure(shift=shift) for shift in accumulate(spare - margin for margin in margins[:-1])]
