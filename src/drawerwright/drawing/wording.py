"""Words and numbers as they stand on a drawing: safe in XML and DXF, and rounded as a shop reads them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from drawerwright.drawing.shown import Units, shown_in
from drawerwright.units import MM_PER_INCH, format_length

_NOT_IN_XML: Final = re.compile("[^\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]|[\\x7f-\\x9f]")
_SPACES: Final = re.compile(r"\s+")
_CALIPER: Final = 100.0
"""Lengths below it are told to a hundredth [mm]. Own choice."""
_EIGHTH: Final = float(MM_PER_INCH) / 8


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
def shown_length(value: float, places: int | None = None) -> str:
    """A length as drawn [mm]: no trailing zeros, a true minus sign, half way goes away from 0.

    To a tenth unless told; below 100 mm to a hundredth, for what is that short is a thickness or a gap, and
    a tenth would hide what a caliper shows of it: 6.35 or 15.875. Own choice.
    """
    if places is None:
        places = 2 if abs(value) < _CALIPER else 1
    return format_length(value, decimals=places).removesuffix(" mm").replace("-", "\u2212")


def shown(value: float, units: Units = "mm", places: int | None = None, *, down: bool = False) -> str:
    """A length [mm] as drawn in the units asked for: `519.5`, `20 7/16″`, or `519.5 (20 7/16″)`.

    Inches are rounded to the nearest fraction, or with `down` to the next below, for sizes that have an upper
    limit; mm stand without their unit, inches always have their mark. Inches tell no length under 1/8 in: a
    fraction says nothing about a gap or an adjuster, so it stays in mm.
    """
    own = shown_in(units)
    if not own.with_inches or is_slight(value):
        return hardware(value, own, places)
    found = format_length(value, "in", denominator=own.parts, inches_down=down)
    inches = found.removesuffix(" in").replace("-", "\u2212") + "\u2033"
    return inches if own.in_inches else f"{shown_length(value, places)} ({inches})"


def is_slight(value: float) -> bool:
    """Whether a length [mm] is so short that fractions of an inch do not tell it: under 1/8 in, but not 0."""
    return 0 < abs(value) < _EIGHTH


def hardware(value: float, units: Units = "mm", places: int | None = None) -> str:
    """A length [mm] that belongs to hardware, bits or screws: always metric, and beside inches it says so."""
    return shown_length(value, places) + (" mm" if shown_in(units).with_inches else "")


def bored(diameter: float, units: Units = "mm") -> str:
    """A bore's diameter or depth [mm]: bits are metric, so beside inches it says mm and is not rounded."""
    return hardware(diameter, units, 2)


def size_words(length: float, width: float, units: Units = "mm", between: str = " by ") -> str:
    """Two sizes [mm] of a part, inches rounded down: `519.5 by 140`."""
    return between.join(shown(size, units, down=True) for size in (length, width))


def part_words(length: float, width: float, thickness: float, units: Units = "mm") -> str:
    """Length, width and thickness [mm] of a part; inches of the first two are rounded down."""
    return f"{size_words(length, width, units, ' × ')} × {shown(thickness, units)}"


def listed(values: Iterable[float], units: Units = "mm", places: int | None = None) -> str:
    """Several lengths [mm] in one line, parted by commas."""
    return ", ".join(shown(value, units, places) for value in values)
