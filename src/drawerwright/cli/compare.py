"""`drawerwright fit JOB --compare FAMILY FAMILY …`: each drawer on each of the slides named, side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeAlias

import typer

from drawerwright.cli.usage import PLACE
from drawerwright.errors import Fault, InputError
from drawerwright.units import ShownUnits

if TYPE_CHECKING:
    from drawerwright.catalogue.materials import Materials
    from drawerwright.fit.compare import Comparison
    from drawerwright.model.job import Job

Compared: TypeAlias = Annotated[
    list[str] | None,
    typer.Option(
        "--compare",
        metavar="FAMILY",
        help="Fit each drawer on each of these slides, side by side; a family, or family/length. The others "
        "follow it, or may be given by --compare each.",
        show_default=False,
    ),
]
MoreCompared: TypeAlias = Annotated[
    list[str] | None,
    typer.Argument(metavar="FAMILY", help="With --compare: the other slides.", show_default=False),
]
DrawingsOut: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--out",
        metavar="DIR",
        help="With --compare: a folder for a drawing (SVG) of each drawer on all of them.",
        show_default=False,
    ),
]


def slides_compared(
    compared: Sequence[str] | None,
    more: Sequence[str] | None,
    out: Path | None,
    others: Mapping[str, bool],
    *,
    command: str = "fit",
) -> tuple[str, ...]:
    """The slides to compare, none without `--compare`.

    `others`: options that do not go with it, by whether they are given; `command` is the one asked. Raises
    InputError for those, and for what only goes with it.
    """
    if not compared:
        if more:
            says = "is more than this command takes"
            raise InputError([Fault(PLACE, " ".join(more), says, f"drawerwright {command} --help")])
        if out is not None:
            says = "goes with --compare; the papers of a job are written by drawerwright pack"
            raise InputError([Fault(PLACE, "--out", says, f"drawerwright pack JOB --out {out}")])
        return ()
    given = [option for option, is_given in others.items() if is_given]
    if given:
        says = "does not go with --compare, which names the slides"
        raise InputError([Fault(PLACE, option, says, "one of the two") for option in given])
    return (*compared, *(more or ()))


def read_and_compare(
    job_path: Path,
    slide_paths: Sequence[Path] | None,
    units: ShownUnits | None,
    wanted: Sequence[str],
    *,
    materials: Materials | None = None,
) -> tuple[Job, Comparison]:
    """Read a job and fit its drawers on each of the slides wanted. Raises InputError."""
    from drawerwright.cli.answers import steps_shown
    from drawerwright.cli.reading import read_job_and_families
    from drawerwright.fit.compare import compare_slides

    file, families = read_job_and_families(job_path, slide_paths, materials=materials)
    with steps_shown("comparing") as progress:
        comparison = compare_slides(
            file.job,
            families,
            wanted,
            units=units or file.job.units,
            materials=materials,
            progress=progress,
            where=f"{PLACE} --compare",
        )
    return file.job, comparison


def write_drawings(comparison: Comparison, out: Path, units: ShownUnits) -> dict[str, str]:
    """An SVG a drawer in the folder `out`, made where it is not there; file name by drawer id.

    Raises InputError where something stands there under a name that would be written.
    """
    from drawerwright.cli.drawings_out import write_drawings_out
    from drawerwright.drawing.side_by_side import sheets_side_by_side
    from drawerwright.model.fitted import VERDICT_WORDS

    drawings = {}
    for one in comparison.drawers:
        captions = [
            f"{slide}: {VERDICT_WORDS[answer.verdict]}"
            for slide, answer in zip(comparison.slides, one.answers, strict=True)
        ]
        drawings[one.drawer.id,] = partial(sheets_side_by_side, one.answers, captions, units)
    return {drawer: name for (drawer,), name in write_drawings_out(drawings, out).items()}
