"""An equation of motion integrated step by step, up to the first event: what a phase of closing needs.

LSODA takes the same steps as scipy's solve_ivp with terminal events, and its events are found alike, to the
last digit; events are looked at as plain numbers, which halves the time of a run.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import LSODA  # type: ignore[import-untyped]
from scipy.optimize import brentq  # type: ignore[import-untyped]

State = NDArray[np.float64]
Motion = Callable[[float, State], tuple[float, ...]]

_NEAR: Final = 4.0 * sys.float_info.epsilon
"""How near an event is found, as a share of its time: as near as the numbers go."""


class Ending:
    """An event that ends a phase where its value falls through 0.

    Values at the solver's own steps are kept and given again: its interpolation differs from them by a hair,
    and a root between two steps is looked for by their signs.
    """

    def __init__(self, value: Callable[[State], float]) -> None:
        self._value = value
        self._known: dict[float, float] = {}

    def __call__(self, time: float, state: State) -> float:
        """Its value there."""
        return self._known.setdefault(time, float(self._value(state)))


@dataclass(frozen=True, slots=True)
class Stepped:
    """Times and states of every step of the solver, the start among them.

    `ending`: the place of the event that ended it, None at the time-out.
    """

    times: tuple[float, ...]
    states: tuple[State, ...]
    ending: int | None


def step_on(
    motion: Motion,
    start: float,
    until: float,
    state: Sequence[float],
    endings: Sequence[Ending],
    tolerance: tuple[float, float],
) -> Stepped:
    """From a state at `start` on to the first of the `endings`, or to `until` [s].

    `tolerance`: relative and absolute, of a step.
    """
    solver = LSODA(motion, start, np.array(state), until, rtol=tolerance[0], atol=tolerance[1])
    times, states = [float(start)], [solver.y]
    values = [ending(start, solver.y) for ending in endings]
    while solver.status == "running":
        solver.step()
        if solver.status == "failed":
            break
        now = [ending(solver.t, solver.y) for ending in endings]
        fallen = [
            place for place, (one, two) in enumerate(zip(values, now, strict=True)) if one >= 0.0 >= two
        ]
        if fallen:
            between = solver.dense_output()
            found = [_root(endings[place], between, solver.t_old, solver.t) for place in fallen]
            first = min(range(len(found)), key=found.__getitem__)
            return Stepped((*times, found[first]), (*states, between(found[first])), fallen[first])
        values = now
        times.append(float(solver.t))
        states.append(solver.y)
    return Stepped(tuple(times), tuple(states), None)


def _root(ending: Ending, between: Callable[[float], State], low: float, high: float) -> float:
    """When an event's value is 0 between two steps [s]."""
    return float(brentq(lambda time: ending(time, between(time)), low, high, xtol=_NEAR, rtol=_NEAR))
