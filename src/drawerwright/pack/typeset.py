"""Sheets set by Typst from templates in this package: data goes in as JSON, never as Typst code."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any, Final, Literal

from drawerwright.drawing.fonts import font_folder
from drawerwright.errors import DrawerwrightError

STANDARDS: Final[tuple[Literal["a-2b", "ua-1"], ...]] = ("a-2b", "ua-1")
"""PDF/A-2b (ISO 19005-2) to be kept, PDF/UA-1 (ISO 14289-1) to be read aloud; the compiler checks both."""


class TypesettingError(DrawerwrightError):
    """The sheets could not be set: a fault of the templates, not of the job."""


@cache
def _template_folder() -> Path:
    return Path(str(files(__package__))) / "templates"


def set_sheets(data: Mapping[str, Any]) -> bytes:
    """The sheets as a PDF: only the house's lettering, no date, same data same bytes.

    Raises:
        TypesettingError: the compiler refused, or warned.
    """
    import typst

    folder = _template_folder()
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font_folder())]
    )
    compiler = typst.Compiler(
        str(folder / "sheets.typ"),
        root=str(folder),
        font_paths=fonts,
        sys_inputs={"data": json.dumps(data, ensure_ascii=False, sort_keys=True)},
    )
    try:
        made, warnings = compiler.compile_with_warnings(format="pdf", pdf_standards=list(STANDARDS))
    except typst.TypstError as error:
        raise TypesettingError(f"the sheets could not be set: {error.message}") from error
    if warnings or not isinstance(made, bytes):
        raise TypesettingError(f"the sheets were set with warnings: {warnings}")
    return made
