"""One option for each of many, so that all options together need the fewest distinct things.

A thing is a slide length to order, or a setting of a machine: it counts once, however many share it. Solved
as a mixed-integer program by branch and bound: over options x and shared things z, both 0 or 1,

    min Σ z + Σ c x    with    Σ x of one chooser = 1,    Σ x of one chooser's options with a thing ≤ its z,

c being what an option needs that no other chooser can share. Its answers are then narrowed: among equal ones
the least loss, among those the least places in the choosers' order of preference. The search is cut off by
counting nodes, never by a clock, so that the same question has the same answer on every machine.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np

from drawerwright.equations.equation import Q

_SAME = 1e-6
# Losses are lengths in mm: what differs by less is a tie.
_SAME_LOSS = 1e-3


@dataclass(frozen=True, slots=True)
class Option:
    """What an option needs, things by number, and what is lost with it [mm], not negative."""

    things: frozenset[int]
    loss: float


@dataclass(frozen=True, slots=True)
class Chooser:
    """Somebody to get one of some options, best first: their losses never fall. Counts `count` times."""

    options: tuple[Option, ...]
    count: int = 1


@dataclass(frozen=True, slots=True)
class Fewest:
    """The option of each chooser, by its place; how many things they need, and the least that could do.

    `ties_proven`: no other answer with as few things loses less or, losing the same, is more to the choosers'
    preference.
    """

    picks: tuple[int, ...]
    value: int
    bound: int
    ties_proven: bool


Kept: TypeAlias = list[tuple[int, Option]]
"""Options worth a thought, with their places among all of a chooser's."""


def pick_fewest(choosers: Sequence[Chooser], *, nodes: int) -> Fewest:
    """Pick one option for each chooser. `nodes` bounds the search of each of its three steps.

    Raises ValueError where a chooser has no option.
    """
    if any(not chooser.options for chooser in choosers):
        raise ValueError("a chooser has no option")
    counts: dict[tuple[Option, ...], int] = defaultdict(int)
    for chooser in choosers:
        counts[chooser.options] += chooser.count
    certain, kept = _narrowed(list(counts))
    program = _Program(kept, list(counts.values()))
    found = program.solve(nodes)
    needed = certain.union(*(one[pick][1].things for one, pick in zip(kept, found.picks, strict=True)))
    picks = {options: _first_within(needed, options) for options in counts}
    value = len(frozenset[int]().union(*(options[pick].things for options, pick in picks.items())))
    return Fewest(
        tuple(picks[chooser.options] for chooser in choosers),
        value,
        min(value, len(certain) + found.bound),
        found.ties_proven,
    )


def _first_within(things: frozenset[int], options: Iterable[Option]) -> int:
    """The place of the best option that needs nothing but these things."""
    return next(place for place, option in enumerate(options) if option.things <= things)


def _narrowed(choosers: Sequence[tuple[Option, ...]]) -> tuple[frozenset[int], list[Kept]]:
    """Things needed whatever is picked; the options left, what is needed anyway taken off theirs.

    An option falls that a better one of the same chooser makes needless: it needs no more, and loses no more.
    """
    kept: list[Kept] = [list(enumerate(options)) for options in choosers]
    certain: frozenset[int] = frozenset()
    while True:
        common = [frozenset[int].intersection(*(option.things for _, option in one)) for one in kept]
        more = frozenset[int]().union(*common)
        certain |= more
        before = sum(map(len, kept))
        kept = [_undominated((place, Option(o.things - more, o.loss)) for place, o in one) for one in kept]
        if not more and sum(map(len, kept)) == before:
            return certain, kept


def _undominated(options: Iterable[tuple[int, Option]]) -> Kept:
    left: Kept = []
    for place, option in options:
        if not any(better.things <= option.things for _, better in left):
            left.append((place, option))
    return left


@dataclass(frozen=True, slots=True)
class _Found:
    picks: tuple[int, ...]
    bound: int
    ties_proven: bool


