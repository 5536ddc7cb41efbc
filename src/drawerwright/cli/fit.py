"""`drawerwright fit JOB`: choose slides, size boxes, run every check."""

from __future__ import annotations

from typing import Annotated

import typer

from drawerwright.cli.options import AsJson, JobPath, SlidePaths, Strict, UnitsWanted

DOES_NOT_FIT = 3


def fit(
    job_path: JobPath,
    explain: Annotated[
        bool, typer.Option("--explain", help="Show every check with its margin, working and source.")
    ] = False,
    strict: Strict = False,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Choose slides, size boxes and run every check."""
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_and_fit

    job, fitted = read_and_fit(job_path, slides, units)
    if as_json:
        from drawerwright.fit import fit_document

        write_json(fit_document(fitted))
    else:
        from drawerwright.cli.verdicts import show_job

        show_job(console(), fitted, units or job.units, explain=explain)
    if strict and any(drawer.verdict == "does-not-fit" for drawer in fitted.drawers):
        raise typer.Exit(DOES_NOT_FIT)
