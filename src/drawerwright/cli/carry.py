"""`drawerwright carry JOB`: what each drawer carries, how far it sags, over its whole travel."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal, TypedDict

import typer

from drawerwright.cli.compare import Compared, MoreCompared, slides_compared
from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, UnitsWanted
from drawerwright.cli.usage import PLACE
from drawerwright.errors import InputError, ReadingError
from drawerwright.units import ShownUnits, parse_offset, parse_size

if TYPE_CHECKING:
    from drawerwright.carry import CarriedDrawer
    from drawerwright.catalogue.materials import Materials

STOPS = 3


class _Asked(TypedDict):
    """How the study is asked, but for what the job's own units say."""

    only: str | None
    tilt_deg: float
    positions: int
    where: str


def carry(
    job_path: JobPath,
    more: MoreCompared = None,
    drawer: Annotated[
        str | None, typer.Option("--drawer", metavar="ID", help="Only this drawer.", show_default=False)
    ] = None,
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
    asked = _Asked(only=drawer, tilt_deg=tilt, positions=positions, where=f"{PLACE} --")
    known = read_materials(materials)
    lengths = (off_centre, sag_limit)
    if compared:
        found = _compare(job_path, compared, asked, lengths, slides, known, units, as_json=as_json)
    else:
        found = _carry(job_path, asked, lengths, slides, known, units, as_json=as_json)
    if strict and any(_stops(answers) for answers in found):
        raise typer.Exit(STOPS)


def _stops(answers: Sequence[CarriedDrawer]) -> bool:
    """Whether a check of one drawer's answers stops, or it fits on none of its slides."""
    if all(one.slide is None for one in answers):
        return True
    return any(check.state == "stop" for one in answers for check in one.checks)


def _carry(
    job_path: Path,
    asked: _Asked,
    lengths: tuple[str | None, str | None],
    slides: list[Path] | None,
    materials: Materials,
    units: ShownUnits | None,
    *,
    as_json: bool,
) -> Iterable[Sequence[CarriedDrawer]]:
    from drawerwright.carry import carry_document, carry_job
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.reading import read_and_fit

    job, fitted = read_and_fit(job_path, slides, units, materials=materials)
    shown = units or job.units
    with steps_shown("drawing out") as progress:
        carried = carry_job(
            fitted,
            **asked,
            **_lengths(lengths, job.units),
            units=shown,
            materials=materials,
            progress=progress,
        )
    if as_json:
        write_json(carry_document(carried))
    else:
        from drawerwright.cli.carry_words import show_carried

        show_carried(console(), carried, shown)
    return [(one,) for one in carried.drawers]


def _compare(
    job_path: Path,
    compared: tuple[str, ...],
    asked: _Asked,
    lengths: tuple[str | None, str | None],
    slides: list[Path] | None,
    materials: Materials,
    units: ShownUnits | None,
    *,
    as_json: bool,
) -> Iterable[Sequence[CarriedDrawer]]:
    from drawerwright.carry.comparing import carry_comparison, carry_comparison_document
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.compare import read_and_compare

    job, comparison = read_and_compare(job_path, slides, units, compared, materials=materials)
    shown = units or job.units
    with steps_shown("drawing out") as progress:
        carried = carry_comparison(
            comparison,
            **asked,
            **_lengths(lengths, job.units),
            units=shown,
            materials=materials,
            progress=progress,
        )
    if as_json:
        write_json(carry_comparison_document(carried))
    else:
        from drawerwright.cli.carry_compare_words import show_carried_comparison

        show_carried_comparison(console(), carried, shown)
    return [one.answers for one in carried.drawers]


def _lengths(told: tuple[str | None, str | None], units: Literal["mm", "in"]) -> dict[str, Any]:
    """Offset of the load and limit of the sag [mm]. Raises InputError with the faults of both."""
    readers: tuple[tuple[str, str, Callable[..., float]], ...] = (
        ("off-centre", "off_centre", parse_offset),
        ("sag-limit", "sag_limit", parse_size),
    )
    found: dict[str, Any] = {}
    faults = []
    for text, (option, name, read) in zip(told, readers, strict=True):
        if text is None:
            continue
        try:
            found[name] = read(text, units)
        except ReadingError as error:
            faults.append(error.fault(f"{PLACE} --{option}"))
    if faults:
        raise InputError(faults)
    return found
