"""Whole marks from the best turns of a stack's adjusters, and as few adjusters as will do.

Rounding comes within a hundredth of the best whole steps at an adjuster's usual steps; turning one mark more
or less while that gains, closer still. So no integer programme is needed.
"""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.front_geometry import COLUMNS, Array
from drawerwright.align.moves import Question

Marks: TypeAlias = NDArray[np.int64]
"""Marks of adjusters, in the order of their columns."""

_GAIN: Final = 1e-9
_HAIR: Final = 1e-6
_PAIRS: Final = ((1, 2), (3, 4))
"""Columns of one front that are often turned together: heights, depths."""


def whole_turns(question: Question, turns: Array) -> Marks:
    """Whole marks near the best turns (k,): rounded, then bettered mark by mark, then as few as will do."""
    if not len(turns):
        return np.zeros(0, dtype=np.int64)
    low, high = question.low.copy(), question.high.copy()
    pairs = _pairs_of(question.columns)
    marks = _rounded(question, turns, pairs)
    slope = question.matrix @ marks + question.slope
    ways = _ways(len(marks), pairs)
    _better(question, ways, marks, slope, low, high)
    _leave_alone(question, pairs, ways, marks, slope, low, high)
    return marks.astype(np.int64)


def _rounded(question: Question, turns: Array, pairs: list[tuple[int, int]]) -> Array:
    """Whole marks next to `turns`; left and right so that they stay within what they may differ by."""
    marks = np.clip(np.round(turns), question.low, question.high)
    for pair in pairs:
        best = np.inf
        place = list(pair)
        start = np.floor(turns[place] + _HAIR)
        kept = np.zeros(2)
        for by in ((0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)):
            trial = np.clip(start + by, question.low[place], question.high[place])
            marks[place] = trial
            cost = float(marks @ question.matrix @ marks / 2 + question.slope @ marks)
            rows = question.unlike[:, place].any(axis=1)
            if cost < best and _rows_within(question, marks[None, :])[0, rows].all():
                best, kept = cost, trial
        marks[place] = kept
    for row in np.flatnonzero(~_rows_within(question, marks[None, :])[0]):
        marks[question.unlike[row] != 0.0] = 0.0
    return marks


def _rows_within(question: Question, marks: Array) -> NDArray[np.bool_]:
    """Which limits of left against right each set of marks (m, k) keeps (m, c)."""
    apart = marks @ question.unlike.T
    under, over = question.slack + _HAIR
    inside = (apart >= question.least - under) & (apart <= question.most + over)
    return np.asarray(inside, dtype=np.bool_)


def _within(question: Question, marks: Array) -> NDArray[np.bool_]:
    return np.asarray(_rows_within(question, marks).all(axis=1), dtype=np.bool_)


def _ways(count: int, pairs: list[tuple[int, int]]) -> Array:
    """Ways to go from whole marks to the next (m, k): one adjuster, or left and right alike or opposite."""
    ways = [*np.eye(count)]
    for first, second in pairs:
        ways += [ways[first] + ways[second], ways[first] - ways[second]]
    return np.vstack([ways, np.negative(ways)])


def _better(question: Question, ways: Array, marks: Array, slope: Array, low: Array, high: Array) -> None:
    """Go the way that gains most, as long as any gains; changes `marks` and `slope`."""
    half = np.sum((ways @ question.matrix) * ways, axis=1) / 2
    while True:
        cost = ways @ slope + half
        gains = np.flatnonzero(cost < -_GAIN)
        if not len(gains):
            return
        trial = marks + ways[gains]
        can = np.all((trial >= low) & (trial <= high), axis=1) & _within(question, trial)
        gains = gains[can]
        if not len(gains):
            return
        place = int(gains[cost[gains].argmin()])
        marks += ways[place]
        slope += question.matrix @ ways[place]


def _leave_alone(
    question: Question,
    pairs: list[tuple[int, int]],
    ways: Array,
    marks: Array,
    slope: Array,
    low: Array,
    high: Array,
) -> None:
    """Turn back what is missed least, one adjuster or left and right together, while that costs little."""
    matrix = question.matrix
    both = [(place, place) for place in range(len(marks))] + pairs
    first, second = np.array(both, dtype=np.intp).T
    is_pair = first != second
    front = question.columns[first] // len(COLUMNS)
    half, across = np.diag(matrix) / 2, matrix[first, second] * is_pair
    allowed = question.allowed.copy()
    back = np.zeros((len(first), len(marks)), dtype=np.bool_)
    back[np.arange(len(first)), first] = True
    back[np.arange(len(first)), second] = True
    while np.any(marks):
        alone = marks * (half * marks - slope)
        cost = alone[first] + is_pair * alone[second] + across * marks[first] * marks[second]
        turned = (marks[first] != 0.0) & (marks[second] != 0.0)
        can = turned & _within(question, np.where(back, 0.0, marks))
        beyond = np.where(can, 2.0 * cost - allowed[front], np.inf)
        place = int(beyond.argmin())
        if beyond[place] > 0.0:
            return
        allowed[front[place]] -= max(2.0 * float(cost[place]), 0.0)
        for one in {int(first[place]), int(second[place])}:
            slope -= matrix[one] * marks[one]
            marks[one] = low[one] = high[one] = 0.0
        _better(question, ways, marks, slope, low, high)


def _pairs_of(columns: NDArray[np.intp]) -> list[tuple[int, int]]:
    """Places of left and right adjusters that move alike things."""
    where = {int(column): place for place, column in enumerate(columns)}
    size = len(COLUMNS)
    return [
        (where[start + a], where[start + b])
        for start in sorted({column - column % size for column in where})
        for a, b in _PAIRS
        if start + a in where and start + b in where
    ]
