"""The moves of fronts against other ways to the same answer.

The bounded least squares, of gaps by sides and heights and then of corners by depth, is written down once
more, from geometry alone, and solved by lsq_linear of
scipy.optimize (one front, on each face of the limits of left against right), by trying every mark of a grid
(three adjusters), and as a quadratic programme by DAQP (stacks).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
import pytest
from scipy.optimize import lsq_linear

from drawerwright.align.adjusters import Adjusters, adjusters_of
from drawerwright.align.front_geometry import FrontGeometry
from drawerwright.align.moves import (
    DESIGN_FREE,
    LEAST_WEIGHT,
    Question,
    best_turns,
    free_turns,
    question_of,
)
from drawerwright.align.pose import find_state
from drawerwright.align.stack import MeasuredFront, Stack
from drawerwright.align.whole_marks import whole_turns
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading

STEP = 0.25
LOW = np.array([-6.0, 0, 0, 0, 0])
HIGH = np.array([6.0, 12, 12, 16, 16])


def stack_of(fitted: FittedDrawer, count: int, random: np.random.Generator) -> Stack:
    """Fronts of any width and height, every gap off by about a millimetre."""
    fronts = []
    for at in range(count):
        geometry = FrontGeometry(
            float(random.uniform(350, 900)), float(random.uniform(120, 300)), 500.0,
            float(random.uniform(300, 800)), float(random.uniform(-10, 10)), float(random.uniform(20, 80)),
        )  # fmt: skip
        told = {
            name: Reading(float(random.normal(0.0 if name.startswith("out") else 3.0, 0.8)))
            for name in GAP_NAMES
            if at == 0 or not name.startswith("bottom")
        }
        fronts.append(
            MeasuredFront(
                fitted, FrontGaps(str(at), told), geometry, adjusters_of(fitted, {}, {}), 3.0, 3.0, 3.0
            )
        )
    return Stack(tuple(fronts))


def written_down(stack: Stack, gaps_by: np.ndarray | None = None) -> tuple[np.ndarray, np.ndarray]:
    """Rows and right-hand sides of the least squares, reading by reading: five adjusters a front in marks,
    then the even gap across each front, then the even gap from front to front.

    Of gaps; with marks of sides and heights (5 n,) that these brought, of the corners.
    """
    count = len(stack.fronts)
    rows, wanted = [], []
    unknowns = 5 * count + count + 1
    for at, front in enumerate(stack.fronts):
        for name, reading in front.told.readings.items():
            row = np.zeros(unknowns)
            if name.startswith("out") != (gaps_by is not None):
                continue
            moved = [(at, name, 1.0)]
            if name.startswith("top") and at + 1 < count:
                moved.append((at + 1, name.replace("top", "bottom"), 1.0))
            for other, seen, sign in moved:
                turning = stack.fronts[other].geometry.turning[GAP_NAMES.index(seen)][:5]  # type: ignore[arg-type]
                row[5 * other : 5 * other + 5] = sign * STEP * turning
            if name.startswith(("left", "right")):
                row[5 * count + at] = -1.0
            if name.startswith(("top", "bottom")):
                row[-1] = -1.0
            by = 0.0 if gaps_by is None else float(row[: 5 * count] @ gaps_by)
            rows.append(row)
            wanted.append((0.0 if name.startswith("out") else 3.0) - reading.value - by)
    for place in range(5 * count, unknowns):
        row = np.zeros(unknowns)
        row[place] = DESIGN_FREE
        rows.append(row)
        wanted.append(0.0)
    for place in range(5 * count):
        row = np.zeros(unknowns)
        row[place] = LEAST_WEIGHT * STEP
        rows.append(row)
        wanted.append(0.0)
    return np.array(rows), np.array(wanted)


ALONG = (("left_top", "left_bottom"), ("right_top", "right_bottom"), ("top_left", "top_right"),
         ("bottom_left", "bottom_right"))  # fmt: skip
ACROSS = (("out_top_left", "out_top_right"), ("out_bottom_left", "out_bottom_right"))


def angles(stack: Stack, pairs: Any, coordinate: int) -> np.ndarray:
    """Roll or yaw of each front by the differences along edges; 0 where that is within their noise."""
    rows, off = [], []
    for at, front in enumerate(stack.fronts):
        for one, two in pairs:
            if one not in front.told.readings:
                continue
            row = np.zeros(len(stack.fronts))
            change = front.geometry.gap_changes[:, coordinate]
            row[at] = change[GAP_NAMES.index(one)] - change[GAP_NAMES.index(two)]
            if one == "top_left" and at + 1 < len(stack.fronts):
                change = stack.fronts[at + 1].geometry.gap_changes[:, coordinate]
                row[at + 1] = change[GAP_NAMES.index("bottom_left")] - change[GAP_NAMES.index("bottom_right")]
            rows.append(row)
            off.append(front.told.readings[one].value - front.told.readings[two].value)
    if not rows:
        return np.zeros(len(stack.fronts))
    found = np.linalg.lstsq(np.array(rows), np.array(off), rcond=None)[0]
    within = np.sqrt(np.sum(np.linalg.pinv(np.array(rows)) ** 2, axis=1)) * 0.1 * np.sqrt(2.0)
    return np.where(np.abs(found) > within, found, 0.0)


def limits_of(stack: Stack, gaps_by: np.ndarray | None = None) -> tuple[np.ndarray, np.ndarray]:
    """Least and most marks that right is turned more than left at each front (n,): heights, or else depths.

    A roll may be cured and no more, and a yaw with what the side move swings, 1 in the length of the box.
    """
    cures = []
    rolls, yaws = angles(stack, ALONG, 3), angles(stack, ACROSS, 4)
    for at, front in enumerate(stack.fronts):
        swung = 0.0 if gaps_by is None else gaps_by[5 * at] * STEP / front.geometry.length
        angle = -rolls[at] if gaps_by is None else yaws[at] + swung
        cures.append(angle * front.geometry.base / STEP)
    return np.minimum(cures, 0.0), np.maximum(cures, 0.0)


@dataclass(frozen=True)
class Programme:
    """Rows and right-hand sides of one least squares, ends of its unknowns, places of left and right."""

    rows: np.ndarray
    wanted: np.ndarray
    low: np.ndarray
    high: np.ndarray
    pairs: list[tuple[int, int]]
    least: np.ndarray
    most: np.ndarray
    turned: np.ndarray

    def lost(self, unknowns: np.ndarray) -> float:
        return float(np.sum((self.rows @ unknowns - self.wanted) ** 2))


def programme(stack: Stack, gaps_by: np.ndarray | None = None) -> Programme:
    """Gaps by sides and heights; with what these were turned by (5 n,) [marks], corners by depths."""
    count = len(stack.fronts)
    rows, wanted = written_down(stack, gaps_by)
    free = np.full(count + 1, np.inf)
    low = np.append(np.tile(LOW, count), -free)
    high = np.append(np.tile(HIGH, count), free)
    place = np.arange(rows.shape[1])
    adjusters = place < 5 * count
    kept = (adjusters & (place % 5 >= 3)) if gaps_by is not None else ~adjusters | (place % 5 < 3)
    where = np.flatnonzero(kept).tolist()
    first = 1 if gaps_by is None else 3
    pairs = [(where.index(5 * at + first), where.index(5 * at + first + 1)) for at in range(count)]
    limits = limits_of(stack, gaps_by)
    return Programme(rows[:, kept], wanted, low[kept], high[kept], pairs, *limits, place[kept & adjusters])


def in_two(stack: Stack) -> Iterator[tuple[Programme, np.ndarray]]:
    """Both least squares of a stack, each with our turns for it; the second after those of the first."""
    found = find_state(stack)
    first = programme(stack)
    turns = solved(question_of(stack, found, "even"))
    yield first, turns
    marks = np.zeros(5 * len(stack.fronts))
    marks[first.turned] = turns
    six = np.insert(marks, np.arange(5, len(marks) + 1, 5), 0.0)
    yield programme(stack, marks), solved(question_of(stack, found, "even", gaps_by=six * STEP))


def solved(question: Question) -> np.ndarray:
    return best_turns(question, free_turns(question))


@pytest.fixture
def fitted(fit_one: Callable[..., FittedDrawer]) -> FittedDrawer:
    return fit_one(front={"style": "inset"})


def on_best_face(of: Programme) -> np.ndarray:
    """The best turns of one front: of all faces of its limit, each by lsq_linear, the best inside."""
    ((left, right),) = of.pairs
    best, turns = np.inf, np.zeros(len(of.turned))
    for apart in (None, float(of.least[0]), float(of.most[0])):
        low, high, whole = of.low.copy(), of.high.copy(), np.eye(len(of.low))
        offset = np.zeros(len(low))
        if apart is not None:  # the right one is the left one and so much more
            whole[right, right], whole[right, left], offset[right] = 0.0, 1.0, apart
            low[left] = max(low[left], low[right] - apart)
            high[left] = min(high[left], high[right] - apart)
        if np.any(low >= high):
            continue
        kept = np.flatnonzero(np.diag(whole))
        free = (of.rows @ whole)[:, kept], of.wanted - of.rows @ offset, (low[kept], high[kept])
        found = whole[:, kept] @ lsq_linear(*free, method="bvls", tol=1e-14).x + offset
        inside = of.least[0] - 1e-7 <= found[right] - found[left] <= of.most[0] + 1e-7
        if inside and of.lost(found) < best:
            best, turns = of.lost(found), found[: len(turns)]
    assert np.isfinite(best)
    return turns


@pytest.mark.parametrize("seed", range(25))
def test_one_front_is_turned_as_lsq_linear_turns_it(fitted: FittedDrawer, seed: int) -> None:
    stack = stack_of(fitted, 1, np.random.default_rng(seed))
    for of, ours in in_two(stack):
        assert ours == pytest.approx(on_best_face(of), abs=1e-6)


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6])
@pytest.mark.parametrize("seed", range(4))
def test_a_stack_is_turned_as_a_quadratic_programme_turns_it(
    fitted: FittedDrawer, oracle: Callable[[str], Any], count: int, seed: int
) -> None:
    daqp = oracle("daqp")
    stack = stack_of(fitted, count, np.random.default_rng(100 * count + seed))
    for of, ours in in_two(stack):
        size, turning = len(of.low), len(of.turned)
        low, high = np.maximum(of.low, -1e6), np.minimum(of.high, 1e6)
        apart = np.zeros((count, size))
        for row, (left, right) in zip(apart, of.pairs, strict=True):
            row[[left, right]] = -1.0, 1.0
        turned, _, flag, _ = daqp.solve(
            np.ascontiguousarray(of.rows.T @ of.rows), -of.rows.T @ of.wanted, apart,
            np.append(high, of.most), np.append(low, of.least), np.zeros(size + count, dtype=np.int32),
        )  # fmt: skip
        assert flag == 1
        # The gaps that are free follow from the turns.
        free = np.linalg.lstsq(of.rows[:, turning:], of.wanted - of.rows[:, :turning] @ ours, rcond=None)[0]
        assert np.all((ours >= low[:turning] - 1e-9) & (ours <= high[:turning] + 1e-9))
        unlike = apart[:, :turning] @ ours
        assert np.all((unlike >= of.least - 1e-6) & (unlike <= of.most + 1e-6))
        assert of.lost(np.append(ours, free)) <= of.lost(turned) * (1 + 1e-6) + 1e-9
        assert ours == pytest.approx(turned[:turning], abs=2e-3)


@pytest.mark.parametrize("seed", range(8))
def test_whole_marks_lose_little_to_the_best_of_every_grid_point(fitted: FittedDrawer, seed: int) -> None:
    """Side and both heights of one front, corners not measured: all of 13 × 13 × 13 settings are tried."""
    random = np.random.default_rng(seed)
    stack = stack_of(fitted, 1, random)
    told = {name: one for name, one in stack.fronts[0].told.readings.items() if not name.startswith("out")}
    front = stack.fronts[0]
    only = Adjusters(np.full(6, STEP), np.array([-6.0, 0, 0, 0, 0, 0]), np.array([6.0, 12, 12, 0, 0, 0]))
    stack = Stack((MeasuredFront(fitted, FrontGaps("0", told), front.geometry, only, 3.0, 3.0, 3.0),))
    question = question_of(stack, find_state(stack), "even")

    def lost(marks: np.ndarray) -> float:
        return float(marks @ question.matrix @ marks / 2 + question.slope @ marks)

    grid = product(range(-6, 7), range(13), range(13))
    (least,), (most,) = limits_of(stack)
    # Rounded to a whole mark beyond, but by no more than half a mark further over level than it was under.
    least, most = max(least - 1.0, 2 * least - 0.5) - 1e-6, min(most + 1.0, 2 * most + 0.5) + 1e-6
    best = min(lost(np.array(marks, dtype=float)) for marks in grid if least <= marks[2] - marks[1] <= most)
    ours = lost(whole_turns(question, solved(question)).astype(float))
    nothing = lost(np.zeros(3))
    assert best - 1e-9 <= ours <= best + float(question.allowed[0]) / 2 + 1e-9
    assert best < nothing
