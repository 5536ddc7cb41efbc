"""By how much to turn which adjusters: bounded least squares over a whole stack.

Minimised are squares of how far readings stay from their target, by how sure they are: first of the gaps,
which sides and heights move; then of the corners that stand out, by depth and tilt, which move no gap. The
even gaps themselves are free: how wide they come out follows from the stack. What nobody
measured only settles between moves that readings hold alike. Left and right are turned unlike only as far as
the front was found rolled or yawed (`unlike`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.aligned import Target
from drawerwright.align.assumed import kept_open
from drawerwright.align.front_geometry import Array
from drawerwright.align.pose import Found
from drawerwright.align.stack import Stack
from drawerwright.align.unlike import unlike_depths, unlike_heights
from drawerwright.model.gaps import GAP_NAMES, SURE_WITHIN

DESIGN_FREE: Final = 1e-3
"""What an even gap's distance from the designed one counts where gaps on both sides were measured."""
DESIGN_HELD: Final = 0.2
"""… and where they were not: then the designed gap is the best guess of the other side's. It counts little:
gaps along the edge that was measured come even first. Own choices."""
LINE_WEIGHT: Final = 10.0
"""What a reading to be met counts; others of its front in that direction as much less. Own choice."""
UNSEEN_SHIFT: Final = 0.02
"""What shifting a front in a way that no reading tells counts: it settles what the readings leave open, and
gives way to every one of them. Own choice."""
UNSEEN_TURN: Final = 0.005
"""… and turning it, which what is asked for brings with it, at its ends. Own choice."""
LEAST_WEIGHT: Final = 1e-3
"""What turning itself counts, per mm: settles adjusters that move nothing measured. Own choice."""
NEARLY_THE_SAME: Final = 0.05
"""An adjuster is left alone where that costs less than this a reading [mm, root mean square]. Own choice."""

_HAIR: Final = 1e-9
_UNSEEN: Final = np.array([UNSEEN_SHIFT] * 3 + [UNSEEN_TURN] * 3)
_DIRECTION: Final = np.array(
    [2 if name.startswith("out") else 0 if name.startswith(("left", "right")) else 1 for name in GAP_NAMES]
)
_CORNERS: Final = np.array([name.startswith("out_") for name in GAP_NAMES])


@dataclass(frozen=True)
class Question:
    """The least squares of a stack: ½ uᵀ `matrix` u + `slope` u over `columns` of its adjusters, in marks.

    `low` and `high` bound them; `allowed` is what each front may lose to fewer moves; `shift` (12 n,) what
    readings have moved by already [mm]. `unlike` (c, k) u is by
    how much right adjusters are turned more than left ones [mm], between `least` and `most` (c,); whole marks
    may go beyond those by `slack` (2, c), so that an angle never comes out larger than it was by over half a
    mark. The rows from `assumed` on are gaps that nobody measured (`most` is inf): they stay open.
    """

    columns: NDArray[np.intp]
    matrix: Array
    slope: Array
    low: Array
    high: Array
    allowed: Array
    shift: Array
    unlike: Array
    least: Array
    most: Array
    slack: Array
    assumed: int


