"""Whole marks: inside what an adjuster can do, and never worse than turning nothing."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.align.adjusters import marks_between
from drawerwright.align.measured import stacks_of
from drawerwright.align.moves import best_turns, free_turns, question_of
from drawerwright.align.pose import find_state
from drawerwright.align.whole_marks import whole_turns
from drawerwright.model.gaps import GAP_NAMES, AdjusterName, FrontGaps, Hand, Reading, Setting

from .test_moves import stack_job

FITTED = stack_job(2)
FAMILY = FITTED.drawers[0].slide.family  # type: ignore[union-attr]
HANDS: tuple[Hand, ...] = ("left", "right")
ADJUSTERS: tuple[AdjusterName, ...] = ("side", "height", "depth")


@st.composite
def any_front(draw: st.DrawFn, drawer: str, upper: bool) -> FrontGaps:
    names = [name for name in GAP_NAMES if not (upper and name.startswith("bottom"))]
    taken = draw(st.lists(st.sampled_from(names), min_size=1, unique=True))
    readings = {
        name: Reading(draw(st.floats(-4, 4)) if name.startswith("out") else draw(st.floats(0, 9)))
        for name in taken
    }
    settings: dict[Setting, float] = {}
    for adjuster in ADJUSTERS:
        low, high = marks_between(FAMILY, adjuster)
        for hand in HANDS:
            settings[hand, adjuster] = draw(st.integers(low, high))
    return FrontGaps(drawer, readings, settings)


@given(any_front("B-1", upper=False), any_front("B-2", upper=True))
def test_any_readings_and_settings_give_marks_that_can_be_turned_and_help(
    lower: FrontGaps, upper: FrontGaps
) -> None:
    (stack,) = stacks_of(FITTED, [lower, upper], {})
    columns: dict[int, int] = {}
    turned = np.zeros(12)
    for deep in (False, True):
        question = question_of(stack, find_state(stack), "even", gaps_by=turned if deep else None)
        marks = whole_turns(question, best_turns(question, free_turns(question)))
        assert np.all((marks >= question.low) & (marks <= question.high))
        apart = question.unlike @ marks
        assert np.all(apart >= np.maximum(question.least - 0.25, 2 * question.least - 0.125) - 1e-5)
        assert np.all(apart <= np.minimum(question.most + 0.25, 2 * question.most + 0.125) + 1e-5)
        lost = marks @ question.matrix @ marks / 2 + question.slope @ marks
        assert lost <= 1e-9
        turned[question.columns] = marks * 0.25
        columns.update(zip(question.columns.tolist(), marks.tolist(), strict=True))
    for at, front in enumerate(stack.fronts):
        for column, adjuster, hands in (
            (0, "side", HANDS),
            (1, "height", HANDS[:1]),
            (4, "depth", HANDS[1:]),
        ):
            low, high = marks_between(FAMILY, adjuster)  # type: ignore[arg-type]
            evening = dict(zip(HANDS, front.adjusters.evening, strict=True)) if adjuster == "side" else {}
            for hand in hands:
                stands = front.told.settings[hand, adjuster] + evening.get(hand, 0)  # type: ignore[index]
                assert low <= stands + columns.get(6 * at + column, 0) <= high
