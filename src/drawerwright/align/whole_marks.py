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
_PAIRS: Final = ((1, 2), (3, 4))
"""Columns of one front that are often turned together: heights, depths."""


def whole_turns(question: Question, turns: Array) -> Marks:
    """Whole marks near the best turns (k,): rounded, then bettered mark by mark, then as few as will do."""
    low, high = question.low.copy(), question.high.copy()
    marks = np.clip(np.round(turns), low, high)
    slope = question.matrix @ marks + question.slope
    if len(marks):
        _better(question.matrix, marks, slope, low, high)
        _leave_alone(question, marks, slope, low, high)
    return marks.astype(np.int64)


def _better(matrix: Array, marks: Array, slope: Array, low: Array, high: Array) -> None:
    """Turn the one mark that gains most, as long as any gains; changes `marks` and `slope`."""
    half = np.diag(matrix) / 2
    while True:
        more = np.where(marks < high, slope + half, 0.0)
        less = np.where(marks > low, half - slope, 0.0)
        up, down = int(more.argmin()), int(less.argmin())
        if min(more[up], less[down]) > -_GAIN:
            return
        place, by = (up, 1.0) if more[up] <= less[down] else (down, -1.0)
        marks[place] += by
        slope += matrix[place] * by


def _leave_alone(question: Question, marks: Array, slope: Array, low: Array, high: Array) -> None:
    """Turn back what is missed least, one adjuster or left and right together, while that costs little."""
    matrix = question.matrix
    first, second = _candidates(question.columns)
    is_pair = first != second
    front = question.columns[first] // len(COLUMNS)
    half, across = np.diag(matrix) / 2, matrix[first, second] * is_pair
    allowed = question.allowed.copy()
    while np.any(marks):
        alone = marks * (half * marks - slope)
        cost = alone[first] + is_pair * alone[second] + across * marks[first] * marks[second]
        turned = (marks[first] != 0.0) & (marks[second] != 0.0)
        beyond = np.where(turned, 2.0 * cost - allowed[front], np.inf)
        place = int(beyond.argmin())
        if beyond[place] > 0.0:
            return
        allowed[front[place]] -= max(2.0 * float(cost[place]), 0.0)
        for one in {int(first[place]), int(second[place])}:
            slope -= matrix[one] * marks[one]
            marks[one] = low[one] = high[one] = 0.0
        _better(matrix, marks, slope, low, high)


def _candidates(columns: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Places of adjusters to turn back together: each alone (twice the same), then left with right."""
    where = {int(column): place for place, column in enumerate(columns)}
    size = len(COLUMNS)
    pairs = [(place, place) for place in range(len(columns))]
    for start in sorted({column - column % size for column in where}):
        for a, b in _PAIRS:
            if start + a in where and start + b in where:
                pairs.append((where[start + a], where[start + b]))
    found = np.array(pairs, dtype=np.intp)
    return found[:, 0], found[:, 1]
