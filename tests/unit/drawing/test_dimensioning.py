from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.drawing.dimensioning import (
    label_of,
    lay_out_dimension,
    lay_out_leader,
    lay_out_running,
    spread_apart,
    stacked,
)
from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.pens import ARROW_LENGTH, ARROW_WIDTH
from drawerwright.drawing.primitives import Lines, Plain, Polyline, Text
from drawerwright.drawing.scene import Dimension, Leader, RunningDimension


def _horizontal(length: float, **more: object) -> Dimension:
    return Dimension("side_gap", length, (0, 0), (length, 0), "horizontal", 0, 6, **more)  # type: ignore[arg-type]


def _only(items: tuple[Plain, ...], kind: type) -> list:
    return [item for item in items if isinstance(item, kind)]


def test_arrows_are_closed_triangles_of_the_drawn_size_with_their_tips_on_the_measured_points() -> None:
    arrows = _only(lay_out_dimension(_horizontal(80)), Polyline)
    assert [arrow.points[0] for arrow in arrows] == [(0, 6), (80, 6)]
    for arrow in arrows:
        tip, one, two = arrow.points
        assert arrow.closed
        assert math.dist(one, two) == pytest.approx(ARROW_WIDTH)
        assert abs(one[0] - tip[0]) == pytest.approx(ARROW_LENGTH)


def test_in_a_wide_space_the_arrows_stand_inside_and_the_line_breaks_for_the_number() -> None:
    items = lay_out_dimension(_horizontal(80))
    (number,) = _only(items, Text)
    level = [s for s in _only(items, Lines)[0].segments if s[0][1] == s[1][1] == 6]
    assert level[0][0][0] == 0
    assert level[-1][1][0] == 80
    assert level[0][1][0] < number.extent.left
    assert level[1][0][0] > number.extent.right


@pytest.mark.parametrize(("side", "before"), [("start", True), ("end", False)])
def test_in_a_narrow_space_arrows_and_number_stand_outside_on_the_wanted_side(
    side: str, before: bool
) -> None:
    items = lay_out_dimension(_horizontal(0.7, label_side=side))
    (number,) = _only(items, Text)
    assert (number.extent.right < 0) is before
    assert (number.extent.left > 0.7) is not before
    one, two = _only(items, Polyline)
    assert one.points[1][0] < 0
    assert two.points[1][0] > 0.7


@given(st.floats(0.05, 300), st.sampled_from(["horizontal", "vertical", "aligned"]))
def test_no_dimension_line_runs_through_its_number(length: float, direction: str) -> None:
    ends = {"horizontal": (length, 0.0), "vertical": (0.0, length), "aligned": (length * 0.8, length * 0.6)}
    dimension = Dimension("box_length", length, (0, 0), ends[direction], direction, 0, 6)  # type: ignore[arg-type]
    items = lay_out_dimension(dimension)
    (number,) = _only(items, Text)
    area = number.extent.grown(0.05)
    for lines in _only(items, Lines):
        for (x1, y1), (x2, y2) in lines.segments:
            for k in range(21):
                x, y = x1 + (x2 - x1) * k / 20, y1 + (y2 - y1) * k / 20
                assert not (area.left < x < area.right and number.foot[1] < y < area.top), (direction, length)


def test_the_order_of_the_two_points_does_not_matter() -> None:
    forward = lay_out_dimension(Dimension("a", 5, (0, 3), (50, 0), "horizontal", 0, 6))
    backward = lay_out_dimension(Dimension("a", 5, (50, 0), (0, 3), "horizontal", 0, 6))
    assert forward == backward


