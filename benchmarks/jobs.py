"""Whole jobs and the command line."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from benchmarks.measuring import Figure, pairwise_ratio, seconds
from benchmarks.openings import job_of
from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_document, fit_job

SMALL, LARGE = 200, 2000


def figures() -> Iterator[Figure]:
    """All figures of jobs and commands."""
    yield _growth()
    yield _help()


def _growth() -> Figure:
    families = load_families(None)
    small, large = job_of(SMALL), job_of(LARGE)
    ratio = pairwise_ratio(
        lambda: fit_document(fit_job(large, families)),
        lambda: fit_document(fit_job(small, families)),
        times=5,
    )
    return Figure(f"a drawer in a {LARGE}-drawer job over one in {SMALL}", ratio * SMALL / LARGE, "×", 1.3)


def _help() -> Figure:
    command = [str(Path(sys.executable).with_name("drawerwright")), "--help"]
    taken = seconds(lambda: subprocess.run(command, check=True, capture_output=True), times=9)
    return Figure("drawerwright --help", taken, "s", 0.25)
