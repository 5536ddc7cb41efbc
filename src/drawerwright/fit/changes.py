"""The smallest single change of each kind that turns a "no" into a "yes".

Margins are piecewise affine in what the user can change: two evaluations give each candidate's step, a third
proves it. Where a kink lies between, the step is closed in on by ever finer rows of trial steps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np

from drawerwright.equations.equation import Q
from drawerwright.fit.change_words import change_of
from drawerwright.fit.lever import Lever
from drawerwright.fit.levers import EASE, levers
from drawerwright.fit.retrial import Retrial, stacked_margins
from drawerwright.fit.slide_rows import SlideRows
from drawerwright.fit.spacers import ROUND_OFF
from drawerwright.fit.trial import Mask, run_trial
from drawerwright.model.fitted import Change, Mount
from drawerwright.model.job import Readings
from drawerwright.units import ShownUnits

_PROBE = 1.0
_ROW = 65
_ROUNDS = 4
_SOONER = 0.01
_SUM = "frame-sum"


def smallest_changes(
    situation: Mapping[str, str],
    mounts: Sequence[Mount],
    rows: Sequence[SlideRows],
    drawer: Mapping[str, Q],
    allowed: Sequence[Mask],
    *,
    width: Readings,
    as_side: Sequence[str],
    units: ShownUnits = "mm",
) -> tuple[Change, ...]:
    """Changes for one drawer (arrays (1, 1)) that fits nothing.

    `allowed` masks (1, c) the slides asked for; `width` holds the readings behind the drawer's widths;
    `as_side` names the thicknesses that go with the sides'.
    """
    places = [
        _Place(situation, mount, group, drawer, allow)
        for mount in mounts
        for group, allow in zip(rows, allowed, strict=True)
        if allow.any()
    ]
    found = []
    for lever in levers(situation, width, as_side):
        steps = [
            step
            for place in places
            for direction in lever.directions
            for step in _steps(lever, direction, place)
        ]
        if steps:
            least = min(steps, key=lambda step: abs(step.by))
            cures = partial(_cures, lever, places)
            found.append(change_of(lever, least.by, units, closes=least.closes, cures=cures))
    return tuple(found)


def _cures(lever: Lever, places: Sequence[_Place], by: float) -> bool:
    """Whether the drawer fits anywhere once the lever has gone by a step with its sign."""
    for place in places:
        here = place.among(lever)
        if here is not None and _fitting(lever, place, here, np.full((1, 1), by)).any():
            return True
    return False


def _fitting(lever: Lever, place: _Place, here: _Reach, step: Q) -> Mask:
    """(steps, slides) that fit once the lever has gone by steps (steps, 1 or slides) with their sign.

    What is broken is looked at first, for mostly it stays so.
    """
    some: Mask = np.ones((len(step), len(here.not_closed)), dtype=bool)
    for margin in here.again.margins((*here.broken, *here.sound), lever.moved_values(place.drawer, step)):
        some &= margin >= -ROUND_OFF
        if not some.any():
            break
    return some


@dataclass(frozen=True, slots=True)
class _Step:
    """A step that makes the drawer fit; `closes`: it was only that the readings did not close."""

    by: float
    closes: bool


class _Place:
    """Where steps are tried: a mount and a group of slides, and how its margins stand now."""

    def __init__(
        self,
        situation: Mapping[str, str],
        mount: Mount,
        rows: SlideRows,
        drawer: Mapping[str, Q],
        allowed: Mask,
    ) -> None:
        self.situation, self.mount, self.rows, self.drawer, self.allowed = (
            situation,
            mount,
            rows,
            drawer,
            allowed,
        )
        trial = self.trial = run_trial(situation, mount, rows, drawer, answer=False)
        self._among: dict[tuple[object, ...], _Reach | None] = {}
        self.stopping = trial.plan.stopping
        self.now = stacked_margins([trial.values[name] for name in self.stopping], trial.shape)
        self.hangs_on = [trial.plan.hangs_on[name] for name in trial.plan.stopping]
        sums = np.array([check.rule.id == _SUM for check in trial.plan.checks if not check.rule.only_watches])
        stopped: Mask = np.any(self.now < -ROUND_OFF, axis=1)
        self.not_closed: Mask = stopped[sums].any(axis=0) & ~stopped[~sums].any(axis=0)
        """Slides that nothing stops but readings that do not close."""

    def within_reach(self, lever: Lever) -> Mask:
        """Slides asked for that nothing stops but what hangs on the lever."""
        deaf = np.array([names.isdisjoint(lever.moves) for names in self.hangs_on])
        reach: Mask = self.allowed & ~(self.now[deaf] < -ROUND_OFF).any(axis=(0, 1))
        if not lever.says:
            return reach & self.not_closed
        return reach if lever.closes is not None else reach & ~self.not_closed

    def among(self, lever: Lever) -> _Reach | None:
        """The slides within reach of a lever, None where there are none; the same for levers of the same."""
        key = (lever.moves, bool(lever.says), lever.closes is not None)
        if key not in self._among:
            reach = self.within_reach(lever)
            self._among[key] = self._reach(reach) if reach.any() else None
        return self._among[key]

    def _reach(self, reach: Mask) -> _Reach:
        columns = np.flatnonzero(reach)
        now = self.now[:, :, columns]
        counts = (now < -ROUND_OFF).sum(axis=(1, 2)).tolist()
        stops = [at for at in sorted(range(len(counts)), key=lambda at: -counts[at]) if counts[at]]
        sound = [at for at in range(len(counts)) if not counts[at]]
        return _Reach(
            Retrial(self.trial, self.situation, reach),
            tuple(self.stopping[at] for at in stops),
            now[stops],
            tuple(self.stopping[at] for at in sound),
            self.not_closed[columns],
        )


@dataclass(frozen=True, slots=True)
class _Reach:
    """Slides within reach of a lever, and how they stand.

    `broken`: the checks that stop any of them, those of most first, `now` their margins; `sound`: the others.
    """

    again: Retrial
    broken: tuple[str, ...]
    now: Q
    sound: tuple[str, ...]
    not_closed: Mask


def _steps(lever: Lever, direction: int, place: _Place) -> Iterator[_Step]:
    limit = lever.farthest if direction > 0 else min(lever.farthest, lever.room(place.drawer))
    here = place.among(lever)
    if limit <= 0 or here is None:
        return
    again, broken, now, not_closed = here.again, here.broken, here.now, here.not_closed

    def fits(step: Q) -> Mask:
        return _fitting(lever, place, here, direction * step)

    def found(by: float) -> _Step:
        if not not_closed.any():
            return _Step(direction * by, closes=False)
        return _Step(direction * by, closes=bool((fits(np.full((1, 1), by)) & not_closed).any()))

    probe, step = min(_PROBE, limit / 2), np.zeros((1, len(not_closed)))
    tried = again.margins(broken, lever.moved_values(place.drawer, np.full((1, 1), direction * probe)))
    with np.errstate(divide="ignore", invalid="ignore"):  # a margin without end has no slope
        for at, margin in enumerate(tried):
            slope = (margin - now[at]) / probe
            needed = np.where(slope > ROUND_OFF, -now[at] / slope, np.inf)
            np.maximum(step, np.where(now[at] < -ROUND_OFF, needed, 0.0), out=step)
            if not np.isfinite(step).any():
                break
    hopeful = np.isfinite(step) & (step <= limit)
    if hopeful.any():
        proven = hopeful & fits(np.where(hopeful, step, 0.0))
        if proven.any():
            least = float(step[proven].min())
            # A spacer that comes or goes on the way can make a smaller step do.
            sooner = _close_in(fits, least - _SOONER) if least > _SOONER else None
            yield found(least if sooner is None else sooner)
            return
    closed_in = _close_in(fits, limit)
    if closed_in is not None:
        yield found(closed_in)


def _close_in(fits: Callable[[Q], Mask], limit: float) -> float | None:
    """First step of a row that fits, then the row between it and the one before, and so on."""
    low, high = 0.0, limit
    for turn in range(_ROUNDS):
        row = np.linspace(low, high, _ROW)[1:, None]
        fitting = fits(row).any(axis=1)
        if not fitting.any():
            # A finer row ends where the last one fitted, so only the first can come up empty.
            return None if turn == 0 else high
        first = int(fitting.argmax())
        low, high = (low if first == 0 else float(row[first - 1, 0])), float(row[first, 0])
    return high


def one_of_each(changes: Sequence[Change]) -> tuple[Change, ...]:
    """Of two ways to change one thing, the smaller; easiest for a shop first."""
    best: dict[str, Change] = {}
    for change in changes:
        if change.change not in best or abs(change.by) < abs(best[change.change].by):
            best[change.change] = change
    return tuple(sorted(best.values(), key=lambda change: EASE.index(change.change)))
