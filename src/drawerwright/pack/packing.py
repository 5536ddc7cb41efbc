"""Packing between cabinet side and member in words: where the strips stand, and what screws they want."""

from __future__ import annotations

from typing import Final

from drawerwright.model.fitted import FittedDrawer, Mounting
from drawerwright.pack.figures import length_text
from drawerwright.pack.shown import Shown

HOLDS_BY_ITSELF: Final = 16.0
"""From this thickness on packing takes a member's screws by itself [mm]. Common practice, no source."""


def packing_place(fitted: FittedDrawer, shown: Shown) -> str:
    """From where to where above the cabinet floor the strips stand; empty where none is cut.

    They are as high as the screws want and their middle is the screw line: no other height holds them all.
    """
    strips = [one for one in fitted.parts if one.part.startswith(("packing ", "rear packing "))]
    line = fitted.mounting.screw_line if fitted.mounting is not None else None
    if not strips or line is None:
        return ""
    half = strips[0].width / 2
    return f"{length_text(line - half, shown)} to {length_text(line + half, shown)} up"


def packing_screws_text(*thicknesses: float) -> str:
    """What the member's screws do in packing of these thicknesses [mm], 0 where there is none."""
    packed = [one for one in thicknesses if one > 0]
    if not packed:
        return ""
    if min(packed) >= HOLDS_BY_ITSELF:
        return "member's screws into the packing alone"
    if max(packed) < HOLDS_BY_ITSELF:
        return "member's screws longer by it, into the cabinet side"
    return f"member's screws longer by it where it is under {HOLDS_BY_ITSELF:g} mm, into the cabinet side"


def packing_words(fitted: FittedDrawer, mounting: Mounting, shown: Shown) -> str:
    """What stands behind the thicknesses of the strips along the whole members."""
    place = packing_place(fitted, shown)
    screws = packing_screws_text(mounting.packing_left, mounting.packing_right)
    return ", ".join(one for one in (place, screws) if one)


def rear_packing_words(fitted: FittedDrawer, mounting: Mounting, shown: Shown) -> str:
    """What stands behind the thicknesses of the strips under the rear ends alone."""
    place = packing_place(fitted, shown)
    screws = packing_screws_text(mounting.rear_packing_left, mounting.rear_packing_right)
    return ", ".join(one for one in (place, screws) if one)
