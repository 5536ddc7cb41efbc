"""The sheet of equations against bare numpy: an equation's cost, one drawer, a million openings."""

from __future__ import annotations

import json
import tracemalloc
from collections.abc import Iterator

import numpy as np

from benchmarks.by_hand import choose_by_hand
from benchmarks.measuring import Figure, pairwise_ratio, seconds
from benchmarks.openings import one_drawer, random_openings, seven_lengths
from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.choose import choose
from drawerwright.fit.columns import front_overlaps
from drawerwright.fit.drawer_values import NO_ERRORS, drawer_values, stack
from drawerwright.fit.slide_rows import slide_rows
from drawerwright.fit.sweep import sweep_openings
from drawerwright.fit.trial import run_trial
from drawerwright.model.job import Job

OPENINGS = 1_000_000


def figures() -> Iterator[Figure]:
    """All figures of the sheet."""
    yield _cost_of_an_equation()
    yield from _one_drawer()
    yield from _a_million_openings()


def _cost_of_an_equation() -> Figure:
    """Running a plan less calling its functions in a row with their arguments at hand, for each equation."""
    drawer = one_drawer()
    (rows,) = slide_rows([seven_lengths()])
    one = drawer_values(drawer, None, front_overlaps([drawer])[drawer.id])
    trial = run_trial(one.situation, "side", rows, {**NO_ERRORS, **stack([one])}, answer=False)
    plan, values = trial.plan.margins, trial.values
    given = {name: values[name] for name in plan.needs}
    ready = [(step.function, [values[name] for name in step.arguments]) for step in plan.steps]

    def bare() -> None:
        for function, arguments in ready:
            function(*arguments)

    by_sheet = seconds(lambda: plan.run(given), times=2000)
    by_hand = seconds(bare, times=2000)
    return Figure(
        "an equation over bare numpy", max(by_sheet - by_hand, 0) / len(plan.steps) * 1e6, "µs", 1.0
    )


def _one_drawer() -> Iterator[Figure]:
    families = load_families(None)
    groups, drawer = slide_rows(families), one_drawer()
    job = Job(drawer=(drawer,))  # type: ignore[call-arg]
    one = drawer_values(drawer, None, front_overlaps([drawer])[drawer.id])
    situation, columns = one.situation, {**NO_ERRORS, **stack([one])}

    def margins() -> None:
        choose([run_trial(situation, "side", group, columns, answer=False) for group in groups])

    def whole() -> None:
        json.dumps(fit_document(fit_job(job, families)))

    lengths = sum(len(family.lengths) for family in families)
    yield Figure(
        f"one drawer on {lengths} slides, margins only", seconds(margins, times=300) * 1e3, "ms", 0.5
    )
    yield Figure(
        f"one drawer on {lengths} slides, JSON and workings", seconds(whole, times=300) * 1e3, "ms", 2.0
    )


def _a_million_openings() -> Iterator[Figure]:
    family, drawer = seven_lengths(), one_drawer().model_copy(update={"mount": "side"})
    width, height, depth = random_openings(OPENINGS)

    def by_sheet() -> None:
        sweep_openings(drawer, [family], width=width, height=height, depth=depth)

    def by_hand() -> None:
        choose_by_hand(drawer, family, width, height, depth)

    chosen = sweep_openings(drawer, [family], width=width, height=height, depth=depth).chosen
    if not np.array_equal(chosen, choose_by_hand(drawer, family, width, height, depth)):
        raise AssertionError("the sheet and the hand-written numpy choose differently")
    yield Figure(
        "1,000,000 openings × 7 lengths, over hand-written numpy",
        pairwise_ratio(by_sheet, by_hand, times=7),
        "×",
        1.3,
    )
    tracemalloc.start()
    by_sheet()
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    yield Figure("… its peak memory beyond input and output", (peak - chosen.nbytes) / 1e6, "MB", 100.0)
