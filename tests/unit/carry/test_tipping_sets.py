"""The worst set of open drawers against every set there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.carry.tipping_cases import tipping_case
from drawerwright.carry.tipping_sets import LOADS, Choice, Load, choices, may_hang, worst_set
from drawerwright.carry.tipping_weights import TippingDrawer, Weight

G = 9.80665

WEIGHTS = st.tuples(st.floats(0.1, 40), st.floats(-500, 60), st.floats(0, 1500))


@st.composite
def drawers(draw: st.DrawFn) -> list[TippingDrawer]:
    found = []
    for number in range(draw(st.integers(1, 6))):
        mass, at, height = draw(WEIGHTS)
        held, held_at, held_height = draw(WEIGHTS)
        name = f"D{number}"
        contents = Weight("contents", name, held, held_at, held_height)
        found.append(
            TippingDrawer(
                id=name,
                own=(Weight("box", name, mass, at, height),),
                contents=contents,
                filled=contents,
                reach=draw(st.floats(0, 700)),
                front_at=draw(st.floats(-60, 60)),
                hang_height=height,
                litres=1.0,
                box=(-400.0, 0.0, 0.0, 1.0),
                front=(0.0, 1.0, 0.0, 1.0),
            )
        )
    return found


def every_set(sides: Sequence[Choice], *, interlock: bool) -> Iterator[tuple[int, ...]]:
    places = range(len(sides))
    for size in range((1 if interlock else len(sides)) + 1):
        yield from combinations(places, size)


def moment_of(rest: float, sides: Sequence[Choice], open_: Sequence[int]) -> float:
    return rest + sum(one.drawn.moment if at in open_ else one.shut.moment for at, one in enumerate(sides))


@given(drawers(), st.booleans(), st.sampled_from(LOADS), st.floats(0, 0.05), st.floats(-900, 100))
def test_the_worst_set_is_the_worst_of_all_sets(
    found: list[TippingDrawer], interlock: bool, load: Load, tilt: float, rest: float
) -> None:
    sides = choices(found, load, tilt)
    worst = worst_set(rest, sides, interlock=interlock)
    moments = [moment_of(rest, sides, one) for one in every_set(sides, interlock=interlock)]
    assert worst.moment == pytest.approx(max(moments), abs=1e-6)
    places = [at for at, one in enumerate(sides) if one.drawer.id in worst.open]
    assert moment_of(rest, sides, places) == pytest.approx(worst.moment, abs=1e-6)
    assert not (interlock and len(worst.open) > 1)


@given(drawers(), st.booleans(), st.floats(0, 0.05), st.floats(-900, 100), st.floats(1, 60))
def test_what_hangs_hangs_where_it_is_worst_of_all_sets_and_fronts(
    found: list[TippingDrawer], interlock: bool, tilt: float, rest: float, hanging: float
) -> None:
    sides = choices(found, "told", tilt)
    worst = worst_set(rest, sides, interlock=interlock, hanging=hanging)
    moments = [
        moment_of(rest, sides, one) + G * hanging * sides[at].lever
        for one in every_set(sides, interlock=interlock)
        for at in one
    ]
    assert worst.moment == pytest.approx(max(moments), abs=1e-6)
    assert worst.hangs_on in worst.open


@given(drawers(), st.booleans(), st.floats(0, 0.05), st.floats(-900, -300))
def test_the_mass_that_may_hang_brings_it_just_into_balance(
    found: list[TippingDrawer], interlock: bool, tilt: float, rest: float
) -> None:
    sides = choices(found, "told", tilt)
    mass = may_hang(rest, sides, interlock=interlock)
    if mass is None:
        assert all(one.lever <= 0 for one in sides)
    elif mass > 0:
        assert worst_set(rest, sides, interlock=interlock, hanging=mass).moment == pytest.approx(0, abs=1e-6)
    else:
        assert (
            max(
                moment_of(rest, sides, one)
                for one in every_set(sides, interlock=interlock)
                if any(sides[at].lever > 0 for at in one)
            )
            >= -1e-6
        )


@given(drawers(), st.booleans(), st.floats(0, 0.05))
def test_no_loading_of_single_drawers_is_worse_than_the_adverse_one(
    found: list[TippingDrawer], interlock: bool, tilt: float
) -> None:
    told, empty = choices(found, "told", tilt), choices(found, "empty", tilt)
    mixed = [
        [one if loaded >> at & 1 else other for at, (one, other) in enumerate(zip(told, empty, strict=True))]
        for loaded in range(2 ** len(found))
    ]
    worst = max(worst_set(0.0, sides, interlock=interlock).moment for sides in mixed)
    adverse = worst_set(0.0, choices(found, "adverse", tilt), interlock=interlock)
    assert adverse.moment >= worst - 1e-6


@given(drawers(), st.booleans(), st.sampled_from(LOADS))
def test_restoring_less_overturning_is_the_margin(
    found: list[TippingDrawer], interlock: bool, load: Load
) -> None:
    cabinet = Weight("cabinet", "", 40.0, -250.0, 400.0)
    one = tipping_case(cabinet, found, load, "block", 0.02, 900.0, interlock=interlock)
    assert one.restoring - one.overturning == pytest.approx(one.margin, abs=1e-6)
    assert one.child_margin is not None
    assert one.pull_margin < one.margin


def test_without_drawers_nothing_opens_and_nothing_hangs() -> None:
    assert worst_set(-98.0, [], interlock=False).open == ()
    assert worst_set(-98.0, [], interlock=True, hanging=27.5).moment == -98.0
    assert may_hang(-98.0, [], interlock=False) is None
