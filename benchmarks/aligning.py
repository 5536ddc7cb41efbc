"""Lining up: a stack of six fronts against the bare bounded least squares, and ten thousand stacks."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from scipy.optimize import lsq_linear

from benchmarks.measuring import Figure, pairwise_ratio, seconds_once
from drawerwright.align.job import align_job, turn_stack
from drawerwright.align.measured import stacks_of
from drawerwright.align.moves import question_of
from drawerwright.align.pose import find_state
from drawerwright.align.stack import Stack
from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading
from drawerwright.model.job import Job

FRONTS = 6
STACKS = 10_000
KINDS = 50
"""Distinct cabinets that are fitted; their readings differ from stack to stack."""


def figures() -> Iterator[Figure]:
    """All figures of lining up."""
    random = np.random.default_rng(1)
    fitted = stacks_fitted(1)
    (stack,) = stacks_of(fitted, readings(fitted, random), {})
    problems = [bare_problem(stack, deep=deep) for deep in (False, True)]

    def ours() -> None:
        fresh = Stack(stack.fronts)
        turn_stack(fresh, find_state(fresh), "even")

    def bare() -> None:
        for rows, wanted, low, high in problems:
            lsq_linear(rows, wanted, bounds=(low, high), method="bvls")

    yield Figure(
        "six fronts lined up, over the bare bounded least squares",
        pairwise_ratio(ours, bare, times=200),
        "×",
        5.0,
    )
    yield from _batch(random)


def _batch(random: np.random.Generator) -> Iterator[Figure]:
    fitted = stacks_fitted(KINDS)
    told: list[int] = []

    def many() -> None:
        for _ in range(STACKS // KINDS // 20):
            align_job(fitted, readings(fitted, random), progress=lambda done, _: told.append(done))

    taken = seconds_once(many) * 20
    if not told:
        raise AssertionError("the batch told no progress")
    yield Figure("10,000 stacks of six fronts, words and steps (a part of them)", taken, "s", 120.0)


def stacks_fitted(count: int) -> FittedJob:
    """That many cabinets of six fronts each."""
    drawers = [
        {
            "id": f"C{cabinet}-{row}",
            "cabinet": f"C{cabinet}",
            "row": row,
            "side": 16,
            "slide": "house-16",
            "front": {"style": "overlay"},
            "opening": {"width": 500 + 3 * cabinet, "height": 160, "depth": 530, "floor": 176 * (row - 1)},
        }
        for cabinet in range(count)
        for row in range(1, FRONTS + 1)
    ]
    cabinets = [{"id": f"C{cabinet}"} for cabinet in range(count)]
    return fit_job(Job.model_validate({"cabinet": cabinets, "drawer": drawers}), load_families(None))


def readings(fitted: FittedJob, random: np.random.Generator) -> list[FrontGaps]:
    """Every gap of every front off by about half a millimetre."""
    told = []
    for one in fitted.drawers:
        names = [name for name in GAP_NAMES if one.drawer.row == 1 or not name.startswith("bottom")]
        off = random.normal(0.0, 0.6, len(names))
        values = {
            name: Reading(max(by + (0.0 if name.startswith("out") else 3.0), -9.0))
            for name, by in zip(names, off.tolist(), strict=True)
        }
        told.append(FrontGaps(one.id, values))
    return told


def bare_problem(stack: Stack, *, deep: bool) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """The least squares of the gaps, or of the corners, by readings; the even gaps are unknowns too."""
    count = len(stack.fronts)
    question = question_of(stack, find_state(stack), "even", gaps_by=np.zeros(6 * count) if deep else None)
    readings = [(row, one) for row, one in stack.readings if GAP_NAMES[row % 12].startswith("out") == deep]
    at = [row for row, _ in readings]
    step = np.concatenate([front.adjusters.step for front in stack.fronts])[question.columns]
    turned = stack.turning[at][:, question.columns] * step
    wanted = stack.design[at] - np.array([one.value for _, one in readings])
    if deep:
        return turned, wanted, question.low, question.high
    rows = np.hstack([turned, -stack.rows[at][:, 6 * count :]])
    free = np.full(count + 1, np.inf)
    return rows, wanted, np.concatenate([question.low, -free]), np.concatenate([question.high, free])
