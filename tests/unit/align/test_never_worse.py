"""Moves cure what was found and bring nothing new: no roll for a square front, no gap closed on the way."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from drawerwright.align import AlignedFront, align_job
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading
from drawerwright.model.job import Job

from .align_builders import gaps_of
from .test_moves import stack_job, turned

from tests.conftest import plain_drawer, plain_family  # isort: skip

SIDES = GAP_NAMES[:4]


def overlay(**family: object) -> FittedJob:
    """One overlay front 562 by 168 in its opening."""
    job = {"drawer": [plain_drawer(front={"style": "overlay"}, opening={"height": 168})]}
    return fit_job(Job.model_validate(job), [plain_family(**family)])


@pytest.fixture(scope="module")
def one() -> FittedJob:
    return overlay()


def sides(
    fitted: FittedJob, values: Sequence[float], settings: object = None, **keys: object
) -> AlignedFront:
    told = dict(zip(SIDES, values, strict=False))
    return align_job(fitted, [gaps_of("A", settings, **told)], **keys).fronts[0]  # type: ignore[arg-type]


@pytest.mark.parametrize("values", [(0, 0, 6, 6), (1, 1, 5, 5), (0.5, 0.5)])
def test_a_square_front_is_not_rolled_to_come_further_sideways(
    one: FittedJob, values: Sequence[float]
) -> None:
    front = sides(one, values)
    assert turned(front) == {("left", "side"): 6, ("right", "side"): 6}
    assert front.expected["left_top"] == pytest.approx(values[0] + 1.5)
    assert front.expected["left_top"] == pytest.approx(front.expected["left_bottom"])


def test_a_square_front_is_not_rolled_with_coarse_marks_nor_from_other_settings(one: FittedJob) -> None:
    step = {"side": 0.4, "height": 0.4, "depth": 0.4}
    coarse = sides(overlay(adjust_step=step), (0, 0, 6, 6))
    assert {adjuster for _, adjuster in turned(coarse)} == {"side"}
    settings = {("left", "side"): 4, ("right", "side"): 4}
    assert turned(sides(one, (0, 0, 6, 6), settings)) == {("left", "side"): 2, ("right", "side"): 2}
    line = sides(one, (2, 2, 5, 5), line={("A", "left_top"): 4.0})
    assert turned(line) == {("left", "side"): 6, ("right", "side"): 6}
    whole = dict(zip(GAP_NAMES[:8], (0.5, 0.5, 5.5, 5.5, 3, 3, 3, 3), strict=True))
    measured = align_job(one, [gaps_of("A", **whole)]).fronts[0]
    assert turned(measured) == {("left", "side"): 6, ("right", "side"): 6}


def test_a_roll_known_from_the_sides_alone_is_cured_and_no_slide_is_blamed(one: FittedJob) -> None:
    front = sides(one, (2.5, 3.5, 3.5, 2.5))
    assert turned(front)["left", "height"] in (9, 10)
    values = [front.expected[name] for name in SIDES]
    assert max(values) - min(values) < 0.6  # type: ignore[type-var, operator]
    assert front.left_over == ()
    assert not any("at the end" in warning for warning in front.warnings)
    assert any("its middle rises" in warning for warning in front.warnings)


def test_unsure_readings_cure_a_roll_as_far_as_the_adjuster_goes(one: FittedJob) -> None:
    told = [Reading(0.5, 0.29), Reading(2.25, 0.14), Reading(4, 0.58), Reading(4, 0.5)]
    front = align_job(one, [FrontGaps("A", dict(zip(SIDES, told, strict=True)))]).fronts[0]
    assert turned(front)["left", "height"] > 9
    found, left = front.measured, front.expected
    assert abs(left["left_top"] - left["left_bottom"]) < abs(found["left_top"] - found["left_bottom"]) / 2  # type: ignore[operator]
    assert [one.what for one in front.left_over if "level" in one.what] == []


def test_two_ends_of_one_edge_are_brought_even_not_to_the_designed_gap(one: FittedJob) -> None:
    front = align_job(one, [gaps_of("A", top_left=2, top_right=4)]).fronts[0]
    left, right = front.expected["top_left"], front.expected["top_right"]
    assert left is not None
    assert right is not None
    assert abs(left - right) <= 0.25
    assert set(turned(front)) == {("right", "height")}


def test_no_gap_closes_on_the_way_where_another_order_keeps_it_open(one: FittedJob) -> None:
    settings = {("left", "side"): 3, ("right", "side"): -4}
    front = sides(one, (0.3, 0.3, 0.55, 0.55), settings)
    assert [(move.side, move.marks) for move in front.moves] == [("right", 4), ("left", -3)]
    for step in front.steps:
        assert all((step.expected[name] or 0.0) >= 0.0 for name in SIDES)
    assert not any("on the way" in warning for warning in front.warnings)


def test_a_gap_that_no_order_keeps_open_is_warned_of(one: FittedJob) -> None:
    settings = {("left", "side"): 3, ("right", "side"): -4}
    front = sides(one, (0.1, 0.1, 0.35, 0.35), settings)
    assert any((step.expected[name] or 0.0) < 0.0 for step in front.steps for name in SIDES)
    assert any("on the way the right gap" in warning for warning in front.warnings)


def test_the_upper_front_is_lifted_first_where_the_lower_would_run_into_it() -> None:
    told = [
        gaps_of("B-1", bottom_left=0.2, bottom_right=0.2, top_left=0.4, top_right=0.4),
        gaps_of("B-2", top_left=5.4, top_right=5.4),
    ]
    lower, upper = align_job(stack_job(2), told).fronts
    for step in (*lower.steps, *upper.steps):
        assert all(value is None or value >= 0.0 for value in list(step.expected.values())[:8])
    assert any(warning.startswith("turn B-2 before this front") for warning in lower.warnings)
    assert not any("before this front" in warning for warning in upper.warnings)


def test_slides_are_not_blamed_for_a_roll_that_adjusters_still_cure(one: FittedJob) -> None:
    front = sides(one, (0.9, 0, 5.1, 6))
    whats = [left.what for left in front.left_over]
    assert "slides not level with each other" not in whats
    assert any("then raise the right bracket" in left.cure for left in front.left_over)


def test_unlike_side_adjusters_come_alike_the_shorter_way(one: FittedJob) -> None:
    front = sides(one, (1, 1, 5, 5), {("left", "side"): 4, ("right", "side"): -3})
    assert [(move.side, move.marks) for move in front.moves] == [("right", 7), ("both", 2)]
    assert all((step.expected["left_top"] or 0.0) >= 1.0 for step in front.steps)


def test_gaps_visibly_unlike_are_not_left_as_within_the_grade(one: FittedJob) -> None:
    (left,) = sides(one, (0, 0, 6, 6)).left_over
    assert (left.what, left.size) == ("front off to the side", pytest.approx(1.5, abs=0.01))
    assert (left.leave, left.grade) == (False, "")
    (left,) = sides(one, (0.8, 0.8, 5.2, 5.2)).left_over
    assert left.size == pytest.approx(0.7, abs=0.01)
    assert left.leave
    assert "gaps 1.4 mm unlike" in left.cure


@pytest.mark.parametrize(("name", "value", "found"), [("left_top", 2.0, -1.0), ("out_top_left", -1.0, -1.0)])
def test_the_pose_told_of_one_reading_is_the_one_that_is_turned_away(
    one: FittedJob, name: str, value: float, found: float
) -> None:
    front = align_job(one, [gaps_of("A", **{name: value})]).fronts[0]
    told, unsure = (pose.x if name == "left_top" else pose.z for pose in (front.pose, front.uncertainty))
    assert told == pytest.approx(found, abs=0.001)
    assert unsure is not None
    assert unsure > 1.0
    assert {move.mm for move in front.moves} == {1.0}


def test_an_adjuster_at_its_end_is_told_with_the_way_it_would_go_on(one: FittedJob) -> None:
    delivered = {(hand, name): 0 for hand in ("left", "right") for name in ("side", "height", "depth")}

    def ends(**told: float) -> list[str]:
        warnings = align_job(one, [gaps_of("A", delivered, **told)]).fronts[0].warnings
        return [words for words in warnings if "at the end" in words]

    assert ends(left_top=0, left_bottom=0, right_top=6, right_bottom=6) == [
        "both side adjusters are at the end: to meet the readings, 6 marks more to the right"
    ]
    out = ends(out_top_left=1, out_top_right=1, out_bottom_left=1, out_bottom_right=1)
    assert out == [
        f"the {hand} depth adjuster is at the end: to meet the readings, 4 marks more in"
        for hand in ("left", "right")
    ]
    high = ends(top_left=2, top_right=2, bottom_left=4, bottom_right=4)
    assert all(words.endswith("lower 4 marks more") for words in high)
    assert len(high) == 2