class _Program:
    """The mixed-integer program of some choosers; columns are all options in turn, then the shared things."""

    def __init__(self, kept: Sequence[Kept], counts: Sequence[int]) -> None:
        self._sizes = [len(one) for one in kept]
        self._starts = np.cumsum([0, *self._sizes])[:-1]
        options = [option for one in kept for _, option in one]
        owner = np.repeat(np.arange(len(kept)), self._sizes)
        wanted: dict[int, set[int]] = defaultdict(set)
        for index, option in enumerate(options):
            for thing in option.things:
                wanted[thing].add(int(owner[index]))
        self._shared = {
            thing: number
            for number, thing in enumerate(sorted(one for one, by in wanted.items() if len(by) > 1))
        }
        self._options, self._owner = options, owner
        weight = np.array(counts, dtype=np.float64)[owner]
        places = np.array([place for one in kept for place, _ in one], dtype=np.float64)
        none = np.zeros(len(self._shared))
        own = np.array([sum(thing not in self._shared for thing in option.things) for option in options])
        self._needs = np.concatenate([own.astype(np.float64), np.ones(len(self._shared))])
        self._losses = np.concatenate([weight * np.array([option.loss for option in options]), none])
        self._places = np.concatenate([weight * places, none])

    def solve(self, nodes: int) -> _Found:
        """Fewest things, then least loss, then preference; every step holds what the one before found."""
        picks = self._best_of_each()
        if not self._shared:
            return _Found(picks, round(self._total(self._needs, picks)), True)
        bound, proven = 0, True
        held: list[tuple[Q, float]] = []
        for goal, same in ((self._needs, 0.5), (self._losses, _SAME_LOSS), (self._places, 0.5)):
            least, better = self._minimum(goal, held, nodes)
            if better is not None and self._improves(better, picks, held, goal):
                picks = better
            reached = self._total(goal, picks)
            if not held:
                bound = math.ceil(least - _SAME)
                proven = bound >= round(reached)
            else:
                proven = proven and least >= reached - same
            held.append((goal, reached + min(same, _SAME_LOSS)))
        return _Found(picks, bound, proven)

    def _best_of_each(self) -> tuple[int, ...]:
        """The option of each chooser that needs the fewest things, the most preferred of those."""
        needs = [len(option.things) for option in self._options]
        parts = (needs[start : start + size] for start, size in zip(self._starts, self._sizes, strict=True))
        return tuple(part.index(min(part)) for part in parts)

    def _total(self, goal: Q, picks: Sequence[int]) -> float:
        """The goal at some picks, exactly; the solver's own figure is off by its tolerance."""
        chosen = self._starts + np.array(picks)
        things = frozenset[int]().union(*(self._options[index].things for index in chosen.tolist()))
        shared = [len(self._options) + self._shared[thing] for thing in sorted(things & self._shared.keys())]
        return math.fsum(goal[[*chosen.tolist(), *shared]].tolist())

    def _improves(
        self, better: Sequence[int], picks: Sequence[int], held: Sequence[tuple[Q, float]], goal: Q
    ) -> bool:
        if any(self._total(one, better) > most + _SAME for one, most in held):
            return False
        return self._total(goal, better) < self._total(goal, picks)

    def _minimum(
        self, goal: Q, held: Sequence[tuple[Q, float]], nodes: int
    ) -> tuple[float, tuple[int, ...] | None]:
        """The least that the goal can be, as far as the search has proven it; the best picks it came upon."""
        from scipy.optimize import Bounds, LinearConstraint, milp  # type: ignore[import-untyped]

        constraints = [LinearConstraint(*rows) for rows in self._rows()]
        constraints += [LinearConstraint(row[None, :], -np.inf, most) for row, most in held]
        answer: Any = milp(
            goal,
            integrality=np.ones(len(goal)),
            bounds=Bounds(0, 1),
            constraints=constraints,
            options={"node_limit": nodes, "mip_rel_gap": 0.0},
        )
        least = answer.mip_dual_bound
        least = 0.0 if least is None or not math.isfinite(least) else float(least)
        if answer.x is None:
            return least, None
        parts = np.split(answer.x[: len(self._options)], self._starts[1:])
        return least, tuple(int(part.argmax()) for part in parts)

    def _rows(self) -> Iterable[tuple[Any, float, float]]:
        from scipy.sparse import csr_array  # type: ignore[import-untyped]

        count, width = len(self._options), len(self._needs)
        one_each = csr_array((np.ones(count), (self._owner, np.arange(count))), (len(self._sizes), width))
        yield one_each, 1.0, 1.0
        links: dict[tuple[int, int], int] = {}
        entries: dict[tuple[int, int], float] = {}
        for index, option in enumerate(self._options):
            for thing in sorted(option.things & self._shared.keys()):
                row = links.setdefault((int(self._owner[index]), self._shared[thing]), len(links))
                entries[row, index] = 1.0
        entries |= {(row, count + thing): -1.0 for (_, thing), row in links.items()}
        places = tuple(zip(*entries, strict=True))
        yield csr_array((list(entries.values()), places), (len(links), width)), -np.inf, 0.0
