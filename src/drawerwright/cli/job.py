"""`drawerwright job new` and `job check`: a job file to begin with, and reading one without computing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, UnitsWanted

if TYPE_CHECKING:
    from rich.table import Table

    from drawerwright.model.job import Drawer, Job
    from drawerwright.units import ShownUnits

HEADS = ("Drawer", "Cabinet, row", "Opening W × H × D", "Sides", "Front", "Slide", "Contents", "Note")

app = typer.Typer(help="A job file to begin with; reading one without computing.", rich_markup_mode=None)


@app.callback(invoke_without_command=True)
def _job(context: typer.Context) -> None:
    if context.invoked_subcommand is None:
        typer.echo(context.get_help())


@app.command("new")
def new(
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="FILE", help="File to write; standard output without it."),
    ] = None,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Write a job file to fill in: TOML, or by the ending of FILE a table, .csv or .xlsx."""
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_families

    if slides:
        read_families(slides)  # the job will be fitted with them, so say now if they cannot be read
    ending = out.suffix.lower() if out is not None else ".toml"
    content = _template(ending, units)
    if out is not None:
        _write_new(out, content)
    if as_json:
        document = {"schema": "drawerwright/job-new/1", "file": None if out is None else str(out)}
        write_json({**document, "toml": content.decode() if ending not in (".csv", ".xlsx") else None})
    elif out is None:
        typer.echo(content.decode(), nl=False)
    else:
        console().print(f"{out} is written. Put your measurements in it, then: drawerwright job check {out}")


@app.command("check")
def check(
    job_path: JobPath,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """Read a job file and show what was understood; nothing is computed."""
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.job_remarks import remarks_on
    from drawerwright.cli.reading import read_job_and_families, read_materials

    file, _ = read_job_and_families(job_path, slides, materials=read_materials(materials))
    job, remarks = file.job, remarks_on(file)
    if as_json:
        told = [{"where": one.where, "says": one.says} for one in remarks]
        document = job.model_dump(mode="json", by_alias=True)
        write_json({"schema": "drawerwright/job-check/1", "job": document, "remarks": told})
        return
    from drawerwright.cli.tables import print_indented
    from drawerwright.cli.wording import count, foot

    page = console()
    page.print(_job_table(job, units or job.units))
    for line in foot(units or job.units):
        page.print(line)
    for one in remarks:
        print_indented(page, f"{one.where}: {one.says}", by=0)
    many = count(sum(drawer.quantity for drawer in job.drawers), "drawer", "drawers")
    page.print(f"{many} in {count(len(job.drawers), 'entry', 'entries')}; the file can be read.")


def _template(ending: str, units: ShownUnits | None) -> bytes:
    """The template of a kind of file as written; a CSV begins with a mark, or accents come out wrong."""
    from importlib.resources import files

    from drawerwright.files import job_template, job_template_csv, job_template_xlsx

    bare: Literal["mm", "in"] = "in" if units == "in" else "mm"
    if ending == ".xlsx":
        return job_template_xlsx(bare)
    if ending == ".csv":
        return job_template_csv(bare).encode("utf-8-sig")
    if bare == "mm":
        return job_template().encode()
    return files(__package__).joinpath("inch_job.toml").read_bytes()


def _write_new(path: Path, content: bytes) -> None:
    """Write beside, then rename. Raises InputError where something stands there already."""
    from drawerwright.errors import Fault, InputError

    if path.exists():
        says = "is there already, and is left as it is"
        raise InputError([Fault(str(path), "", says, f"{path.stem}-2{path.suffix or '.toml'}")])
    beside = path.with_name(f".{path.name}.part")
    try:
        beside.write_bytes(content)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def _job_table(job: Job, units: ShownUnits) -> Table:
    from drawerwright.cli.tables import new_table

    table = new_table(job.title, HEADS, unbroken=HEADS[:1])
    for drawer in job.drawers:
        table.add_row(*_job_row(drawer, units))
    return table


def _job_row(drawer: Drawer, units: ShownUnits) -> list[str]:
    from drawerwright.cli.wording import NOTHING, length, named, sizes
    from drawerwright.units import format_mass

    opening = drawer.opening
    smallest = (opening.width.smallest, opening.height.smallest, opening.depth.smallest)
    place = (
        f"{drawer.cabinet or NOTHING}, {drawer.row or NOTHING}" if drawer.cabinet or drawer.row else NOTHING
    )
    contents = drawer.contents.preset or format_mass(drawer.contents.mass, units)
    return [
        named(drawer),
        place,
        sizes(smallest, units),
        length(drawer.side, units),
        drawer.front.style,
        drawer.slide,
        contents,
        drawer.note or NOTHING,
    ]
