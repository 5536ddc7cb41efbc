"""Plain primitives cut off at the edges of an upright window, for drawings that go over several pages.

What is cut keeps its line class and layer. A round thing that lies partly outside becomes short chords, so
a hole is a hole only where the whole of it is seen. Washes are left out where their outline is cut.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from drawerwright.drawing.geometry import Bounds, Point, bounds_of
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text

_CHORD_DEG = 4.0
_SLIGHT = 1e-9


def contains(window: Bounds, other: Bounds) -> bool:
    """Whether the whole of a rectangle lies in the window."""
    return (
        window.left - _SLIGHT <= other.left
        and other.right <= window.right + _SLIGHT
        and window.bottom - _SLIGHT <= other.bottom
        and other.top <= window.top + _SLIGHT
    )


def clip_segment(start: Point, end: Point, window: Bounds) -> tuple[Point, Point] | None:
    """The part of a straight line inside the window [mm]; None where nothing of it is.

    Source: Liang and Barsky's parametric line clipping, from memory.
    """
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    first, last = 0.0, 1.0
    for way, room in (
        (-dx, x - window.left),
        (dx, window.right - x),
        (-dy, y - window.bottom),
        (dy, window.top - y),
    ):
        if way == 0:
            if room < 0:
                return None
            continue
        share = room / way
        if way < 0:
            first = max(first, share)
        else:
            last = min(last, share)
    if first >= last:
        return None
    return (
        start if first == 0.0 else (x + first * dx, y + first * dy),
        end if last == 1.0 else (x + last * dx, y + last * dy),
    )


def clip(item: Plain, window: Bounds) -> tuple[Plain, ...]:
    """What is seen of a primitive in the window; lettering is seen whole or not at all."""
    if isinstance(item, Text):
        return (item,) if contains(window, item.extent) else ()
    around = bounds_of(item.points)
    if contains(window, around):
        return (item,)
    if not around.overlaps(window):
        return ()
    if isinstance(item, Polyline) and item.closed and item.fill in ("ink", "accent"):
        return ()  # an arrow head: it stands on the page that shows the whole of it
    if isinstance(item, Circle) and item.on_paper:
        return (item,)
    layer = item.operation if isinstance(item, Hole) else item.layer
    return _lines(_segments(item), window, item, layer)


def _lines(
    segments: Iterable[tuple[Point, Point]], window: Bounds, item: Plain, layer: str
) -> tuple[Plain, ...]:
    seen = tuple(kept for a, b in segments for kept in (clip_segment(a, b, window),) if kept is not None)
    if not seen or isinstance(item, Text):
        return ()
    return (Lines(seen, item.line, layer),)


def _segments(item: Plain) -> Iterable[tuple[Point, Point]]:
    """A primitive as straight lines."""
    if isinstance(item, Lines):
        return item.segments
    if isinstance(item, Polyline):
        return pairwise((*item.points, item.points[0]) if item.closed else item.points)
    if isinstance(item, Arc):
        return pairwise(_arc(item.centre, item.radius, item.start_deg, item.end_deg))
    if isinstance(item, Circle | Hole):
        radius = item.radius if isinstance(item, Circle) else item.diameter / 2
        return pairwise((*_arc(item.centre, radius, 0.0, 360.0),))
    if isinstance(item, Slot):
        return pairwise(_around_slot(item))
    return ()


def _arc(centre: Point, radius: float, start_deg: float, end_deg: float) -> list[Point]:
    sweep = (end_deg - start_deg) % 360.0 or 360.0
    steps = max(2, math.ceil(sweep / _CHORD_DEG))
    angles = (math.radians(start_deg + sweep * k / steps) for k in range(steps + 1))
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


def _around_slot(slot: Slot) -> Sequence[Point]:
    (x1, y1), (x2, y2) = slot.start, slot.end
    along = math.degrees(math.atan2(y2 - y1, x2 - x1))
    far = _arc(slot.end, slot.width / 2, along - 90.0, along + 90.0)
    near = _arc(slot.start, slot.width / 2, along + 90.0, along + 270.0)
    return (*far, *near, far[0])
