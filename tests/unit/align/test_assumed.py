"""Gaps around an inset front that nobody measured keep it from running into its frame."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.align import AlignedFront, align_job
from drawerwright.align.assumed import KEPT_SHARE
from drawerwright.align.front_geometry import front_geometry
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES
from drawerwright.model.job import Job

from .align_builders import gaps_of
from .test_moves import turned

from tests.conftest import plain_drawer, plain_family  # isort: skip

GAP = 1.0
ROLLED = {"left_top": 0.2, "left_bottom": 1.8, "right_top": 1.8, "right_bottom": 0.2}


def job_of(style: str) -> FittedJob:
    front = {"style": style, "gap": GAP}
    drawer = plain_drawer(front=front, opening={"height": 168, "depth": 560})
    return fit_job(Job.model_validate({"drawer": [drawer]}), [plain_family()])


@pytest.fixture(scope="module")
def inset() -> FittedJob:
    return job_of("inset")


def closed_by(fitted: FittedJob, front: AlignedFront) -> dict[str, float]:
    """What the moves take from each gap [mm]: geometry of the front alone, without the readings."""
    marks = turned(front)
    step = 0.25
    by = [
        marks.get(("left", "side"), 0) * step,
        *(marks.get((hand, name), 0) * step for name in ("height", "depth") for hand in ("left", "right")),
        0.0,
    ]
    changes = front_geometry(fitted.drawers[0]).turning @ by
    return {name: -float(change) for name, change in zip(GAP_NAMES[:8], changes, strict=False)}


def test_sides_alone_raise_an_inset_front_by_no_more_than_its_unmeasured_gap_spares(inset: FittedJob) -> None:
    front = align_job(inset, [gaps_of(**ROLLED)]).fronts[0]
    closed = closed_by(inset, front)
    assert max(closed[name] for name in GAP_NAMES[4:8]) <= (1 - KEPT_SHARE) * GAP + 1e-9
    assert any("were not measured: taken as designed, 1 mm" in words for words in front.warnings)
    assert not any(one.leave for one in front.left_over)


def test_measured_above_and_below_the_same_front_is_turned_the_whole_way() -> None:
    wide = {"top_left": 6.7, "top_right": 1.3, "bottom_left": 1.3, "bottom_right": 6.7}
    front = align_job(job_of("inset"), [gaps_of(**ROLLED, **wide)]).fronts[0]
    assert not any("measured: taken as designed" in words for words in front.warnings)
    assert turned(front) != {}
    sides = align_job(job_of("inset"), [gaps_of(**ROLLED)]).fronts[0]
    assert turned(front)["left", "height"] > turned(sides).get(("left", "height"), 0)


def test_an_overlay_front_runs_into_no_rail_and_is_not_held() -> None:
    front = align_job(job_of("overlay"), [gaps_of(**ROLLED)]).fronts[0]
    assert not any("measured: taken as designed" in words for words in front.warnings)
    assert turned(front)["left", "height"] > 2


@given(st.lists(st.sampled_from([0.0, 0.2, 0.6, 1.0, 1.8, 3.0]), min_size=8, max_size=8), st.integers(1, 254))
@settings(max_examples=40, deadline=None)
def test_no_move_closes_an_unmeasured_gap_of_an_inset_front_beyond_half_and_what_it_stands_off(
    values: list[float], which: int
) -> None:
    fitted = job_of("inset")
    told = {name: values[at] for at, name in enumerate(GAP_NAMES[:8]) if which >> at & 1}
    front = align_job(fitted, [gaps_of(**told)]).fronts[0]
    closed = closed_by(fitted, front)
    x, y = front.pose.x or 0.0, front.pose.y or 0.0
    for edge, wider in (("left", x), ("right", -x), ("top", -y), ("bottom", y)):
        names = [name for name in GAP_NAMES[:8] if name.startswith(f"{edge}_")]
        if any(name in told for name in names):
            continue
        for name in names:
            assert closed[name] <= (1 - KEPT_SHARE) * GAP + max(wider, 0.0) + 1e-6


def test_a_gap_that_is_left_so_narrow_that_it_rubs_is_never_within_the_grade(inset: FittedJob) -> None:
    high = {"top_left": 0.2, "top_right": 0.2, "bottom_left": 1.0, "bottom_right": 1.0}
    delivered = {(hand, "height"): 0 for hand in ("left", "right")}
    front = align_job(inset, [gaps_of("A", delivered, **high)]).fronts[0]
    assert front.left_over
    assert not any(one.leave or "leave:" in one.cure for one in front.left_over)
    assert any("is left at 0.2 mm: the front may rub there" in words for words in front.warnings)
