"""`drawerwright pack JOB --out DIR`: write the shop's papers and files."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drawerwright.cli.fit import DOES_NOT_FIT
from drawerwright.cli.options import (
    AsJson,
    FractionWanted,
    JobPath,
    MaterialPaths,
    PaperWanted,
    SlidePaths,
    Strict,
    UnitsWanted,
)
from drawerwright.cli.whole_job import Cheapest, FewestLengths, FewestSetups, LoseAtMost

if TYPE_CHECKING:
    from rich.console import Console

    from drawerwright.pack import Manifest


class SectionName(StrEnum):
    """Sections of a pack, as the pack itself names them; told here so that help waits for no heavy part."""

    sheets = "sheets"
    pictures = "pictures"
    templates = "templates"
    lists = "lists"
    dxf = "dxf"
    labels = "labels"
    carry = "carry"


def pack(
    job_path: JobPath,
    out: Annotated[
        Path,
        typer.Option(
            "--out",
            metavar="DIR",
            help="Folder for the papers and files; or one zip file, if it ends in .zip.",
            show_default=False,
        ),
    ],
    only: Annotated[
        list[SectionName] | None,
        typer.Option(
            "--only",
            help="Write this section alone; may be given several times. Without it all but carry.",
            show_default=False,
        ),
    ] = None,
    paper: PaperWanted = "a4",
    fraction: FractionWanted = "32",
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
    """Fit a job and write the shop's papers and files."""
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.reading import read_materials
    from drawerwright.cli.whole_job import aim_of, read_and_fit_for

    aim = aim_of(
        fewest_lengths=fewest_lengths,
        cheapest=cheapest,
        fewest_setups=fewest_setups,
        lose_at_most=lose_at_most,
    )
    job, fitted, _ = read_and_fit_for(
        aim, lose_at_most, job_path=job_path, slides=slides, materials=materials, units=units
    )

    from drawerwright.pack import write_pack

    with steps_shown("writing") as progress:
        manifest = write_pack(
            job,
            fitted,
            out,
            paper=paper,
            units=units or job.units,
            inch_parts=64 if fraction == "64" else 32,
            only=[one.value for one in only or ()],
            materials=read_materials(materials) if materials else None,
            progress=progress,
        )
    if as_json:
        write_json(manifest.document())
    else:
        from drawerwright.cli.verdicts import count_words

        page = console()
        show_files(page, manifest, out)
        page.print(count_words(fitted))
    if strict and any(drawer.verdict == "does-not-fit" for drawer in fitted.drawers):
        raise typer.Exit(DOES_NOT_FIT)


def show_files(out: Console, manifest: Manifest, where: Path) -> None:
    """What was written, and where; a folder inside the pack has one line."""
    sizes: dict[str, list[int]] = {}
    for written in manifest.files:
        top, slash, _ = written.path.partition("/")
        sizes.setdefault(top + slash, []).append(written.size)
    for name, each in sizes.items():
        many = f"  {_files(len(each))}" if name.endswith("/") else ""
        out.print(f"  {name}{many}  {_size_words(sum(each))}")
    whose = "its" if len(manifest.files) == 1 else "their"
    out.print(f"{_files(len(manifest.files))} and {whose} manifest are in {where}.")


def _files(number: int) -> str:
    return f"{number} file" if number == 1 else f"{number} files"


def _size_words(size: int) -> str:
    if size < 1000:
        return f"{size} bytes"
    return f"{size / 1000:.0f} kB" if size < 1_000_000 else f"{size / 1e6:.1f} MB"
