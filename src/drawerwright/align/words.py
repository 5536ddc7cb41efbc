"""Moves and poses in words, as they are told at the bench."""

from __future__ import annotations

from drawerwright.align.aligned import Side
from drawerwright.model.gaps import AdjusterName
from drawerwright.units import format_length

_WAYS: dict[AdjusterName, tuple[str, str]] = {
    "side": ("to the right", "to the left"),
    "height": ("raise", "lower"),
    "depth": ("out", "in"),
    "tilt": ("up", "down"),
}


def move_words(side: Side, adjuster: AdjusterName, marks: int, mm: float) -> str:
    """A move, as in "left bracket: raise 3 marks (0.75 mm)"; how far stays in mm, as hardware does."""
    forward, back = _WAYS[adjuster]
    way = forward if marks > 0 else back
    place = "rear hook" if adjuster == "tilt" else "bracket"
    where = f"both {place}s" if side == "both" else f"{side} {place}"
    count = marks_words(abs(marks))
    done = f"{way} {count}" if adjuster == "height" else f"{count} {way}"
    return f"{where}: {done} ({format_length(abs(mm), decimals=2)})"


def marks_words(count: int) -> str:
    """A number of marks: "1 mark" or "3 marks"."""
    return "1 mark" if count == 1 else f"{count} marks"
