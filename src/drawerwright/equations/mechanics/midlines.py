"""The middle line of a rolled section: straight flats and round bends through the corners told.

Corners [mm] are where the flats' middle lines would meet, x to the right and y up. A bend of inside radius R
in sheet of thickness t runs on the radius R + t/2. Plain geometry.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, NamedTuple, TypeAlias

Point: TypeAlias = tuple[float, float]

STRAIGHT: Final = 1e-6
"""Turns below it [rad] are none: the line goes straight on."""
TURNED_BACK: Final = math.radians(179.5)
"""Turns from here on lay the sheet upon itself: no bend has room for one."""
TOO_FEW: Final = "cannot make a line: two or more points are wanted"
_SLACK: Final = 1e-9
_LEAST_RADIUS: Final = 0.01
"""A radius [mm] below it is no radius to advise. Own choice."""


@dataclass(frozen=True, slots=True)
class Flat:
    """A straight stretch from a start to an end [mm]; whether a bend or another flat follows at each end."""

    start: Point
    end: Point
    held_at_start: bool
    held_at_end: bool

    @property
    def length(self) -> float:
        """Length [mm]."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Bend:
    """A round bend [mm]: the middle line's radius, the angle it begins at, and how far it turns [rad].

    Anticlockwise turns are positive. `inside_radius` is the sheet's.
    """

    centre: Point
    radius: float
    begins: float
    turns: float
    inside_radius: float

    @property
    def length(self) -> float:
        """Length along the middle line [mm]."""
        return self.radius * abs(self.turns)


Element: TypeAlias = Flat | Bend


class MidlineFault(NamedTuple):
    """What makes a middle line impossible: the key, the place in its list (None: all), why, a cure."""

    key: str
    place: int | None
    says: str
    try_: str


def radius_at(radii: Sequence[float], corner: int) -> float:
    """Inside radius [mm] of the bend at a corner, counted from 1; one number stands for all."""
    return radii[0] if len(radii) == 1 else radii[corner - 1]


def elements_of(points: Sequence[Point], radii: Sequence[float], thickness: float) -> tuple[Element, ...]:
    """Flats and bends in order; flats of no length are left out.

    Raises ValueError where `midline_faults` has something to say.
    """
    faults = midline_faults(points, radii, thickness)
    if faults:
        raise ValueError(f"{faults[0].key} {faults[0].says}")
    last = len(points) - 1
    elements: list[Element] = []
    start = points[0]
    for corner in range(1, last):
        bend = _bend(points, corner, radius_at(radii, corner), thickness)
        if bend is None:
            continue
        back = _set_back(points, corner, bend.radius)
        _add_flat(elements, start, _towards(points[corner], points[corner - 1], back), last_one=False)
        elements.append(bend)
        start = _towards(points[corner], points[corner + 1], back)
    _add_flat(elements, start, points[last], last_one=True)
    return tuple(elements)


def midline_faults(points: Sequence[Point], radii: Sequence[float], thickness: float) -> list[MidlineFault]:
    """Everything that makes the section impossible; empty where it can be rolled."""
    example = "[[0, 12], [0, 0], [22, 0]]"
    if len(points) < 2:
        return [MidlineFault("points", None, TOO_FEW, example)]
    faults = [
        MidlineFault("points", place + 1, "is the same place as the point before", example)
        for place, (one, other) in enumerate(pairwise(points))
        if math.dist(one, other) <= _SLACK
    ]
    corners = len(points) - 2
    if len(radii) not in (1, max(corners, 1)):
        says = f"has {len(radii)} values: one for all, or one for each of the {corners} corners"
        faults.append(MidlineFault("radii", None, says, "1.2"))
    if faults:
        return faults
    faults = list(_bends_without_room(points, radii, thickness))
    return faults or list(_crossings(points, thickness))


