"""Convex solids in mm, the parts of a drawer in space, and the direction they are looked at from.

Axes as in the public contract: x to the right, y up, z out of the cabinet towards the viewer. A part that
is not convex is made of several solids that touch; `joined` takes away the edges that are none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from drawerwright.drawing.geometry import Point
from drawerwright.drawing.half_spaces import Array, inside_spans, stacked_bodies

Axis: TypeAlias = Literal["x", "y", "z"]
Span: TypeAlias = tuple[float, float]

_PROBE: Final = 1e-3
"""How far beside an edge a joint's neighbourhood is looked at [mm]."""


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A convex solid of one part.

    Faces: outward unit `normals` (f, 3), `offsets` (f,) [mm]. Edges: `starts` and `ends` (e, 3) [mm], and
    the two faces (e, 2) that meet there. `group` names what shares one outline with it.
    """

    part: str
    group: str
    normals: Array
    offsets: Array
    starts: Array
    ends: Array
    edge_faces: NDArray[np.intp]

    def moved(self, x: float = 0.0, y: float = 0.0, z: float = 0.0) -> Solid:
        """The solid moved [mm]."""
        by = np.array((x, y, z))
        offsets, starts, ends = self.offsets + self.normals @ by, self.starts + by, self.ends + by
        return Solid(self.part, self.group, self.normals, offsets, starts, ends, self.edge_faces)

    def mirrored(self) -> Solid:
        """The solid mirrored left to right about x = 0."""
        turned = np.array((-1.0, 1.0, 1.0))
        return replace(
            self, normals=self.normals * turned, starts=self.starts * turned, ends=self.ends * turned
        )


def block(part: str, x: Span, y: Span, z: Span, group: str = "") -> Solid:
    """A board with its faces along the axes, between two x, two y and two z [mm] in either order.

    Raises:
        ValueError: it has no extent along one of the axes.
    """
    low = np.minimum((x[0], y[0], z[0]), (x[1], y[1], z[1]))
    high = np.maximum((x[0], y[0], z[0]), (x[1], y[1], z[1]))
    if not np.all(high - low > 0):
        raise ValueError(f"the solid {part!r} has no extent along one of its axes")
    normals, begin, finish, faces = _block_pattern()
    size = high - low
    offsets = np.concatenate((high, -low))
    return Solid(part, group, normals, offsets, low + begin * size, low + finish * size, faces)


@cache
def _block_pattern() -> tuple[Array, Array, Array, NDArray[np.intp]]:
    """Normals, edges of the unit cube, and which faces meet at each edge."""
    normals = np.concatenate((np.eye(3), -np.eye(3)))
    begin, finish, faces = [], [], []
    for along in range(3):
        one, other = (axis for axis in range(3) if axis != along)
        for a in (0, 1):
            for b in (0, 1):
                corner = np.zeros(3)
                corner[one], corner[other] = a, b
                begin.append(corner)
                finish.append(corner + np.eye(3)[along])
                faces.append((one if a else one + 3, other if b else other + 3))
    return normals, np.array(begin), np.array(finish), np.array(faces)


def prism(part: str, outline: Sequence[Point], axis: Axis, span: Span, group: str = "") -> Solid:
    """A convex polygon drawn out along an axis between two places [mm].

    The polygon's coordinates are the other two axes in the order x, y, z; it may run either way round.

    Raises:
        ValueError: fewer than three corners, a polygon that is not convex, or no extent along the axis.
    """
    flat = np.array(outline, dtype=np.float64)
    low, high = sorted(span)
    after = np.roll(flat, -1, axis=0) - flat
    turns = after[:, 0] * np.roll(after, -1, axis=0)[:, 1] - after[:, 1] * np.roll(after, -1, axis=0)[:, 0]
    if len(flat) < 3 or not high > low or not (np.all(turns > 0) or np.all(turns < 0)):
        raise ValueError(f"the solid {part!r} needs a convex polygon and an extent along {axis}")
    if turns[0] < 0:
        flat = flat[::-1]
        after = np.roll(flat, -1, axis=0) - flat
    count = len(flat)
    outward = np.column_stack((after[:, 1], -after[:, 0])) / np.hypot(after[:, 0], after[:, 1])[:, None]
    place = "xyz".index(axis)
    normals = np.concatenate(
        (np.insert(outward, place, 0.0, axis=1), np.eye(3)[[place]], -np.eye(3)[[place]])
    )
    offsets = np.concatenate((np.sum(outward * flat, axis=1), (high, -low)))
    bottom, top = np.insert(flat, place, low, axis=1), np.insert(flat, place, high, axis=1)
    walls = np.arange(count)
    return Solid(
        part,
        group,
        normals,
        offsets,
        np.concatenate((bottom, bottom, top)),
        np.concatenate((top, np.roll(bottom, -1, axis=0), np.roll(top, -1, axis=0))),
        np.concatenate(
            (
                np.column_stack((walls, (walls - 1) % count)),
                np.column_stack((walls, np.full(count, count + 1))),
                np.column_stack((walls, np.full(count, count))),
            )
        ),
    )


def joined(solids: Sequence[Solid]) -> tuple[Solid, ...]:
    """Solids that touch and are one part, without those stretches of their edges where the part is flat.

    Beside each stretch three places are looked at: beyond the first of its faces, beyond the second, beyond
    both. The part is flat there if it goes on beyond just one face, and solid if it goes on at all three.
    """
    if len(solids) == 1:
        return (solids[0],)
    bodies = stacked_bodies([(solid.normals, solid.offsets) for solid in solids])
    starts = np.concatenate([solid.starts for solid in solids])
    ways = np.concatenate([solid.ends for solid in solids]) - starts
    one = np.concatenate([solid.normals[solid.edge_faces[:, 0]] for solid in solids])
    other = np.concatenate([solid.normals[solid.edge_faces[:, 1]] for solid in solids])
    beside = np.concatenate((one - other, other - one, one + other)) * _PROBE
    spans = inside_spans(np.tile(starts, (3, 1)) + beside, np.tile(ways, (3, 1)), bodies)
    first, last = (each.reshape(3, len(starts), len(solids)) for each in spans)
    ends = np.cumsum([0, *(len(solid.starts) for solid in solids)]).tolist()
    own = [slice(begin, end) for begin, end in pairwise(ends)]
    return tuple(
        _trimmed(solid, ways[edges], first[:, edges], last[:, edges])
        for solid, edges in zip(solids, own, strict=True)
    )


def _trimmed(solid: Solid, ways: Array, first: Array, last: Array) -> Solid:
    """The solid with those stretches of its edges that are edges of all bodies together.

    `first` and `last` (3, e, bodies): where the three places beside each edge lie inside other bodies.
    """
    begin, finish, edges = [], [], []
    met = np.any(last > first, axis=(0, 2))
    for edge in range(len(solid.starts)):
        stretches: Sequence[Span] = ((0.0, 1.0),)
        if met[edge]:
            within = zip(first[:, edge].tolist(), last[:, edge].tolist(), strict=True)
            stretches = _real_stretches(
                [[span for span in zip(*ends, strict=True) if span[0] < span[1]] for ends in within]
            )
        for start, end in stretches:
            begin.append(start)
            finish.append(end)
            edges.append(edge)
    chosen = np.array(edges, dtype=np.intp)
    from_, run = solid.starts[chosen], ways[chosen]
    return replace(
        solid,
        starts=from_ + run * np.array(begin).reshape(-1, 1),
        ends=from_ + run * np.array(finish).reshape(-1, 1),
        edge_faces=solid.edge_faces[chosen],
    )


def _real_stretches(spans: Sequence[Sequence[Span]]) -> list[Span]:
    """Shares of an edge where the three places beside it do not say that the part is flat or solid."""
    places = sorted({0.0, 1.0, *(end for probe in spans for span in probe for end in span)})
    found: list[Span] = []
    for begin, finish in pairwise(places):
        middle = (begin + finish) / 2
        beyond_one, beyond_other, beyond_both = (
            any(first < middle < last for first, last in probe) for probe in spans
        )
        flat = not beyond_both and beyond_one != beyond_other
        if flat or (beyond_one and beyond_other and beyond_both):
            continue
        if found and found[-1][1] == begin:
            found[-1] = (found[-1][0], finish)
        else:
            found.append((begin, finish))
    return found
