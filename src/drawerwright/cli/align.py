"""`drawerwright align JOB --gaps FILE`: measured gaps in, moves at each bracket out."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, UnitsWanted


def align(
    job_path: JobPath,
    gaps: Annotated[
        Path,
        typer.Option("--gaps", metavar="FILE", help="Measured gaps: CSV, XLSX or TOML.", show_default=False),
    ],
    target: Annotated[
        Literal["even", "house", "line"],
        typer.Option("--target", help="Gaps alike, as designed, or on a line."),
    ] = "even",
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """From measured gaps to what to turn, on which side, how far."""
    from drawerwright.align import align_document, align_job
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.reading import read_and_fit, read_materials
    from drawerwright.files.gaps import read_gaps

    job, fitted = read_and_fit(job_path, slides, units, materials=read_materials(materials))
    told = read_gaps(gaps, job.units)
    with steps_shown("aligning") as progress:
        aligned = align_job(fitted, told, target=target, progress=progress)
    if as_json:
        write_json(align_document(aligned))
    else:
        from drawerwright.cli.align_words import show_aligned

        show_aligned(console(), aligned)
