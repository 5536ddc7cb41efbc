"""`drawerwright demo`: the demo job, all the way through."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from drawerwright.cli.options import AsJson, FractionWanted, PaperWanted, SlidePaths, UnitsWanted

DEMO_JOB = "demo.toml"


def demo(
    out: Annotated[
        Path, typer.Option("--out", metavar="DIR", help="Folder for the papers and files, or one .zip file.")
    ] = Path("out/demo"),
    paper: PaperWanted = "a4",
    fraction: FractionWanted = "32",
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Fit the demo job, an invented fit-out, and write its papers and files."""
    from importlib.resources import as_file, files

    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.pack import show_files
    from drawerwright.cli.reading import read_and_fit
    from drawerwright.fit import fit_document

    with as_file(files(__package__).joinpath(DEMO_JOB)) as path:
        job, fitted = read_and_fit(path, slides, units)

    from drawerwright.pack import write_pack

    with steps_shown("writing") as progress:
        manifest = write_pack(
            job,
            fitted,
            out,
            paper=paper,
            units=units or job.units,
            inch_parts=64 if fraction == "64" else 32,
            progress=progress,
        )
    if as_json:
        answer = {"fit": fit_document(fitted), "pack": manifest.document()}
        write_json({"schema": "drawerwright/demo/1", **answer})
        return
    from drawerwright.cli.verdicts import show_job

    page = console()
    show_job(page, fitted, units or job.units)
    page.print()
    show_files(page, manifest, out)
