"""The whole job's choice on the command line: which aim is asked for, and the job fitted for it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, TypeAlias

import typer

from drawerwright.cli.usage import PLACE
from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.units import ShownUnits, parse_clearance

if TYPE_CHECKING:
    from drawerwright.catalogue.materials import Materials
    from drawerwright.fit.whole_job import Aim, WholeJobChoice
    from drawerwright.model.fitted import FittedJob
    from drawerwright.model.job import Job

FewestLengths: TypeAlias = Annotated[
    bool, typer.Option("--fewest-lengths", help="Choose slides so that the job needs the fewest lengths.")
]
Cheapest: TypeAlias = Annotated[
    bool, typer.Option("--cheapest", help="Choose slides so that the job's slides cost least.")
]
FewestSetups: TypeAlias = Annotated[
    bool,
    typer.Option("--fewest-setups", help="Choose slides so that boring and sawing need the fewest settings."),
]
LoseAtMost: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--lose-at-most",
        metavar="LENGTH",
        help="With one of these three: how much box length or travel a drawer may give up for it.",
        show_default=False,
    ),
]


def aim_of(
    *, fewest_lengths: bool, cheapest: bool, fewest_setups: bool, lose_at_most: str | None
) -> Aim | None:
    """The aim that is asked for, None without one.

    Raises InputError where there are several, or where a limit of what to lose has none to go with.
    """
    aims: tuple[tuple[Aim, bool], ...] = (
        ("fewest-lengths", fewest_lengths),
        ("cheapest", cheapest),
        ("fewest-setups", fewest_setups),
    )
    asked = [aim for aim, wanted in aims if wanted]
    if len(asked) > 1:
        told = " ".join(f"--{aim}" for aim in asked)
        raise InputError([Fault(PLACE, told, "exclude each other: a job has one aim", f"--{asked[0]}")])
    if not asked and lose_at_most is not None:
        says = "goes with an aim: --fewest-lengths, --cheapest or --fewest-setups"
        fault = Fault(PLACE, "--lose-at-most", says, f"--fewest-lengths --lose-at-most {lose_at_most}")
        raise InputError([fault])
    return asked[0] if asked else None


def read_and_fit_for(
    aim: Aim | None,
    lose_at_most: str | None,
    *,
    job_path: Path,
    slides: Sequence[Path] | None,
    materials: Sequence[Path] | None,
    units: ShownUnits | None,
) -> tuple[Job, FittedJob, WholeJobChoice | None]:
    """Read a job and fit it: each drawer for itself, or for an aim of the whole job. Raises InputError."""
    from drawerwright.cli.reading import read_and_fit, read_materials

    known = read_materials(materials)
    if aim is None:
        return (*read_and_fit(job_path, slides, units, materials=known), None)
    return read_and_choose(job_path, slides, units, aim, lose_at_most, materials=known)


def read_and_choose(
    job_path: Path,
    slide_paths: Sequence[Path] | None,
    units: ShownUnits | None,
    aim: Aim,
    lose_at_most: str | None,
    *,
    materials: Materials | None = None,
) -> tuple[Job, FittedJob, WholeJobChoice]:
    """Read a job and fit its drawers, their slides chosen for an aim of the whole job. Raises InputError."""
    from drawerwright.cli.answers import steps_shown
    from drawerwright.cli.reading import read_job_and_families, tell_remarks
    from drawerwright.fit.whole_job import fit_whole_job

    file, families = read_job_and_families(job_path, slide_paths, materials=materials)
    tell_remarks(file)
    job = file.job
    most = math.inf if lose_at_most is None else _most_to_lose(lose_at_most, job.units)
    with steps_shown("fitting") as progress:
        fitted, choice = fit_whole_job(
            job,
            families,
            aim=aim,
            lose_at_most=most,
            units=units or job.units,
            materials=materials,
            progress=progress,
        )
    return job, fitted, choice


def _most_to_lose(text: str, units: Literal["mm", "in"]) -> float:
    try:
        return parse_clearance(text, units)
    except ReadingError as error:
        raise InputError([error.fault(f"{PLACE} --lose-at-most")]) from None
