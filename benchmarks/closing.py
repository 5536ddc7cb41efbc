"""Closing units: one drawer's answer, one run of it, and the chart over mass and tilt."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import count, cycle

from benchmarks.measuring import Figure, seconds
from drawerwright.carry.closing import closing_of, unit_of
from drawerwright.carry.closing_chart import closing_chart
from drawerwright.carry.closing_motion import Moving
from drawerwright.model.family import SoftClose

GOAL_RUN = 10.0
GOAL_ANSWER = 20.0  # own choice: two runs and what goes with them
GOAL_CHART = 200.0  # own choice: drawn while a slider moves
UNIT = SoftClose(capture=50, pull_in=8, spring=0.2, damping=0.1, drag=0.008)
CASES = [(mass, tilt) for mass in (3.0, 10.0, 20.0, 45.0, 60.0) for tilt in (-2.0, 0.0, 1.0, 2.0)]


def figures() -> Iterator[Figure]:
    """All figures of closing; the slowest of the cases counts for a run."""
    unit = unit_of(UNIT)
    runs = [Moving(mass, math.radians(tilt), unit, 0.5) for mass, tilt in CASES]
    slowest = max(seconds(lambda one=one: one.run(0.3, 0.5), times=15) for one in runs)
    yield Figure("a closing run, the slowest of 20", slowest * 1e3, "ms", GOAL_RUN)
    cases, grams = cycle(CASES), count()

    def answer() -> object:
        mass, tilt = next(cases)
        fresh = mass + next(grams) * 1e-6  # alike drawers share their runs: none is alike here
        return closing_of(fresh, UNIT, travel=500, tilt_deg=tilt)

    yield Figure("a drawer's closing, pushed and let go", seconds(answer, times=61) * 1e3, "ms", GOAL_ANSWER)
    chart = seconds(lambda: closing_chart(UNIT, 500), times=15)
    yield Figure("closing chart over 49 masses and 49 tilts", chart * 1e3, "ms", GOAL_CHART)