def test_a_number_is_the_text_given_or_its_value_to_a_tenth_but_a_board_to_a_hundredth() -> None:
    assert label_of(_horizontal(519.5)) == "519.5"
    assert label_of(_horizontal(500.0)) == "500"
    assert label_of(_horizontal(8.004)) == "8"
    assert label_of(_horizontal(54.29)) == "54.3"
    assert label_of(_horizontal(519.55)) == "519.6"
    assert label_of(_horizontal(-0.004)) == "0"
    board = Dimension("front_thickness", 15.875, (0, 0), (15.875, 0), "horizontal", 0, 6)
    assert label_of(board) == "15.88"
    assert label_of(_horizontal(5.0, text="3/16")) == "3/16"


@given(
    st.lists(st.floats(0, 100), min_size=1, max_size=12).map(sorted),
    st.lists(st.floats(1, 12), min_size=12, max_size=12),
)
def test_numbers_spread_apart_never_touch_and_keep_their_order(
    wanted: list[float], widths: list[float]
) -> None:
    widths = widths[: len(wanted)]
    places = spread_apart(wanted, widths, 1.0)
    for i in range(len(places) - 1):
        assert places[i + 1] - places[i] >= (widths[i] + widths[i + 1]) / 2 + 1.0 - 1e-9


def test_numbers_with_room_stay_under_their_marks() -> None:
    assert spread_apart([0, 40, 90], [5, 5, 5], 1.0) == [0, 40, 90]


def test_a_crowd_of_numbers_stands_about_its_mean() -> None:
    assert spread_apart([10, 10, 10], [4, 4, 4], 1.0) == pytest.approx([5, 10, 15])


def test_a_running_dimension_shows_the_datum_as_nothing_and_every_value() -> None:
    running = RunningDimension("first_hole", (0, 3), ((5, 3), (10, 3)), (37.0, 69.0), 0, -8)
    numbers = _only(lay_out_running(running), Text)
    assert [number.text for number in numbers] == ["0", "37", "69"]
    for left, right in pairwise(numbers):
        assert left.extent.right < right.extent.left


def test_a_leader_to_the_left_ends_its_words_at_the_shoulder() -> None:
    items = lay_out_leader(Leader((0, 0), (-5, 5), -4, "hook bore", "6 mm"))
    first, second = _only(items, Text)
    assert first.anchor == second.anchor == "end"
    assert first.extent.right < -9
    assert second.extent.top < first.extent.bottom + 1


def test_stacked_dimensions_share_a_row_when_they_form_a_chain() -> None:
    chain = [
        Dimension("side_gap", 5, (0, 0), (5, 0), "horizontal"),
        Dimension("outside_width", 90, (5, 0), (95, 0), "horizontal"),
        Dimension("side_gap", 5, (95, 0), (100, 0), "horizontal"),
        Dimension("opening_width", 100, (0, 0), (100, 0), "horizontal"),
    ]
    placed = stacked(chain, 20.0)
    assert len({each.offset for each in placed[:3]}) == 1
    assert placed[3].offset > placed[0].offset > 0
    assert {each.base for each in placed} == {20.0}


@given(
    st.lists(st.tuples(st.integers(0, 40), st.integers(1, 40)), min_size=1, max_size=8),
    st.booleans(),
)
def test_stacked_dimensions_never_overlap_in_one_row_and_longer_ones_stand_further_out(
    spans: list[tuple[int, int]], below: bool
) -> None:
    dimensions = [Dimension("a", n, (s, 0), (s + n, 0), "horizontal") for s, n in spans]
    placed = stacked(dimensions, 0.0, below_or_left=below)
    for i, (s1, n1) in enumerate(spans):
        for j, (s2, n2) in enumerate(spans):
            if i != j and s1 < s2 + n2 and s2 < s1 + n1:
                assert placed[i].offset != placed[j].offset
                if n1 < n2:
                    assert abs(placed[i].offset) < abs(placed[j].offset)
        assert (placed[i].offset < 0) is below


def test_lettering_is_measured_in_the_font_that_is_drawn() -> None:
    """Advances read off the font: 0 is 509, 5 is 478, full stop 242 of 1000 units (semibold)."""
    assert text_width("50.5", 10) == pytest.approx(4.78 + 5.09 + 2.42 + 4.78)
