"""The drawn-out picture of a sheet: its scale and place stay while the drawer comes out."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor
from typing import Final

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.views.isometric import isometric, room_drawn_out, travel_of
from drawerwright.model.fitted import FittedDrawer

STEP: Final = 10.0
"""Step of the slider [mm]. Own choice."""
_AT_FIRST: Final = 0.4
_LETTERING: Final = 4.5
"""Room kept for the number beside the picture [mm on paper]."""
_WHY_NOT: Final = 9.0
"""Room kept under it for the two lines that say what stopped the nearest slide [mm on paper]."""


@dataclass(frozen=True, slots=True)
class Picture:
    """The drawer drawn out by `out` of `travel` [mm], at the scale of its room; `room` is [mm on paper]."""

    scene: Scene
    room: Bounds
    out: float
    travel: float


def drawn_out(told: float | None, fitted: FittedDrawer) -> float:
    """How far the drawer is shown drawn out [mm]: as told, at most as far as it comes; two fifths untold."""
    travel = travel_of(fitted)
    if told is None:
        return min(travel, floor(travel * _AT_FIRST / STEP) * STEP)
    return min(max(told, 0.0), travel)


def picture_of(fitted: FittedDrawer, out: float, width: float, height: float, shown: Shown) -> Picture:
    """The picture as large as a room [mm on paper] lets it be, however far it is drawn out."""
    bare = room_drawn_out(fitted)
    under = _LETTERING * 0.7 if fitted.slide is not None else _WHY_NOT
    scale = min((width - 2 * _LETTERING) / bare.width, (height - under - _LETTERING * 0.3) / bare.height)
    scene = scale_to_paper(isometric(fitted, out, units=shown), scale)
    left, low = bare.left * scale - _LETTERING, bare.bottom * scale - under
    room = Bounds(left, low, bare.right * scale + _LETTERING, bare.top * scale + 1.0)
    return Picture(scene, room, out, travel_of(fitted))
