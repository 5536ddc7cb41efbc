"""Numbers of the study of carrying as its papers show them: forces, stresses, angles, margins, capacities."""

from __future__ import annotations

import math
from typing import Final

from drawerwright.carry.capacities import Capacity
from drawerwright.carry.words import NEWTONS_A_POUND
from drawerwright.model.fitted import Check
from drawerwright.pack.figures import margin_text
from drawerwright.pack.shown import Shown
from drawerwright.units import HARDLY, MM_PER_INCH

CAPACITY_NAMES: Final = {
    "family-rating": "the family's rating",
    "length-rating": "the length's rating",
    "test": "a test passed",
    "member-strength": "a member yields",
    "roller-force": "rollers carry their most",
    "screw-mount": "rearmost fixing drawn out",
}
"""What each capacity rests on, in words."""
STATE_WORDS: Final = {"ok": "Carries", "watch": "Carries with care", "stop": "Does not carry"}
LONG: Final = 1e6
"""From here on a number is told by its first figures and a power of ten: nobody reads it out in full."""


def capacity_name(capacity: Capacity) -> str:
    """What a capacity rests on; a test at a raised load is called modified here as everywhere."""
    name = CAPACITY_NAMES[capacity.name]
    return name.replace("a test", "a modified test") if capacity.modified else name


def carry_margin_text(check: Check, shown: Shown) -> str:
    """The margin of a check with its unit, never shown larger than it is."""
    unit, margin = check.unit, check.margin
    if unit in ("mm", "kg"):
        return margin_text(margin, unit, shown)
    if unit == "N" and shown.in_inches:
        unit, margin = "lbf", margin / NEWTONS_A_POUND
    if unit == "mm/s" and shown.in_inches:
        unit, margin = "in/s", margin / float(MM_PER_INCH)
    if unit == "deg":
        return f"{figure_down(margin)}°"
    return f"{figure_down(margin)} {unit}".strip()


def figure_down(value: float) -> str:
    """A number rounded down: to a tenth under 100, else to a whole one; a true minus sign."""
    if abs(value) >= LONG:
        third = 10.0 ** (math.floor(math.log10(abs(value))) - 2)
        return f"{math.floor(value / third) * third:.3g}".replace("-", "−")
    if abs(value) >= 100.0:
        return f"{math.floor(value + float(HARDLY)) + 0.0:.0f}".replace("-", "−")
    return f"{math.floor(value * 10 + float(HARDLY)) / 10 + 0.0:.1f}".replace("-", "−")
