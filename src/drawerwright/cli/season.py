"""`drawerwright season JOB --species NAME`: the gap to set today so that it stays open all the year."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final, Literal

import typer

from drawerwright.cli.options import (
    AsJson,
    JobPath,
    MaterialPaths,
    OnlyDrawer,
    SlidePaths,
    UnitsWanted,
    read_option,
)
from drawerwright.cli.usage import PLACE

if TYPE_CHECKING:
    from drawerwright.align.air import Air
    from drawerwright.align.seasons import Seasons
    from drawerwright.catalogue.wood_species import WoodSpecies
    from drawerwright.errors import Fault

_AIR = "TEMPERATURE/HUMIDITY"
WORKSHOP: Final = "20C/45"
NOW: Final = "20C/45"
DRY: Final = "21C/25"
WET: Final = "24C/65"
"""Air unless told: an invented house that is heated in winter and not cooled in summer."""
LIMIT: Final = "1 mm"
"""Smallest gap unless told. Own choice."""


def season(
    job_path: JobPath,
    species: Annotated[
        str,
        typer.Option("--species", metavar="NAME", help="Species of the solid fronts.", show_default=False),
    ],
    cut: Annotated[
        Literal["flat", "quarter"], typer.Option("--cut", help="How the boards are sawn.")
    ] = "flat",
    across: Annotated[
        Literal["height", "width"],
        typer.Option("--across", help="Which size of a front is across the grain."),
    ] = "height",
    workshop: Annotated[
        str, typer.Option("--workshop", metavar=_AIR, help="Air where the fronts were cut.")
    ] = WORKSHOP,
    now: Annotated[str, typer.Option("--now", metavar=_AIR, help="Air of the house now.")] = NOW,
    dry: Annotated[str, typer.Option("--dry", metavar=_AIR, help="Air of its driest month.")] = DRY,
    wet: Annotated[str, typer.Option("--wet", metavar=_AIR, help="Air of its dampest month.")] = WET,
    limit: Annotated[
        str, typer.Option("--limit", metavar="LENGTH", help="The smallest gap that is allowed.")
    ] = LIMIT,
    fresh: Annotated[
        bool,
        typer.Option("--fresh", help="The fronts have just come: they have the workshop's moisture still."),
    ] = False,
    drawer: OnlyDrawer = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="DIR",
            help="A folder for a year's chart (SVG) of each front.",
            show_default=False,
        ),
    ] = None,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """The gap to set today, so that a front of solid wood has room all the year."""
    from drawerwright.align.season_document import season_document
    from drawerwright.align.seasons import Climate, seasons_of
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_and_fit, read_materials
    from drawerwright.errors import InputError
    from drawerwright.units import parse_clearance

    faults: list[Fault] = []
    wood = read_option("--species", species, _species, faults)
    airs = [
        read_option(option, told, _air, faults)
        for option, told in (("--workshop", workshop), ("--now", now), ("--dry", dry), ("--wet", wet))
    ]
    read_option("--limit", limit, parse_clearance, faults)
    known = [air for air in airs if air is not None]
    if wood is None or faults:
        raise InputError(faults)
    job, fitted = read_and_fit(job_path, slides, units, materials=read_materials(materials))
    # What a bare length means is told by the job, which is read by now.
    least = read_option("--limit", limit, lambda told: parse_clearance(told, job.units), faults)
    if least is None:
        raise InputError(faults)
    found = seasons_of(
        fitted,
        wood,
        Climate(*known),
        cut=cut,
        across=across,
        limit=least,
        settled=not fresh,
        only=drawer,
        where=f"{PLACE} --drawer",
    )
    charts = {} if out is None else _write_charts(found, out)
    if as_json:
        write_json({**season_document(found), **({"charts": charts} if charts else {})})
    else:
        from drawerwright.cli.season_words import show_seasons

        page = console()
        show_seasons(page, found, units or job.units)
        if charts:
            page.print(f"Charts in {out}: {', '.join(charts.values())}")


def _species(text: str) -> WoodSpecies:
    from drawerwright.catalogue.wood_species import species_named

    return species_named(text)


def _air(text: str) -> Air:
    from drawerwright.align.air import parse_air

    return parse_air(text)


def _write_charts(found: Seasons, out: Path) -> dict[str, str]:
    """A year's chart a front in the folder `out`; file name by drawer id. Raises InputError."""
    from drawerwright.cli.drawings_out import write_drawings_out
    from drawerwright.drawing.views.season_chart import season_chart

    charts = {(one.drawer, "season"): partial(season_chart, found, one.drawer) for one in found.fronts}
    return {drawer: name for (drawer, _), name in write_drawings_out(charts, out).items()}
