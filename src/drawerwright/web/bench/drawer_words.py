"""What one drawer wants at a step of its own: checks to watch, odd parts, words for how it is mounted.

The mounting sheet speaks of a job; at the bench the drawer is there, with its own numbers and their datum.
"""

from __future__ import annotations

from typing import Final

from drawerwright.model.check_names import CHECK_NAMES
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.blocks import blocks_text, front_screw_text
from drawerwright.pack.figures import lengths_text
from drawerwright.pack.shown import Shown

_WATCHED_AT: Final[dict[str, tuple[str, ...]]] = {
    "frame-grip": ("measure-and-mark", "slots-first"),
    "frame-sum": ("measure-and-mark",),
    "opening-taper": ("measure-and-mark",),
    "shelf-fixed": ("measure-and-mark", "lock-them", "load"),
    "rear-bracket": ("packing-and-rear-brackets",),
    "hook-bore": ("hang-the-drawer",),
    "front-reach": ("fix-the-front", "adjust", "adjust-in-the-slots"),
    "front-gap": ("fix-the-front", "adjust", "adjust-in-the-slots"),
    "width-to-length": ("load",),
    "capacity": ("load",),
}
"""Steps at which a check to watch is told; any other is told where the drawer is measured."""
_FIRST: Final = ("measure-and-mark",)


def watched(fitted: FittedDrawer, key: str) -> tuple[tuple[str, str], ...]:
    """Title and words of the drawer's own checks to watch at a step."""
    return tuple(
        (CHECK_NAMES.get(one.id, one.id), one.says)
        for one in fitted.checks
        if one.state == "watch" and key in _WATCHED_AT.get(one.id, _FIRST)
    )


def datum(fitted: FittedDrawer, name: str) -> str:
    """What a figure of the mounting sheet is counted from; "" where its words say so."""
    if name.startswith("Screw line"):
        return "above the cabinet floor" if fitted.opening.floor > 0 else "above the opening's lower edge"
    if name.startswith(("Front end", "Slots first", "Round holes", "Front screw")):
        framed = fitted.drawer.construction == "face-frame"
        return "behind the face of the frame" if framed else "behind the cabinet's front edge"
    return ""


def own_figures(fitted: FittedDrawer, key: str, shown: Shown) -> tuple[tuple[str, str], ...]:
    """Figures that the table of the mounting sheet has not: the front screw, blocks behind stiles."""
    mounting, slide = fitted.mounting, fitted.slide
    if mounting is None or slide is None or slide.mount != "rear-bracket":
        return ()
    told = []
    if key in ("measure-and-mark", "slots-first", "lock-them"):
        told.append(("Front screw", front_screw_text(fitted, shown)))
    if key in ("measure-and-mark", "packing-and-rear-brackets"):
        block = blocks_text(fitted, shown)
        told += [("Blocks behind the stiles", block)] if block else []
    return tuple(told)


def own_title(fitted: FittedDrawer, key: str, title: str) -> str:
    """The title of a step; another where there are no slots to begin with."""
    slide = fitted.slide
    if key != "slots-first" or slide is None or fitted.mounting is None or fitted.mounting.slots:
        return title
    return "Front screws first" if slide.mount in ("shelf", "rear-bracket") else title


def own_words(fitted: FittedDrawer, key: str, says: str, shown: Shown) -> str:
    """The words of a step for how this drawer is mounted, where members have no slots or row holes there."""
    mounting, slide = fitted.mounting, fitted.slide
    if mounting is None or slide is None:
        return says
    if slide.mount == "shelf":
        holes = lengths_text(mounting.shelf_holes, shown)
        first = lengths_text(mounting.shelf_holes[:1], shown)
        return {
            "slots-first": f"Lay the members on the shelf, left on the left, right on the right, square to "
            f"its front edge. Hold each with one screw in its front hole, {first} behind the cabinet's front "
            "edge, not yet tight.",
            "set-the-front-ends": "Move both members until their front ends stand at the depth told here, "
            "both alike and parallel, then draw the front screws tight.",
            "lock-them": f"The other screws through the bottom of each member into the shelf, {holes} behind "
            "the cabinet's front edge, no longer than the shelf is thick. Now nothing moves any more.",
        }.get(key, says)
    if slide.mount == "rear-bracket" and not mounting.slots:
        at = front_screw_text(fitted, shown)
        return {
            "slots-first": "Push the rear ends into their brackets, left on the left, right on the right, "
            f"and hold each front end with its front screw, {at} behind the face of the frame, still loose. "
            "Lay a level on: the rear neither lower nor higher than the front.",
            "set-the-front-ends": "Move both members until their front ends stand at the depth told here, "
            "both alike, then draw the front screws tight.",
            "lock-them": f"The front screw, {at} behind the face of the frame, and the screws of the rear "
            "bracket hold each member: draw all of them tight. Now nothing moves any more.",
        }.get(key, says)
    return says
