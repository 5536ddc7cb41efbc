"""The page of a slide family's rolled sections: each member's section drawn, with its figures."""

from __future__ import annotations

from typing import Any, Final

from drawerwright.carry.sections import MEMBERS, SOURCE
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.rolled_section import rolled_section
from drawerwright.model.family import SlideFamily
from drawerwright.pack.carry_pictures import EDGE
from drawerwright.pack.layout import PADDING
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.papers import Paper
from drawerwright.pack.picture_scale import Picture, as_large_as_fits
from drawerwright.pack.pictures import room_of
from drawerwright.pack.shown import Shown

FOOT: Final = 12.0
"""Strip at the foot of the page for the source [mm]."""


def sections_page(family: SlideFamily, paper: Paper, shown: Shown) -> dict[str, Any]:
    """The sections that a family tells, cabinet member first, each in an equal part of the page's height."""
    width, height = room_of(paper)
    told = sorted(family.profiles, key=lambda profile: MEMBERS.index(profile.member))
    room = width - 2 * PADDING, (height - FOOT) / max(len(told), 1) - 2 * PADDING
    drawings = []
    for profile in told:
        scene = rolled_section(profile, units=shown)
        picture = _in_room(scene, *room)
        drawings.append(
            {
                "title": scene.title,
                "drawing": None if picture is None else picture.document(),
                "says": "Too large to be drawn on this paper.",
            }
        )
    return {
        "family": for_sheets(family.id),
        "title": for_sheets(family.title),
        "foot": FOOT,
        "drawings": drawings,
        "says": for_sheets(f"{SOURCE[:1].upper()}{SOURCE[1:]}. EI is about the horizontal axis x."),
    }


def _in_room(scene: Scene, width: float, height: float) -> Picture | None:
    """The section as it is where it finds room, else at a smaller scale."""
    room = extent(scene).grown(EDGE)
    if room.width <= width and room.height <= height:
        return Picture(scene, room)
    return as_large_as_fits(scene, width, height)
