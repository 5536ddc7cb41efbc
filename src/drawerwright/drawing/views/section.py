"""Parts of the section views: cut wood, slides, brackets, and broken-off edges."""

from __future__ import annotations

from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import HATCH_SPACING
from drawerwright.drawing.primitives import Lines, polygon, rectangle
from drawerwright.drawing.scene import Hatch, Primitive

RISING = 45.0
FALLING = 135.0


def cut(
    part: Bounds | tuple[Point, ...], angle_deg: float, spacing: float = HATCH_SPACING
) -> list[Primitive]:
    """A part that the section goes through: washed, hatched at `angle_deg`, in the heaviest line."""
    corners = part.corners if isinstance(part, Bounds) else part
    return [polygon(corners, "cut", "wood"), Hatch(corners, angle_deg, spacing)]


def member_from_above(outer: float, inner: float, start: float, end: float) -> list[Primitive]:
    """A slide's members from above between two x and two depths; ribs and joints are invented."""
    lies = Bounds(min(outer, inner), start, max(outer, inner), end)
    narrow = lies.width < 20.0  # beside the box, where ribs would close up to grey
    ribs = [outer + (inner - outer) * share for share in ((0.3, 0.7) if narrow else (0.19, 0.38, 0.62, 0.81))]
    joints = [start + (end - start) * share for share in (0.21, 0.31, 0.69, 0.79)]
    return [
        rectangle(lies, "edge", "metal"),
        Lines(tuple(((x, start + 1.0), (x, end - 1.0)) for x in ribs), "fine"),
        Lines(tuple(((ribs[0], y), (ribs[-1], y)) for y in joints), "fine"),
    ]


def broken_top(left: float, right: float, low: float, high: float) -> tuple[Point, ...]:
    """Corners of a part that goes on upwards: its top is broken off in a zigzag."""
    third = (right - left) / 3
    return (
        (left, low),
        (right, low),
        (right, high - third * 0.4),
        (right - third, high + third * 0.5),
        (left + third, high - third * 0.5),
        (left, high + third * 0.4),
    )
