"""Options that several commands take, each declared once, and the reading of those that hold a value."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Literal, TypeAlias, TypeVar

import typer

from drawerwright.cli.usage import PLACE
from drawerwright.errors import Fault, ReadingError
from drawerwright.units import ShownUnits

AsJson: TypeAlias = Annotated[
    bool, typer.Option("--json", help="Write one JSON document on standard output, and nothing else there.")
]
SlidePaths: TypeAlias = Annotated[
    list[Path] | None,
    typer.Option(
        "--slides",
        metavar="FILE_OR_FOLDER",
        help="Slide families to use instead of the shipped ones; may be given several times.",
    ),
]
MaterialPaths: TypeAlias = Annotated[
    list[Path] | None,
    typer.Option(
        "--materials",
        metavar="FILE",
        help="Sheet goods and wood to add to the shipped ones; may be given several times.",
    ),
]
UnitsWanted: TypeAlias = Annotated[
    ShownUnits | None,
    typer.Option("--units", help="Lengths and masses as people read them; as the job has them unless told."),
]
Strict: TypeAlias = Annotated[
    bool, typer.Option("--strict", help="End with exit code 3 when a drawer does not fit.")
]
JobPath: TypeAlias = Annotated[
    Path, typer.Argument(metavar="JOB", help="The job file: TOML, CSV or XLSX.", show_default=False)
]
FractionWanted: TypeAlias = Annotated[
    Literal["32", "64"],
    typer.Option("--fraction", help="Finest parts of an inch on papers and lists, where inches are shown."),
]
PaperWanted: TypeAlias = Annotated[
    Literal["a4", "letter"], typer.Option("--paper", help="Size of the sheets that are printed.")
]
OnlyDrawer: TypeAlias = Annotated[
    str | None, typer.Option("--drawer", metavar="ID", help="Only this drawer.", show_default=False)
]

_Read = TypeVar("_Read")


def read_option(
    option: str, text: str | None, read: Callable[[str], _Read], faults: list[Fault]
) -> _Read | None:
    """What an option says; None where it is not given, or, with a fault more, where it cannot be read."""
    if text is None:
        return None
    try:
        return read(text)
    except ReadingError as error:
        faults.append(error.fault(f"{PLACE} {option}"))
        return None
