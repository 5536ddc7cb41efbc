"""`drawerwright carry JOB`: what each drawer carries, how far it sags, over its whole travel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drawerwright.cli.compare import Compared, MoreCompared, slides_compared
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
from drawerwright.errors import Fault
from drawerwright.units import ShownUnits, parse_offset, parse_size

if TYPE_CHECKING:
    from drawerwright.carry import CarriedDrawer
    from drawerwright.carry.study import Asking
    from drawerwright.units import BareUnit

STOPS = 3


def carry(
    job_path: JobPath,
    more: MoreCompared = None,
    drawer: OnlyDrawer = None,
    positions: Annotated[
        int, typer.Option("--positions", metavar="N", help="How many extensions, from closed to fully out.")
    ] = 41,
    tilt: Annotated[
        float,
        typer.Option(
            "--tilt", metavar="DEGREES", help="How far the cabinet leans forward; negative, it leans back."
        ),
    ] = 0.0,
    off_centre: Annotated[
        str | None,
        typer.Option(
            "--off-centre",
            metavar="LENGTH",
            help="How far right of the middle the load's middle lies; negative, left of it.",
            show_default=False,
        ),
    ] = None,
    sag_limit: Annotated[
        str | None,
        typer.Option(
            "--sag-limit",
            metavar="LENGTH",
            help="How far a front may sag; else as the slide family says.",
            show_default=False,
        ),
    ] = None,
    compare: Compared = None,
    strict: Annotated[
        bool,
        typer.Option("--strict", help="End with exit code 3 when a check stops or a drawer fits nothing."),
    ] = False,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """Tell load, sag and forces of each drawer over its travel."""
    from drawerwright.cli.reading import read_materials

    compared = slides_compared(compare, more, None, {}, command="carry")
    asked: Asking = {
        "only": drawer,
        "tilt_deg": tilt,
        "positions": positions,
        "materials": read_materials(materials),
        "where": f"{PLACE} --",
    }
    lengths = (off_centre, sag_limit)
    study = partial(_compare, compared=compared) if compared else _carry
    found = study(job_path, asked, lengths, slides, units, as_json=as_json)
    if strict and any(found):
        raise typer.Exit(STOPS)


def _stops(answers: Sequence[CarriedDrawer]) -> bool:
    """Whether a check of one drawer's answers stops, or it fits on none of its slides."""
    if all(one.slide is None for one in answers):
        return True
    return any(check.state == "stop" for one in answers for check in one.checks)


def _carry(
    job_path: Path,
    asked: Asking,
    lengths: tuple[str | None, str | None],
    slides: list[Path] | None,
    units: ShownUnits | None,
    *,
    as_json: bool,
) -> Sequence[bool]:
    """Show what each drawer carries; of each, whether it stops."""
    from drawerwright.carry.carried import CarriedJob
    from drawerwright.carry.document import carry_document_by_drawer
    from drawerwright.carry.study import carry_by_drawer
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.reading import read_and_fit

    job, fitted = read_and_fit(job_path, slides, units, materials=asked["materials"])
    # Why other slides were rejected is much of what a large job keeps, and carrying asks for none of it.
    fitted = replace(fitted, drawers=tuple(replace(one, rejected=()) for one in fitted.drawers))
    shown = units or job.units
    stops: list[bool] = []

    def looked_at(drawers: Iterable[CarriedDrawer]) -> Iterator[CarriedDrawer]:
        for one in drawers:
            stops.append(_stops([one]))
            yield one

    with steps_shown("drawing out", writing=as_json) as progress:
        told: Asking = {**asked, **_lengths(lengths, job.units), "units": shown, "progress": progress}
        drawers = looked_at(carry_by_drawer(fitted, **told))
        if as_json:
            write_json(carry_document_by_drawer(fitted.title, drawers))
            return stops
        carried = CarriedJob(fitted.title, tuple(drawers))
    from drawerwright.cli.carry_words import show_carried

    show_carried(console(), carried, shown)
    return stops


def _compare(
    job_path: Path,
    asked: Asking,
    lengths: tuple[str | None, str | None],
    slides: list[Path] | None,
    units: ShownUnits | None,
    *,
    compared: tuple[str, ...],
    as_json: bool,
) -> Sequence[bool]:
    """Show what each drawer carries on each slide; of each, whether it stops on all of them."""
    from drawerwright.carry.comparing import carry_comparison, carry_comparison_document
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.compare import read_and_compare

    job, comparison = read_and_compare(job_path, slides, units, compared, materials=asked["materials"])
    shown = units or job.units
    with steps_shown("drawing out") as progress:
        told: Asking = {**asked, **_lengths(lengths, job.units), "units": shown, "progress": progress}
        carried = carry_comparison(comparison, **told)
    if as_json:
        write_json(carry_comparison_document(carried))
    else:
        from drawerwright.cli.carry_compare_words import show_carried_comparison

        show_carried_comparison(console(), carried, shown)
    return [_stops(one.answers) for one in carried.drawers]


def _lengths(told: tuple[str | None, str | None], units: BareUnit) -> Asking:
    """Offset of the load and limit of the sag [mm], and the faults of both."""
    faults: list[Fault] = []
    off_centre = read_option("--off-centre", told[0], lambda text: parse_offset(text, units), faults)
    sag_limit = read_option("--sag-limit", told[1], lambda text: parse_size(text, units), faults)
    return {"off_centre": off_centre or 0.0, "sag_limit": sag_limit, "besides": faults}
