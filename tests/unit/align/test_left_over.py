"""What no adjuster cures: each shape is named with its size, and no other."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest

from drawerwright.align import AlignedFront, align_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES

from .align_builders import INSET, all_gaps, gaps_of
from .test_moves import stack_job

FitMany = Callable[..., FittedJob]


@pytest.fixture
def one(fit_many: FitMany) -> FittedJob:
    """One inset front."""
    return fit_many({"front": INSET})


def lined_up(fitted: FittedJob, values: Sequence[float], drawer: str = "A") -> AlignedFront:
    return align_job(fitted, [all_gaps(drawer, values)]).fronts[0]


EVEN = [3.0] * 4
FLUSH = [0.0] * 4


@pytest.mark.parametrize(
    ("values", "what", "size", "cure"),
    [
        ([3.5, 2.5, 2.5, 3.5, *EVEN, *FLUSH],
         "front not square, or the cabinet racked", 1.0, "both diagonals"),
        ([3.5, 2.5, 3.5, 2.5, *EVEN, *FLUSH],
         "opening out of parallel, or the front tapered", 2.0, "at its bottom"),
        ([4, 4, 4, 4, *EVEN, *FLUSH], "front wrong width", 2.0, "a front 2 mm larger"),
        ([2, 2, 2, 2, *EVEN, *FLUSH], "front wrong width", 2.0, "plane 1 mm off each side edge"),
        ([*EVEN, 4, 4, 4, 4, *FLUSH], "front wrong height", 2.0, "a front 2 mm larger"),
        ([*EVEN, 3.5, 2.5, 3.5, 2.5, *FLUSH], "opening out of parallel, top and bottom", 2.0, "at its right"),
        ([*EVEN, *EVEN, 0.3, -0.3, -0.3, 0.3], "front twisted", 1.2, "shim the front by 1.2 mm"),
        ([*EVEN, *EVEN, -0.8, -0.8, 0.8, 0.8], "top leans in", 1.6, "move the rear ends of both slides"),
        ([*EVEN, *EVEN, 1.5, 1.5, 1.5, 1.5], "front stands out", 1.5, "move both slides 1.5 mm in"),
    ],
)  # fmt: skip
def test_a_shape_is_named_with_its_size_and_cure(
    one: FittedJob, values: list[float], what: str, size: float, cure: str
) -> None:
    front = lined_up(one, values)
    found = {left.what: left for left in front.left_over}
    assert list(found) == [what]
    assert found[what].size == pytest.approx(size, rel=0.04)
    assert cure in found[what].cure
    assert 0 < found[what].uncertainty < size / 2


def test_what_the_side_adjusters_end_short_of_is_told(one: FittedJob) -> None:
    gaps = gaps_of(left_top=1, left_bottom=1, right_top=5, right_bottom=5)
    (left,) = align_job(one, [gaps]).fronts[0].left_over
    assert (left.what, left.size) == ("front off to the side", pytest.approx(0.5, rel=0.05))
    assert "fix the front again 0.5 mm further right" in left.cure


def test_slides_not_level_beyond_the_adjusters_are_named(one: FittedJob) -> None:
    front = lined_up(one, [2.2, 3.8, 3.8, 2.2, 5.6, 0.4, 0.4, 5.6, *FLUSH])
    (left,) = [left for left in front.left_over if left.what == "slides not level with each other"]
    assert "the left slide" in left.cure
    assert left.cure.endswith("up, front and rear")


def test_what_all_fronts_of_a_stack_lean_is_the_cabinet() -> None:
    values = {"left_top": 3.5, "left_bottom": 2.5, "right_top": 2.5, "right_bottom": 3.5}
    upright = {"top_left": 3.0, "top_right": 3.0}
    gaps = [
        gaps_of("B-3", **values, **upright),
        gaps_of("B-2", **values, **upright),
        gaps_of("B-1", **values, **upright, bottom_left=3.0, bottom_right=3.0),
    ]
    for front in align_job(stack_job(3), gaps).fronts:
        assert [left.what for left in front.left_over] == ["cabinet racked"]
        assert "rises to the left" in front.left_over[0].cure
    gaps[1] = gaps_of("B-2", left_top=3, left_bottom=3, right_top=3, right_bottom=3, **upright)
    gaps[2] = gaps_of("B-1", left_top=3, left_bottom=3, right_top=3, right_bottom=3, **upright,
                      bottom_left=3.0, bottom_right=3.0)  # fmt: skip
    top, *others = align_job(stack_job(3), gaps).fronts
    assert [left.what for left in top.left_over] == ["front not square"]
    assert [front.left_over for front in others] == [(), ()]


def test_diagonals_that_were_measured_tell_the_cabinet_from_the_front(fit_many: FitMany) -> None:
    racked = {"front": INSET, "opening": {"diagonals": [585.6, 587.5]}}
    values = [3.5, 2.5, 2.5, 3.5, *EVEN, *FLUSH]
    front = lined_up(fit_many(racked), values)
    assert [left.what for left in front.left_over] == ["cabinet racked"]
    square = {"front": INSET, "opening": {"diagonals": [586.6, 586.6]}}
    front = lined_up(fit_many(square), values)
    assert [left.what for left in front.left_over] == ["front not square"]


def test_an_even_front_has_nothing_left(one: FittedJob) -> None:
    assert lined_up(one, [3.1, 3.0, 2.9, 3.1, 3.1, 3.0, 3.0, 2.9, 0.1, 0.0, 0.1, 0.0]).left_over == ()
    assert len(GAP_NAMES) == 12
