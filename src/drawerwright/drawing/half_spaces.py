"""Convex bodies as the half-spaces they lie in, and how far along a line one is inside them.

A body is the set of points P with n · P < c for each of its rows: `normals` (h, 3) of unit length and
`offsets` (h,) [mm]. Many bodies are stacked in one array and worked at once.
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
    """Half-spaces of several convex bodies one after another; body i owns the rows from `starts[i]` on."""

    normals: Array
    offsets: Array
    starts: NDArray[np.intp]


def stacked_bodies(rows: Sequence[tuple[Array, Array]]) -> Bodies:
    """Bodies from the normals (h, 3) and offsets (h,) [mm] of each.

    Raises:
        ValueError: there is no body, or one has no half-space at all.
    """
    counts = [len(offsets) for _, offsets in rows]
    if not counts or 0 in counts:
        raise ValueError("a convex body needs at least one half-space")
    return Bodies(
        np.concatenate([normals for normals, _ in rows]),
        np.concatenate([offsets for _, offsets in rows]),
        np.concatenate(([0], np.cumsum(counts)[:-1])),
    )


def inside_spans(origins: Array, ways: Array, bodies: Bodies) -> tuple[Array, Array]:
    """Where lines are inside bodies: shares (lines, bodies) of the way at which each goes in and comes out.

    A line runs from its origin (lines, 3) [mm] by its way (lines, 3) [mm], share 0 to 1. A body is convex,
    so one span says all; a line that misses a body has the empty span (1, 1).
    """
    before = origins @ bodies.normals.T - (bodies.offsets - TOUCHING)
    slope = ways @ bodies.normals.T
    level = np.abs(slope) <= _ALONG
    slope[level] = 1.0
    crossing = -before / slope
    slope[level] = 0.0
    enters = np.where(slope < 0, crossing, -np.inf)
    enters[level & (before >= 0)] = np.inf
    leaves = np.where(slope > 0, crossing, np.inf)
    first = np.maximum(np.maximum.reduceat(enters, bodies.starts, axis=1), 0.0)
    last = np.minimum(np.minimum.reduceat(leaves, bodies.starts, axis=1), 1.0)
    empty = first >= last
    return np.where(empty, 1.0, first), np.where(empty, 1.0, last)


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
    within = points @ bodies.normals.T - bodies.offsets + TOUCHING < 0
    return np.asarray(np.logical_and.reduceat(within, bodies.starts, axis=1).any(axis=1))
