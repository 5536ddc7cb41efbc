"""Points, bounds and placements: the plane geometry every drawing stands on.

Coordinates are mm, x to the right and y up.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Bounds:
    """An upright rectangle [mm] from its lower left to its upper right corner."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Extent along x [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent along y [mm]."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle of the rectangle [mm]."""
        return ((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners, counter-clockwise from the lower left one."""
        return (
            (self.left, self.bottom),
            (self.right, self.bottom),
            (self.right, self.top),
            (self.left, self.top),
        )

    def grown(self, by: float) -> Bounds:
        """The rectangle with `by` [mm] added on all four edges; negative shrinks it."""
        return Bounds(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def scaled(self, by: float) -> Bounds:
        """The rectangle around the same things drawn `by` times as large, about the origin."""
        return Bounds(self.left * by, self.bottom * by, self.right * by, self.top * by)

    def overlaps(self, other: Bounds, *, clear: float = 0.0) -> bool:
        """Whether the two rectangles come closer than `clear` [mm] to each other."""
        return (
            self.left < other.right + clear
            and other.left < self.right + clear
            and self.bottom < other.top + clear
            and other.bottom < self.top + clear
        )


def bounds_of(points: Iterable[Point]) -> Bounds:
    """The smallest rectangle around all points.

    Raises:
        ValueError: there is no point at all.
    """
    listed = tuple(points)
    if not listed:
        raise ValueError("bounds need at least one point")
    xs, ys = zip(*listed, strict=True)
    return Bounds(min(xs), min(ys), max(xs), max(ys))


def joined(bounds: Iterable[Bounds]) -> Bounds:
    """The smallest rectangle around several.

    Raises:
        ValueError: there is no rectangle at all.
    """
    return bounds_of(point for each in bounds for point in (each.corners[0], each.corners[2]))


@dataclass(frozen=True, slots=True)
class Placement:
    """How a scene is set down: scaled, mirrored left to right, then shifted [mm].

    Lengths scale; lettering, arrows and offsets on paper keep their size, so they go through `shift`,
    which only mirrors them.
    """

    scale: float = 1.0
    mirrored: bool = False
    dx: float = 0.0
    dy: float = 0.0

    def x(self, x: float) -> float:
        """Where an x goes."""
        return (-x if self.mirrored else x) * self.scale + self.dx

    def y(self, y: float) -> float:
        """Where a y goes."""
        return y * self.scale + self.dy

    def point(self, point: Point) -> Point:
        """Where a point goes."""
        x, y = point
        return ((-x if self.mirrored else x) * self.scale + self.dx, y * self.scale + self.dy)

    def points(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """Where points go, in their order."""
        return tuple([self.point(point) for point in points])

    def shift(self, shift: Point) -> Point:
        """An offset on paper [mm]: mirrored, never scaled."""
        return (-shift[0] if self.mirrored else shift[0], shift[1])

    def angle(self, degrees: float) -> float:
        """A direction [degrees, counter-clockwise from x] after mirroring, in 0 <= angle < 360."""
        return (180.0 - degrees if self.mirrored else degrees) % 360.0
