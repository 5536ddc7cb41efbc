"""The order in which turns are made: that of the mounting sheet, unless a gap would close on the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.front_geometry import Array
from drawerwright.align.stack import Stack
from drawerwright.align.steps import Turn
from drawerwright.model.gaps import GAP_NAMES, GapName

_TOUCHES: Final = -0.005
"""A gap below this is no gap any more [mm]."""


@dataclass(frozen=True)
class Ordered:
    """Turns of each front, the lowest first, in the order in which they are made.

    `fronts`: places of the fronts in theirs. `tight`: of each front, gaps that go below 0 on the way in any
    order, and how far [mm].
    """

    turns: tuple[tuple[Turn, ...], ...]
    fronts: tuple[int, ...]
    tight: tuple[Mapping[GapName, float], ...]


def order_turns(
    stack: Stack,
    turns: Sequence[tuple[Turn, ...]],
    values: Array,
    told: NDArray[np.bool_],
    fronts: Sequence[int],
) -> Ordered:
    """Turns and fronts in the given order where that keeps every gap open, else in the next that does.

    Where none does, that which closes least. `values`, `told` (12 n,): readings before, and which are known.
    """
    best: tuple[float, tuple[tuple[Turn, ...], ...], tuple[int, ...]] | None = None
    for order in dict.fromkeys((tuple(fronts), tuple(fronts)[::-1])):
        chosen, worst = _along(stack, turns, values, told, order)
        if best is None or worst > best[0] + 1e-9:
            best = worst, chosen, order
        if worst >= _TOUCHES:
            break
    if best is None:
        return Ordered(tuple(turns), tuple(fronts), ())
    return Ordered(best[1], best[2], _tight(stack, best[1], best[2], values, told))


def _along(
    stack: Stack,
    turns: Sequence[tuple[Turn, ...]],
    values: Array,
    told: NDArray[np.bool_],
    order: tuple[int, ...],
) -> tuple[tuple[tuple[Turn, ...], ...], float]:
    """The best order of each front's turns, front after front, and the least gap on the way (at most 0)."""
    chosen = list(turns)
    worst = 0.0
    for at in order:
        counts = _gaps_of(stack, at) & told
        found: tuple[float, tuple[Turn, ...]] | None = None
        for trial in permutations(turns[at]):
            least = min((_least(now, counts) for now in _on_the_way(stack, at, trial, values)), default=0.0)
            if found is None or least > found[0] + 1e-9:
                found = least, trial
            if least >= _TOUCHES:
                break
        if found is not None:
            worst = min(worst, found[0])
            chosen[at] = found[1]
        for now in _on_the_way(stack, at, chosen[at], values):
            values = now
    return tuple(chosen), worst


def _on_the_way(stack: Stack, at: int, turns: Sequence[Turn], values: Array) -> Iterator[Array]:
    """All readings (12 n,) after each turn of one front [mm]."""
    for turn in turns:
        values = values + stack.turning[:, 6 * at : 6 * at + 6] @ turn.columns
        yield values


def _gaps_of(stack: Stack, at: int) -> NDArray[np.bool_]:
    """Rows of the gaps beside a front's edges (12 n,)."""
    rows = np.zeros(12 * len(stack.fronts), dtype=np.bool_)
    rows[[stack.row(at, name) for name in GAP_NAMES if not name.startswith("out_")]] = True
    return rows


def _least(values: Array, counts: NDArray[np.bool_]) -> float:
    return float(values[counts].min(initial=0.0))


def _tight(
    stack: Stack,
    turns: Sequence[Sequence[Turn]],
    order: Sequence[int],
    values: Array,
    told: NDArray[np.bool_],
) -> tuple[Mapping[GapName, float], ...]:
    found: list[dict[GapName, float]] = [{} for _ in turns]
    for at in order:
        for now in _on_the_way(stack, at, turns[at], values):
            values = now
            for name in GAP_NAMES:
                row = stack.row(at, name)
                if told[row] and not name.startswith("out_") and now[row] < _TOUCHES:
                    found[at][name] = min(found[at].get(name, 0.0), float(now[row]))
    return tuple(found)
