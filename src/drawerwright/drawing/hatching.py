"""Section lines clipped to a polygon: explicit strokes, so that every viewer shows the same hatch."""

from __future__ import annotations

import math
from functools import lru_cache

from drawerwright.drawing.geometry import Point, bounds_of


@lru_cache(maxsize=1024)
def hatch_lines(
    outline: tuple[Point, ...], angle_deg: float, spacing: float
) -> tuple[tuple[Point, Point], ...]:
    """Parallel lines at `angle_deg` [degrees from x], `spacing` [mm] apart, inside a polygon [mm].

    Points inside are found by the even-odd rule, so the polygon may be concave. One line runs through
    the middle of the polygon's bounds: a mirrored polygon therefore gets the mirrored lines.

    Raises:
        ValueError: the spacing is not above zero, or the polygon has fewer than three corners.
    """
    if not spacing > 0:
        raise ValueError(f"hatch spacing is above zero, not {spacing}")
    if len(outline) < 3:
        raise ValueError("a hatched polygon needs three corners")
    angle = math.radians(angle_deg)
    along = (math.cos(angle), math.sin(angle))
    across = (-along[1], along[0])
    middle = bounds_of(outline).centre
    turned = [_turned(point, middle, along, across) for point in outline]
    lowest = min(v for _, v in turned)
    highest = max(v for _, v in turned)
    edges = list(zip([turned[-1], *turned[:-1]], turned, strict=True))
    (ax, ay), (bx, by), (mx, my) = along, across, middle
    lines: list[tuple[Point, Point]] = []
    for k in range(math.ceil(lowest / spacing), math.floor(highest / spacing) + 1):
        v = k * spacing
        # Where the level meets the edges; an edge owns its lower end, so corners count once.
        crossings = [
            u1 + (v - v1) * (u2 - u1) / (v2 - v1) for (u1, v1), (u2, v2) in edges if (v1 <= v) != (v2 <= v)
        ]
        crossings.sort()
        for u1, u2 in zip(crossings[0::2], crossings[1::2], strict=False):
            if u2 - u1 > 1e-9:
                start = (mx + u1 * ax + v * bx, my + u1 * ay + v * by)
                lines.append((start, (mx + u2 * ax + v * bx, my + u2 * ay + v * by)))
    return tuple(lines)


def _turned(point: Point, middle: Point, along: Point, across: Point) -> Point:
    x, y = point[0] - middle[0], point[1] - middle[1]
    return (x * along[0] + y * along[1], x * across[0] + y * across[1])
