"""The moves of fronts against other ways to the same answer.

The bounded least squares is written down once more, from geometry alone, and solved by lsq_linear of
scipy.optimize (one front, on each face of the limits of left against right), by trying every mark of a grid
(three adjusters), and as a quadratic programme by DAQP (stacks).
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from typing import Any

import numpy as np
import pytest
from scipy.optimize import lsq_linear

from drawerwright.align.adjusters import Adjusters, adjusters_of
from drawerwright.align.front_geometry import FrontGeometry
from drawerwright.align.moves import (
    CORNER_WEIGHT,
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


def written_down(stack: Stack) -> tuple[np.ndarray, np.ndarray]:
    """Rows and right-hand sides of the least squares, reading by reading: five adjusters a front in marks,
    then the even gap across each front, then the even gap from front to front."""
    count = len(stack.fronts)
    rows, wanted = [], []
    unknowns = 5 * count + count + 1
    for at, front in enumerate(stack.fronts):
        for name, reading in front.told.readings.items():
            row = np.zeros(unknowns)
            weight = CORNER_WEIGHT if name.startswith("out") else 1.0
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
            rows.append(weight * row)
            wanted.append(weight * ((0.0 if name.startswith("out") else 3.0) - reading.value))
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


def bounds_of(count: int) -> tuple[np.ndarray, np.ndarray]:
    free = np.full(count + 1, np.inf)
    return np.concatenate([np.tile(LOW, count), -free]), np.concatenate([np.tile(HIGH, count), free])


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


def limits_of(stack: Stack) -> tuple[np.ndarray, np.ndarray]:
    """Least and most marks that right is turned more than left: heights and depths of each front (2 n,).

    A roll may be cured and no more; unlike depths may also undo the yaw that a side move brings.
    """
    found = []
    rolls, yaws = angles(stack, ALONG, 3), angles(stack, ACROSS, 4)
    for front, roll, yaw in zip(stack.fronts, rolls, yaws, strict=True):
        cure, straight = -roll * front.geometry.base / STEP, yaw * front.geometry.base / STEP
        swing = front.geometry.base / front.geometry.length
        found.append((min(cure, 0.0), max(cure, 0.0)))
        found.append((min(straight, 0.0) + swing * LOW[0], max(straight, 0.0) + swing * HIGH[0]))
    least, most = np.array(found).T
    return least, most


def solved(question: Question) -> np.ndarray:
    return best_turns(question, free_turns(question))


@pytest.fixture
def fitted(fit_one: Callable[..., FittedDrawer]) -> FittedDrawer:
    return fit_one(front={"style": "inset"})


def on_best_face(rows: np.ndarray, wanted: np.ndarray, least: np.ndarray, most: np.ndarray) -> np.ndarray:
    """The best turns of one front (5,): of all faces of the limits, each by lsq_linear, the best inside."""
    low, high = bounds_of(1)
    best, turns = np.inf, np.zeros(5)
    for height, depth in product((None, least[0], most[0]), (None, least[1], most[1])):
        lower, upper, whole = low.copy(), high.copy(), np.eye(7)
        offset = np.zeros(7)
        for place, apart in ((1, height), (3, depth)):
            if apart is not None:  # the right one is the left one and so much more
                whole[place + 1, place + 1], whole[place + 1, place] = 0.0, 1.0
                offset[place + 1] = apart
                lower[place] = max(low[place], low[place + 1] - apart)
                upper[place] = min(high[place], high[place + 1] - apart)
        if np.any(lower >= upper):
            continue
        kept = [place for place in range(7) if whole[place, place]]
        right = wanted - rows @ offset
        inner = lsq_linear(
            (rows @ whole)[:, kept], right, (lower[kept], upper[kept]), method="bvls", tol=1e-14
        )
        found = whole[:, kept] @ inner.x + offset
        apart = np.array([found[2] - found[1], found[4] - found[3]])
        inside = np.all((apart >= least - 1e-7) & (apart <= most + 1e-7))
        if inside and np.sum((rows @ found - wanted) ** 2) < best:
            best, turns = float(np.sum((rows @ found - wanted) ** 2)), found[:5]
    assert np.isfinite(best)
    return turns


@pytest.mark.parametrize("seed", range(25))
def test_one_front_is_turned_as_lsq_linear_turns_it(fitted: FittedDrawer, seed: int) -> None:
    stack = stack_of(fitted, 1, np.random.default_rng(seed))
    rows, wanted = written_down(stack)
    expected = on_best_face(rows, wanted, *limits_of(stack))
    assert solved(question_of(stack, find_state(stack), "even")) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6])
@pytest.mark.parametrize("seed", range(4))
def test_a_stack_is_turned_as_a_quadratic_programme_turns_it(
    fitted: FittedDrawer, oracle: Callable[[str], Any], count: int, seed: int
) -> None:
    daqp = oracle("daqp")
    stack = stack_of(fitted, count, np.random.default_rng(100 * count + seed))
    rows, wanted = written_down(stack)
    low, high = bounds_of(count)
    unbound = np.isinf(high)
    low, high = np.where(unbound, -1e6, low), np.where(unbound, 1e6, high)
    size = rows.shape[1]
    least, most = limits_of(stack)
    apart = np.zeros((2 * count, size))
    for at, place in product(range(count), (0, 1)):
        first = 5 * at + 1 + 2 * place
        apart[2 * at + place, first : first + 2] = -1.0, 1.0
    turned, _, flag, _ = daqp.solve(
        np.ascontiguousarray(rows.T @ rows), -rows.T @ wanted, apart, np.append(high, most),
        np.append(low, least), np.zeros(size + 2 * count, dtype=np.int32),
    )  # fmt: skip
    assert flag == 1
    ours = solved(question_of(stack, find_state(stack), "even"))

    def lost(turns: np.ndarray) -> float:
        off = rows @ turns - wanted
        return float(off @ off)

    whole = turned.copy()
    whole[: 5 * count] = ours
    # The gaps that are free follow from the turns.
    free = np.linalg.lstsq(rows[:, 5 * count :], wanted - rows[:, : 5 * count] @ ours, rcond=None)[0]
    whole[5 * count :] = free
    assert np.all((ours >= low[: 5 * count] - 1e-9) & (ours <= high[: 5 * count] + 1e-9))
    unlike = apart[:, : 5 * count] @ ours
    assert np.all((unlike >= least - 1e-6) & (unlike <= most + 1e-6))
    assert lost(whole) <= lost(turned) * (1 + 1e-6) + 1e-9
    assert ours == pytest.approx(turned[: 5 * count], abs=2e-3)


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
    least, most = limits_of(stack)[0][0], limits_of(stack)[1][0]
    best = min(
        lost(np.array(marks, dtype=float))
        for marks in grid
        if least - 0.5 - 1e-6 <= marks[2] - marks[1] <= most + 0.5 + 1e-6
    )
    ours = lost(whole_turns(question, solved(question)).astype(float))
    nothing = lost(np.zeros(3))
    assert best - 1e-9 <= ours <= best + float(question.allowed[0]) / 2 + 1e-9
    assert best < nothing
