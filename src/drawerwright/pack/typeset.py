"""Papers set by Typst from templates in this package: data goes in as JSON, never as Typst code."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal, TypeAlias

from drawerwright.drawing.fonts import font_folder
from drawerwright.errors import DrawerwrightError

if TYPE_CHECKING:
    import typst

DocumentName: TypeAlias = Literal[
    "sheets", "mounting", "lining-up", "lists", "labels", "full-size", "pictures", "carrying", "nothing"
]
"""A template of this package that makes a document."""

STANDARDS: Final[tuple[Literal["a-2b", "ua-1"], ...]] = ("a-2b", "ua-1")
"""PDF/A-2b (ISO 19005-2) to be kept, PDF/UA-1 (ISO 14289-1) to be read aloud; the compiler checks both."""

_FORGETTING: Final = 12
"""The compiler keeps what it worked out until it has set some ten other documents (tried, not documented)."""


class TypesettingError(DrawerwrightError):
    """The papers could not be set: a fault of the templates, not of the job."""


@cache
def _template_folder() -> Path:
    return Path(str(files(__package__))) / "templates"


def _compiler(name: DocumentName, data: Mapping[str, Any]) -> typst.Compiler:
    import typst

    folder = _template_folder()
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font_folder())]
    )
    return typst.Compiler(
        str(folder / f"{name}.typ"),
        root=str(folder),
        font_paths=fonts,
        sys_inputs={"data": json.dumps(data, ensure_ascii=False, sort_keys=True)},
    )


def set_document(name: DocumentName, data: Mapping[str, Any]) -> bytes:
    """A document as a PDF: only the house's lettering, no date, same data same bytes.

    Raises:
        TypesettingError: the compiler refused, or warned.
    """
    import typst

    try:
        made, warnings = _compiler(name, data).compile_with_warnings(
            format="pdf", pdf_standards=list(STANDARDS)
        )
    except typst.TypstError as error:
        raise TypesettingError(f"the {name} could not be set: {error.message}") from error
    if warnings or not isinstance(made, bytes):
        raise TypesettingError(f"the {name} were set with warnings: {warnings}")
    return made


def forget_settings() -> None:
    """Makes the compiler let go of what it keeps of documents already set, so that memory stays bounded."""
    nothing = _compiler("nothing", {})
    for _ in range(_FORGETTING):
        nothing.compile(format="pdf")
