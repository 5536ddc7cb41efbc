"""Ways out past doors and things in the way, against a sweep in small steps."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.fit import fit_document, fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.job import Job

Fit = Callable[..., FittedDrawer]
SLIDE = "plain-16/500"
FACE, LENGTH, TRAVEL = -1.0, 500.0, 500.0
"""Of that slide in an opening of 562 × 168: the box is 552 wide, from 14 to 161 high, 1 ahead of the edge."""
FOOT, TOP = 14.0, 161.0
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


HANDS = st.sampled_from(["left", "right"])
FAR = 1e-9
# Values on both sides of every edge of the box and of its way, so that few examples meet each of them.
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
    st.sampled_from([3.0, 5.0, 5.5, 12.0, 40.0]),
    st.sampled_from([-60, 0, 13, 20, 100, 160, 161, 170]),
    st.sampled_from([1, 14, 15, 60, 150]),
    st.sampled_from([-600, -530, -502, -480, -200, -30, 0, 200, 470, 498, 499, 520]),
    st.sampled_from([1, 25, 30, 80, 300]),
)
DOORS = st.fixed_dictionaries(
    {
        "hinge": HANDS,
        "opens": st.integers(60, 120),
        "stands_in": st.integers(-10, 30),
        "width": st.sampled_from([100, 300, 500, 600]),
    }
)


def sweep(things: list[dict[str, Any]], door: dict[str, Any] | None) -> tuple[float | None, float]:
    """First extension at which the box meets what stands more than 5 in; the farthest in of all it meets.

    The box is moved in steps and laid over each thing; of a door points of its inner face are tried. 5 is the
    way from the opening's edge to the box.
    """
    first, farthest = None, 0.0
    for out in np.arange(0.0, TRAVEL + STEP / 2, STEP):
        face, rear = FACE - out, FACE - out + LENGTH
        met = [
            thing["stands_in"]
            for thing in things
            if thing["bottom"] < TOP
            and thing["top"] > FOOT
            and thing["depth"][0] < rear - FAR
            and thing["depth"][1] > face + FAR
        ]
        if door is not None:
            along = np.linspace(0, door["width"], 2001)
            inwards = door["stands_in"] + along * cos(radians(door["opens"]))
            depth = -along * sin(radians(door["opens"]))
            met += inwards[(depth > face + FAR) & (depth < rear - FAR)].tolist()
        deepest = max(met, default=0.0)
        farthest = max(farthest, deepest)
        if first is None and deepest > 5 + 1e-6:
            first = float(out)
    return first, farthest


@settings(max_examples=300)
@given(things=st.lists(THINGS, min_size=1, max_size=2))
def test_things_are_hit_where_a_sweep_in_small_steps_hits_them(
    things: list[dict[str, Any]], plain: SlideFamily
) -> None:
    one = fitted(plain, in_the_way=things)
    first, farthest = sweep(things, None)
    assert one.way_out is not None
    assert margin(one) == pytest.approx(5 - farthest)
    hits = [met.after for met in one.way_out.meetings if met.after is not None]
    assert bool(hits) == (first is not None)
    if first is not None:
        assert hits[0] == pytest.approx(first, abs=STEP)


@settings(max_examples=100)
@given(door=DOORS)
def test_an_open_door_is_hit_where_a_sweep_in_small_steps_hits_it(
    door: dict[str, Any], plain: SlideFamily
) -> None:
    one = fitted(plain, door=door)
    first, farthest = sweep([], door)
    assert one.way_out is not None
    assert margin(one) == pytest.approx(5 - farthest, abs=0.5)
    if first is not None and abs(margin(one)) > 1:  # nearer it hangs on the points that were tried
        assert one.way_out.meetings[0].after == pytest.approx(first, abs=2 * STEP)


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


def test_every_quantity_of_a_drawer_with_lists_has_its_working(fit_one: Fit) -> None:
    one = fit_one(
        box={"heights": [90, 120]},
        in_the_way=[{"what": "hinge", "side": "left", "stands_in": 3}],
        door={"hinge": "right"},
    )
    assert [name for name in one.workings if not one.workings[name].figures] == []
    assert one.workings["box_height"].value == 120
