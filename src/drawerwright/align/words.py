"""Moves and poses in words, as they are told at the bench."""

from __future__ import annotations

from typing import Final

from drawerwright.align.aligned import Side
from drawerwright.model.gaps import AdjusterName
from drawerwright.units import ShownUnits, format_length

_WAYS: dict[AdjusterName, tuple[str, str]] = {
    "side": ("to the right", "to the left"),
    "height": ("raise", "lower"),
    "depth": ("out", "in"),
    "tilt": ("up", "down"),
}


SIXTY_FOURTHS: Final = 64
"""Gaps and what they are off are told to 1/64 in, the finest of a usual rule."""


def small_length(mm: float, units: ShownUnits = "mm", *, decimals: int = 2) -> str:
    """A gap, or how far one is off [mm]: "0.8 mm", in inches "1/32 in (0.8 mm)", in both the other way round.

    Millimetres always stand there: a feeler leaf is finer than any fraction on a rule.
    """
    if units != "in":
        return format_length(mm, units, decimals=decimals, denominator=SIXTY_FOURTHS)
    inches = format_length(mm, "in", denominator=SIXTY_FOURTHS)
    return f"{inches} ({format_length(mm, decimals=decimals)})"


def move_words(side: Side, adjuster: AdjusterName, marks: int, mm: float, units: ShownUnits = "mm") -> str:
    """A move, as in "left bracket: raise 3 marks (0.75 mm)"."""
    forward, back = _WAYS[adjuster]
    way = forward if marks > 0 else back
    place = "rear hook" if adjuster == "tilt" else "bracket"
    where = f"both {place}s" if side == "both" else f"{side} {place}"
    count = marks_words(abs(marks))
    done = f"{way} {count}" if adjuster == "height" else f"{count} {way}"
    length = small_length(abs(mm), units).replace(" (", ", ").removesuffix(")")
    return f"{where}: {done} ({length})"


def marks_words(count: int) -> str:
    """A number of marks: "1 mark" or "3 marks"."""
    return "1 mark" if count == 1 else f"{count} marks"


def further_words(adjuster: AdjusterName, marks: int) -> str:
    """By how much and which way an adjuster should go on, as in "raise 3 marks more", "3 marks more in"."""
    forward, back = _WAYS[adjuster]
    way = forward if marks > 0 else back
    count = marks_words(abs(marks))
    return f"{way} {count} more" if adjuster == "height" else f"{count} more {way}"
