"""Marks beside a verdict, told apart without colour: ring with tick, triangle, filled octagon with cross."""

from __future__ import annotations

import math
from typing import Final

from drawerwright.drawing.geometry import Placement, Point
from drawerwright.drawing.primitives import Circle, Polyline, line, polygon
from drawerwright.drawing.scene import Primitive
from drawerwright.model.fitted import Verdict

_TICK: Final[tuple[Point, ...]] = ((-0.45, 0.02), (-0.12, -0.34), (0.46, 0.36))
_TRIANGLE: Final[tuple[Point, ...]] = ((0.0, 0.95), (1.0, -0.8), (-1.0, -0.8))
_CROSS_ARM, _CROSS_HALF = 0.5, 0.12


def verdict_mark(verdict: Verdict, centre: Point, radius: float) -> tuple[Primitive, ...]:
    """The mark of a verdict around a point, `radius` [mm]; it scales with the drawing."""
    placement = Placement(scale=radius, dx=centre[0], dy=centre[1])
    return tuple(each.placed(placement) for each in _unit_mark(verdict))


def _unit_mark(verdict: Verdict) -> tuple[Primitive, ...]:
    if verdict == "fits":
        return (Circle((0.0, 0.0), 1.0, "leader"), Polyline(_TICK, "leader"))
    if verdict == "fits-with-care":
        return (
            polygon(_TRIANGLE, "leader"),
            line((0.0, 0.35), (0.0, -0.2), "leader"),
            line((0.0, -0.42), (0.0, -0.52), "leader"),
        )
    return (polygon(_octagon(), "accent-note", "accent"), polygon(_cross(), "accent-note", "paper"))


def _octagon() -> tuple[Point, ...]:
    angles = (math.radians(22.5 + 45.0 * k) for k in range(8))
    return tuple((math.cos(angle), math.sin(angle)) for angle in angles)


def _cross() -> tuple[Point, ...]:
    """A cross of two bars, turned by 45 degrees."""
    arm, half = _CROSS_ARM, _CROSS_HALF
    quarter = ((half, half), (half, arm), (-half, arm))
    corners = []
    for turn in range(4):
        cos, sin = math.cos(math.radians(45 + 90 * turn)), math.sin(math.radians(45 + 90 * turn))
        corners += [(x * cos - y * sin, x * sin + y * cos) for x, y in quarter]
    return tuple(corners)
