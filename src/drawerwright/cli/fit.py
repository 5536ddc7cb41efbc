"""`drawerwright fit JOB`: choose slides, size boxes, run every check."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from drawerwright.cli.compare import Compared, DrawingsOut, MoreCompared, slides_compared
from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, Strict, UnitsWanted
from drawerwright.cli.whole_job import Cheapest, FewestLengths, FewestSetups, LoseAtMost
from drawerwright.units import ShownUnits

DOES_NOT_FIT = 3


def fit(
    job_path: JobPath,
    more: MoreCompared = None,
    explain: Annotated[
        bool, typer.Option("--explain", help="Show every check with its margin, working and source.")
    ] = False,
    fewest_lengths: FewestLengths = False,
    cheapest: Cheapest = False,
    fewest_setups: FewestSetups = False,
    lose_at_most: LoseAtMost = None,
    compare: Compared = None,
    out: DrawingsOut = None,
    strict: Strict = False,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """Choose slides, size boxes and run every check."""
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.whole_job import aim_of, read_and_fit_for

    others = {
        "--explain": explain,
        "--fewest-lengths": fewest_lengths,
        "--cheapest": cheapest,
        "--fewest-setups": fewest_setups,
        "--lose-at-most": lose_at_most is not None,
    }
    compared = slides_compared(compare, more, out, others)
    if compared:
        _compare(job_path, compared, out, slides, materials, units, as_json=as_json, strict=strict)
        return
    aim = aim_of(
        fewest_lengths=fewest_lengths,
        cheapest=cheapest,
        fewest_setups=fewest_setups,
        lose_at_most=lose_at_most,
    )
    job, fitted, choice = read_and_fit_for(
        aim, lose_at_most, job_path=job_path, slides=slides, materials=materials, units=units
    )
    if as_json:
        from drawerwright.fit.document import fit_document_by_drawer

        document = fit_document_by_drawer(fitted)
        if choice is not None:
            from drawerwright.fit.whole_job_document import with_whole_job

            document = with_whole_job(document, choice)
        write_json(document)
    else:
        from drawerwright.cli.verdicts import show_job

        page = console()
        show_job(page, fitted, units or job.units, explain=explain)
        if choice is not None:
            from drawerwright.cli.whole_job_words import show_whole_job

            show_whole_job(page, choice, units or job.units)
    if strict and any(drawer.verdict == "does-not-fit" for drawer in fitted.drawers):
        raise typer.Exit(DOES_NOT_FIT)


def _compare(
    job_path: Path,
    compared: Sequence[str],
    out: Path | None,
    slides: Sequence[Path] | None,
    materials: Sequence[Path] | None,
    units: ShownUnits | None,
    *,
    as_json: bool,
    strict: bool,
) -> None:
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.compare import read_and_compare, write_drawings
    from drawerwright.cli.reading import read_materials

    job, comparison = read_and_compare(job_path, slides, units, compared, materials=read_materials(materials))
    shown = units or job.units
    drawings = {} if out is None else write_drawings(comparison, out, shown)
    if as_json:
        from drawerwright.fit.compare_document import compare_document

        write_json(compare_document(comparison, drawings))
    else:
        from drawerwright.cli.compare_words import show_comparison

        page = console()
        show_comparison(page, comparison, shown)
        if drawings:
            page.print(f"Drawings in {out}: {', '.join(drawings.values())}")
    if strict and any(
        all(answer.verdict == "does-not-fit" for answer in one.answers) for one in comparison.drawers
    ):
        raise typer.Exit(DOES_NOT_FIT)
