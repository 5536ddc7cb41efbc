"""Where on a part a line from its name may end: a place on one of its faces that nothing hides."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import islice
from typing import Final

import numpy as np

from drawerwright.drawing.geometry import Point
from drawerwright.drawing.half_spaces import Array
from drawerwright.drawing.hidden_lines import Direction, Picture
from drawerwright.drawing.solids import Solid

_SHARES: Final = (0.04, 0.12, 0.3, 0.5, 0.7, 0.88, 0.96)
"""Places along a face's two edges, as shares of them."""
_ON_FACE: Final = 1e-6
_ASKED_FIRST, _ASKED_MORE = 16, 6
"""How many places of a part are asked for at first, and how many times as many each time after."""


def places_in_sight(
    parts: Sequence[Sequence[Solid]],
    picture: Picture,
    direction: Direction,
    side: float,
    upwards: float = 0.0,
) -> list[Point | None]:
    """The place on each part [on paper] nearest to the left (-1) or right (1) that is seen; None if none is.

    `upwards` is how much a place that is higher up counts beside one that is further to that side. Places
    are asked for in that order, some of each part at a time: most parts are in sight at once.
    """
    waiting: dict[int, tuple[Array, Array]] = {}
    for number, solids in enumerate(parts):
        points = np.concatenate([_on_faces(each) for each in solids])
        paper = points @ direction.paper
        order = np.argsort(-(paper[:, 0] * side + paper[:, 1] * upwards), kind="stable")
        waiting[number] = points[order], paper[order]
    found: list[Point | None] = [None] * len(parts)
    asked, many = 0, _ASKED_FIRST
    while waiting:
        some = {number: points[asked : asked + many] for number, (points, _) in waiting.items()}
        seen = iter(picture.seen(np.concatenate(list(some.values()))).tolist())
        for number, points in some.items():
            are_seen, paper = list(islice(seen, len(points))), waiting[number][1]
            if any(are_seen):
                x, y = paper[asked + are_seen.index(True)].tolist()
                found[number] = (x, y)
            if any(are_seen) or asked + many >= len(paper):
                del waiting[number]
        asked, many = asked + many, many * _ASKED_MORE
    return found


def _on_faces(solid: Solid) -> Array:
    """Places (n, 3) all over those faces of a solid that look to the right, up and out."""
    ends = np.concatenate((solid.starts, solid.ends))
    low, high = ends.min(axis=0), ends.max(axis=0)
    points = low + _on_unit_cube() * (high - low)
    on_solid = (points @ solid.normals.T <= solid.offsets + _ON_FACE).all(axis=1)
    return np.asarray(points[on_solid])


@cache
def _on_unit_cube() -> Array:
    """Those places (n, 3) on a cube from 0 to 1."""
    shares = np.array(np.meshgrid(_SHARES, _SHARES)).reshape(2, -1).T
    return np.concatenate([np.insert(shares, axis, 1.0, axis=1) for axis in range(3)])