def question_of(
    stack: Stack, found: Found, target: Target, line: Array | None = None, *, gaps_by: Array | None = None
) -> Question:
    """The least squares of a stack, from its state as found: of its gaps, by sides and heights.

    With `gaps_by` (6 n,) [mm], what sides and heights are turned by: of its corners, by depth and tilt.
    `line`: readings wanted for the target "line" (12 n,), nan where free.
    """
    deep = gaps_by is not None
    fronts = stack.fronts
    count = len(fronts)
    step = np.concatenate([front.adjusters.step for front in fronts])
    low = np.concatenate([front.adjusters.low for front in fronts])
    high = np.concatenate([front.adjusters.high for front in fronts])
    moved = np.zeros(6 * count) if gaps_by is None else gaps_by.copy()
    for place, front in enumerate(fronts):
        moved[6 * place] += sum(front.adjusters.evening) / 2 * front.adjusters.step[0]
    shift = stack.turning @ moved
    taken = [(row, reading) for row, reading in stack.readings if _CORNERS[row % 12] == deep]
    at = np.array([row for row, _ in taken], dtype=np.intp)
    value = np.array([reading.value for _, reading in taken]) + shift[at]
    weight = np.minimum(SURE_WITHIN / np.array([reading.uncertainty for _, reading in taken]), 1.0)
    wanted = stack.design[at]
    free = stack.rows[at][:, 6 * count :] * weight[:, None]
    if line is not None:
        on_line = ~np.isnan(line[at])
        wanted = np.where(on_line, line[at], wanted)
        free[on_line] = 0.0
        by_line = np.where(on_line, LINE_WEIGHT, np.where(_beside(at, on_line), 1.0 / LINE_WEIGHT, 1.0))
        weight, free = weight * by_line, free * by_line[:, None]
    by_depth = np.arange(6 * count) % 6 >= 3
    columns = np.flatnonzero((high > low) & _asked_for(count, found) & (by_depth == deep))
    turned = stack.turning[at][:, columns] * step[columns] * weight[:, None]
    off = (value - wanted) * weight
    matrix, slope = turned.T @ turned, turned.T @ off
    if target != "house":
        inner = free.T @ free
        inner[np.diag_indices_from(inner)] += _held(stack, at) ** 2
        crossed = np.linalg.solve(inner, free.T @ np.column_stack([turned, off]))
        matrix = matrix - (turned.T @ free) @ crossed[:, :-1]
        slope = slope - (turned.T @ free) @ crossed[:, -1]
    unseen = _unseen(stack, found)[:, columns] * step[columns]
    matrix = matrix + unseen.T @ unseen
    matrix[np.diag_indices_from(matrix)] += (LEAST_WEIGHT * step[columns]) ** 2
    allowed = np.bincount(at // 12, weight**2, count).astype(np.float64) * NEARLY_THE_SAME**2
    return Question(
        columns,
        matrix,
        slope,
        low[columns],
        high[columns],
        allowed,
        shift,
        *_with_assumed(
            _limits(stack, line, columns, step, moved if deep else None),
            kept_open(stack, found, columns, step, shift),
        ),
    )


def _with_assumed(
    limits: tuple[Array, Array, Array, Array], assumed: tuple[Array, Array]
) -> tuple[Array, Array, Array, Array, int]:
    """Limits of left against right, those of gaps that nobody measured behind them; how many before."""
    (rows, least, most, slack), (open_rows, open_least) = limits, assumed
    return (
        np.vstack([rows, open_rows]),
        np.append(least, open_least),
        np.append(most, np.full(len(open_least), np.inf)),
        np.hstack([slack, np.zeros((2, len(open_least)))]),
        len(rows),
    )


def _limits(
    stack: Stack, line: Array | None, columns: NDArray[np.intp], step: Array, moved: Array | None
) -> tuple[Array, Array, Array, Array]:
    """Limits of what left and right are turned unlike: rows (c, k), least, most (c,), slack (2, c)."""
    count = len(stack.fronts)
    if moved is None:
        first, bounds = 1, unlike_heights(stack, line)
    else:
        yaws = [
            front.geometry.pose_changes[4] @ moved[6 * at : 6 * at + 6]
            for at, front in enumerate(stack.fronts)
        ]
        first, bounds = 3, unlike_depths(stack, line, np.array(yaws))
    rows = np.zeros((count, 6 * count))
    mark = np.zeros(count)
    for at in range(count):
        left, right = 6 * at + first, 6 * at + first + 1
        rows[at, left], rows[at, right] = -step[left], step[right]
        mark[at] = max(step[left], step[right])
    rows = rows[:, columns]
    used = rows.any(axis=1)
    slack = np.minimum(mark[:, None], np.abs(bounds) + mark[:, None] / 2)[used].T
    return rows[used], bounds[used, 0], bounds[used, 1], slack


def _held(stack: Stack, at: NDArray[np.intp]) -> Array:
    """What the designed gap counts across each front, and between the fronts of the stack (n + 1,)."""
    count = len(stack.fronts)
    taken = np.zeros((count, len(GAP_NAMES)), dtype=np.bool_)
    taken[at // 12, at % 12] = True
    left, right = taken[:, :2].any(axis=1), taken[:, 2:4].any(axis=1)
    levels = int(taken[0, 6:8].any()) + int(taken[:, 4:6].any(axis=1).sum())
    free = np.append(left & right, levels > 1)
    return np.where(free, DESIGN_FREE, DESIGN_HELD)


def _asked_for(count: int, found: Found) -> NDArray[np.bool_]:
    """Adjusters (6 n,) that move their front mainly in a way that the readings tell; others stay."""
    told = np.stack([found.is_told(at) for at in range(count)])
    x, y, z, roll, yaw, pitch = told.T
    upright, deep = y | roll, z | yaw
    return np.column_stack([x, upright, upright, deep, deep, pitch]).ravel()


def _unseen(stack: Stack, found: Found) -> Array:
    """Weighed change of every coordinate that no reading tells [mm at the front's ends per mm] (6 n, 6 n)."""
    changes = np.zeros((6 * len(stack.fronts), 6 * len(stack.fronts)))
    for at, front in enumerate(stack.fronts):
        told = found.is_told(at)
        if not told.all():
            part = slice(6 * at, 6 * at + 6)
            moved = front.geometry.pose_changes / found.scale[part, None]
            changes[part, part] = np.where(told, 0.0, _UNSEEN)[:, None] * moved
    return changes


def _beside(at: NDArray[np.intp], on_line: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Readings of the same front and the same direction as one that is to be met."""
    direction = 3 * (at // 12) + _DIRECTION[at % 12]
    return np.isin(direction, direction[on_line])


def free_turns(question: Question) -> Array:
    """The best turns were there no ends, in marks that need not be whole (k,)."""
    if not len(question.columns):
        return np.zeros(0)
    return np.linalg.solve(question.matrix, -question.slope).astype(np.float64)


def best_turns(question: Question, free: Array) -> Array:
    """The best turns within the adjusters' ends and limits (k,), from those without."""
    apart = question.unlike @ free
    if (
        np.all((free >= question.low) & (free <= question.high))
        and np.all(apart >= question.least - _HAIR)
        and np.all(apart <= question.most + _HAIR)
    ):
        return free
    from drawerwright.align.bounded import bounded_least_squares

    one = np.eye(len(free))
    ended = np.isfinite(question.most)
    limits = np.vstack([one, -one, question.unlike, -question.unlike[ended]])
    least = np.concatenate([question.low, -question.high, question.least, -question.most[ended]])
    found = bounded_least_squares(question.matrix, question.slope, limits, least)
    return np.clip(found, question.low, question.high)


def held_fronts(question: Question, free: Array) -> tuple[int, ...]:
    """Places of fronts that would be turned further, did a gap that nobody measured not have to stay open."""
    rows = question.unlike[question.assumed :]
    closed = rows @ free < question.least[question.assumed :] - _HAIR
    used = rows[closed].any(axis=0)
    return tuple(sorted({int(column) // 6 for column in question.columns[used]}))
