"""Hidden-line removal: which stretches of the edges of convex solids are seen in a parallel view.

What a convex solid hides is convex as well: the points P from which a ray towards the viewer meets it. With
n·v for how far a face with normal n looks towards the viewer v, the ray leaves the solid before
(c − n·P) / n·v of each face that looks towards him, and enters it after the same of each that looks away.
P is hidden when every such entry lies before every such leaving, and every leaving ahead of P: all of them
half-spaces in P, so the hidden part of an edge is a span that is found exactly.

Where parts touch, an edge lies on the border of what others hide. It is therefore judged by the place just
beside it, at a silhouette outside the solid. What hides only that side ends there itself, and draws the line.

Source: own derivation (elimination of the ray's parameter by Fourier and Motzkin); no outside source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.drawing.geometry import Point
from drawerwright.drawing.half_spaces import (
    Array,
    Bodies,
    any_inside,
    free_spans,
    inside_spans,
    stacked_bodies,
)
from drawerwright.drawing.line_joining import joined_lines
from drawerwright.drawing.solids import Solid

BESIDE: Final = 1e-4
"""How far beside an edge it is judged [mm]: finer than any drawing shows."""
_NEARER: Final = 1e-3
"""How far nearer to the viewer [mm], so that faces that meet at the edge do not hide what is beside it."""
_FACING: Final = 1e-9
_EDGE, _OUTLINE, _DRAWN_ALREADY = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Direction:
    """A parallel view: where x, y and z go on paper, and the way (x, y, z) towards the viewer."""

    x: Point
    y: Point
    z: Point
    towards: tuple[float, float, float]

    def point(self, x: float, y: float, z: float) -> Point:
        """Where a point [mm] goes on paper [mm at full scale]."""
        return (
            x * self.x[0] + y * self.y[0] + z * self.z[0],
            x * self.x[1] + y * self.y[1] + z * self.z[1],
        )

    @property
    def paper(self) -> Array:
        """The projection as a matrix (3, 2)."""
        return np.array((self.x, self.y, self.z))


@dataclass(frozen=True, slots=True)
class SeenLine:
    """A seen stretch of an edge [mm on paper at full scale].

    It is an `outline` where nothing else of its group lies beyond it in the picture.
    """

    start: Point
    end: Point
    outline: bool


class Picture:
    """Solids seen from one direction. They may touch, but must not run into each other.

    Raises:
        ValueError: there is no solid.
    """

    def __init__(self, solids: Sequence[Solid], direction: Direction) -> None:
        self._solids = tuple(solids)
        self._paper = direction.paper
        self._viewer = np.array(direction.towards) / np.linalg.norm(direction.towards)
        self._hidden, self._covered = _shadows(self._solids, self._viewer)
        numbers = {name: number for number, name in enumerate(sorted({each.group for each in solids}))}
        self._groups = np.array([numbers[each.group] for each in self._solids], dtype=np.intp)
        self._grouped = np.array([bool(each.group) for each in self._solids])

    def lines(self, drawn_already: Sequence[tuple[Point, Point]] = ()) -> tuple[SeenLine, ...]:
        """All edges as far as they are seen, each place drawn once.

        Lines that are `drawn_already` [on paper at full scale] are left out wherever an edge coincides.
        """
        edges = _edges_towards(self._solids, self._viewer)
        ways = edges.ends - edges.starts
        beside = edges.starts + self._viewer * _NEARER + edges.outward * BESIDE
        hidden = inside_spans(beside, ways, self._hidden)
        spans = [(*free_spans(*hidden), _EDGE)]
        shaping = np.flatnonzero(edges.silhouette & self._grouped[edges.solid])
        if len(shaping):
            first, last = inside_spans(beside[shaping], ways[shaping], self._covered)
            strangers = self._groups[edges.solid[shaping]][:, None] != self._groups
            first, last = np.where(strangers, 1.0, first), np.where(strangers, 1.0, last)
            line, begin, finish = free_spans(
                np.concatenate((hidden[0][shaping], first), axis=1),
                np.concatenate((hidden[1][shaping], last), axis=1),
            )
            spans.append((shaping[line], begin, finish, _OUTLINE))
        laid = [self._on_paper(edges.starts, ways, line, begin, finish) for line, begin, finish, _ in spans]
        weights = [weight for *_, weight in spans]
        if drawn_already:
            given = np.array(drawn_already, dtype=np.float64)
            laid.append((given[:, 0], given[:, 1]))
            weights.append(_DRAWN_ALREADY)
        together = joined_lines(
            np.concatenate([start for start, _ in laid]),
            np.concatenate([end for _, end in laid]),
            np.repeat(weights, [len(start) for start, _ in laid]),
        )
        return tuple(
            SeenLine(a, b, weight == _OUTLINE) for a, b, weight in together if weight != _DRAWN_ALREADY
        )

    def stretches(self, starts: Array, ends: Array) -> tuple[tuple[Point, Point], ...]:
        """The seen stretches of loose lines (n, 3) [mm] that are no edges, such as traces."""
        first, last = inside_spans(starts + self._viewer * _NEARER, ends - starts, self._hidden)
        a, b = self._on_paper(starts, ends - starts, *free_spans(first, last))
        return tuple((start, end) for start, end, _ in joined_lines(a, b, np.zeros(len(a), dtype=np.intp)))

    def seen(self, points: Array) -> NDArray[np.bool_]:
        """Whether each of the points (n, 3) [mm] is seen; a point on a face towards the viewer may be."""
        return ~any_inside(points + self._viewer * _NEARER, self._hidden)

    def _on_paper(
        self, starts: Array, ways: Array, line: NDArray[np.intp], begin: Array, finish: Array
    ) -> tuple[Array, Array]:
        from_, run = starts[line] @ self._paper, ways[line] @ self._paper
        return from_ + run * begin[:, None], from_ + run * finish[:, None]


@dataclass(frozen=True, slots=True, eq=False)
class _Edges:
    """Edges (n) with at least one face towards the viewer, and which solid each is of.

    `outward` (n, 3) lies across the edge on paper; at a silhouette it points away from the solid's picture.
    """

    starts: Array
    ends: Array
    outward: Array
    silhouette: NDArray[np.bool_]
    solid: NDArray[np.intp]


def _edges_towards(solids: Sequence[Solid], viewer: Array) -> _Edges:
    starts = np.concatenate([each.starts for each in solids])
    ends = np.concatenate([each.ends for each in solids])
    one = np.concatenate([each.normals[each.edge_faces[:, 0]] for each in solids])
    other = np.concatenate([each.normals[each.edge_faces[:, 1]] for each in solids])
    solid = np.repeat(np.arange(len(solids)), [len(each.starts) for each in solids])
    facing = np.column_stack((one @ viewer, other @ viewer))
    across = np.cross(viewer, ends - starts)
    width = np.linalg.norm(across, axis=1)
    kept = (facing.max(axis=1) > _FACING) & (width > _FACING)
    facing, across = facing[kept], across[kept] / width[kept, None]
    silhouette = facing.min(axis=1) <= _FACING
    # Both normals of a silhouette lean away from the solid's picture; their sum says to which side.
    leaning = np.sum(across * (one[kept] + other[kept]), axis=1) < 0
    across[silhouette & leaning] *= -1
    return _Edges(starts[kept], ends[kept], across, silhouette, solid[kept])


@dataclass(frozen=True, slots=True, eq=False)
class _Shadow:
    """What solids of one shape hide, whatever their size: half-spaces with `normals` (h, 3).

    Their offsets are `reach` (h, f) times the offsets of the solid's faces. The first `shaping` of them run
    along the view, around the picture of the solid; the others are its faces towards the viewer.
    """

    normals: Array
    reach: Array
    shaping: int


@lru_cache(maxsize=256)
def _shadow_of(face_normals: bytes, viewer: bytes) -> _Shadow:
    """The shadow of a shape, from the normals (f, 3) of its faces and the way (3,) towards the viewer."""
    normals = np.frombuffer(face_normals).reshape(-1, 3)
    facing = normals @ np.frombuffer(viewer)
    towards, away = np.flatnonzero(facing > _FACING), np.flatnonzero(facing < -_FACING)
    along = np.flatnonzero(np.abs(facing) <= _FACING)
    each = np.eye(len(normals))
    rows = [each[i] / facing[i] - each[j] / facing[j] for i in towards for j in away]
    # Opposite faces say together only that the solid has a thickness: their row has no normal.
    shaping = [row / size for row in rows if (size := np.linalg.norm(row @ normals)) > _FACING]
    reach = np.array([*shaping, *each[along], *each[towards]])
    return _Shadow(reach @ normals, reach, len(shaping) + len(along))


def _shadows(solids: Sequence[Solid], viewer: Array) -> tuple[Bodies, Bodies]:
    """What each solid hides, and what its picture covers before it and behind it."""
    way = viewer.tobytes()
    shapes = [_shadow_of(each.normals.tobytes(), way) for each in solids]
    pairs = [(shape, shape.reach @ each.offsets) for shape, each in zip(shapes, solids, strict=True)]
    return (
        stacked_bodies([(shape.normals, offsets) for shape, offsets in pairs]),
        stacked_bodies(
            [(shape.normals[: shape.shaping], offsets[: shape.shaping]) for shape, offsets in pairs]
        ),
    )
