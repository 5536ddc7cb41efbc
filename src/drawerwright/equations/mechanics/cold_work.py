"""Yield strength that bending has raised in the corners of a rolled section. N/mm².

Source: AISI S100 A3.3.2 (older A7.2), read in a third-party copy; that the section must be fully effective
is from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drawerwright.equations.mechanics.effective_width import is_fully_effective
from drawerwright.equations.mechanics.midlines import Bend, Element, Flat
from drawerwright.equations.mechanics.rolled_sections import section_properties

LEAST_ULTIMATE_OVER_YIELD: Final = 1.2
LARGEST_RADIUS_OVER_THICKNESS: Final = 7.0
LARGEST_BEND: Final = math.radians(120.0)
_SHARPEST_RADIUS_OVER_THICKNESS: Final = 0.1
"""The power law has no value at a sharp corner; none is bent sharper than this (judgement, no source)."""


def corner_yield(yields: float, ultimate: float, inside_radius: float, thickness: float) -> float:
    """Yield strength of a bent corner: Bc Fy / (R/t)^m."""
    ratio = ultimate / yields
    gain = 3.69 * ratio - 0.819 * ratio**2 - 1.79
    power = 0.192 * ratio - 0.068
    return float(gain * yields / max(inside_radius / thickness, _SHARPEST_RADIUS_OVER_THICKNESS) ** power)


def average_yield(corner_share: float, corner: float, flat: float, ultimate: float) -> float:
    """Average over corners and flats, at most the ultimate strength: C Fyc + (1 − C) Fyf."""
    return min(corner_share * corner + (1.0 - corner_share) * flat, ultimate)


def bending_yield(
    elements: Sequence[Element],
    thickness: float,
    yields: float,
    ultimate: float | None,
    modulus: float,
) -> tuple[float, bool]:
    """Yield strength that counts in bending about the horizontal axis, and whether cold work is in it.

    It is where the bends are within what the rule allows, and the section is fully effective at the raised
    strength whichever side is pressed. C is that of the controlling flange alone: the outermost flat on the
    side of the larger stress with the bends beside it; where no such flat lies there, nothing is gained.
    """
    bends = [one for one in elements if isinstance(one, Bend)]
    if ultimate is None or ultimate / yields < LEAST_ULTIMATE_OVER_YIELD or not bends:
        return yields, False
    for bend in bends:
        too_round = bend.inside_radius / thickness > LARGEST_RADIUS_OVER_THICKNESS
        if too_round or abs(bend.turns) > LARGEST_BEND + 1e-9:
            return yields, False
    share = corner_share(elements, thickness)
    radius = max(bend.inside_radius for bend in bends)
    raised = average_yield(share, corner_yield(yields, ultimate, radius, thickness), yields, ultimate)
    if raised <= yields or not all(
        is_fully_effective(elements, thickness, raised, modulus, top_pressed=top) for top in (True, False)
    ):
        return yields, False
    return raised, True


def corner_share(elements: Sequence[Element], thickness: float) -> float:
    """Area of the bends over that of bends and flat in the controlling flange; 0 where there is none."""
    whole = section_properties(elements, thickness)
    is_above = whole.above >= whole.below
    outermost = whole.y + whole.above if is_above else whole.y - whole.below
    flanges = [
        place
        for place, one in enumerate(elements)
        if isinstance(one, Flat) and max(abs(end[1] - outermost) for end in (one.start, one.end)) <= thickness
    ]
    shares = [0.0]
    for place in flanges:
        beside = [elements[other] for other in (place - 1, place + 1) if 0 <= other < len(elements)]
        corners = sum(one.length for one in beside if isinstance(one, Bend))
        shares.append(corners / (corners + elements[place].length))
    return max(shares) if len(flanges) == 1 else min(shares[1:], default=0.0)
