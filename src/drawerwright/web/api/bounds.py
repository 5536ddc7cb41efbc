"""How much one request may ask for: far above what a shop has, and below what would keep a server busy.

The limits are our own choice (invented).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.store.shape import MOST_DRAWERS

MOST_TRIED: Final = 400_000
"""Drawers times lengths of slides: 5,000 drawers on 80 lengths."""

MOST_FAMILIES: Final = 200
MOST_COMPARED: Final = 20
MOST_DRAWN: Final = 400_000
"""Drawers times positions of one drawn out: 2,000 drawers at 200."""


def check_entries(told: Any, where: str, most: int = MOST_DRAWERS) -> None:
    """Raise InputError where a list is longer than is read; anything else is for others to look at."""
    if isinstance(told, (list, tuple)) and len(told) > most:
        says = f"has {len(told)} entries, {most} at most"
        raise InputError([Fault(where, "[…]", says, "several requests")])


def check_tried(drawers: int, families: Sequence[SlideFamily]) -> None:
    """Raise InputError where too many drawers are to be tried on too many slides."""
    lengths = sum(len(family.lengths) for family in families)
    if drawers * lengths > MOST_TRIED:
        found = f"{drawers} drawers on {lengths} lengths"
        says = f"are more than the {MOST_TRIED} that are tried in one request"
        raise InputError([Fault("job drawer", found, says, "fewer slides, or several requests")])


def check_drawn(drawers: int, positions: int) -> None:
    """Raise InputError where too many drawers are to be drawn out to too many positions."""
    if drawers * positions > MOST_DRAWN:
        found = f"{positions} for each of {drawers} drawers"
        says = f"are more than the {MOST_DRAWN} that are drawn out in one request"
        raise InputError([Fault("positions", found, says, f"{max(MOST_DRAWN // drawers, 2)}, or one drawer")])
