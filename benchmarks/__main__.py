"""Print every figure beside its goal; exit 1 where one is missed."""

from __future__ import annotations

import sys
from itertools import chain

from benchmarks import (
    aligning,
    carrying,
    closing,
    editing,
    isometric,
    jobs,
    packs,
    serving,
    sheets,
    whole_jobs,
)


def main() -> int:
    """Run all benchmarks."""
    missed = 0
    for figure in chain(
        sheets.figures(),
        jobs.figures(),
        whole_jobs.figures(),
        isometric.figures(),
        packs.figures(),
        carrying.figures(),
        closing.figures(),
        aligning.figures(),
        serving.figures(),
        editing.figures(),
    ):
        met = figure.value <= figure.goal
        missed += not met
        mark = "" if met else "   missed"
        print(
            f"{figure.name:62}{figure.value:10.3f} {figure.unit:3} (goal {figure.goal:g}){mark}", flush=True
        )
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