def _bends_without_room(
    points: Sequence[Point], radii: Sequence[float], thickness: float
) -> Iterator[MidlineFault]:
    """Legs too short for the bends at their ends; one radius for all is one fault, of the tightest leg."""
    short: list[tuple[float, MidlineFault]] = []
    taken = [0.0] * len(points)
    for corner in range(1, len(points) - 1):
        turn = abs(_turn(points, corner))
        if turn >= TURNED_BACK:
            says = "turns straight back: the sheet would lie in itself"
            yield MidlineFault("points", corner, says, "two corners, a thickness and a bend apart")
            return
        if turn > STRAIGHT:
            taken[corner] = _set_back(points, corner, radius_at(radii, corner) + thickness / 2)
    for leg, (one, other) in enumerate(pairwise(points)):
        room, wanted = math.dist(one, other), taken[leg] + taken[leg + 1]
        if wanted > room + 1e-6:
            corner = leg if taken[leg] >= taken[leg + 1] else leg + 1
            says = (
                f"is too large at corner {corner + 1}: the bends take {wanted:.4g} mm of the leg between "
                f"points {leg + 1} and {leg + 2}, which is {room:.4g} mm long"
            )
            most = _most_radius(points, leg, corner, room, taken, alike=len(radii) == 1) - thickness / 2
            try_ = f"at most {_down(most):g}" if most >= _LEAST_RADIUS else "thinner sheet, or longer legs"
            place = None if len(radii) == 1 else corner - 1
            short.append((most, MidlineFault("radii", place, says, try_)))
    tightest: dict[int | None, tuple[float, MidlineFault]] = {}
    for most, fault in short:
        if fault.place not in tightest or most < tightest[fault.place][0]:
            tightest[fault.place] = (most, fault)
    yield from (fault for _, fault in tightest.values())


def _down(radius: float) -> float:
    """A radius [mm] rounded down to a hundredth, so that it still has room."""
    return math.floor(radius * 100.0 + 1e-6) / 100.0


def _most_radius(
    points: Sequence[Point], leg: int, corner: int, room: float, taken: Sequence[float], *, alike: bool
) -> float:
    """The largest middle radius that a leg leaves to a corner, or to both where they are alike."""
    if alike:
        ends = [end for end in (leg, leg + 1) if taken[end] > 0.0]
        return room / sum(_set_back(points, end, 1.0) for end in ends)
    other = leg + 1 if corner == leg else leg
    return max(room - taken[other], 0.0) / _set_back(points, corner, 1.0)


def _crossings(points: Sequence[Point], thickness: float) -> Iterator[MidlineFault]:
    legs = list(pairwise(points))
    for first, one in enumerate(legs):
        for second in range(first + 2, len(legs)):
            if _apart(one, legs[second]) < thickness - 1e-6:
                says = (
                    f"runs into itself: the leg from point {second + 1} to {second + 2} comes closer to the "
                    f"leg from point {first + 1} to {first + 2} than the sheet is thick, {thickness:.4g} mm"
                )
                yield MidlineFault("points", second + 1, says, "a line that does not cross itself")
                return


def _add_flat(elements: list[Element], start: Point, end: Point, *, last_one: bool) -> None:
    if math.dist(start, end) > 1e-6:
        elements.append(Flat(start, end, bool(elements), not last_one))


def _bend(points: Sequence[Point], corner: int, inside_radius: float, thickness: float) -> Bend | None:
    turn = _turn(points, corner)
    if abs(turn) <= STRAIGHT:
        return None
    radius, side = inside_radius + thickness / 2, math.copysign(1.0, turn)
    before, here = points[corner - 1], points[corner]
    direction = math.atan2(here[1] - before[1], here[0] - before[0])
    tangent = _towards(here, before, _set_back(points, corner, radius))
    begins = direction - side * math.pi / 2
    centre = (tangent[0] - radius * math.cos(begins), tangent[1] - radius * math.sin(begins))
    return Bend(centre, radius, begins, turn, inside_radius)


def _turn(points: Sequence[Point], corner: int) -> float:
    """How far the line turns at a corner [rad], anticlockwise positive, within a half turn."""
    (ax, ay), (bx, by), (cx, cy) = points[corner - 1 : corner + 2]
    ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
    return math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)


def _set_back(points: Sequence[Point], corner: int, radius: float) -> float:
    """How far from its corner a bend begins [mm]."""
    return radius * math.tan(abs(_turn(points, corner)) / 2)


def _towards(start: Point, end: Point, by: float) -> Point:
    share = by / math.dist(start, end)
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _apart(one: tuple[Point, Point], other: tuple[Point, Point]) -> float:
    """Least distance of two legs [mm]; 0 where they cross."""
    if _cross(*one, *other):
        return 0.0
    return min(
        *(_to_leg(point, other) for point in one),
        *(_to_leg(point, one) for point in other),
    )


def _to_leg(point: Point, leg: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = leg
    along, up = bx - ax, by - ay
    share = ((point[0] - ax) * along + (point[1] - ay) * up) / (along**2 + up**2)
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (ax + share * along, ay + share * up))


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(one: Point, other: Point, point: Point) -> float:
        return (other[0] - one[0]) * (point[1] - one[1]) - (other[1] - one[1]) * (point[0] - one[0])

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0
