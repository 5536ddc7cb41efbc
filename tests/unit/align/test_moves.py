"""Fronts lined up: signs, ends of adjusters, whole marks, stacks, mirrors."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.align import AlignedFront, align_document, align_job
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading
from drawerwright.model.job import Job

from .align_builders import INSET, all_gaps, gaps_of, mirrored

from tests.conftest import plain_drawer, plain_family  # isort: skip

FitMany = Callable[..., FittedJob]
EVEN = [3.0] * 8 + [0.0] * 4


@pytest.fixture
def one(fit_many: FitMany) -> FittedJob:
    """One inset front."""
    return fit_many({"front": INSET})


def stack_job(count: int = 3, **keys: Any) -> FittedJob:
    """Fronts of one cabinet, one over the other."""
    drawers = [
        plain_drawer(id=f"B-{row}", cabinet="B", row=row, front={"style": "overlay"},
                     opening={"height": 168, "floor": (row - 1) * 184}, **keys)
        for row in range(1, count + 1)
    ]  # fmt: skip
    return fit_job(Job.model_validate({"cabinet": [{"id": "B"}], "drawer": drawers}), [plain_family()])


def turned(front: AlignedFront) -> dict[tuple[str, str], int]:
    """Marks by hand and adjuster."""
    marks: dict[tuple[str, str], int] = {}
    for move in front.moves:
        for hand in ("left", "right") if move.side == "both" else (move.side,):
            marks[hand, move.adjuster] = marks.get((hand, move.adjuster), 0) + move.marks
    return marks


def only(fitted: FittedJob, gaps: FrontGaps, **keys: Any) -> AlignedFront:
    return align_job(fitted, [gaps], **keys).fronts[0]


def test_a_front_that_stands_even_is_left_alone(one: FittedJob) -> None:
    front = only(one, all_gaps("A", EVEN))
    assert front.moves == ()
    assert front.left_over == ()
    assert (front.pose.x, front.pose.roll) == pytest.approx((0.0, 0.0))


def test_a_front_too_far_right_and_low_is_turned_left_and_raised(one: FittedJob) -> None:
    front = only(one, gaps_of(left_top=4, left_bottom=4, right_top=2, right_bottom=2, top_left=4, top_right=4,
                              bottom_left=2, bottom_right=2))  # fmt: skip
    assert (front.pose.x, front.pose.y) == pytest.approx((1.0, -1.0))
    assert turned(front) == {
        ("left", "side"): -4, ("right", "side"): -4, ("left", "height"): 4, ("right", "height"): 4,
    }  # fmt: skip
    assert [move.says for move in front.moves] == [
        "both brackets: raise 4 marks (1 mm)",
        "both brackets: 4 marks to the left (1 mm)",
    ]
    assert [front.expected[name] for name in GAP_NAMES[:8]] == pytest.approx([3.0] * 8)
    assert front.expected["out_top_left"] is None
    assert (front.pose.z, front.pose.yaw, front.pose.pitch) == (None, None, None)


def test_a_front_whose_left_end_hangs_is_raised_at_the_left(one: FittedJob) -> None:
    front = only(one, gaps_of(top_left=4, top_right=3, bottom_left=2, bottom_right=3))
    assert front.pose.roll is not None
    assert front.pose.roll > 0
    marks = turned(front)
    assert marks["left", "height"] > 2
    assert marks.get(("right", "height"), 0) <= 1


def test_a_corner_that_stands_in_is_brought_out_by_depth(one: FittedJob) -> None:
    front = only(one, gaps_of(out_top_left=-1, out_bottom_left=-1, out_top_right=0, out_bottom_right=0))
    assert front.pose.yaw is not None
    assert front.pose.yaw < 0
    assert turned(front) == {("left", "depth"): 4}
    expected = [front.expected[name] for name in GAP_NAMES[8:]]
    assert all(value is not None and abs(value) < 0.3 for value in expected)


def test_an_adjuster_that_only_lifts_leaves_a_front_that_stands_high(one: FittedJob) -> None:
    settings = {("left", "height"): 0, ("right", "height"): 0}
    front = only(one, gaps_of("A", settings, top_left=1, top_right=1, bottom_left=5, bottom_right=5))
    assert front.moves == ()
    (left,) = front.left_over
    assert (left.what, left.size) == ("front high", pytest.approx(2.0, rel=0.01))
    assert left.cure == "fix the front again 2 mm lower"
    assert (left.grade, left.leave) == ("", False)
    assert any(
        "at the end: to meet the readings, lower 8 marks more" in warning for warning in front.warnings
    )


def test_what_is_left_within_the_grade_may_stay(one: FittedJob) -> None:
    gaps = gaps_of(top_left=2.3, top_right=2.3, bottom_left=3.7, bottom_right=3.7)
    (left,) = only(one, gaps).left_over
    assert (left.grade, left.leave, left.size) == ("custom", True, pytest.approx(0.7, abs=0.01))
    assert left.cure.startswith("leave: gaps 1.4 mm unlike are within the gap grade (custom, 1.6 mm)")
    assert not only(one, gaps, grade="premium").left_over[0].leave


def test_a_lift_that_stands_already_can_be_taken_back(one: FittedJob) -> None:
    gaps = {"top_left": 2, "top_right": 2, "bottom_left": 4, "bottom_right": 4}
    settings = {("left", "height"): 6, ("right", "height"): 2}
    front = only(one, gaps_of("A", settings, **gaps))
    assert turned(front)["left", "height"] < 0
    assert turned(front)["right", "height"] >= -2
    assert all("not told" not in warning for warning in front.warnings)


def test_moves_are_whole_marks_of_the_family(one: FittedJob) -> None:
    front = only(one, all_gaps("A", [3.3, 3.9, 2.7, 2.2, 3.6, 4.1, 2.3, 2.2, -0.6, -0.1, -0.7, 0.1]))
    assert front.moves
    assert all(move.mm == pytest.approx(move.marks * 0.25) for move in front.moves)
    before = sum((value - 3) ** 2 for value in list(front.measured.values())[:8] if value is not None)
    after = sum((value - 3) ** 2 for value in list(front.expected.values())[:8] if value is not None)
    assert after < before / 3


def test_expected_gaps_after_the_last_step_are_those_expected_in_the_end(one: FittedJob) -> None:
    front = only(one, all_gaps("A", [4, 4, 2, 2, 4, 3.5, 2, 2.5, -0.5, 0, -0.5, 0]))
    assert len(front.steps) == len(front.moves) > 1
    assert front.steps[-1].expected == pytest.approx(front.expected)
    assert front.steps[0].expected != pytest.approx(front.expected)


def test_side_adjusters_that_stand_too_unlike_are_each_brought_alike_the_shorter_way(one: FittedJob) -> None:
    front = only(
        one, gaps_of("A", {("left", "side"): 4}, left_top=3, left_bottom=3, right_top=3, right_bottom=3)
    )
    assert [(move.side, move.marks) for move in front.moves] == [("left", -2), ("right", 2)]
    marks = turned(front)
    assert marks["left", "side"] + 4 == marks["right", "side"]
    assert [front.expected[name] for name in GAP_NAMES[:4]] == pytest.approx([3.0] * 4)


@pytest.mark.parametrize(
    ("carriage", "word"), [("side-mounted", "side-mounted"), ("concealed", "no adjusters")]
)
def test_without_adjusters_it_is_said_and_nothing_is_turned(carriage: str, word: str) -> None:
    nothing = {"side": [0, 0], "height": [0, 0], "depth": [0, 0]}
    family = plain_family(carriage=carriage, inside_width_deduction=57.4 if carriage != "concealed" else 42,
                          **({"adjust": nothing} if carriage == "concealed" else {}))  # fmt: skip
    fitted = fit_job(Job.model_validate({"drawer": [plain_drawer(front=INSET)]}), [family])
    front = only(fitted, gaps_of(left_top=4, right_top=2))
    assert front.moves == ()
    assert any(word in warning for warning in front.warnings)
    assert front.pose.x == pytest.approx(1.0, abs=0.03)


def test_a_drawer_that_does_not_fit_is_said_and_its_pose_told_all_the_same(fit_many: FitMany) -> None:
    fitted = fit_many({"front": INSET, "opening": {"depth": 100}})
    front = only(fitted, gaps_of(left_top=4, right_top=2))
    assert any("no slide fits" in warning for warning in front.warnings)
    assert front.moves == ()


def test_a_tilt_that_the_family_has_brings_a_leaning_top_out() -> None:
    family = plain_family(tilt={"travel": [-2, 2], "step": 0.5})
    fitted = fit_job(Job.model_validate({"drawer": [plain_drawer(front=INSET)]}), [family])
    front = only(
        fitted, gaps_of(out_top_left=-0.6, out_top_right=-0.6, out_bottom_left=0, out_bottom_right=0)
    )
    assert turned(front)["left", "tilt"] > 0
    assert "both rear hooks: " in "".join(move.says for move in front.moves)


def test_a_stack_shares_its_even_gap() -> None:
    fitted = stack_job()
    low = {"left_top": 3.0, "right_top": 3.0}
    gaps = [
        gaps_of("B-3", top_left=5, top_right=5, **low),
        gaps_of("B-2", top_left=3, top_right=3, **low),
        gaps_of("B-1", top_left=3, top_right=3, bottom_left=1, bottom_right=1, **low),
    ]
    aligned = align_job(fitted, gaps)
    assert [front.drawer for front in aligned.fronts] == ["B-3", "B-2", "B-1"]
    assert [turned(front)["left", "height"] for front in aligned.fronts] == [8, 8, 8]
    for front in aligned.fronts:
        assert [front.expected[name] for name in GAP_NAMES[4:8]] == pytest.approx([3.0] * 4)


def test_the_gap_between_two_fronts_may_be_told_at_either() -> None:
    fitted = stack_job(2)
    lower = {"bottom_left": 3.0, "bottom_right": 3.0}
    upper = {"top_left": 4.0, "top_right": 4.0}
    at_lower = align_job(fitted, [gaps_of("B-1", top_left=2, top_right=2, **lower), gaps_of("B-2", **upper)])
    at_upper = align_job(
        fitted, [gaps_of("B-1", **lower), gaps_of("B-2", bottom_left=2, bottom_right=2, **upper)]
    )
    assert align_document(at_lower) == align_document(at_upper)
    assert at_lower.fronts[0].expected["top_left"] == at_lower.fronts[1].expected["bottom_left"]


def test_gaps_that_are_alike_are_left_by_even_and_moved_by_house() -> None:
    fitted = stack_job(2)
    gaps = [gaps_of("B-2"), gaps_of("B-1", top_left=2, top_right=2, bottom_left=2, bottom_right=2)]
    gaps[0] = gaps_of("B-2", left_top=3, right_top=3)
    assert all(not front.moves for front in align_job(fitted, gaps).fronts)
    upper, lower = align_job(fitted, gaps, target="house").fronts
    assert turned(lower)["left", "height"] == 4
    assert turned(upper)["left", "height"] == 8


def test_one_side_alone_is_moved_to_the_designed_gap(one: FittedJob) -> None:
    front = only(one, gaps_of(left_top=4, left_bottom=4))
    assert turned(front) == {("left", "side"): -4, ("right", "side"): -4}
    assert front.expected["right_top"] is None


def test_a_reading_that_is_to_be_met_is_met(one: FittedJob) -> None:
    gaps = gaps_of(left_top=3, left_bottom=3, right_top=3, right_bottom=3)
    front = only(one, gaps, line={("A", "left_top"): 2.0, ("A", "left_bottom"): 2.0})
    assert front.expected["left_top"] == pytest.approx(2.0, abs=0.15)
    assert turned(front) == {("left", "side"): -4, ("right", "side"): -4}


def test_uncertain_readings_count_less(one: FittedJob) -> None:
    sure = {"left_top": Reading(4.0), "right_top": Reading(2.0)}
    sure |= {name: Reading(3.0) for name in ("top_left", "top_right", "bottom_left", "bottom_right")}
    unsure = {"left_bottom": Reading(3.0, 1.0), "right_bottom": Reading(3.0, 1.0)}
    front = only(one, FrontGaps("A", {**sure, **unsure}))  # type: ignore[dict-item]
    assert turned(front)["left", "side"] == -4


def values_of(draw: st.DrawFn, low: float, high: float) -> float:
    return draw(st.integers(int(low * 1000), int(high * 1000))) / 1000 + 0.0003


@st.composite
def readings(draw: st.DrawFn, drawer: str, upper: bool) -> FrontGaps:
    told = {
        name: values_of(draw, -1.2, 1.2) if name.startswith("out") else values_of(draw, 1.5, 4.5)
        for name in GAP_NAMES
        if not (upper and name.startswith("bottom"))
    }
    return gaps_of(drawer, **told)


@given(readings("B-1", upper=False), readings("B-2", upper=True))
def test_a_mirrored_stack_is_lined_up_by_mirrored_moves(lower: FrontGaps, upper: FrontGaps) -> None:
    fitted = stack_job(2)
    ours = align_job(fitted, [lower, upper]).fronts
    theirs = align_job(fitted, [mirrored(lower), mirrored(upper)]).fronts
    swap = {"left": "right", "right": "left"}
    for front, seen in zip(ours, theirs, strict=True):
        expected = {
            (swap[hand], adjuster): -marks if adjuster == "side" else marks
            for (hand, adjuster), marks in turned(front).items()
        }
        assert turned(seen) == expected


def test_the_document_has_the_keys_of_the_contract(one: FittedJob) -> None:
    told = align_document(align_job(one, [all_gaps("A", [4, 4, 2, 2, 3, 3, 3, 3, 0, 0, 0, 0])]))
    assert told["schema"] == "drawerwright/align/1"
    front: Mapping[str, Any] = told["fronts"][0]
    assert list(front["pose"]) == ["x", "y", "z", "roll", "yaw", "pitch"]
    assert set(front["expected"]) == set(GAP_NAMES)
    assert {"side", "adjuster", "marks", "mm", "says"} <= set(front["moves"][0])
    assert {"drawer", "pose", "moves", "expected", "left_over"} <= set(front)
