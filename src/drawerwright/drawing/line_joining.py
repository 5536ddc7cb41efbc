"""Straight lines on a drawing laid over each other: what coincides is drawn once, by the heaviest line.

Parts that touch share edges, and each brings its own: without this a seam would be drawn twice, and with
two line weights one over the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.drawing.geometry import Point
from drawerwright.drawing.half_spaces import Array

SAME_LINE: Final = 2e-3
"""Parallel lines nearer than this [mm] are one; so are pieces of a line with no wider gap between them."""
_SAME_WAY: Final = 1e-6
_SHORTEST: Final = 0.02


def joined_lines(starts: Array, ends: Array, weights: NDArray[np.intp]) -> list[tuple[Point, Point, int]]:
    """Lines from `starts` to `ends` (n, 2) [mm] without overlaps: each with its weight, the greatest there.

    Pieces that meet end to end and weigh the same become one line; what is shorter than 0.02 mm is dropped.
    """
    ways = ends - starts
    lengths = np.hypot(ways[:, 0], ways[:, 1])
    kept = lengths > 1e-9
    if not kept.any():
        return []
    starts, ends, weights, ways = starts[kept], ends[kept], weights[kept], ways[kept] / lengths[kept, None]
    back = (ways[:, 0] < -_SAME_WAY) | ((np.abs(ways[:, 0]) <= _SAME_WAY) & (ways[:, 1] < 0))
    starts[back], ends[back] = ends[back], starts[back]
    ways[back] *= -1
    directions = _clustered(np.arctan2(ways[:, 1], ways[:, 0]), _SAME_WAY)
    # One exact direction a cluster, so that the places along and across it are comparable.
    _, first = np.unique(directions, return_index=True)
    along = ways[first][directions]
    across = along[:, 0] * starts[:, 1] - along[:, 1] * starts[:, 0]
    lines = _clustered(across, SAME_LINE, directions)
    begin, finish = np.sum(along * starts, axis=1), np.sum(along * ends, axis=1)
    found: list[tuple[Point, Point, int]] = []
    order = np.lexsort((begin, lines))
    spans = list(zip(begin[order].tolist(), finish[order].tolist(), weights[order].tolist(), strict=True))
    edges = [0, *(np.flatnonzero(np.diff(lines[order])) + 1).tolist(), len(order)]
    firsts = order[edges[:-1]]
    placed = zip(pairwise(edges), along[firsts].tolist(), across[firsts].tolist(), strict=True)
    for (low, high), (ux, uy), far in placed:
        x, y = -uy * far, ux * far
        found += [
            ((a * ux + x, a * uy + y), (b * ux + x, b * uy + y), weight)
            for a, b, weight in _layered(spans[low:high])
        ]
    return found


def _clustered(values: Array, apart: float, within: NDArray[np.intp] | None = None) -> NDArray[np.intp]:
    """A number for each value: neighbours no further `apart` share it, and values of one `within` only."""
    order = np.lexsort((values,) if within is None else (values, within))
    new = np.diff(values[order]) > apart
    if within is not None:
        new |= np.diff(within[order]) != 0
    numbers = np.empty(len(values), dtype=np.intp)
    numbers[order] = np.concatenate(([0], np.cumsum(new)))[: len(values)]
    return numbers


def _layered(spans: Sequence[tuple[float, float, int]]) -> list[tuple[float, float, int]]:
    """Spans (from, to, weight) of one line without overlaps, in order along it."""
    if len(spans) == 1:
        begin, finish, weight = spans[0]
        return [spans[0]] if finish - begin > _SHORTEST else []
    places = sorted({place for begin, finish, _ in spans for place in (begin, finish)})
    found: list[tuple[float, float, int]] = []
    for begin, finish in pairwise(places):
        middle = (begin + finish) / 2
        there = [weight for a, b, weight in spans if a < middle < b]
        if not there and (not found or finish - begin > SAME_LINE):
            continue
        weight = max(there) if there else found[-1][2]
        if found and found[-1][2] == weight and begin - found[-1][1] <= SAME_LINE:
            found[-1] = (found[-1][0], finish, weight)
        else:
            found.append((begin, finish, weight))
    return [span for span in found if span[1] - span[0] > _SHORTEST]
