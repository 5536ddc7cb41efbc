"""The smallest single change of each kind that turns a "no" into a "yes".

Margins are piecewise affine in what the user can change: two evaluations give each candidate's step, a third
proves it. Where a kink lies between, the step is closed in on by ever finer rows of trial steps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from drawerwright.equations.equation import Q
from drawerwright.fit.change_words import change_of
from drawerwright.fit.lever import Lever
from drawerwright.fit.levers import EASE, levers
from drawerwright.fit.slide_rows import SlideRows
from drawerwright.fit.spacers import ROUND_OFF
from drawerwright.fit.trial import Mask, Trial, run_trial
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
            found.append(change_of(lever, least.by, units, closes=least.closes))
    return tuple(found)


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
        trial = run_trial(situation, mount, rows, drawer, answer=False)
        self.now = _margins(trial)
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

    def tried(self, lever: Lever, step: Q) -> Q:
        """(k, …): margins after a step."""
        moved = lever.moved(self.drawer, step)
        return _margins(run_trial(self.situation, self.mount, self.rows, moved, answer=False))


def _steps(lever: Lever, direction: int, place: _Place) -> Iterator[_Step]:
    limit = lever.farthest if direction > 0 else min(lever.farthest, lever.room(place.drawer))
    allowed = place.within_reach(lever)
    if limit <= 0 or not allowed.any():
        return

    def tried(step: Q) -> Q:
        return place.tried(lever, direction * step)

    def found(by: float) -> _Step:
        if not place.not_closed.any():
            return _Step(direction * by, closes=False)
        fits = allowed & (tried(np.full((1, 1), by)).min(axis=0) >= -ROUND_OFF)
        return _Step(direction * by, closes=bool((fits & place.not_closed).any()))

    now, probe = place.now, min(_PROBE, limit / 2)
    with np.errstate(divide="ignore", invalid="ignore"):  # a margin without end has no slope
        slope = (tried(np.full((1, 1), probe)) - now) / probe
        needed = np.where(now < -ROUND_OFF, np.where(slope > ROUND_OFF, -now / slope, np.inf), 0.0)
    step = np.where(allowed, needed.max(axis=0), np.inf)
    hopeful = np.isfinite(step) & (step <= limit)
    if hopeful.any():
        proof = tried(np.where(hopeful, step, 0.0)).min(axis=0)
        proven = hopeful & (proof >= -ROUND_OFF)
        if proven.any():
            least = float(step[proven].min())
            # A spacer that comes or goes on the way can make a smaller step do.
            sooner = _close_in(tried, allowed, least - _SOONER) if least > _SOONER else None
            yield found(least if sooner is None else sooner)
            return
    closed_in = _close_in(tried, allowed, limit)
    if closed_in is not None:
        yield found(closed_in)


def _close_in(tried: Callable[[Q], Q], allowed: Mask, limit: float) -> float | None:
    """First step of a row that fits, then the row between it and the one before, and so on."""
    low, high = 0.0, limit
    for turn in range(_ROUNDS):
        row = np.linspace(low, high, _ROW)[1:, None]
        fits = ((tried(row).min(axis=0) >= -ROUND_OFF) & allowed).any(axis=1)
        if not fits.any():
            # A finer row ends where the last one fitted, so only the first can come up empty.
            return None if turn == 0 else high
        first = int(fits.argmax())
        low, high = (low if first == 0 else float(row[first - 1, 0])), float(row[first, 0])
    return high


def _margins(trial: Trial) -> Q:
    """(k, d, c): margins of the checks that can stop."""
    margins = [trial.values[name] for name in trial.plan.stopping]
    shape = np.broadcast_shapes(trial.shape, *(margin.shape for margin in margins))
    return np.stack([np.broadcast_to(margin, shape) for margin in margins])


def one_of_each(changes: Sequence[Change]) -> tuple[Change, ...]:
    """Of two ways to change one thing, the smaller; easiest for a shop first."""
    best: dict[str, Change] = {}
    for change in changes:
        if change.change not in best or abs(change.by) < abs(best[change.change].by):
            best[change.change] = change
    return tuple(sorted(best.values(), key=lambda change: EASE.index(change.change)))
