"""`drawerwright align JOB --gaps FILE`: measured gaps in, moves at each bracket out."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from drawerwright.cli.options import AsJson, JobPath, MaterialPaths, SlidePaths, UnitsWanted
from drawerwright.cli.usage import PLACE

if TYPE_CHECKING:
    from drawerwright.align import AlignedJob
    from drawerwright.align.line import Line
    from drawerwright.model.fitted import FittedJob
    from drawerwright.units import BareUnit

LINE = "--line"


def align(
    job_path: JobPath,
    gaps: Annotated[
        Path,
        typer.Option("--gaps", metavar="FILE", help="Measured gaps: CSV, XLSX or TOML.", show_default=False),
    ],
    target: Annotated[
        Literal["even", "house", "line"] | None,
        typer.Option(
            "--target", help="Gaps alike (unless told), as designed, or on a line.", show_default=False
        ),
    ] = None,
    line: Annotated[
        list[str] | None,
        typer.Option(
            LINE,
            metavar="DRAWER.READING=LENGTH",
            help="A reading to be met, to stand on a line with fronts elsewhere; may be given several times.",
            show_default=False,
        ),
    ] = None,
    first_round: Annotated[
        Path | None,
        typer.Option(
            "--first-round",
            metavar="FILE",
            help="The gaps before the moves told for them were made: the true move of a mark follows.",
            show_default=False,
        ),
    ] = None,
    grade: Annotated[
        Literal["premium", "custom", "economy"] | None,
        typer.Option("--grade", help="How uneven a gap may be left; custom unless told.", show_default=False),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="DIR",
            help="A folder for drawings (SVG) of each front: its gaps, its moves.",
            show_default=False,
        ),
    ] = None,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    materials: MaterialPaths = None,
    units: UnitsWanted = None,
) -> None:
    """From measured gaps to what to turn, on which side, how far."""
    from drawerwright.align import align_document, align_job
    from drawerwright.cli.answers import console, steps_shown, write_json
    from drawerwright.cli.reading import read_and_fit, read_materials
    from drawerwright.errors import Fault, InputError
    from drawerwright.files.gaps import read_gaps

    if line and target is not None and target != "line":
        says = "does not go with --line, which names readings to be met"
        raise InputError([Fault(f"{PLACE} --target", target, says, "--target line")])
    job, fitted = read_and_fit(job_path, slides, units, materials=read_materials(materials))
    told = read_gaps(gaps, job.units)
    before = read_gaps(first_round, job.units) if first_round is not None else ()
    with steps_shown("lining up") as progress:
        aligned = align_job(
            fitted,
            told,
            target=target or "even",
            line=_line(line or (), job.units),
            grade=grade,
            first_round=before,
            units=units or job.units,
            progress=progress,
            where=f"{PLACE} {LINE}",
        )
    drawings = {} if out is None else _write_drawings(fitted, aligned, out)
    if as_json:
        write_json({**align_document(aligned), **({"drawings": drawings} if drawings else {})})
    else:
        from drawerwright.cli.align_words import show_aligned

        page = console()
        show_aligned(page, aligned, units or job.units)
        if drawings:
            page.print(f"Drawings in {out}: {', '.join(name for each in drawings.values() for name in each)}")


def _write_drawings(fitted: FittedJob, aligned: AlignedJob, out: Path) -> dict[str, list[str]]:
    """The gaps as measured and the moves of each front in the folder `out`; file names by drawer id."""
    from drawerwright.align.front_geometry import front_geometry
    from drawerwright.cli.drawings_out import write_drawings_out
    from drawerwright.drawing.views.bracket_moves import bracket_moves
    from drawerwright.drawing.views.front_gaps import front_gaps

    shapes = {one.id: front_geometry(one) for one in fitted.drawers}
    drawings = {}
    for front in aligned.fronts:
        shape = shapes[front.drawer]
        drawings[front.drawer, "gaps"] = partial(
            front_gaps, front.drawer, shape.width, shape.height, front.measured
        )
        drawings[front.drawer, "moves"] = partial(bracket_moves, front.drawer, front.moves)
    names: dict[str, list[str]] = {}
    for (drawer, _), name in write_drawings_out(drawings, out).items():
        names.setdefault(drawer, []).append(name)
    return names


def _line(words: list[str] | tuple[str, ...], units: BareUnit) -> Line:
    """Readings wanted, from `B1-2.top_left=2.5`. Raises InputError with all that cannot be read."""
    from drawerwright.align.line import EXAMPLE
    from drawerwright.errors import Fault, InputError, ReadingError
    from drawerwright.files.gap_text import parse_gap
    from drawerwright.model.gaps import GAP_NAMES
    from drawerwright.model.spelling import nearest

    wanted = {}
    faults = []
    where = f"{PLACE} {LINE}"
    for word in words:
        place, sign, length = word.partition("=")
        drawer, _, name = place.strip().rpartition(".")
        known = next((one for one in GAP_NAMES if one == name), None)
        if not sign or not drawer or known is None:
            says = "is not a reading to be met"
            try_ = f"{drawer}.{nearest(name, GAP_NAMES)}={length}" if drawer and sign else EXAMPLE
            faults.append(Fault(where, f'"{word}"', says, try_))
            continue
        try:
            reading = parse_gap(length.strip(), units, corner=known.startswith("out_"))
        except ReadingError as error:
            faults.append(error.fault(where))
            continue
        if reading is None:
            faults.append(Fault(where, f'"{word}"', "tells no length", EXAMPLE))
        else:
            wanted[drawer, known] = reading.value
    if faults:
        raise InputError(faults)
    return wanted
