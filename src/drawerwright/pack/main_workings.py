"""The working of the numbers that a shop asks about most, one line each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from drawerwright.model.fitted import FittedDrawer, Working
from drawerwright.pack.figures import NOUGHT

ALWAYS: Final = (
    ("inside_width", "Inside"),
    ("outside_width", "Outside"),
    ("side_gap", "Gap, each side"),
    ("lower_edge", "Lower edge"),
    ("box_height_limit", "Height limit"),
    ("first_hole", "First hole"),
    ("reach", "Behind the member"),
    ("front_width", "Front width"),
    ("front_height", "Front height"),
    ("stands_out", "Stands out"),
)
"""Quantities shown where the drawer has them, with the words for them."""

WHERE_NOT_NOUGHT: Final = (
    ("latch_side_left", "Off seat, sideways"),
    ("latch_along_left", "Off seat, lengthways"),
    ("packing_left", "Packing left"),
    ("packing_right", "Packing right"),
    ("rear_bracket_left", "Rear bracket left"),
    ("rear_bracket_right", "Rear bracket right"),
)
"""Quantities shown only where they are not 0: there is nothing to tell about packing of nothing."""


def told_working(name: str, workings: Mapping[str, Working]) -> Working | None:
    """The working of a quantity, or of the one that it is nothing but another name for."""
    work = workings.get(name)
    while work is not None and len(work.terms) == 1 and _says_one_thing_twice(work.figures):
        source = workings.get(work.terms[0][0])
        if source is None:
            break
        work = source
    return work


def _says_one_thing_twice(figures: str) -> bool:
    """Whether figures are like `519.5 = 519.5 mm`: a quantity that only hands on another."""
    first, _, result = figures.partition(" = ")
    return result == first or result.startswith(f"{first} ")


def main_workings(fitted: FittedDrawer) -> list[tuple[str, str]]:
    """Words and figures of the main workings of one drawer, in the order in which it is built."""
    shows_front = fitted.front is not None and fitted.front.style != "none"
    rows = []
    for name, words in ALWAYS:
        if name in ("front_width", "front_height", "stands_out") and not shows_front:
            continue
        work = told_working(name, fitted.workings)
        if work is not None:
            rows.append((words, work.figures))
    for name, words in WHERE_NOT_NOUGHT:
        work = fitted.workings.get(name)
        if work is not None and abs(work.value) > NOUGHT:
            rows.append((words, work.figures))
    return rows
