"""The white of a drawing: how much room is left in its upper right corner for words."""

from __future__ import annotations

from collections.abc import Iterable

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.geometry import Bounds, Point, bounds_of
from drawerwright.drawing.primitives import Plain, Text
from drawerwright.drawing.scene import Scene

CLEAR = 4.0
"""White kept between the drawing and the words beside it [mm of paper]."""


def _room_of(items: Iterable[Plain]) -> Bounds:
    corners: list[Point] = []
    for item in items:
        corners.extend(item.extent.corners if isinstance(item, Text) else item.points)
    return bounds_of(corners)


def free_corner(scene: Scene, least_width: float) -> Bounds:
    """The largest upright rectangle in the upper right corner of the scene's page that nothing is drawn in.

    Only rectangles at least `least_width` [mm] wide count; where there is none, an empty one at the page's
    right edge is given.

    Raises:
        ValueError: the scene does not say what paper it stands on.
    """
    page = scene.page
    if page is None:
        raise ValueError(f"the drawing {scene.name!r} does not say what paper it stands on")
    rooms = [_room_of(group.items).grown(CLEAR) for group in drawn(scene)]
    best = Bounds(page.right, page.top, page.right, page.top)
    for left in sorted({page.left, *(max(room.right, page.left) for room in rooms)}):
        if page.right - left < least_width:
            break
        bottom = max((room.top for room in rooms if room.right > left), default=page.bottom)
        found = Bounds(left, min(max(bottom, page.bottom), page.top), page.right, page.top)
        if found.width * found.height > best.width * best.height:
            best = found
    return best
