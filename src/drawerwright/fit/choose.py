"""The choice among what does not stop, in the public contract's order.

Longest box, then lowest capacity, then fewest spacers, then nearest latch, then the order of the files.
A check to watch does not demote.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import Q
from drawerwright.fit.trial import Mask, Trial

_SAME = 1e-9
Criterion: TypeAlias = Callable[[Trial], Q]


@dataclass(frozen=True, slots=True)
class Choice:
    """For each drawer the trial and column chosen, -1 where every candidate stops."""

    trial: NDArray[np.intp]
    column: NDArray[np.intp]


def choose(trials: Sequence[Trial], allowed: Sequence[Mask] | None = None) -> Choice:
    """Choose for every drawer among the candidates of several trials of one mount.

    `allowed`, one mask (d, c) a trial, leaves out what the drawer did not ask for.
    """
    left = [~trial.stopped for trial in trials]
    if allowed is not None:
        left = [mask & allow for mask, allow in zip(left, allowed, strict=True)]
    open_ = left[0] if len(left) == 1 else np.concatenate(left, axis=1)
    costs = [_joined(trials, criterion) for criterion in _CRITERIA]
    column = _first_open(open_, [cost for cost in costs if cost.shape[1] > 1])
    found = open_[np.arange(len(open_)), column]
    starts = np.cumsum([0, *(trial.shape[1] for trial in trials)])
    place = np.searchsorted(starts, column, side="right") - 1
    return Choice(np.where(found, place, -1), np.where(found, column - starts[place], -1))


def _first_open(open_: Mask, costs: Sequence[Q]) -> NDArray[np.intp]:
    """The open column (d,) of least cost, the first cost deciding before the next; any where none is open."""
    if all(cost.shape[0] == 1 for cost in costs):
        # The same order for every drawer: put the columns into it and take the first that is open.
        order = np.lexsort([cost[0] for cost in reversed(costs)]) if costs else np.arange(open_.shape[1])
        ordered: NDArray[np.intp] = order[open_[:, order].argmax(axis=1)]
        return ordered
    for cost in costs:
        least = np.where(open_, cost, np.inf)
        open_ = open_ & (least <= least.min(axis=1, keepdims=True) + _SAME)
    first: NDArray[np.intp] = open_.argmax(axis=1)
    return first


def _joined(trials: Sequence[Trial], criterion: Criterion) -> Q:
    if len(trials) == 1:
        return criterion(trials[0])
    return np.concatenate([np.broadcast_to(criterion(trial), trial.shape) for trial in trials], axis=1)


def _shortness(trial: Trial) -> Q:
    return -trial.values["box_length"]


def _capacity(trial: Trial) -> Q:
    return trial.values["capacity"]


def _pieces(trial: Trial) -> Q:
    if trial.side is None or trial.along is None:
        return np.zeros((1, 1))
    return trial.side.pieces + trial.along.pieces


def _distance(trial: Trial) -> Q:
    if trial.side is None:
        return np.zeros((1, 1))
    return np.abs(trial.values["latch_side_left"]) + np.abs(trial.values["latch_along_left"])


def _order(trial: Trial) -> Q:
    return trial.rows.orders[None, :].astype(np.float64)


_CRITERIA: tuple[Criterion, ...] = (_shortness, _capacity, _pieces, _distance, _order)
