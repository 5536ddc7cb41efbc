"""The white of a drawing: where a box of words may open nearest to the number it belongs to."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.geometry import Bounds, Point, bounds_of
from drawerwright.drawing.primitives import Lines, Plain, Polyline, Text
from drawerwright.drawing.scene import Hatch, Scene

CELL: Final = 1.0
"""Side of the squares in which the white is looked for [mm on paper]. Own choice."""
_FAR: Final = 0.04
"""How much of a covered square one mm of distance is worth. Own choice."""
_NEAR: Final = 0.3
"""How near a line may come to lettering and not be said to run through it [mm on paper]. Own choice."""
_NUMBER: Final = 60.0
"""What a square of lettering in full ink is worth: a number is covered last of all. Own choice."""


def nearest_white(
    scene: Scene, page: Bounds, taken: Iterable[Bounds], number: Bounds, sizes: Iterable[tuple[float, float]]
) -> Bounds:
    """A rectangle on the page, over as little of the drawing as may be, near to a number.

    `sizes`: widths and heights that it may have [mm on paper], the one to be preferred first.

    `taken` are further places to keep clear of [mm on paper]; it never covers the number.
    """
    columns, rows = max(int(page.width / CELL), 1), max(int(page.height / CELL), 1)
    weight = np.zeros((rows, columns))
    for group in drawn(scene):
        for item in group.items:
            _cover(weight, item, page)
    for each in scene.primitives:
        if isinstance(each, Hatch):
            _fill(weight, bounds_of(each.outline), page, 0.6)
    for room in taken:
        _fill(weight, room, page, 5.0)
    _fill(weight, number.grown(0.8), page, 1e4)
    total = np.pad(weight.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    return min((_cheapest(total, page, number, *size) for size in sizes), key=lambda found: found[0])[1]


def _cheapest(
    total: NDArray[np.float64], page: Bounds, number: Bounds, width: float, height: float
) -> tuple[float, Bounds]:
    """What a rectangle of a size covers at the least, in squares and their distance, and where it stands."""
    rows, columns = total.shape[0] - 1, total.shape[1] - 1
    wide, high = int(np.ceil(width / CELL)) + 1, int(np.ceil(height / CELL)) + 1
    if wide >= columns or high >= rows:
        left, bottom = page.left, page.bottom
        return float(np.inf), Bounds(left, bottom, left + width, bottom + height)
    covered = total[high:, wide:] - total[:-high, wide:] - total[high:, :-wide] + total[:-high, :-wide]
    y, x = np.mgrid[0 : covered.shape[0], 0 : covered.shape[1]].astype(np.float64)
    far = np.hypot(
        page.left + (x + wide / 2) * CELL - number.centre[0],
        page.bottom + (y + high / 2) * CELL - number.centre[1],
    )
    cost = covered + _FAR * far
    row, column = np.unravel_index(np.argmin(cost), cost.shape)
    left, bottom = page.left + (int(column) + 0.5) * CELL, page.bottom + (int(row) + 0.5) * CELL
    return float(cost[row, column]), Bounds(left, bottom, left + width, bottom + height)


def _cover(weight: NDArray[np.float64], item: Plain, page: Bounds) -> None:
    if isinstance(item, Text):
        _fill(weight, item.extent, page, _NUMBER if item.tone != "fine" else 1.0)
    elif isinstance(item, Lines):
        worth = {"hatch": 0.0, "centre": 0.0, "fine": 0.1}.get(item.line, 0.3)
        if worth:
            for start, end in item.segments:
                _trace(weight, start, end, page, worth)
    elif isinstance(item, Polyline):
        if item.closed and item.fill in ("wood", "metal", "ink"):
            _fill(weight, bounds_of(item.points), page, 0.5)
        ends = (*item.points[1:], item.points[0]) if item.closed else item.points[1:]
        for start, end in zip(item.points, ends, strict=False):
            _trace(weight, start, end, page, 0.3)
    else:
        _fill(weight, bounds_of(item.points), page, 0.3)


def _trace(weight: NDArray[np.float64], start: Point, end: Point, page: Bounds, worth: float) -> None:
    """A line, as the squares it runs through."""
    steps = int(max(abs(end[0] - start[0]), abs(end[1] - start[1])) / CELL) + 1
    along = np.linspace(0.0, 1.0, steps + 1)
    x = ((start[0] + (end[0] - start[0]) * along - page.left) / CELL).astype(np.intp)
    y = ((start[1] + (end[1] - start[1]) * along - page.bottom) / CELL).astype(np.intp)
    inside = (x >= 0) & (y >= 0) & (x < weight.shape[1]) & (y < weight.shape[0])
    weight[y[inside], x[inside]] += worth


def _fill(weight: NDArray[np.float64], room: Bounds, page: Bounds, worth: float) -> None:
    low = max(int((room.bottom - page.bottom) / CELL), 0)
    left = max(int((room.left - page.left) / CELL), 0)
    high, right = int((room.top - page.bottom) / CELL) + 1, int((room.right - page.left) / CELL) + 1
    if high > 0 and right > 0:
        weight[low:high, left:right] += worth


def line_to(scene: Scene, number: Bounds, room: Bounds) -> tuple[Point, Point]:
    """A straight line from a number to a box of words that crosses the fewest letters, then the shortest."""
    letters = [
        item.extent
        for group in drawn(scene)
        for item in group.items
        if isinstance(item, Text) and not number.overlaps(item.extent) and not _inside(item.extent, room)
    ]
    aside, (x, y) = 1.4, number.centre
    starts = [
        (x, number.bottom - 0.5),
        (x, number.top + 0.5),
        (number.left - aside, y),
        (number.right + aside, y),
    ]
    ends = [
        (_between(one[0], room.left, room.right), _between(one[1], room.bottom, room.top)) for one in starts
    ]
    for share in (0.5, 0.15, 0.85):
        across = room.left + room.width * share
        upright = room.bottom + room.height * share
        ends += [(across, room.bottom), (across, room.top), (room.left, upright), (room.right, upright)]
    return min(
        ((start, end) for start in starts for end in ends),
        key=lambda pair: (crossed(pair[0], pair[1], letters), round(math.dist(pair[0], pair[1]), 3)),
    )


def _between(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def _inside(inner: Bounds, outer: Bounds) -> bool:
    return (
        inner.left >= outer.left
        and inner.right <= outer.right
        and inner.bottom >= outer.bottom
        and inner.top <= outer.top
    )


def crossed(start: Point, end: Point, rooms: Iterable[Bounds]) -> int:
    """How many rectangles a straight line runs through."""
    (ax, ay), (bx, by) = start, end
    left, right = (ax, bx) if ax < bx else (bx, ax)
    bottom, top = (ay, by) if ay < by else (by, ay)
    return sum(
        left < room.right + _NEAR
        and room.left - _NEAR < right
        and bottom < room.top + _NEAR
        and room.bottom - _NEAR < top
        and _meets(start, end, room.grown(_NEAR))
        for room in rooms
    )


def _meets(start: Point, end: Point, room: Bounds) -> bool:
    """Whether a line runs through a rectangle: clipped at its four edges in turn."""
    first, last = 0.0, 1.0
    for at, to, low, high in (
        (start[0], end[0], room.left, room.right),
        (start[1], end[1], room.bottom, room.top),
    ):
        way = to - at
        if abs(way) < 1e-9:
            if not low < at < high:
                return False
            continue
        enters, leaves = sorted(((low - at) / way, (high - at) / way))
        first, last = max(first, enters), min(last, leaves)
    return first < last
