"""A closing drawer: what one answer says, its events, and what it refuses."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drawerwright.carry.closing import Closing, closing_document, closing_of
from drawerwright.carry.closing_motion import Moving
from drawerwright.equations.mechanics.closing import ClosingUnit
from drawerwright.errors import InputError
from drawerwright.model.family import SoftClose

G = 9.80665
UNIT = SoftClose(capture=50, pull_in=8, spring=0.2, damping=0.1, drag=0.008)


def found(mass: float, unit: SoftClose = UNIT, **keys: Any) -> Closing:
    closing = closing_of(mass, unit, **{"travel": 500, **keys})
    assert closing is not None
    return closing


def state(closing: Closing, id_: str) -> str:
    return next(check.state for check in closing.checks if check.id == id_)


def says(closing: Closing, id_: str) -> str:
    return next(check.says for check in closing.checks if check.id == id_)


def test_a_level_drawer_is_drawn_home_softly_pushed_and_let_go() -> None:
    closing = found(20)
    assert closing.closes
    assert closing.pushed.closes
    assert closing.time is not None
    assert closing.pushed.time is not None
    assert 0.05 < closing.pushed.time < closing.time
    assert closing.stall_at is None
    assert {check.state for check in closing.checks} == {"ok"}


def test_a_family_without_a_closing_unit_has_no_answer() -> None:
    assert closing_of(20, None, travel=500) is None


def test_a_drawer_that_springs_back_where_the_pull_is_too_weak_stays_open() -> None:
    closing = found(45, tilt_deg=1)
    assert not closing.pushed.closes
    assert closing.pushed.slam_speed is not None
    assert closing.pushed.stall_at == pytest.approx(7.5, abs=0.5)
    assert closing.pushed.rebounds == 1
    assert state(closing, "closes") == "stop"


def test_a_drawer_on_a_steep_lean_rolls_open_to_its_stop_and_does_not_stay_shut() -> None:
    closing = found(30, tilt_deg=8)
    assert closing.pushed.outcome == "open"
    assert closing.pushed.stall_at == closing.stall_at == 500
    assert closing.opening_start < 0
    assert [state(closing, id_) for id_ in ("closes", "self-close", "stays-shut")] == [
        "stop",
        "watch",
        "stop",
    ]


def test_a_push_that_a_stalled_drawer_wants_is_told_and_is_enough() -> None:
    closing = found(20, tilt_deg=2.2, push=100.0, from_open=50)
    assert closing.pushed.slam_speed is None
    assert closing.least_push is not None
    assert closing.least_push > 100
    assert found(20, tilt_deg=2.2, push=closing.least_push * 1.02).pushed.closes
    assert found(20, tilt_deg=2.2, push=closing.least_push * 0.98).pushed.slam_speed is None
    assert f"it wants {math.ceil(closing.least_push)} mm/s" in says(closing, "closes")


@pytest.mark.parametrize(("mass", "tilt"), [(24.86, 5.0), (30.0, 6.0)])
def test_no_push_is_advised_that_gets_home_and_rolls_open_again(mass: float, tilt: float) -> None:
    closing = found(mass, tilt_deg=tilt)
    assert closing.pushed.slam_speed is None
    for push in (closing.arrives_at * 1.01, closing.arrives_at * 1.2, closing.arrives_at * 1.7):
        run = found(mass, tilt_deg=tilt, push=push).pushed
        assert run.slam_speed is not None
        assert not run.closes
    assert closing.least_push is None
    assert closing_document(closing)["pushed"]["least_push"] is None
    assert "would get home, but not stay there" in says(closing, "closes")
    assert "it wants" not in says(closing, "closes")


@settings(max_examples=25)
@given(st.floats(10.0, 60.0), st.floats(0.0, 6.0), st.floats(0.02, 0.6))
def test_a_push_as_hard_as_the_least_and_a_little_more_closes(mass: float, tilt: float, damps: float) -> None:
    unit = SoftClose(capture=50, pull_in=8, spring=0.2, damping=damps, drag=0.008)
    least = found(mass, unit, tilt_deg=tilt).least_push
    assume(least is not None)
    assert least is not None
    assert found(mass, unit, tilt_deg=tilt, push=least * 1.02 + 1.0).pushed.closes


def test_drawers_alike_share_one_closing_whatever_units_they_are_told_in() -> None:
    one, other = found(21.5), found(21.5, units="in")
    assert one.pushed is other.pushed
    assert one.let_go is other.let_go
    assert one.checks != other.checks
    assert found(21.6).pushed is not one.pushed


def test_a_push_from_further_out_must_be_harder_uphill_and_may_be_softer_downhill() -> None:
    near, far = found(20, tilt_deg=2.2), found(20, tilt_deg=2.2, from_open=400, push=1000.0)
    assert far.arrives_at > near.arrives_at > 0.0
    assert found(20, tilt_deg=-2, from_open=400, push=0.0).pushed.closes


def test_a_hard_push_slams_and_a_drawer_that_bounces_out_of_its_unit_is_told_so() -> None:
    hard = SoftClose(capture=30, pull_in=3, spring=0.0, damping=0.0, drag=0.008)
    closing = found(40, hard, push=1500.0)
    assert closing.pushed.bounced_out
    assert not closing.pushed.closes
    assert state(closing, "slam") == "watch"
    assert closing.pushed.slam_energy == pytest.approx(40 * (closing.pushed.slam_speed or 0) ** 2 / 2e6)


def test_a_damper_that_is_too_strong_creeps_until_it_is_given_up() -> None:
    thick = SoftClose(capture=50, pull_in=1.0, spring=0.0, damping=20.0, drag=0.0)
    closing = found(10, thick, push=0.0)
    assert closing.pushed.outcome == "too-slow"
    assert closing.pushed.stall_at is not None
    assert closing.pushed.stall_at < 50
    assert state(closing, "closes") == "stop"


def test_opening_cocks_the_spring_and_lean_helps_it() -> None:
    closing = found(20)
    assert closing.opening_start == pytest.approx(8 + 0.008 * 20 * G)
    assert closing.opening_force == pytest.approx(8 + 0.2 * 50 + 0.008 * 20 * G)
    assert found(20, tilt_deg=1).opening_force < closing.opening_force
    assert state(found(60, tilt_deg=-6), "opening-force") == "watch"


def test_a_unit_that_reaches_further_than_the_travel_stops() -> None:
    closing = found(20, travel=40)
    assert state(closing, "capture") == "stop"
    assert closing.start == 40


def test_what_no_drawer_is_gets_refused_all_at_once() -> None:
    with pytest.raises(InputError) as refused:
        closing_of(0, UNIT, travel=-3, tilt_deg=40, push=-1, from_open=float("nan"))
    assert [fault.where for fault in refused.value.faults] == [
        "moving mass",
        "travel",
        "tilt",
        "push",
        "opening",
    ]


@pytest.mark.parametrize("mass", [float("nan"), float("inf"), -1.0, 1e301])
def test_a_mass_that_is_none_is_refused(mass: float) -> None:
    with pytest.raises(InputError, match="moving mass"):
        closing_of(mass, UNIT, travel=500)


def test_the_document_has_the_keys_of_the_contract_and_more() -> None:
    document = closing_document(found(20))
    assert list(document)[:4] == ["closes", "time", "slam_speed", "stall_at"]
    assert document["closes"] is True
    assert document["stall_at"] is None
    assert "let_go" not in document
    pushed = document["pushed"]
    assert document["time"] > pushed["time"] == pytest.approx(0.216, abs=1e-3)
    assert pushed["slam_speed"] == pytest.approx(168.4, abs=0.1)
    assert pushed["stall_at"] is None
    assert pushed["push"] == 300.0


def test_the_answers_at_the_top_hang_on_no_push() -> None:
    """Let go at rest at the capture: the only run that needs no speed that was not told."""
    soft, hard = (closing_document(found(45, tilt_deg=1.5, push=push)) for push in (50.0, 900.0))
    assert soft.pop("pushed") != hard.pop("pushed")
    assert soft == hard
    assert soft["closes"] is False
    assert soft["stall_at"] == pytest.approx(found(45, tilt_deg=1.5, push=0.0).pushed.stall_at)


def test_the_same_drawer_gives_the_same_document() -> None:
    assert json.dumps(closing_document(found(17, tilt_deg=0.7))) == json.dumps(
        closing_document(found(17, tilt_deg=0.7))
    )


def test_every_check_that_is_not_ok_says_what_to_do() -> None:
    for closing in (
        found(45, tilt_deg=1),
        found(30, tilt_deg=8),
        found(60, tilt_deg=-6),
        found(20, travel=40),
    ):
        for check in closing.checks:
            assert bool(check.cure) == (check.state != "ok")
            assert check.says.endswith(check.cure)
            assert check.source
            assert check.working
            assert (check.margin < 0) == (check.state != "ok") or check.id == "self-close"


def test_inches_are_told_where_inches_are_read() -> None:
    closing = found(20, units="in")
    said = " ".join(check.says for check in closing.checks)
    assert "1 31/32 in" in said
    assert "44.1 lb" in said
    assert "lbf" in said
    assert " mm from home" not in said
    assert "Pushed at 11.8 in/s" in said
    assert "mm/s" not in said


UNITS = st.builds(
    ClosingUnit,
    capture=st.floats(0.02, 0.08),
    pull_in=st.floats(0.0, 20.0),
    spring=st.floats(0.0, 400.0),
    damping=st.floats(0.0, 800.0),
    drag=st.floats(0.0, 0.03),
)


@given(UNITS, st.floats(3.0, 60.0), st.floats(-2.0, 2.0), st.floats(0.0, 1.5), st.floats(0.01, 0.45))
def test_energy_is_neither_made_nor_lost(
    unit: ClosingUnit, mass: float, tilt_deg: float, push: float, start: float
) -> None:
    """½ m v² put in, with what spring and gravity give, is what damper, drag and the stop take."""
    moving = Moving(mass, math.radians(tilt_deg), unit, 0.5, restitution=0.0)
    run = moving.run(start, push)
    assume(run.outcome in ("shut", "stalls"))
    given_in = mass * push**2 / 2 + unit.work(start) - unit.work(run.rests_at)
    given_in -= mass * G * math.sin(moving.tilt) * (start - run.rests_at)
    at_stop = mass * (run.slam_speed or 0.0) ** 2 / 2
    assert run.damper_work + run.drag_work + at_stop == pytest.approx(given_in, rel=1e-5, abs=2e-6)


@given(UNITS, st.floats(0.5, 200.0), st.floats(-15.0, 15.0), st.floats(0.0, 5.0))
def test_every_run_ends_where_statics_let_it_rest(
    unit: ClosingUnit, mass: float, tilt_deg: float, push: float
) -> None:
    moving = Moving(mass, math.radians(tilt_deg), unit, 0.5)
    run = moving.run(0.05, push)
    assert 0.0 <= run.rests_at <= 0.5
    assert run.outcome in ("shut", "stalls", "open", "too-slow")
    if run.outcome != "too-slow":
        assert moving.way_from_rest(run.rests_at) == 0
    assert all(math.isfinite(value) for step in run.path for value in step)


@given(
    st.floats(1e-3, 1e15),
    st.floats(-15.0, 15.0),
    st.floats(0.0, 5000.0),
    st.builds(
        SoftClose,
        capture=st.floats(1.0, 600.0),
        pull_in=st.floats(0.0, 100.0),
        spring=st.floats(0.0, 5.0),
        damping=st.floats(0.0, 2.0),
        drag=st.floats(0.0, 0.5),
    ),
)
def test_no_answer_holds_what_json_cannot(mass: float, tilt: float, push: float, unit: SoftClose) -> None:
    closing = found(mass, unit, tilt_deg=tilt, push=push)
    json.dumps(closing_document(closing), allow_nan=False)
    json.dumps([(check.margin, check.says) for check in closing.checks], allow_nan=False)
    assert closing.closes == (closing.stall_at is None) == (closing.time is not None)
    assert (state(closing, "closes") == "stop") is not closing.pushed.closes
