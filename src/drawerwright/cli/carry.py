"""`drawerwright carry JOB`: what each drawer carries, how far it sags, over its whole travel."""

from __future__ import annotations

from typing import Annotated

import typer

from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, UnitsWanted
from drawerwright.cli.usage import PLACE

STOPS = 3


def carry(
    job_path: JobPath,
    drawer: Annotated[
        str | None, typer.Option("--drawer", metavar="ID", help="Only this drawer.", show_default=False)
    ] = None,
    positions: Annotated[
        int, typer.Option("--positions", metavar="N", help="How many extensions, from closed to fully out.")
    ] = 41,
    tilt: Annotated[
        float,
        typer.Option("--tilt", metavar="DEGREES", help="How far the cabinet is out of level, front to back."),
    ] = 0.0,
    strict: Annotated[
        bool, typer.Option("--strict", help="End with exit code 3 when a check stops.")
    ] = False,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """Load, sag and forces of each drawer over its travel."""
    from drawerwright.carry import carry_document, carry_job
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.reading import read_and_fit, read_materials

    stuff = read_materials(materials)
    job, fitted = read_and_fit(job_path, slides, units, materials=stuff)
    shown = units or job.units
    with steps_shown("drawing out") as progress:
        carried = carry_job(
            fitted,
            only=drawer,
            tilt_deg=tilt,
            positions=positions,
            units=shown,
            materials=stuff,
            progress=progress,
            where=PLACE,
        )
    if as_json:
        write_json(carry_document(carried))
    else:
        from drawerwright.cli.carry_words import show_carried

        show_carried(console(), carried, shown)
    stops = any(check.state == "stop" for one in carried.drawers for check in one.checks)
    if strict and stops:
        raise typer.Exit(STOPS)
