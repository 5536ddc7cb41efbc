"""What a benchmark gives back, and how it times."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True)
class Figure:
    """One measured figure beside the goal that it is held against."""

    name: str
    value: float
    unit: str
    goal: float


def seconds(work: Callable[[], object], *, times: int) -> float:
    """Median wall time [s] of a piece of work, after one run to warm up."""
    work()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return median(taken)


def pairwise_ratio(work: Callable[[], object], other: Callable[[], object], *, times: int) -> float:
    """Median of the ratios of two pieces of work run in turn, so that a drifting machine does not matter."""
    work()
    other()
    return median(seconds_once(work) / seconds_once(other) for _ in range(times))


def seconds_once(work: Callable[[], object]) -> float:
    """Wall time [s] of one run."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start
