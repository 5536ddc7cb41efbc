"""What each check is called before people: one short trade name, the same on every page, paper and drawing.

Answers for machines keep the check's id; a name may change, an id does not.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

CHECK_NAMES: Final[Mapping[str, str]] = {
    "side-thickness": "Gap each side",
    "latch-side": "Brackets",
    "latch-along": "Brackets lengthways",
    "cabinet-depth": "Depth",
    "opening-width": "Opening width",
    "opening-height": "Box height",
    "opening-taper": "Taper",
    "opening-lean": "Lean",
    "opening-square": "Squareness",
    "readings-agree": "Diagonals",
    "shelf-fixed": "Shelf",
    "rear-bracket": "Rear brackets",
    "frame-grip": "Member screws",
    "frame-sum": "Frame and cabinet",
    "front-reach": "Front",
    "front-screw": "Front screws",
    "bracket-screw": "Bracket screws",
    "hook-bore": "Hook bores",
    "box-measured": "Old box",
    "box-bore": "Old bores",
    "box-notch": "Old notches",
    "box-recess": "Old recess",
    "notch": "Notches",
    "load-sides": "Load each side",
}
"""Names of checks whose id does not say it shortest; the others are called by the words of their id."""


YES_OR_NO: Final = frozenset({"mount", "shelf-holes", "shelf-fixed"})
"""Checks that say that something is there, or can be, or not: their margin measures nothing."""


def says_yes_or_no(check_id: str, margin: float, unit: str) -> bool:
    """Whether a margin is a mere yes or no: people are shown mark and word alone.

    A mount that lacks a length, such as a side behind a frame's overhang, does measure.
    """
    return check_id in YES_OR_NO and not (unit and margin < 0.0)


def check_name(check_id: str) -> str:
    """A check's name, as it begins a line."""
    return CHECK_NAMES.get(check_id) or check_id.replace("-", " ").capitalize()


def check_name_within(check_id: str) -> str:
    """A check's name within a sentence."""
    name = check_name(check_id)
    return name[:1].lower() + name[1:]
