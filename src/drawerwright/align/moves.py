"""By how much to turn which adjusters: bounded least squares over a whole stack.

Minimised are squares of how far readings stay from their target, by how sure they are, corners that stand out
counting less. The even gaps themselves are free: how wide they come out follows from the stack.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.aligned import Target
from drawerwright.align.front_geometry import Array
from drawerwright.align.stack import Stack
from drawerwright.model.gaps import GAP_NAMES, SURE_WITHIN

CORNER_WEIGHT: Final = 0.5
"""What a corner that stands out counts beside a gap: the eye sees gaps first. Own choice, no source."""
DESIGN_WEIGHT: Final = 0.05
"""What an even gap's distance from the designed one counts. Own choice: settles what readings leave open."""
LEAST_WEIGHT: Final = 1e-3
"""What turning itself counts, per mm: settles adjusters that move nothing measured. Own choice."""
NEARLY_THE_SAME: Final = 0.05
"""An adjuster is left alone where that costs less than this a reading [mm, root mean square]. Own choice."""

_CORNERS: Final = np.array([name.startswith("out_") for name in GAP_NAMES])


@dataclass(frozen=True)
class Question:
    """The least squares of a stack: ½ uᵀ `matrix` u + `slope` u over `columns` of its adjusters, in marks.

    `low` and `high` bound them; `allowed` is what each front may lose to fewer moves; `shift` (12 n,) what
    readings have moved by already, where side adjusters are brought alike first [mm].
    """

    columns: NDArray[np.intp]
    matrix: Array
    slope: Array
    low: Array
    high: Array
    allowed: Array
    shift: Array


def question_of(stack: Stack, target: Target, line: Array | None = None) -> Question:
    """The least squares of a stack; `line`: readings wanted for the target "line" (12 n,), nan where free."""
    fronts = stack.fronts
    count = len(fronts)
    step = np.concatenate([front.adjusters.step for front in fronts])
    low = np.concatenate([front.adjusters.low for front in fronts])
    high = np.concatenate([front.adjusters.high for front in fronts])
    shift = np.zeros(12 * count)
    for place, front in enumerate(fronts):
        if any(front.adjusters.evening):
            by = sum(front.adjusters.evening) / 2 * front.adjusters.step[0]
            shift += stack.turning[:, 6 * place] * by
    taken = stack.readings
    at = np.array([row for row, _ in taken], dtype=np.intp)
    value = np.array([reading.value for _, reading in taken]) + shift[at]
    weight = np.minimum(SURE_WITHIN / np.array([reading.uncertainty for _, reading in taken]), 1.0)
    weight = np.where(_CORNERS[at % 12], CORNER_WEIGHT, 1.0) * weight
    wanted = stack.design[at]
    free = stack.rows[at][:, 6 * count :] * weight[:, None]
    if line is not None:
        on_line = ~np.isnan(line[at])
        wanted = np.where(on_line, line[at], wanted)
        free[on_line] = 0.0
    columns = np.flatnonzero(high > low)
    turned = stack.turning[at][:, columns] * step[columns] * weight[:, None]
    off = (value - wanted) * weight
    matrix, slope = turned.T @ turned, turned.T @ off
    if target != "house":
        inner = free.T @ free
        inner[np.diag_indices_from(inner)] += DESIGN_WEIGHT**2
        crossed = np.linalg.solve(inner, free.T @ np.column_stack([turned, off]))
        matrix = matrix - (turned.T @ free) @ crossed[:, :-1]
        slope = slope - (turned.T @ free) @ crossed[:, -1]
    matrix[np.diag_indices_from(matrix)] += (LEAST_WEIGHT * step[columns]) ** 2
    allowed = np.bincount(at // 12, weight**2, count).astype(np.float64) * NEARLY_THE_SAME**2
    return Question(columns, matrix, slope, low[columns], high[columns], allowed, shift)


def free_turns(question: Question) -> Array:
    """The best turns were there no ends, in marks that need not be whole (k,)."""
    if not len(question.columns):
        return np.zeros(0)
    return np.linalg.solve(question.matrix, -question.slope).astype(np.float64)


def best_turns(question: Question, free: Array) -> Array:
    """The best turns within the adjusters' ends (k,), from those without."""
    if np.all((free >= question.low) & (free <= question.high)):
        return free
    from scipy.optimize import lsq_linear  # type: ignore[import-untyped]

    lower = np.linalg.cholesky(question.matrix)
    seen = np.linalg.solve(lower, -question.slope)
    bounded = lsq_linear(lower.T, seen, bounds=(question.low, question.high), method="bvls")
    found: Array = bounded.x
    return found


def beyond_ends(question: Question, free: Array) -> dict[int, int]:
    """By column of the stack's adjusters, whole marks that are wanted beyond its end."""
    short = np.maximum(question.low - free, free - question.high)
    return {
        int(column): round(by)
        for column, by in zip(question.columns.tolist(), short.tolist(), strict=True)
        if round(by) >= 1
    }
