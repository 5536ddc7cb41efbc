"""Hidden lines against a rendering by ray casting, on random sets of boxes.

The rendering finds the first box that a ray from the viewer meets by the slab method, and by which face:
T. L. Kay, J. T. Kajiya, "Ray tracing complex scenes", SIGGRAPH 1986, section 3 (from memory). It shares
nothing with the drawing but the boxes. Where the faces met on the two sides of a place differ, a line belongs
there; where they are the same, none does. Boxes lie on a grid, so that many touch, stand flush or line up
exactly in the picture. Places are looked at 0.01 mm to either side: nearer than that to a silhouette nothing
is said.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from drawerwright.drawing.hidden_lines import Picture, SeenLine
from drawerwright.drawing.solids import Solid, block
from drawerwright.drawing.views.isometric import SEEN_FROM

BESIDE = 0.01
NONE = -1
CELLS = 7
Array = NDArray[np.float64]
Ids = NDArray[np.int64]


@dataclass(frozen=True)
class Boxes:
    """Corners (n, 3) of boxes that do not run into each other."""

    low: Array
    high: Array

    def solids(self, group: str = "") -> list[Solid]:
        spans = np.stack((self.low, self.high), axis=2).tolist()
        return [block("box", *(tuple(span) for span in box), group=group) for box in spans]  # type: ignore[arg-type]


@st.composite
def boxes(draw: st.DrawFn) -> Boxes:
    """Up to nine boxes on a grid of seven cells a side, whose rows are evenly or unevenly spaced."""
    steps = st.lists(st.integers(1, 40), min_size=CELLS, max_size=CELLS)
    even = draw(st.booleans())
    places = [
        np.concatenate(([0.0], np.cumsum([10] * CELLS if even else draw(steps)))) * 0.7 for _ in range(3)
    ]
    corner = st.tuples(*[st.integers(0, CELLS - 1)] * 3)
    size = st.tuples(*[st.integers(1, 4)] * 3)
    taken = np.zeros((CELLS, CELLS, CELLS), dtype=bool)
    low, high = [], []
    for at, long in draw(st.lists(st.tuples(corner, size), min_size=1, max_size=9)):
        to = [min(a + b, CELLS) for a, b in zip(at, long, strict=True)]
        cells = tuple(slice(a, b) for a, b in zip(at, to, strict=True))
        if taken[cells].any():
            continue
        taken[cells] = True
        low.append([places[k][at[k]] for k in range(3)])
        high.append([places[k][to[k]] for k in range(3)])
    return Boxes(np.array(low), np.array(high))


def met(boxes: Boxes, points: Array, seen_from: str) -> Ids:
    """Which face of which box the ray through each point (n, 2) of the picture meets first; -1 for none."""
    view = SEEN_FROM[seen_from]
    viewer = np.array(view.towards)
    origins = points @ np.linalg.pinv(view.paper)
    one = (boxes.low[None] - origins[:, None]) / viewer
    other = (boxes.high[None] - origins[:, None]) / viewer
    leaves, enters = np.maximum(one, other), np.minimum(one, other)
    out, into = leaves.min(axis=2), enters.max(axis=2)
    out[into >= out] = -np.inf
    first = out.argmax(axis=1)
    rows = np.arange(len(points))
    found = first * 3 + leaves[rows, first].argmin(axis=1)
    found[np.isneginf(out[rows, first])] = NONE
    return found


def beside(starts: Array, ends: Array, shares: Array) -> tuple[Array, Array, Array]:
    """Places at shares (s,) of the way from starts to ends (n, 2), and the places left and right of them."""
    ways = ends - starts
    places = (starts[:, None] + ways[:, None] * shares[None, :, None]).reshape(-1, 2)
    across = np.column_stack((-ways[:, 1], ways[:, 0])) / np.hypot(ways[:, 0], ways[:, 1])[:, None]
    aside = np.repeat(across, len(shares), axis=0) * BESIDE
    return places, places + aside, places - aside


def ends_of(lines: tuple[SeenLine, ...]) -> tuple[Array, Array]:
    return np.array([each.start for each in lines]), np.array([each.end for each in lines])


def crossed(starts: Array, ends: Array, a: Array, b: Array) -> NDArray[np.bool_]:
    """Whether some line crosses or comes within 0.005 mm of each of the short ways from a to b (m, 2)."""
    ways, steps = ends - starts, b - a
    long = np.hypot(ways[:, 0], ways[:, 1])
    unit = ways / long[:, None]
    gap = a[:, None] - starts[None]
    side_a = unit[:, 0] * gap[..., 1] - unit[:, 1] * gap[..., 0]
    turn = unit[None, :, 0] * steps[:, None, 1] - unit[None, :, 1] * steps[:, None, 0]
    side_b = side_a + turn
    share = np.clip(side_a / np.where(side_a == side_b, np.inf, side_a - side_b), 0.0, 1.0)
    along = np.sum((gap + steps[:, None] * share[..., None]) * unit, axis=2)
    near = 0.005
    passes = (np.minimum(side_a, side_b) <= near) & (np.maximum(side_a, side_b) >= -near)
    return np.asarray((passes & (along >= -near) & (along <= long + near)).any(axis=1))


CASES = settings(max_examples=205, deadline=None, suppress_health_check=[HealthCheck.too_slow])
sides = st.sampled_from(sorted(SEEN_FROM))


@CASES
@given(boxes(), sides)
def test_no_hidden_edge_is_drawn(found: Boxes, seen_from: str) -> None:
    starts, ends = ends_of(Picture(found.solids(), SEEN_FROM[seen_from]).lines())
    shares = np.array([0.02, 0.23, 0.5, 0.77, 0.98])
    _, left, right = beside(starts, ends, shares)
    assert np.all(met(found, left, seen_from) != met(found, right, seen_from))


@CASES
@given(boxes(), sides)
def test_no_visible_edge_is_missing(found: Boxes, seen_from: str) -> None:
    starts, ends = ends_of(Picture(found.solids(), SEEN_FROM[seen_from]).lines())
    paper = SEEN_FROM[seen_from].paper
    solids = found.solids()
    edges = [
        np.concatenate([getattr(each, which) for each in solids]) @ paper for which in ("starts", "ends")
    ]
    _, left, right = beside(edges[0], edges[1], np.array([0.011, 0.19, 0.37, 0.5, 0.61, 0.83, 0.989]))
    differs = met(found, left, seen_from) != met(found, right, seen_from)
    assert differs.any()
    assert np.all(crossed(starts, ends, left[differs], right[differs]))


@CASES
@given(boxes(), sides)
def test_a_rendering_changes_only_across_a_line(found: Boxes, seen_from: str) -> None:
    """Over the whole picture: neighbouring pixels that show different faces have a line between them."""
    starts, ends = ends_of(Picture(found.solids(), SEEN_FROM[seen_from]).lines())
    both = np.concatenate((starts, ends))
    (left, bottom), (right, top) = both.min(axis=0) - 1.0, both.max(axis=0) + 1.0
    across, up = np.linspace(left, right, 26), np.linspace(bottom, top, 26)
    pixels = np.stack(np.meshgrid(across, up), axis=2)
    shown = met(found, pixels.reshape(-1, 2), seen_from).reshape(26, 26)
    for a, b in ((np.s_[:, :-1], np.s_[:, 1:]), (np.s_[:-1], np.s_[1:])):
        differs = shown[a] != shown[b]
        assert np.all(crossed(starts, ends, pixels[a][differs], pixels[b][differs]))


@CASES
@given(boxes())
def test_outlines_are_where_the_rendering_ends(found: Boxes) -> None:
    """Boxes of one group: a line is an outline exactly where one side of it shows nothing at all."""
    lines = Picture(found.solids("all"), SEEN_FROM["right"]).lines()
    starts, ends = ends_of(lines)
    _, left, right = beside(starts, ends, np.array([0.1, 0.5, 0.9]))
    empty = (met(found, left, "right") == NONE) | (met(found, right, "right") == NONE)
    assert np.array_equal(empty.reshape(-1, 3), np.repeat([[each.outline] for each in lines], 3, axis=1))


@CASES
@given(boxes(), sides)
def test_no_place_is_drawn_twice(found: Boxes, seen_from: str) -> None:
    starts, ends = ends_of(Picture(found.solids(), SEEN_FROM[seen_from]).lines())
    ways = ends - starts
    unit = ways / np.hypot(ways[:, 0], ways[:, 1])[:, None]
    gap = starts[None] - starts[:, None]
    apart = np.abs(unit[:, None, 0] * gap[..., 1] - unit[:, None, 1] * gap[..., 0])
    turn = np.abs(unit[:, None, 0] * unit[None, :, 1] - unit[:, None, 1] * unit[None, :, 0])
    first = np.sum(gap * unit[:, None], axis=2)
    last = first + np.sum(ways[None] * unit[:, None], axis=2)
    low, high = np.minimum(first, last), np.maximum(first, last)
    long = np.hypot(ways[:, 0], ways[:, 1])[:, None]
    shared = np.minimum(high, long) - np.maximum(low, 0.0)
    twice = (turn < 1e-6) & (apart < BESIDE) & (shared > BESIDE)
    assert not np.any(twice & ~np.eye(len(starts), dtype=bool))


@CASES
@given(boxes())
def test_mirrored_boxes_give_the_mirrored_picture(found: Boxes) -> None:
    turned = np.array([-1.0, 1.0, 1.0])
    one, other = found.low * turned, found.high * turned
    there = Boxes(np.minimum(one, other), np.maximum(one, other))
    drawn = np.concatenate(ends_of(Picture(found.solids(), SEEN_FROM["right"]).lines()), axis=1)
    mirrored = np.concatenate(ends_of(Picture(there.solids(), SEEN_FROM["left"]).lines()), axis=1)
    mirrored = mirrored * np.array([-1.0, 1.0, -1.0, 1.0])
    apart = np.minimum(
        np.abs(drawn[:, None] - mirrored[None]).max(axis=2),
        np.abs(drawn[:, None] - mirrored[None][..., [2, 3, 0, 1]]).max(axis=2),
    )
    assert len(drawn) == len(mirrored)
    assert apart.min(axis=1).max() < BESIDE
    assert apart.min(axis=0).max() < BESIDE
