"""Packs: what they cost besides typesetting, and how much memory a very large one takes."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from statistics import median
from typing import Any

from benchmarks.measuring import Figure
from benchmarks.openings import job_of
from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_job
from drawerwright.pack import full_size, labels, mounting_sheet, pack_files, pictures, printed_lists, sheets
from drawerwright.pack.typeset import DocumentName, set_document

DISTINCT, LARGE = 60, 2000
SETTERS = (full_size, labels, mounting_sheet, pictures, printed_lists, sheets)
"""The modules that have documents set."""


def figures() -> Iterator[Figure]:
    """All figures of packs."""
    yield _beside_typesetting()
    yield _memory()


def _beside_typesetting() -> Figure:
    """Wall time of a whole pack less what the compiler takes, for one of its distinct drawers."""
    job = job_of(DISTINCT)
    fitted = fit_job(job, load_families(None))
    taken = []
    for _ in range(4):
        setting = 0.0

        def set_and_time(name: DocumentName, data: Mapping[str, Any]) -> bytes:
            nonlocal setting
            start = time.perf_counter()
            made = set_document(name, data)
            setting += time.perf_counter() - start
            return made

        for module in SETTERS:
            module.set_document = set_and_time  # type: ignore[attr-defined]
        start = time.perf_counter()
        for _path, _content in pack_files(job, fitted):
            pass
        taken.append((time.perf_counter() - start - setting) / DISTINCT * 1000)
    for module in SETTERS:
        module.set_document = set_document  # type: ignore[attr-defined]
    name = f"pack of {DISTINCT} distinct drawers but for typesetting, a drawer"
    return Figure(name, median(taken[1:]), "ms", 30.0)


IN_A_PROCESS = """
import resource, sys, tempfile
from pathlib import Path
from benchmarks.openings import job_of
from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_job
from drawerwright.pack import write_pack
job = job_of(int(sys.argv[1]))
fitted = fit_job(job, load_families(None))
with tempfile.TemporaryDirectory() as folder:
    write_pack(job, fitted, Path(folder) / "pack")
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000)
"""


def _memory() -> Figure:
    """Most memory of a process that writes the pack of a very large job (Linux counts it in kB)."""
    command = [sys.executable, "-c", IN_A_PROCESS, str(LARGE)]
    told = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return Figure(f"pack of {LARGE} distinct drawers, memory", float(told), "MB", 600.0)
