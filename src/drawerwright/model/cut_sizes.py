"""Sizes that are cut: which they are, and how their inches are rounded, one way wherever they are told.

Sizes with an upper limit are rounded down, so that no part comes out larger than it may be. The length of a
box follows its slide and may come out neither longer nor shorter: its inches are the nearest. Own rule, after
common practice (no source).
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from drawerwright.units import HARDLY, MM_PER_INCH

SET_BY_THE_SLIDE: Final = frozenset({"box_length", "side_length"})
"""Quantities whose inches are the nearest: a box that is too short latches no better than one too long."""

LIMITED: Final = frozenset(
    {
        "box_height", "inside_width", "outside_width", "back_length", "back_height", "subfront_length",
        "subfront_height", "side_height", "bottom_width", "bottom_length", "front_width", "front_height",
    }
)  # fmt: skip
"""Quantities whose inches are rounded down."""


def rounds_down(quantity: str) -> bool:
    """Whether the inches of a quantity are rounded down."""
    return quantity in LIMITED


def length_rounds_down(part: str) -> bool:
    """Whether the inches of a part's length are rounded down: not of the sides, which the slide sets."""
    return part != "side"


def in_fractions(mm: float, parts: int, *, down: bool) -> float:
    """A length [mm] as it is cut by its fraction of an inch: a whole number of 1/`parts` in, in mm again."""
    steps = mm / float(MM_PER_INCH) * parts
    whole = math.floor(steps + float(HARDLY)) if down else math.floor(steps + 0.5)
    return float(whole * MM_PER_INCH * Fraction(1, parts))
