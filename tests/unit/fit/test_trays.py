"""Ways out past doors and things in the way, against a sweep in small steps."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drawerwright.fit import fit_document, fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.job import Job

Fit = Callable[..., FittedDrawer]
SLIDE = "plain-16/500"
FACE, LENGTH, TRAVEL = -1.0, 500.0, 500.0
"""Of that slide in an opening of 562 × 168: the box is 552 wide, from 14 to 161 high, 1 ahead of the edge."""
HALF, FOOT, TOP = 276.0, 14.0, 161.0
STEP = 1.0
OTHER = {"left": "right", "right": "left"}


@pytest.fixture(scope="module")
def plain() -> SlideFamily:
    lengths = [{"nominal": 500, "holes": [0, 32, 224]}]
    keys = {"id": "plain-16", "capacity": 45, "inside_width_deduction": 42, "length": lengths}
    return SlideFamily.model_validate(keys)


def fitted(plain: SlideFamily, **keys: Any) -> FittedDrawer:
    opening = {"width": 562, "height": 168, "depth": 530}
    drawer = {"id": "A", "opening": opening, "side": 16, "slide": SLIDE, **keys}
    return fit_job(Job.model_validate({"drawer": [drawer]}), [plain]).drawers[0]


def margin(one: FittedDrawer) -> float:
    return next(check.margin for check in one.checks if check.id == "way-out")


LENGTHS = st.integers(0, 60).map(float)
HANDS = st.sampled_from(["left", "right"])
THINGS = st.builds(
    lambda side, stands_in, bottom, tall, near, long: {
        "what": "thing",
        "side": side,
        "stands_in": stands_in,
        "bottom": bottom,
        "top": bottom + tall,
        "depth": [near, near + long],
    },
    HANDS,
    st.floats(0.5, 60).map(lambda x: round(x, 1)),
    st.integers(-50, 200),
    st.integers(1, 120),
    st.integers(-600, 600),
    st.integers(1, 80),
)
DOORS = st.fixed_dictionaries(
    {
        "hinge": HANDS,
        "opens": st.integers(60, 120),
        "stands_in": st.integers(-10, 30),
        "width": st.integers(100, 600),
    }
)


def swept_hits(things: list[dict[str, Any]], door: dict[str, Any] | None, clear: float) -> float | None:
    """First extension, in steps, at which the box overlaps a thing or holds a point of the door's inner face.

    `clear`: distance from the opening's edge to the box, both sides alike.
    """
    for out in np.arange(0.0, TRAVEL + STEP / 2, STEP):
        face, rear = FACE - out, FACE - out + LENGTH
        for thing in things:
            near, far = thing["depth"]
            beside = thing["stands_in"] > clear + 1e-6
            high = thing["bottom"] < TOP and thing["top"] > FOOT
            if beside and high and near < rear - 1e-9 and far > face + 1e-9:
                return float(out)
        if door is not None:
            along = np.linspace(0, door["width"], 2001)
            inwards = door["stands_in"] + along * cos(radians(door["opens"]))
            depth = -along * sin(radians(door["opens"]))
            if ((inwards > clear + 1e-6) & (depth > face + 1e-9) & (depth < rear - 1e-9)).any():
                return float(out)
    return None


@given(things=st.lists(THINGS, min_size=1, max_size=3))
def test_things_are_hit_where_a_sweep_in_small_steps_hits_them(
    things: list[dict[str, Any]], plain: SlideFamily
) -> None:
    one = fitted(plain, in_the_way=things)
    swept = swept_hits(things, None, clear=5.0)
    assert one.way_out is not None
    if swept is None:
        # A thing that only touches, or within the last step, may be missed by the sweep alone.
        assert margin(one) >= -1e-6 or (one.way_out.meetings[0].after or 0.0) > TRAVEL - STEP
        return
    assert margin(one) < 0
    assert one.way_out.meetings[0].after == pytest.approx(swept, abs=STEP)


@given(door=DOORS)
def test_an_open_door_is_hit_where_a_sweep_in_small_steps_hits_it(
    door: dict[str, Any], plain: SlideFamily
) -> None:
    one = fitted(plain, door=door)
    assume(abs(margin(one)) > 0.1)  # within the sampling of the leaf it is not decided
    swept = swept_hits([], door, clear=5.0)
    assert (margin(one) < 0) == (swept is not None)
    if swept is not None:
        assert one.way_out is not None
        assert one.way_out.meetings[0].after == pytest.approx(swept, abs=2 * STEP)


@given(things=st.lists(THINGS, min_size=1, max_size=3), door=st.none() | DOORS)
def test_left_and_right_change_places_in_the_mirror(
    things: list[dict[str, Any]], door: dict[str, Any] | None, plain: SlideFamily
) -> None:
    keys: dict[str, Any] = {"in_the_way": things, "lost": {"left": 7, "right": 3}}
    mirrored: dict[str, Any] = {
        "in_the_way": [{**thing, "side": OTHER[thing["side"]]} for thing in things],
        "lost": {"left": 3, "right": 7},
    }
    if door is not None:
        keys["door"], mirrored["door"] = door, {**door, "hinge": OTHER[door["hinge"]]}
    one, other = fitted(plain, **keys), fitted(plain, **mirrored)
    assert margin(one) == pytest.approx(margin(other))
    assert one.way_out is not None
    assert other.way_out is not None
    assert one.way_out.filler_left == pytest.approx(other.way_out.filler_right)
    assert one.way_out.filler_right == pytest.approx(other.way_out.filler_left)
    assert [OTHER[met.side] for met in one.way_out.meetings] == [met.side for met in other.way_out.meetings]


@given(things=st.lists(THINGS, min_size=1, max_size=3), door=st.none() | DOORS)
def test_the_filler_told_clears_and_a_tenth_less_does_not(
    things: list[dict[str, Any]], door: dict[str, Any] | None, plain: SlideFamily
) -> None:
    keys: dict[str, Any] = {"in_the_way": things, **({"door": door} if door is not None else {})}
    one = fitted(plain, **keys)
    assert one.way_out is not None
    needed = {"left": one.way_out.filler_left, "right": one.way_out.filler_right}
    assert margin(fitted(plain, **keys, lost=needed)) >= -1e-6
    for hand, filler in needed.items():
        if filler > 0.1:
            assert margin(fitted(plain, **keys, lost={**needed, hand: filler - 0.1})) == pytest.approx(-0.1)


def test_a_filler_on_one_side_is_a_change_that_fits_and_less_does_not(fit_one: Fit) -> None:
    keys: dict[str, Any] = {"in_the_way": [{"what": "hinge", "side": "left", "stands_in": 22}]}
    (change,) = [one for one in fit_one(**keys).changes if one.change.startswith("lost")]
    assert (change.change, change.by) == ("lost.left", 17)
    assert fit_one(**keys, lost={"left": 17}).verdict == "fits-with-care"
    assert fit_one(**keys, lost={"left": 16.9}).verdict == "does-not-fit"


def test_fillers_on_both_sides_are_one_change(fit_one: Fit) -> None:
    things = [
        {"what": "hinge", "side": side, "stands_in": stands_in}
        for side, stands_in in (("left", 22), ("right", 9))
    ]
    (change,) = [one for one in fit_one(in_the_way=things).changes if one.change.startswith("lost")]
    assert (change.change, change.to) == ("lost", "left = 17, right = 4")
    assert fit_one(in_the_way=things, lost={"left": 17, "right": 4}).slide is not None


def test_a_shorter_slide_that_stays_short_of_the_thing_is_taken(fit_one: Fit) -> None:
    """The handle begins 430 before the edge: 400 out it is not reached, 450 out it is."""
    one = fit_one(in_the_way=[{"what": "handle", "side": "right", "stands_in": 30, "depth": [-480, -430]}])
    assert one.slide is not None
    assert one.slide.length.nominal == 400
    because = {item.nominal: item.because for item in one.rejected}
    assert because[450] == because[500] == "way-out"


def test_without_the_keys_nothing_is_said_of_the_way_out(fit_one: Fit) -> None:
    one = fit_one()
    assert one.way_out is None
    assert "way-out" not in {check.id for check in one.checks}


def test_an_inset_front_is_swept_out_too(fit_one: Fit) -> None:
    """Beside the front the gap is 3, beside the box 5: what stands in 4 meets the front alone."""
    front = {"style": "inset", "thickness": 19}
    one = fit_one(
        front=front, in_the_way=[{"what": "bolt", "side": "left", "stands_in": 4, "depth": [-90, -60]}]
    )
    assert one.verdict == "does-not-fit"
    assert one.way_out is not None
    first = one.way_out.meetings[0]
    assert (first.body, first.lacks) == ("front", pytest.approx(1))
    assert one.way_out.filler_left == pytest.approx(1)


def test_an_overlay_front_is_moved_by_no_packing(fit_one: Fit) -> None:
    """It covers the edge by 16, so a neighbour's handle that stands 0.5 in is 16.5 too far in for it."""
    one = fit_one(
        front={"style": "overlay"},
        in_the_way=[{"what": "handle", "side": "right", "stands_in": 0.5, "depth": [-90, -60]}],
    )
    (check,) = [check for check in one.checks if check.id == "way-out"]
    assert check.margin == pytest.approx(-16.5)
    assert "beside the cabinet" in check.cure
    assert not [change for change in one.changes if change.change.startswith("lost")]


def test_the_document_tells_what_is_met_and_the_fillers(fit_one: Fit) -> None:
    one = fit_one(in_the_way=[{"what": "hinge", "side": "left", "stands_in": 22, "depth": [-40, -10]}])
    (told,) = fit_document(FittedJob("", (one,)))["drawers"]
    assert told["way_out"] == {
        "meets": [{"what": "hinge", "side": "left", "body": "box", "after": 9.0, "lacks": 17.0}],
        "filler": {"left": 17.0, "right": 0.0},
    }
