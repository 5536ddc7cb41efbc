"""Where adjusters stand decides: what is concluded from an end that nobody told, and what is not."""

from __future__ import annotations

import pytest

from drawerwright.align import AlignedFront, align_job
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Job

from .align_builders import INSET, gaps_of
from .test_moves import turned

from tests.conftest import plain_drawer, plain_family  # isort: skip

HIGH = {"top_left": 2, "top_right": 2, "bottom_left": 4, "bottom_right": 4}
"""A front that stands 1 mm high: 4 marks of 0.25."""


@pytest.fixture(scope="module")
def one() -> FittedJob:
    """One inset front with gaps of 3; its height adjusters go from 0 to 12 marks."""
    job = {"drawer": [plain_drawer(front=INSET, opening={"height": 168})]}
    return fit_job(Job.model_validate(job), [plain_family()])


def front_of(one: FittedJob, settings: object = None, **told: float) -> AlignedFront:
    return align_job(one, [gaps_of("A", settings, **told)]).fronts[0]  # type: ignore[arg-type]


def test_an_end_that_is_only_assumed_is_said_to_decide_and_no_fault_is_concluded(one: FittedJob) -> None:
    front = front_of(one, **HIGH)
    assert front.moves == ()
    assert front.decides == ("height",)
    (says,) = [words for words in front.warnings if "decides" in words]
    assert says.startswith(
        "where both height adjusters stand decides: taken as delivered, at 0, they end here"
    )
    assert says.endswith("; at 4 marks or more, lower 4 marks")
    assert all(one.cure.startswith("only if the height adjusters stand at 0") for one in front.left_over)


def test_from_a_setting_that_is_told_the_front_is_lowered(one: FittedJob) -> None:
    front = front_of(one, {("left", "height"): 4, ("right", "height"): 4}, **HIGH)
    assert turned(front) == {("left", "height"): -4, ("right", "height"): -4}
    assert front.decides == ()
    assert front.left_over == ()


def test_an_end_that_is_told_is_an_end(one: FittedJob) -> None:
    front = front_of(one, {("left", "height"): 0, ("right", "height"): 0}, **HIGH)
    assert front.moves == ()
    assert front.decides == ()
    assert any("at the end: to meet the readings, lower 4 marks more" in words for words in front.warnings)


def test_what_no_setting_would_cure_is_an_end_told_or_not(one: FittedJob) -> None:
    front = front_of(one, top_left=9, top_right=9, bottom_left=0, bottom_right=0)
    assert turned(front)["left", "height"] == 12
    assert front.decides == ()
    assert any("at the end" in words for words in front.warnings)


def test_of_adjusters_told_in_part_those_that_are_turned_untold_are_named(one: FittedJob) -> None:
    heights = {("left", "height"): 4, ("right", "height"): 4}
    front = front_of(one, heights, left_top=2, left_bottom=2, right_top=4, right_bottom=4, **HIGH)
    assert "where the side adjusters stand was not told: they are taken as delivered, at 0" in front.warnings
