"""The lettering's font files, from the installed font package (SIL Open Font License 1.1)."""

from __future__ import annotations

from functools import cache, lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Final, Literal, TypeAlias

FAMILY: Final = "Barlow Semi Condensed"
FAMILY_LIST: Final = "Barlow Semi Condensed, Barlow"
STRETCH: Final = "semi-condensed"
"""A page serves the files under the family's full name; a PDF compiler reads the same files as the family
Barlow with a width of its own. Naming both, with the width, finds them either way."""
Weight: TypeAlias = Literal["regular", "medium", "semibold"]

_FILES: Final[dict[Weight, str]] = {
    "regular": "BarlowSemiCondensed-Regular.ttf",
    "medium": "BarlowSemiCondensed-Medium.ttf",
    "semibold": "BarlowSemiCondensed-SemiBold.ttf",
}
CSS_WEIGHTS: Final[dict[Weight, str]] = {"regular": "400", "medium": "500", "semibold": "600"}


@cache
def font_folder() -> Path:
    """The folder that holds the font files: what a PDF compiler is given as its font path."""
    return Path(str(files("fontpkg_barlow_semi_condensed"))) / "files"


def font_file(weight: Weight) -> Path:
    """The TrueType file of one weight.

    Raises:
        FileNotFoundError: the font package is installed without that file.
    """
    path = font_folder() / _FILES[weight]
    if not path.is_file():
        raise FileNotFoundError(f"the lettering's font file is missing: {path.name}; reinstall the package")
    return path


@cache
def _advances(weight: Weight) -> tuple[dict[int, float], float]:
    """Advance widths in ems by code point, and the advance of a character the font lacks."""
    # Loaded only when something is drawn; the library carries no types.
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    with TTFont(font_file(weight), lazy=True) as font:
        em = float(font["head"].unitsPerEm)
        metrics = font["hmtx"]
        table = {code: metrics[name][0] / em for code, name in font.getBestCmap().items()}
        return table, metrics[".notdef"][0] / em


@lru_cache(maxsize=8192)
def text_width(text: str, size: float, weight: Weight = "semibold") -> float:
    """How wide a line of lettering runs [mm] at `size` [mm]; kerning is left out."""
    table, missing = _advances(weight)
    return size * sum(table.get(ord(character), missing) for character in text)


CAP_HEIGHT: Final = 0.7
"""Height of capitals and figures in ems (the font's OS/2 table: 700 of 1000 units)."""
DESCENT: Final = 0.2
"""Depth below the baseline in ems (the font's hhea table: 200 of 1000 units)."""
