"""Numbers of the study of carrying as its papers show them: forces, stresses, angles, margins, capacities."""

from __future__ import annotations

import math
from typing import Final

from drawerwright.carry.capacities import Capacity
from drawerwright.carry.carried import CarriedDrawer
from drawerwright.carry.words import NEWTONS_A_POUND, SMALL, figure_down
from drawerwright.drawing.views.standing import standing
from drawerwright.drawing.views.stops import lacking_words, nearest_miss
from drawerwright.model.check_names import check_name_within, says_yes_or_no
from drawerwright.model.fitted import MOUNT_WORDS, Check
from drawerwright.pack.figures import margin_text, millimetres
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


def capacity_name(capacity: Capacity) -> str:
    """What a capacity rests on; a test at a raised load is called modified here as everywhere."""
    name = CAPACITY_NAMES[capacity.name]
    return name.replace("a test", "a modified test") if capacity.modified else name


def as_if_text(one: CarriedDrawer, shown: Shown) -> str:
    """On which slide the figures of a drawer that fits nothing are told, and why it does not fit.

    Empty where a slide fits, or where nothing is told.
    """
    chosen, miss = one.fitted.nearest, nearest_miss(standing(one.fitted))
    if one.slide is not None or chosen is None or (one.nearest is None and one.load is None):
        return ""
    stops = () if miss is None else miss.stops
    why = "; ".join(
        check_name_within(check)
        + ("" if says_yes_or_no(check, margin, unit) else f", {lacking_words(check, margin, unit, shown)}")
        for check, margin, unit in stops
    )
    on = f"{chosen.family.id} / {millimetres(chosen.length.nominal)} {MOUNT_WORDS[chosen.mount]}"
    return f"Carried as if on {on}, which does not fit" + (f": {why}." if why else ".")


def carry_margin_text(check: Check, shown: Shown) -> str:
    """The margin of a check with its unit, never shown larger than it is; small lengths in decimals."""
    unit, margin = check.unit, check.margin
    if unit == "mm" and shown.in_inches and abs(margin) < SMALL:
        return (
            f"{math.floor(margin / float(MM_PER_INCH) * 1000 + float(HARDLY)) / 1000 + 0.0:.3f} in".replace(
                "-", "−"
            )
        )
    if unit in ("mm", "kg"):
        return margin_text(margin, unit, shown)
    if unit == "N" and shown.in_inches:
        unit, margin = "lbf", margin / NEWTONS_A_POUND
    if unit == "mm/s" and shown.in_inches:
        unit, margin = "in/s", margin / float(MM_PER_INCH)
    if unit == "deg":
        return f"{figure_down(margin)}°"
    return f"{figure_down(margin)} {unit}".strip()
