"""Phases integrated step by step against scipy.integrate.solve_ivp with its LSODA: alike to the digit."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from drawerwright.carry.closing_steps import Ending, step_on

TOLERANCE = 1e-8, 1e-11


def falling_through(value: Callable[[np.ndarray], float]) -> Callable[[float, np.ndarray], float]:
    """A terminal event as solve_ivp wants it, with its values at steps kept as `Ending` keeps them."""
    ending = Ending(value)

    def event(time: float, state: np.ndarray) -> float:
        return ending(time, state)

    event.terminal = True  # type: ignore[attr-defined]
    event.direction = -1.0  # type: ignore[attr-defined]
    return event


@pytest.mark.parametrize("seed", range(40))
def test_steps_and_the_first_event_are_those_of_solve_ivp(seed: int) -> None:
    random = np.random.default_rng(seed)
    spring, damping = random.uniform(0.0, 30.0), random.uniform(0.0, 8.0)
    pull, level = random.uniform(-0.5, 2.0), random.choice([0.0, 0.01])
    until = random.choice([0.05, 30.0])

    def motion(_: float, state: np.ndarray) -> tuple[float, float]:
        return -state[1], pull + spring * state[0] - damping * state[1]

    values = (lambda state: state[0] - level), (lambda state: state[1] - 1e-5)
    start = (0.05, random.uniform(0.001, 0.5))
    found = solve_ivp(
        motion,
        (0.0, until),
        start,
        method="LSODA",
        events=[falling_through(value) for value in values],
        rtol=TOLERANCE[0],
        atol=TOLERANCE[1],
    )
    ours = step_on(motion, 0.0, until, start, [Ending(value) for value in values], TOLERANCE)
    assert ours.times == tuple(found.t.tolist())
    assert np.array(ours.states).T.tolist() == found.y.tolist()
    ended = [place for place, times in enumerate(found.t_events) if len(times)]
    assert ended == ([] if ours.ending is None else [ours.ending])
