"""The chart over mass and tilt says of every cell what one drawer's run says."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drawerwright.carry.closing import closing_of
from drawerwright.carry.closing_chart import STATES, closing_chart
from drawerwright.carry.closing_checks import SOFT
from drawerwright.errors import InputError
from drawerwright.model.family import SoftClose

UNIT = SoftClose(capture=50, pull_in=8, spring=0.2, damping=0.1, drag=0.008)


def state_of_run(unit: SoftClose, mass: float, tilt: float, push: float) -> tuple[str, float]:
    """State of one drawer's run, and how near its speed at home is to the soft limit [mm/s]."""
    one = closing_of(mass, unit, travel=500, tilt_deg=tilt, push=push)
    assert one is not None
    speed = one.pushed.slam_speed or 0.0
    assume(one.pushed.outcome != "too-slow")
    return ("slams" if speed > SOFT else "closes" if one.pushed.closes else "stalls"), abs(speed - SOFT)


def test_the_chart_has_all_three_areas_and_they_lie_where_statics_put_them() -> None:
    chart = closing_chart(UNIT, 500)
    assert set(np.unique(chart.states)) == {0, 1, 2}
    heavy_uphill = chart.state(len(chart.tilts) - 1, len(chart.masses) - 1)
    heavy_downhill, light_level = chart.state(0, len(chart.masses) - 1), chart.state(16, 0)
    assert (heavy_uphill, heavy_downhill, light_level) == ("stalls", "slams", "closes")


@settings(max_examples=40)
@given(
    st.builds(
        SoftClose,
        capture=st.floats(30, 60),
        pull_in=st.floats(3, 20),
        spring=st.floats(0, 0.3),
        damping=st.floats(0.02, 0.8),
        drag=st.floats(0.002, 0.03),
    ),
    st.floats(3, 60),
    st.floats(-3, 6),
    st.floats(50, 800),
)
def test_a_cell_says_what_the_run_says(unit: SoftClose, mass: float, tilt: float, push: float) -> None:
    """Cells whose neighbours differ lie on an edge, where steps decide; they are passed over.

    What creeps home for longer than a run waits is given up by the run and closes in the chart.
    """
    masses, tilts = [mass * 0.995, mass, mass * 1.005], [tilt - 0.01, tilt, tilt + 0.01]
    chart = closing_chart(unit, 500, masses, tilts, push=push)
    assume(len(np.unique(chart.states)) == 1)
    state, from_limit = state_of_run(unit, mass, tilt, push)
    assume(from_limit > 0.5)
    assert chart.state(1, 1) == state


def test_the_speed_at_home_is_the_runs_within_half_a_percent() -> None:
    masses, tilts = [5.0, 12.0, 30.0, 60.0], [-2.0, -0.5, 0.5]
    chart = closing_chart(UNIT, 500, masses, tilts)
    for row, tilt in enumerate(tilts):
        for column, mass in enumerate(masses):
            one = closing_of(mass, UNIT, travel=500, tilt_deg=tilt)
            assert one is not None
            assert chart.home_speed[row, column] == pytest.approx(one.pushed.slam_speed, rel=5e-3)


def test_states_are_named_in_the_order_of_their_numbers() -> None:
    chart = closing_chart(UNIT, 500, [5.0, 60.0], [-6.0, 0.0])
    assert [chart.state(row, column) for row in (0, 1) for column in (0, 1)] == [
        STATES[int(chart.states[row, column])] for row in (0, 1) for column in (0, 1)
    ]
    assert chart.state(0, 1) == "slams"


@pytest.mark.parametrize(
    ("keys", "where"),
    [
        ({"masses": [0.0, 5.0]}, "masses"),
        ({"masses": [5.0]}, "masses"),
        ({"masses": [8.0, 5.0]}, "masses"),
        ({"masses": [5.0, float("nan")]}, "masses"),
        ({"tilts": [0.0, 40.0]}, "tilts"),
        ({"push": -1.0}, "push"),
        ({"travel": 0.0}, "travel"),
        ({"masses": list(range(1, 402)), "tilts": [k / 100 for k in range(101)]}, "masses and tilts"),
    ],
)
def test_a_chart_of_nothing_is_refused(keys: dict[str, object], where: str) -> None:
    with pytest.raises(InputError) as refused:
        closing_chart(UNIT, **{"travel": 500.0, **keys})  # type: ignore[arg-type]
    assert [fault.where for fault in refused.value.faults] == [where]
