"""Words and numbers as they stand on a drawing: safe in XML and DXF, and rounded as a shop reads them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from drawerwright.drawing.shown import Units, shown_in
from drawerwright.model.cut_sizes import length_rounds_down
from drawerwright.units import finest_parts, format_length, is_just_inches, is_slight

_NOT_IN_XML: Final = re.compile("[^\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]|[\\x7f-\\x9f]")
_SPACES: Final = re.compile(r"\s+")
THICKNESSES: Final = frozenset({"front_thickness", "rabbet_width"})
"""Quantities of drawings that are the thickness of a board."""
_CALIPER: Final = 2
"""Decimals of what a caliper measures [mm]: thicknesses and bits. Own choice."""


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


@lru_cache(maxsize=8192)
def shown_length(value: float, places: int = 1) -> str:
    """A length as drawn [mm]: no trailing zeros, a true minus sign, half way goes away from 0.

    To a tenth unless told: nobody marks out a hundredth. Own choice.
    """
    return format_length(value, decimals=places).removesuffix(" mm").replace("-", "\u2212")


def shown_size(quantity: str, value: float) -> str:
    """A quantity as drawn [mm]: a board's thickness to a hundredth, all else to a tenth."""
    return shown_length(value, _CALIPER if quantity in THICKNESSES else 1)


def shown(value: float, units: Units = "mm", places: int = 1, *, down: bool = False) -> str:
    """A length [mm] as drawn in the units asked for: `519.5`, `20-7/16″`, or `519.5 (20-7/16″)`.

    Inches are rounded to the nearest fraction, or with `down` to the next below, for sizes that have an upper
    limit; mm stand without their unit, inches always have their mark. A hyphen keeps the whole inches apart
    from their fraction, where a narrow space would not. A length under 1/8 in stays in mm, unless it is just
    so many 1/64 in: a rounded fraction says nothing about a gap or an adjuster.
    """
    own = shown_in(units)
    if not own.with_inches or is_slight(value):
        return hardware(value, own, places)
    inches = _inches(value, own.parts if down else finest_parts(value, own.parts), down)
    return inches if own.in_inches else f"{shown_length(value, places)} ({inches})"


def _inches(value: float, parts: int, down: bool) -> str:
    found = format_length(value, "in", denominator=parts, inches_down=down).removesuffix(" in")
    signed = "\u2212" if found.startswith("-") else ""
    return signed + found.removeprefix("-").replace(" ", "-") + "\u2033"


def thick(value: float, units: Units = "mm") -> str:
    """A board's thickness [mm]: a name, so it is never rounded to another board's fraction.

    In inches where it is just so many 1/64 in, else in mm to a hundredth: 6.35 is no 6.4, and 6 no 1/4 in.
    """
    if shown_in(units).with_inches and is_just_inches(value):
        return shown(value, units, _CALIPER)
    return hardware(value, units, _CALIPER)


def on_grid(value: float, units: Units = "mm") -> str:
    """Place of a row hole [mm], which is bored in mm beside inches too: `37 mm (1-15/32″)`."""
    own = shown_in(units)
    if not own.with_inches or is_slight(value):
        return hardware(value, own)
    return f"{hardware(value, own)} ({_inches(value, finest_parts(value, own.parts), False)})"


def hardware(value: float, units: Units = "mm", places: int = 1) -> str:
    """A length [mm] that belongs to hardware, bits or screws: always metric, and beside inches it says so."""
    return shown_length(value, places) + (" mm" if shown_in(units).with_inches else "")


def bored(diameter: float, units: Units = "mm") -> str:
    """A bore's diameter or depth [mm]: bits are metric, so beside inches it says mm and is not rounded."""
    return hardware(diameter, units, _CALIPER)


def size_words(part: str, length: float, width: float, units: Units = "mm", between: str = " by ") -> str:
    """Length and width [mm] of a part by its name, inches rounded as they are cut: `519.5 by 140`."""
    return between.join((shown(length, units, down=length_rounds_down(part)), shown(width, units, down=True)))


def part_words(part: str, length: float, width: float, thickness: float, units: Units = "mm") -> str:
    """Length, width and thickness [mm] of a part by its name, inches rounded as they are cut."""
    return f"{size_words(part, length, width, units, ' × ')} × {thick(thickness, units)}"


def listed(values: Iterable[float], units: Units = "mm") -> str:
    """Places of several row holes [mm] in one line, parted by commas."""
    return ", ".join(on_grid(value, units) for value in values)
