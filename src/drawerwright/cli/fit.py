"""`drawerwright fit JOB`: choose slides, size boxes, run every check."""

from __future__ import annotations

from typing import Annotated

import typer

from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, Strict, UnitsWanted
from drawerwright.cli.whole_job import Cheapest, FewestLengths, FewestSetups, LoseAtMost

DOES_NOT_FIT = 3


def fit(
    job_path: JobPath,
    explain: Annotated[
        bool, typer.Option("--explain", help="Show every check with its margin, working and source.")
    ] = False,
    fewest_lengths: FewestLengths = False,
    cheapest: Cheapest = False,
    fewest_setups: FewestSetups = False,
    lose_at_most: LoseAtMost = None,
    strict: Strict = False,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """Choose slides, size boxes and run every check."""
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_and_fit, read_materials
    from drawerwright.cli.whole_job import aim_of, read_and_choose

    aim = aim_of(
        fewest_lengths=fewest_lengths,
        cheapest=cheapest,
        fewest_setups=fewest_setups,
        lose_at_most=lose_at_most,
    )
    choice = None
    if aim is None:
        job, fitted = read_and_fit(job_path, slides, units, materials=read_materials(materials))
    else:
        job, fitted, choice = read_and_choose(
            job_path, slides, units, aim, lose_at_most, materials=read_materials(materials)
        )
    if as_json:
        from drawerwright.fit import fit_document

        document = fit_document(fitted)
        if choice is not None:
            from drawerwright.fit.whole_job_document import with_whole_job

            document = with_whole_job(document, choice)
        write_json(document)
    else:
        from drawerwright.cli.verdicts import show_job

        page = console()
        show_job(page, fitted, units or job.units, explain=explain)
        if choice is not None:
            from drawerwright.cli.whole_job_words import show_whole_job

            show_whole_job(page, choice, units or job.units)
    if strict and any(drawer.verdict == "does-not-fit" for drawer in fitted.drawers):
        raise typer.Exit(DOES_NOT_FIT)
