"""Words and numbers as they stand on a drawing: safe in XML and DXF, and rounded as a shop reads them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Final

from drawerwright.units import ShownUnits, format_length

_NOT_IN_XML: Final = re.compile("[^\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]|[\\x7f-\\x9f]")
_SPACES: Final = re.compile(r"\s+")


def plain_text(text: str) -> str:
    """One line of text without control characters, lone surrogates or code points that XML forbids.

    Runs of white space become one space, so that a note pasted from elsewhere cannot break a line.
    Source of the allowed code points: XML 1.0 (fifth edition), 2.2, production [2] Char.
    """
    if text.isascii() and text.isprintable():
        return " ".join(text.split())  # nothing to leave out: most lettering is of this kind
    without = _NOT_IN_XML.sub(" ", text)
    kept = "".join(c for c in without if unicodedata.category(c) not in ("Cf", "Cs") or c == "\u00ad")
    return _SPACES.sub(" ", kept).strip()


def shown_length(value: float, places: int = 1) -> str:
    """A length as drawn [mm]: to a tenth unless told, no trailing zeros, a true minus sign."""
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    if text in ("-0", ""):
        text = "0"
    return text.replace("-", "\u2212")


def shown(value: float, units: ShownUnits = "mm", places: int = 1) -> str:
    """A length [mm] as drawn in the units asked for: `519.5`, `20 7/16″`, or `519.5 (20 7/16″)`.

    Inches are rounded to a thirty-second; mm stand without their unit, inches always have their mark.
    """
    metric = shown_length(value, places)
    if units == "mm":
        return metric
    inches = format_length(value, "in").removesuffix(" in").replace("-", "\u2212") + "\u2033"
    return inches if units == "in" else f"{metric} ({inches})"


def bored(diameter: float, units: ShownUnits = "mm") -> str:
    """A bore's diameter [mm]: bits are metric, so beside inches it says mm and is not rounded."""
    return shown_length(diameter, 2) + ("" if units == "mm" else " mm")


def listed(values: Iterable[float], units: ShownUnits = "mm", places: int = 1) -> str:
    """Several lengths [mm] in one line, parted by commas."""
    return ", ".join(shown(value, units, places) for value in values)


def words_of(quantity: str) -> str:
    """A quantity's name in words: `side_gap` becomes `side gap`."""
    return quantity.replace("_", " ")
