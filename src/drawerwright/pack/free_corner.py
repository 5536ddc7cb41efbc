"""The white of a drawing: how much room is left in its upper right corner for words."""

from __future__ import annotations

from collections.abc import Iterable

from drawerwright.drawing.drawn import Drawn
from drawerwright.drawing.geometry import Bounds, Point, bounds_of
from drawerwright.drawing.primitives import Plain, Text

CLEAR = 4.0
"""White kept between the drawing and the words beside it [mm of paper]."""


def _room_of(items: Iterable[Plain]) -> Bounds:
    corners: list[Point] = []
    for item in items:
        corners.extend(item.extent.corners if isinstance(item, Text) else item.points)
    return bounds_of(corners)


def free_corner(groups: Iterable[Drawn], page: Bounds, least_width: float) -> Bounds:
    """The largest upright rectangle in the upper right corner of a page that no group is drawn in.

    Only rectangles at least `least_width` [mm] wide count; where there is none, an empty one at the page's
    right edge is given.
    """
    rooms = sorted(
        (_room_of(group.items).grown(CLEAR) for group in groups),
        key=lambda room: room.right,
        reverse=True,
    )
    best = Bounds(page.right, page.top, page.right, page.top)
    # From the right to the left: every room that is passed may raise the floor of the corner.
    floor = page.bottom
    for room in (*rooms, Bounds(page.left, page.bottom, page.left, page.bottom)):
        left = max(room.right, page.left)
        found = Bounds(left, min(floor, page.top), page.right, page.top)
        if page.right - left >= least_width and found.width * found.height > best.width * best.height:
            best = found
        floor = max(floor, room.top)
    return best
