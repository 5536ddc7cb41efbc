"""Readings that cannot be used are said where they stand; what one more reading would help with."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from drawerwright.align import align_job
from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import FrontGaps, Reading

from .align_builders import INSET, all_gaps, gaps_of
from .test_moves import stack_job

FitMany = Callable[..., FittedJob]


@pytest.fixture
def one(fit_many: FitMany) -> FittedJob:
    """One inset front."""
    return fit_many({"front": INSET})


def faults_of(fitted: FittedJob, *gaps: FrontGaps) -> tuple[Fault, ...]:
    with pytest.raises(InputError) as refused:
        align_job(fitted, gaps)
    return refused.value.faults


def test_a_drawer_that_is_not_in_the_job_is_named_with_the_nearest() -> None:
    (fault,) = faults_of(stack_job(2), gaps_of("B-11", left_top=3))
    assert (fault.where, fault.says, fault.try_) == ("gaps B-11 drawer", "is no drawer of this job", "B-1")


def test_a_front_told_twice_is_said_with_its_first_row(one: FittedJob) -> None:
    (fault,) = faults_of(one, gaps_of(left_top=3), gaps_of(left_top=4))
    assert "has a row already, gaps A" in fault.says


def test_a_row_without_any_reading_is_said(one: FittedJob) -> None:
    (fault,) = faults_of(one, gaps_of())
    assert "all twelve are empty" in fault.says


def test_no_row_at_all_is_said(one: FittedJob) -> None:
    (fault,) = faults_of(one)
    assert "nothing was measured" in fault.says


def test_a_stack_told_out_of_order_is_said_with_its_rows() -> None:
    told = [gaps_of(name, left_top=3) for name in ("B-1", "B-3", "B-2")]
    (fault,) = faults_of(stack_job(3), *told)
    assert fault.where == "gaps B-2 drawer"
    assert "rows 1, 3, 2" in fault.says


def test_two_readings_of_one_gap_that_contradict_are_said_at_the_upper_front() -> None:
    (fault,) = faults_of(stack_job(2), gaps_of("B-1", top_left=2), gaps_of("B-2", bottom_left=4))
    assert fault.where == "gaps B-2 bottom_left"
    assert "contradicts top_left of B-1, 2 (gaps B-1 top_left)" in fault.says


def test_two_readings_of_one_gap_that_nearly_agree_are_averaged_and_told_of() -> None:
    lower, upper = align_job(
        stack_job(2), [gaps_of("B-1", top_left=2.6), gaps_of("B-2", bottom_left=3.4)]
    ).fronts
    assert lower.measured["top_left"] == upper.measured["bottom_left"] == pytest.approx(3.0)
    assert any("their mean was taken" in warning for warning in upper.warnings)


def test_a_setting_beyond_the_end_is_said(one: FittedJob) -> None:
    (fault,) = faults_of(one, gaps_of("A", {("left", "height"): 14}, left_top=3))
    assert fault.where == "gaps A set_height_left"
    assert fault.says == "is beyond the end: the height adjuster of plain-16 goes from 0 to 12 marks"


def test_an_adjuster_that_stands_at_its_end_is_said(one: FittedJob) -> None:
    settings = {("left", "height"): 12, ("right", "height"): 12}
    low = {"top_left": 5, "top_right": 5, "bottom_left": 1, "bottom_right": 1}
    (front,) = align_job(one, [gaps_of("A", settings, **low)]).fronts
    assert front.moves == ()
    assert [warning for warning in front.warnings if "at the end" in warning] == [
        "the left height adjuster is at the end: to meet the readings, raise 8 marks more",
        "the right height adjuster is at the end: to meet the readings, raise 8 marks more",
    ]


def test_decimal_inches_among_millimetres_are_asked_about(one: FittedJob) -> None:
    (front,) = align_job(one, [gaps_of(left_top=3, right_top=3.2, left_bottom=0.125, right_bottom=3)]).fronts
    assert "left_bottom is 0.125 mm beside gaps of about 3 mm: were inches meant?" in front.warnings


def test_every_fault_of_a_file_is_told_at_once() -> None:
    told = faults_of(stack_job(2), gaps_of("B-7", left_top=3), gaps_of("B-1"))
    assert [one.where for one in told] == ["gaps B-7 drawer", "gaps B-1"]


def test_the_reading_that_helps_most_is_of_what_nothing_tells(one: FittedJob) -> None:
    gaps = dict.fromkeys(["left_top", "left_bottom", "right_top", "right_bottom"], 3.0)
    wanted = align_job(one, [gaps_of(**gaps)]).fronts[0].next_reading
    assert wanted is not None
    assert wanted.reading.startswith(("top", "bottom", "out"))
    assert wanted.after < wanted.before


def test_with_all_readings_taken_none_is_asked_for(one: FittedJob) -> None:
    assert align_job(one, [all_gaps("A", [3.0] * 8 + [0.0] * 4)]).fronts[0].next_reading is None


@pytest.mark.parametrize("missing", ["top_left", "bottom_right", "left_top", "out_top_left"])
def test_the_reading_asked_for_lessens_the_uncertainty_as_it_says(one: FittedJob, missing: str) -> None:
    """Taking the reading that was asked for gives the uncertainty that was told, when next is asked."""
    full = all_gaps("A", [3.0] * 8 + [0.0] * 4).readings
    few = {
        name: value
        for name, value in full.items()
        if name in ("left_top", "right_top", "top_left") and name != missing
    }
    first = align_job(one, [FrontGaps("A", few)]).fronts[0].next_reading
    assert first is not None
    more = {**few, first.reading: Reading(0.0 if first.reading.startswith("out") else 3.0)}
    second = align_job(one, [FrontGaps("A", more)]).fronts[0].next_reading
    assert second is not None
    assert second.before == pytest.approx(first.after)
