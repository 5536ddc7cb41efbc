"""Convex bodies as the half-spaces they lie in, and how far along a line one is inside them.

A body is the set of points P with n · P < c for each of its rows: `normals` (h, 3) of unit length and
`offsets` (h,) [mm]. Many bodies are stacked in one array and worked at once: row by row, so that numpy runs
along whole rows of memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]

TOUCHING: Final = 1e-6
"""Faces nearer than this to each other [mm] touch: a point on a face counts as outside the body."""
_ALONG: Final = 1e-12


@dataclass(frozen=True, slots=True, eq=False)
class Bodies:
    """Half-spaces of several convex bodies: `normals` (rows, bodies, 3) and `offsets` (rows, bodies) [mm].

    A body with fewer half-spaces than the others has its rows filled up with ones that hold everything.
    """

    normals: Array
    offsets: Array

    def beyond(self, points: Array) -> Array:
        """How far points (n, 3) [mm] lie beyond each half-space drawn in by `TOUCHING`: (rows, bodies, n)."""
        return self.along(points) - (self.offsets - TOUCHING)[:, :, None]

    def along(self, ways: Array) -> Array:
        """How far ways (n, 3) [mm] lead out of each half-space: (rows, bodies, n)."""
        rows, bodies, _ = self.normals.shape
        return (self.normals.reshape(-1, 3) @ ways.T).reshape(rows, bodies, len(ways))


def stacked_bodies(rows: Sequence[tuple[Array, Array]]) -> Bodies:
    """Bodies from the normals (h, 3) and offsets (h,) [mm] of each.

    Raises:
        ValueError: there is no body, or one has no half-space at all.
    """
    counts = [len(offsets) for _, offsets in rows]
    if not counts or 0 in counts:
        raise ValueError("a convex body needs at least one half-space")
    most = max(counts)
    normals, offsets = np.zeros((most, len(rows), 3)), np.full((most, len(rows)), np.inf)
    for number, (count, (its_normals, its_offsets)) in enumerate(zip(counts, rows, strict=True)):
        normals[:count, number] = its_normals
        offsets[:count, number] = its_offsets
    return Bodies(normals, offsets)


def inside_spans(origins: Array, ways: Array, bodies: Bodies) -> tuple[Array, Array]:
    """Where lines are inside bodies: shares (lines, bodies) of the way at which each goes in and comes out.

    A line runs from its origin (lines, 3) [mm] by its way (lines, 3) [mm], share 0 to 1. A body is convex,
    so one span says all; a line that misses a body has the empty span (1, 1).
    """
    before, slope = bodies.beyond(origins), bodies.along(ways)
    inwards, outwards = slope < -_ALONG, slope > _ALONG
    kept_out = ~(inwards | outwards) & (before >= 0)
    with np.errstate(divide="ignore", invalid="ignore"):  # of lines along a face, which are not asked
        crossing = np.divide(before, slope, out=before)
    np.negative(crossing, out=crossing)
    enters = np.where(inwards, crossing, -np.inf)
    enters[kept_out] = np.inf
    leaves = np.where(outwards, crossing, np.inf)
    first = np.maximum(enters.max(axis=0), 0.0)
    last = np.minimum(leaves.min(axis=0), 1.0)
    empty = first >= last
    first[empty] = last[empty] = 1.0
    return np.ascontiguousarray(first.T), np.ascontiguousarray(last.T)


def free_spans(first: Array, last: Array) -> tuple[NDArray[np.intp], Array, Array]:
    """What of each line lies in none of its spans (lines, bodies): line number, from share, to share."""
    order = np.argsort(first, axis=1, kind="stable")
    begin = np.take_along_axis(first, order, axis=1)
    end = np.maximum.accumulate(np.take_along_axis(last, order, axis=1), axis=1)
    lines = len(first)
    starts = np.concatenate((np.zeros((lines, 1)), end), axis=1)
    stops = np.concatenate((begin, np.ones((lines, 1))), axis=1)
    line, place = np.nonzero(stops > starts)
    return line, starts[line, place], stops[line, place]


def any_inside(points: Array, bodies: Bodies) -> NDArray[np.bool_]:
    """Whether each point (n, 3) [mm] lies inside at least one of the bodies."""
    return np.asarray((bodies.beyond(points).max(axis=0) < 0).any(axis=0))
