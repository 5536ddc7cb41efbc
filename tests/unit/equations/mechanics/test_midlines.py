"""Middle lines of rolled sections: flats and bends, and what cannot be rolled."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drawerwright.equations.mechanics.midlines import (
    Bend,
    Flat,
    Point,
    elements_of,
    midline_faults,
)

CHANNEL: list[Point] = [(22.0, 12.0), (0.0, 12.0), (0.0, 0.0), (22.0, 0.0)]


def test_a_channel_is_flats_and_quarter_turns() -> None:
    flat, bend, web, other, foot = elements_of(CHANNEL, (1.4,), 1.2)
    assert isinstance(flat, Flat)
    assert flat.length == pytest.approx(22.0 - 2.0)
    assert isinstance(bend, Bend)
    assert bend.radius == pytest.approx(2.0)
    assert bend.turns == pytest.approx(math.pi / 2)
    assert bend.centre == pytest.approx((2.0, 10.0))
    assert isinstance(web, Flat)
    assert web.length == pytest.approx(8.0)
    assert isinstance(other, Bend)
    assert foot.length == pytest.approx(20.0)


def test_only_the_outer_flats_have_free_edges() -> None:
    flats = [one for one in elements_of(CHANNEL, (1.4,), 1.2) if isinstance(one, Flat)]
    assert [(one.held_at_start, one.held_at_end) for one in flats] == [
        (False, True), (True, True), (True, False),
    ]  # fmt: skip


def test_two_points_are_one_flat() -> None:
    (flat,) = elements_of([(0.0, 0.0), (3.0, 4.0)], (0.0,), 1.0)
    assert flat.length == 5.0


def test_a_corner_that_does_not_turn_is_none() -> None:
    flats = elements_of([(0.0, 0.0), (10.0, 0.0), (20.0, 0.0)], (3.0,), 1.0)
    assert [type(one) for one in flats] == [Flat]
    assert flats[0].length == 20.0


def test_radii_may_differ_from_corner_to_corner() -> None:
    bends = [one for one in elements_of(CHANNEL, (1.0, 3.0), 2.0) if isinstance(one, Bend)]
    assert [one.radius for one in bends] == [2.0, 4.0]
    assert [one.inside_radius for one in bends] == [1.0, 3.0]


@given(
    legs=st.lists(
        st.tuples(st.floats(8, 40), st.sampled_from([-90.0, -45.0, 45.0, 90.0])), min_size=1, max_size=5
    ),
    radius=st.floats(0.0, 3.0),
    thickness=st.floats(0.5, 2.0),
)
def test_flats_and_bends_follow_one_another_without_a_gap_or_a_kink(
    legs: list[tuple[float, float]], radius: float, thickness: float
) -> None:
    points, direction = [(0.0, 0.0), (15.0, 0.0)], 0.0
    for length, turn in legs:
        direction += math.radians(turn)
        x, y = points[-1]
        points.append((x + length * math.cos(direction), y + length * math.sin(direction)))
    assume(not midline_faults(points, (radius,), thickness))
    for one, other in pairwise(elements_of(points, (radius,), thickness)):
        (end, leaves), (start, enters) = _end(one, last=True), _end(other, last=False)
        assert end == pytest.approx(start, abs=1e-9)
        assert math.cos(leaves - enters) == pytest.approx(1.0)


def _end(one: Flat | Bend, *, last: bool) -> tuple[Point, float]:
    """One end of an element, and the direction in which the line runs there."""
    if isinstance(one, Flat):
        point = one.end if last else one.start
        return point, math.atan2(one.end[1] - one.start[1], one.end[0] - one.start[0])
    angle = one.begins + (one.turns if last else 0.0)
    point = (
        one.centre[0] + one.radius * math.cos(angle),
        one.centre[1] + one.radius * math.sin(angle),
    )
    return point, angle + math.copysign(math.pi / 2, one.turns)


@pytest.mark.parametrize(
    ("points", "radii", "key", "place", "word"),
    [
        ([], (0.0,), "points", None, "cannot make a line"),
        ([(0, 0)], (0.0,), "points", None, "two or more"),
        ([(0, 0), (0, 0), (5, 0)], (0.0,), "points", 1, "same place"),
        ([(0, 0), (20, 0), (5, 0)], (0.0,), "points", 1, "straight back"),
        (CHANNEL, (1.0, 1.0, 1.0), "radii", None, "3 values"),
        (CHANNEL, (6.0,), "radii", None, "too large at corner 2"),
        (CHANNEL, (1.0, 30.0), "radii", 1, "too large at corner 3"),
        ([(0, 0), (20, 0), (20, 20), (10, 20), (10, -5)], (0.5,), "points", 4, "into itself"),
        ([(0, 0), (20, 0), (20, 5), (0, 5), (0, 0.5)], (0.5,), "points", 4, "into itself"),
    ],
)
def test_what_cannot_be_rolled_is_told_at_its_key(
    points: list[Point], radii: tuple[float, ...], key: str, place: int | None, word: str
) -> None:
    thickness = 1.2
    faults = midline_faults(points, radii, thickness)
    assert (faults[0].key, faults[0].place) == (key, place)
    assert word in faults[0].says
    assert faults[0].try_
    with pytest.raises(ValueError, match=key):
        elements_of(points, radii, thickness)


@pytest.mark.parametrize(("radii", "most"), [((5.0,), 3.5), ((2.0, 7.0), 5.0)])
def test_the_largest_radius_that_a_leg_takes_is_told_and_taken(radii: tuple[float, ...], most: float) -> None:
    """A web of 8 between two bends in 1 mm sheet: 3.5 each, or what the other leaves."""
    points = [(20.0, 8.0), (0.0, 8.0), (0.0, 0.0), (20.0, 0.0)]
    (fault,) = midline_faults(points, radii, 1.0)
    assert fault.try_ == f"at most {most:g}"
    assert midline_faults(points, (*radii[:-1], most), 1.0) == []
    assert midline_faults(points, (*radii[:-1], most + 0.01), 1.0) != []


def test_one_radius_too_large_for_every_corner_is_one_fault_with_what_the_tightest_leg_takes() -> None:
    points = [(2.0, 12.0), (0.0, 12.0), (0.0, 0.0), (24.0, 0.0), (24.0, 12.0), (22.0, 12.0)]
    (fault,) = midline_faults(points, (30.0,), 1.2)
    assert (fault.key, fault.place) == ("radii", None)
    most = float(fault.try_.removeprefix("at most "))
    assert most == pytest.approx(1.4)
    assert midline_faults(points, (most,), 1.2) == []


def test_no_radius_of_nearly_nothing_is_advised() -> None:
    """A leg of 1.2 before a bend in sheet of 2.4 leaves an inside radius of nothing."""
    (fault,) = midline_faults([(0.0, 0.0), (1.2, 0.0), (1.2, 20.0)], (1.0,), 2.4 - 1e-12)
    assert fault.try_ == "thinner sheet, or longer legs"


def test_legs_that_lie_on_each_other_a_thickness_apart_are_a_hem() -> None:
    assert midline_faults([(0.0, 0.0), (20.0, 0.0), (20.0, 1.2), (10.0, 1.2)], (0.0,), 1.2) == []
