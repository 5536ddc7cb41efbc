"""A second round of readings tells the true travel of a mark."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from drawerwright.align import align_document, align_job
from drawerwright.align.front_geometry import front_geometry
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES

from .align_builders import INSET, all_gaps

FIRST = [4.0, 4.0, 2.0, 2.0, 5.0, 5.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0]


@pytest.fixture
def one(fit_many: Callable[..., FittedJob]) -> FittedJob:
    """One inset front."""
    return fit_many({"front": INSET})


def after(one: FittedJob, height_step: float) -> list[float]:
    """Readings when the moves told for the first ones are made, a mark of height being so long."""
    front = align_job(one, [all_gaps("A", FIRST)]).fronts[0]
    turned = np.zeros(6)
    for move in front.moves:
        step = height_step if move.adjuster == "height" else 0.25
        columns = {"side": [0], "height": [1, 2], "depth": [3, 4]}[move.adjuster]
        if move.side != "both":
            columns = [columns[0 if move.side == "left" else 1]]
        turned[columns] += move.marks * step
    return list(np.array(FIRST) + front_geometry(one.drawers[0]).turning @ turned)


def test_a_mark_that_is_longer_than_the_family_says_is_found(one: FittedJob) -> None:
    second = align_job(one, [all_gaps("A", after(one, 0.30))], first_round=[all_gaps("A", FIRST)])
    heights = [found for found in second.travel if found.adjuster == "height"]
    assert heights
    for found in heights:
        assert found.mm == pytest.approx(0.30, abs=0.01)
        assert found.family == 0.25
        assert 0 < found.uncertainty < 0.02
    sides = [found for found in second.travel if found.adjuster == "side"]
    assert [found.mm for found in sides] == pytest.approx([0.25], abs=0.01)
    assert align_document(second)["travel"][0]["side"] in ("left", "right", "both")


def test_the_second_round_knows_where_the_adjusters_stand_now(one: FittedJob) -> None:
    second = align_job(one, [all_gaps("A", after(one, 0.30))], first_round=[all_gaps("A", FIRST)]).fronts[0]
    assert all("not told" not in warning for warning in second.warnings)
    down = [move for move in second.moves if move.adjuster == "height"]
    assert down
    assert all(move.marks < 0 for move in down)
    assert all(move.mm == pytest.approx(move.marks * 0.30, abs=0.03) for move in down)
    before, now = (
        np.array([gaps[name] for name in GAP_NAMES[4:8]]) for gaps in (second.measured, second.expected)
    )
    assert np.abs(now - 3).max() < np.abs(before - 3).max()


def test_travel_told_by_hand_is_used(one: FittedJob) -> None:
    travel = {("A", (hand, "height")): 0.5 for hand in ("left", "right")}
    front = align_job(one, [all_gaps("A", [3, 3, 3, 3, 4, 4, 2, 2, 0, 0, 0, 0])], travel=travel).fronts[0]  # type: ignore[arg-type]
    (move,) = front.moves
    assert (move.marks, move.mm) == (2, 1.0)
