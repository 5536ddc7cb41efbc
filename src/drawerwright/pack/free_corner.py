"""The white of a drawing: how much room is left in its upper right corner for words."""

from __future__ import annotations

from collections.abc import Iterable

from drawerwright.drawing.drawn import Drawn
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.primitives import Plain, Text

CLEAR = 4.0
"""White kept between the drawing and the words beside it [mm of paper]."""


def _reach(items: Iterable[Plain]) -> Point:
    """How far to the right and up a group and the white around it go [mm]."""
    corners: list[Point] = []
    for item in items:
        corners.extend((item.extent.corners[2],) if isinstance(item, Text) else item.points)
    return max(x for x, _ in corners) + CLEAR, max(y for _, y in corners) + CLEAR


def free_corner(groups: Iterable[Drawn], page: Bounds, least_width: float) -> Bounds:
    """The largest upright rectangle in the upper right corner of a page that no group is drawn in.

    Only rectangles at least `least_width` [mm] wide count; where there is none, an empty one at the page's
    right edge is given.
    """
    reached = sorted((_reach(group.items) for group in groups), key=lambda reach: reach[0], reverse=True)
    best = Bounds(page.right, page.top, page.right, page.top)
    # From the right to the left: every group that is passed may raise the floor of the corner.
    floor = page.bottom
    for right, top in (*reached, (page.left, page.bottom)):
        left = max(right, page.left)
        found = Bounds(left, min(floor, page.top), page.right, page.top)
        if page.right - left >= least_width and found.width * found.height > best.width * best.height:
            best = found
        floor = max(floor, top)
    return best
