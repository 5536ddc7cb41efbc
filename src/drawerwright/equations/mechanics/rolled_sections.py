"""Properties of a rolled section by the line method: each flat and each bend taken along its middle line.

The thickness that a flat or a bend has of its own is counted too, so that little is lost where the sheet is
not thin against the section. Source: the line-element method of cold-formed design handbooks; a bend's
integrals are those of a ring's sector.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drawerwright.equations.mechanics.midlines import Bend, Element, Flat, Point


@dataclass(frozen=True, slots=True)
class SectionProperties:
    """A section about its centroid: mm, mm², mm⁴; x to the right, y up.

    `ix` is about the horizontal axis, as for a member that bends downwards. `larger` and `smaller` are the
    second moments about the principal axes; the axis of the larger one stands `angle_deg` anticlockwise from
    the horizontal, within ±90°. `torsion` is Saint-Venant's constant of an open section. `above` and `below`:
    from the centroid to the highest and lowest fibre.
    """

    area: float
    x: float
    y: float
    ix: float
    iy: float
    ixy: float
    larger: float
    smaller: float
    angle_deg: float
    torsion: float
    above: float
    below: float

    @property
    def modulus_above(self) -> float:
        """Section modulus of the highest fibre [mm³]."""
        return self.ix / self.above

    @property
    def modulus_below(self) -> float:
        """Section modulus of the lowest fibre [mm³]."""
        return self.ix / self.below


@dataclass(frozen=True, slots=True)
class _Sums:
    """Area and its moments about the origin."""

    area: float
    x: float
    y: float
    xx: float
    yy: float
    xy: float


def section_properties(elements: Sequence[Element], thickness: float) -> SectionProperties:
    """Properties of flats and bends of one thickness [mm]."""
    sums = [_sums(one, thickness) for one in elements]
    area = math.fsum(one.area for one in sums)
    x, y = math.fsum(one.x for one in sums) / area, math.fsum(one.y for one in sums) / area
    ix = math.fsum(one.yy for one in sums) - area * y**2
    iy = math.fsum(one.xx for one in sums) - area * x**2
    ixy = math.fsum(one.xy for one in sums) - area * x * y
    middle, reach = (ix + iy) / 2, math.hypot((ix - iy) / 2, ixy)
    low, high = vertical_extent(elements, thickness)
    return SectionProperties(
        area=area,
        x=x,
        y=y,
        ix=ix,
        iy=iy,
        ixy=ixy,
        larger=middle + reach,
        smaller=middle - reach,
        angle_deg=_angle_of_larger(ix, iy, ixy),
        torsion=math.fsum(one.length for one in elements) * thickness**3 / 3,
        above=high - y,
        below=y - low,
    )


def _angle_of_larger(ix: float, iy: float, ixy: float) -> float:
    """Of the principal axis about which the section is stiffest [°]; 0 where no axis is."""
    if abs(ixy) <= 1e-12 * (ix + iy):
        return 0.0 if ix >= iy * (1 - 1e-12) else 90.0
    return math.degrees(0.5 * math.atan2(-2 * ixy, ix - iy))


def vertical_extent(elements: Iterable[Element], thickness: float) -> tuple[float, float]:
    """Heights [mm] of the lowest and the highest fibre."""
    heights = [height for one in elements for height in _heights(one, thickness)]
    return min(heights), max(heights)


def outline_of(elements: Sequence[Element], thickness: float, arcs: int = 8) -> tuple[Point, ...]:
    """The outline [mm], closed: along one face and back along the other; a bend in `arcs` chords."""
    left: list[Point] = []
    right: list[Point] = []
    for one in elements:
        for (x, y), direction in _stations(one, arcs):
            across = (-math.sin(direction) * thickness / 2, math.cos(direction) * thickness / 2)
            left.append((x + across[0], y + across[1]))
            right.append((x - across[0], y - across[1]))
    return (*left, *reversed(right))


def _stations(one: Element, arcs: int) -> list[tuple[Point, float]]:
    """Places along an element's middle line, and the direction in which it runs there [rad]."""
    if isinstance(one, Flat):
        direction = math.atan2(one.end[1] - one.start[1], one.end[0] - one.start[0])
        return [(one.start, direction), (one.end, direction)]
    turn = math.copysign(math.pi / 2, one.turns)
    angles = [one.begins + one.turns * step / arcs for step in range(arcs + 1)]
    return [(_on_bend(one, one.radius, angle), angle + turn) for angle in angles]


def _on_bend(bend: Bend, radius: float, angle: float) -> Point:
    return (bend.centre[0] + radius * math.cos(angle), bend.centre[1] + radius * math.sin(angle))


def _heights(one: Element, thickness: float) -> list[float]:
    if isinstance(one, Flat):
        across = (one.end[0] - one.start[0]) / one.length * thickness / 2
        return [end[1] + side * across for end in (one.start, one.end) for side in (-1, 1)]
    ends = (one.begins, one.begins + one.turns)
    angles = list(ends)
    low, high = min(ends), max(ends)
    quarter = math.ceil(low / (math.pi / 2))
    while quarter * math.pi / 2 < high:
        angles.append(quarter * math.pi / 2)
        quarter += 1
    faces = (one.radius - thickness / 2, one.radius + thickness / 2)
    return [_on_bend(one, face, angle)[1] for angle in angles for face in faces]


def _sums(one: Element, thickness: float) -> _Sums:
    return _flat_sums(one, thickness) if isinstance(one, Flat) else _bend_sums(one, thickness)


def _flat_sums(one: Flat, thickness: float) -> _Sums:
    along, up, length = one.end[0] - one.start[0], one.end[1] - one.start[1], one.length
    x, y, area = (one.start[0] + one.end[0]) / 2, (one.start[1] + one.end[1]) / 2, length * thickness
    across = thickness**2 / (12 * length**2)
    return _Sums(
        area,
        area * x,
        area * y,
        area * (x**2 + along**2 / 12 + up**2 * across),
        area * (y**2 + up**2 / 12 + along**2 * across),
        area * (x * y + along * up / 12 - along * up * across),
    )


def _bend_sums(one: Bend, thickness: float) -> _Sums:
    begin, end = one.begins, one.begins + one.turns
    side = math.copysign(1.0, one.turns)
    first = side * (one.radius**2 * thickness + thickness**3 / 12)
    second = side * (one.radius**3 * thickness + one.radius * thickness**3 / 4)
    area = one.radius * thickness * abs(one.turns)
    # Moments about the bend's own centre, then moved to the origin.
    x, y = first * (math.sin(end) - math.sin(begin)), first * (math.cos(begin) - math.cos(end))
    twice = (math.sin(2 * end) - math.sin(2 * begin)) / 4
    xx, yy = second * (one.turns / 2 + twice), second * (one.turns / 2 - twice)
    xy = second * (math.sin(end) ** 2 - math.sin(begin) ** 2) / 2
    cx, cy = one.centre
    return _Sums(
        area,
        x + area * cx,
        y + area * cy,
        xx + 2 * cx * x + area * cx**2,
        yy + 2 * cy * y + area * cy**2,
        xy + cx * y + cy * x + area * cx * cy,
    )
