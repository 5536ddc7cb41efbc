"""What most commands begin with: the slide families, the job."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from drawerwright.errors import Fault, InputError
from drawerwright.units import ShownUnits

if TYPE_CHECKING:
    from drawerwright.catalogue.materials import Materials
    from drawerwright.files import JobFile
    from drawerwright.model.family import SlideFamily
    from drawerwright.model.fitted import FittedJob
    from drawerwright.model.job import Job


def read_families(paths: Sequence[Path] | None) -> tuple[SlideFamily, ...]:
    """The families of the files and folders given, the shipped ones without. Raises InputError."""
    from drawerwright.catalogue.families import load_families

    return load_families(list(paths) if paths else None)


def read_materials(paths: Sequence[Path] | None) -> Materials:
    """The shipped sheet goods and wood, with those of the files given. Raises InputError."""
    from drawerwright.catalogue.materials import load_materials

    return load_materials(list(paths) if paths else None)


def read_a_job(path: Path, materials: Materials | None = None) -> JobFile:
    """Read a job file, its presets and materials looked up by name. Raises InputError."""
    from drawerwright.catalogue.contents import contents_preset_ids
    from drawerwright.cli.answers import steps_shown
    from drawerwright.files import read_job_file

    with steps_shown("reading") as progress:
        return read_job_file(path, presets=contents_preset_ids(), materials=materials, progress=progress)


def read_job_and_families(
    job_path: Path, slide_paths: Sequence[Path] | None, *, materials: Materials | None = None
) -> tuple[JobFile, tuple[SlideFamily, ...]]:
    """A job and the families that its drawers may be fitted with.

    Raises InputError with the faults of both together, or with the slides that a drawer asks for in vain.
    """
    faults: list[Fault] = []
    file = families = None
    try:
        file = read_a_job(job_path, materials)
    except InputError as error:
        faults += error.faults
    try:
        families = read_families(slide_paths)
    except InputError as error:
        faults += error.faults
    if file is None or families is None:
        raise InputError(faults)
    from drawerwright.fit.asked_for import check_slides_asked_for

    check_slides_asked_for(
        file.job.drawers, families, where=lambda position: file.where("drawer", position, "slide")
    )
    return file, families


def tell_remarks(file: JobFile) -> None:
    """What the reader noticed and read all the same, on standard error: hidden sheets, merged cells."""
    import typer

    for remark in file.remarks:
        typer.echo(f"drawerwright: {remark}", err=True)


def read_and_fit(
    job_path: Path,
    slide_paths: Sequence[Path] | None,
    units: ShownUnits | None,
    *,
    materials: Materials | None = None,
) -> tuple[Job, FittedJob]:
    """Read a job and fit its drawers, their sentences in `units`, or in the job's own. Raises InputError."""
    file, families = read_job_and_families(job_path, slide_paths, materials=materials)
    from drawerwright.cli.answers import steps_shown
    from drawerwright.fit import fit_job

    tell_remarks(file)

    with steps_shown("fitting") as progress:
        shown = units or file.job.units
        return file.job, fit_job(file.job, families, units=shown, materials=materials, progress=progress)
