"""A trial run again with a few values moved: only what hangs on them, only for the slides that matter.

The search for the smallest change tries very many steps of one lever on one drawer. Most of the sheet does
not hang on the lever, and most slides are stopped by something else; neither is computed again.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import Q
from drawerwright.fit.slide_rows import SpacerChoices
from drawerwright.fit.spacers import choose_spacers
from drawerwright.fit.trial import Mask, Trial, side_limits, trial_plan
from drawerwright.model.fitted import Mount

_LIMITS = ("narrowest_at_slide", "widest_at_slide", "measured_width")
_SPACERS = {"side_spacers": ("bracket_off_side", *_LIMITS), "subfront_spacers": ("bracket_off_along",)}
"""What the spacers are chosen by, of what a step can move."""


@dataclass(frozen=True, slots=True)
class _Run:
    """One quantity to be computed again; without a function it is a choice of spacers."""

    quantity: str
    arguments: tuple[str, ...]
    function: Callable[..., Q] | None


@lru_cache(maxsize=4096)
def _behind(
    situation: tuple[tuple[str, str], ...], mount: Mount, carriage: str, moves: tuple[str, ...]
) -> Mapping[str, tuple[_Run, ...]]:
    """For every check that can stop, what has to be computed again once these values have moved."""
    plan, moved = trial_plan(dict(situation), mount, carriage), set(moves)
    runs: dict[str, _Run] = {}

    def add(run: _Run) -> None:
        if run.quantity not in runs and not moved.isdisjoint(run.arguments):
            runs[run.quantity] = run
            moved.add(run.quantity)

    if plan.off_seat is not None:
        for step in plan.off_seat.steps:
            add(_Run(step.quantity, step.arguments, step.function))
        for quantity, by in _SPACERS.items():
            add(_Run(quantity, by, None))
    for step in plan.margins.steps:
        add(_Run(step.quantity, step.arguments, step.function))
    return {name: _needed_for(name, tuple(runs.values())) for name in plan.stopping}


def _needed_for(wanted: str, runs: Sequence[_Run]) -> tuple[_Run, ...]:
    found, names = [], {wanted}
    for run in reversed(runs):
        if run.quantity in names:
            found.append(run)
            names.update(run.arguments)
    return tuple(reversed(found))


class Retrial:
    """A trial of one drawer's margins, narrowed to some of its slides."""

    def __init__(self, trial: Trial, situation: Mapping[str, str], columns: Mask) -> None:
        self._trial = trial
        self._situation = tuple(sorted(situation.items()))
        at = np.flatnonzero(columns)
        self._standing = _Standing(trial, at)
        choices = trial.rows.spacers
        self._spacers = choices
        if len(choices.sums) > 1:
            stacks = tuple(choices.stacks[one] for one in at)
            self._spacers = SpacerChoices(stacks, choices.sums[at], choices.counts[at])

    def margins(self, wanted: Sequence[str], moved: Mapping[str, Q]) -> Iterator[Q]:
        """Margins of these checks one after the other, (d or 1, c or 1), with some values moved.

        What several of them hang on is computed once; what nobody asks for is not computed.
        """
        behind = _behind(self._situation, self._trial.mount, self._trial.rows.carriage, tuple(moved))
        values = _Values(self._standing, moved)
        for name in wanted:
            for run in behind[name]:
                if run.quantity not in values.anew:
                    values.anew.add(run.quantity)
                    values[run.quantity] = self._computed(run, values)
            yield values[name]

    def _computed(self, run: _Run, values: dict[str, Q]) -> Q:
        if run.function is not None:
            return run.function(*[values[name] for name in run.arguments])
        if run.quantity == "side_spacers":
            low, high = side_limits(values)
        else:
            high = values["latch_tolerance_along"]
            low = -high
        return choose_spacers(values[run.arguments[0]], low, high, self._spacers).thickness


class _Standing(dict[str, Q]):
    """The values of a trial for some of its slides, each cut out when it is asked for first."""

    def __init__(self, trial: Trial, at: NDArray[np.intp]) -> None:
        super().__init__()
        self._trial, self._at = trial, at

    def __missing__(self, name: str) -> Q:
        value, every = self._trial.values[name], self._trial.shape[1]
        if value.shape[1] == every and every > 1:
            value = value[:, self._at]
        self[name] = value
        return value


class _Values(dict[str, Q]):
    """Values as they stand, under those that have moved; `anew` are those that were computed again."""

    def __init__(self, standing: _Standing, moved: Mapping[str, Q]) -> None:
        super().__init__(standing)
        self.update(moved)
        self.anew = set(moved)
        self._standing = standing

    def __missing__(self, name: str) -> Q:
        value = self[name] = self._standing[name]
        return value


def stacked_margins(margins: Collection[Q], shape: tuple[int, ...]) -> Q:
    """(k, d, c): margins one over another, each spread over the shape (d, c)."""
    table = np.empty((len(margins), *shape))
    for at, margin in enumerate(margins):
        table[at] = margin
    return table
