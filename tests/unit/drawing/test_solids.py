"""Solids, and parts made of several that touch."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.hidden_lines import Picture
from drawerwright.drawing.solids import Solid, block, joined, prism
from drawerwright.drawing.views.isometric import SEEN_FROM

VIEW = SEEN_FROM["right"]


def _length(solids: tuple[Solid, ...]) -> float:
    return float(sum(np.linalg.norm(each.ends - each.starts, axis=1).sum() for each in solids))


def test_a_block_has_twelve_edges_of_its_own_lengths() -> None:
    solid = block("board", (0, 500), (140, 0), (-16, 0))
    assert len(solid.starts) == 12
    assert _length((solid,)) == pytest.approx(4 * (500 + 140 + 16))


def test_a_block_without_an_extent_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="'board' has no extent"):
        block("board", (0, 500), (140, 140), (-16, 0))


def test_a_prism_may_run_either_way_round_and_along_any_axis() -> None:
    outline = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 50.0))
    for axis in ("x", "y", "z"):
        one, other = prism("p", outline, axis, (5, 9)), prism("p", outline[::-1], axis, (9, 5))  # type: ignore[arg-type]
        assert _length((one,)) == pytest.approx(_length((other,)))
        inside = np.insert([20.0, 20.0], "xyz".index(axis), 7.0)
        assert np.all(one.normals @ inside < one.offsets)
        assert np.all(other.normals @ inside < other.offsets)
        assert len(one.starts) == 12


def test_a_polygon_that_is_not_convex_is_refused() -> None:
    with pytest.raises(ValueError, match="convex"):
        prism("p", ((0, 0), (40, 0), (10, 10), (0, 40)), "y", (0, 5))


def test_two_halves_of_a_board_show_no_seam() -> None:
    whole = block("board", (0, 500), (0, 140), (0, 16))
    halves = joined(
        (block("board", (0, 200), (0, 140), (0, 16)), block("board", (200, 500), (0, 140), (0, 16)))
    )
    assert _length(halves) == pytest.approx(_length((whole,)))
    assert len(Picture(halves, VIEW).lines()) == len(Picture([whole], VIEW).lines()) == 9


def test_the_inner_corner_of_an_angle_is_an_edge() -> None:
    """An L of two boards: its section has six corners, so six edges run along it and six around each end."""
    angle = joined((block("angle", (0, 40), (0, 10), (0, 100)), block("angle", (0, 10), (10, 50), (0, 100))))
    around = 40 + 10 + 30 + 40 + 10 + 50
    assert _length(angle) == pytest.approx(6 * 100 + 2 * around)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(*[st.floats(0.05, 0.95)] * 3), min_size=1, max_size=4))
def test_a_board_cut_anyhow_and_joined_again_looks_as_before(cuts: list[tuple[float, float, float]]) -> None:
    pieces = [((0.0, 300.0), (0.0, 90.0), (0.0, 60.0))]
    for k, shares in enumerate(cuts):
        axis = k % 3
        low, high = pieces[0][axis]
        at = low + (high - low) * shares[axis]
        one, other = list(pieces[0]), list(pieces[0])
        one[axis], other[axis] = (low, at), (at, high)
        pieces = [*pieces[1:], tuple(one), tuple(other)]  # type: ignore[list-item]
    parts = joined([block("board", *piece) for piece in pieces])
    whole = Picture([block("board", (0, 300), (0, 90), (0, 60))], VIEW).lines()
    found = Picture(parts, VIEW).lines()
    assert len(found) == len(whole)
    expected = sorted(np.hypot(a.end[0] - a.start[0], a.end[1] - a.start[1]) for a in whole)
    lengths = sorted(np.hypot(a.end[0] - a.start[0], a.end[1] - a.start[1]) for a in found)
    assert np.allclose(lengths, expected, atol=0.01)
