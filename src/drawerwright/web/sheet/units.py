"""What an address tells, written for other units so that it means exactly what it meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Final

from drawerwright.errors import ReadingError
from drawerwright.files.job_columns import job_columns
from drawerwright.units import MM_PER_INCH, BareUnit, parse_length, parse_mass
from drawerwright.web.quick_job import SHORT_KEYS
from drawerwright.web.sheet.fields import FIELDS

_MASSES: Final = frozenset({"contents", "contents.mass", "cabinet.mass"})
_DEGREES: Final = frozenset({"door.opens"})
_OF_CARRYING: Final = frozenset({"off_centre", "sag_limit"})
"""Lengths of the address that ask what a drawer carries."""
_BARE: Final = re.compile(r"\s*[-+−]?\s*[\d.,]+(?:\s*[- ]\s*\d+\s*/\s*\d+|\s*/\s*\d+)?\s*")
_SPLIT: Final = re.compile(r"(;|,(?=[^\W\d])|,\s|[=:]|(?:front|back|top|bottom|left|right)\b)", re.IGNORECASE)
"""Between readings, and between the place of one and its figure."""
_IN_TABLES: Final = re.compile(r"""'[^']*'|"[^"]*"|(?<![\w.])(-?\d[\d.]*)(?![\w.])""")
_SLIDE: Final = re.compile(r"(?P<family>[^/]+/\s*)(?P<nominal>.+)")
_HAIR: Final = 1e-7
"""Within this a float is the decimal or the fraction that it was written as [mm]: round-off, own choice."""


def in_other_units(texts: Mapping[str, str], before: BareUnit, after: BareUnit) -> dict[str, str]:
    """The bare numbers of fields written in other units, so that they mean what they meant.

    Where the other unit has no short exact figure the number keeps its own, told beside it: "46 mm" among
    inches, for a figure rounded there may turn a verdict. What has its own unit already, and what does not
    read, stays as it was typed.
    """
    if before == after:
        return dict(texts)
    return {name: _written(text, _kind(name), before, after) for name, text in texts.items()}


def pairs_in_other_units(
    pairs: Iterable[tuple[str, str]], before: BareUnit, after: BareUnit
) -> tuple[tuple[str, str], ...]:
    """Keys and texts of an address as `in_other_units` writes those of fields."""
    if before == after:
        return tuple(pairs)
    return tuple((key, _written(text, _kind(key), before, after)) for key, text in pairs)


def _kind(name: str) -> str:
    """What bare numbers of a key are: "length", "mass", a "slide", or "tables" with lengths; else empty."""
    key = next((field.key for field in FIELDS if field.name == name), SHORT_KEYS.get(name, name))
    if key == "slide":
        return "slide"
    if key in _MASSES:
        return "mass"
    if key in _OF_CARRYING:
        return "length"
    column = job_columns().get(key)
    if column is None or key in _DEGREES:
        return ""
    return {"number": "length", "list": "length", "tables": "tables"}.get(column.kind, "")


def _written(text: str, kind: str, before: BareUnit, after: BareUnit) -> str:
    if kind == "tables":
        return _IN_TABLES.sub(lambda found: f"'{found[1]} {before}'" if found[1] else found[0], text)
    if kind == "slide":
        named = _SLIDE.fullmatch(text.strip())
        return named["family"] + _written(named["nominal"], "length", before, after) if named else text
    if kind not in ("length", "mass"):
        return text
    pieces = _SPLIT.split(text)
    return "".join(_one(piece, kind, before, after) if _BARE.fullmatch(piece) else piece for piece in pieces)


def _one(text: str, kind: str, before: BareUnit, after: BareUnit) -> str:
    bare = text.strip()
    lead, trail = (" " if text[0].isspace() else ""), (" " if text[-1].isspace() else "")
    try:
        if kind == "mass":
            kg = parse_mass(bare, before)
            own = "kg" if before == "mm" else "lb"
            return lead + (f"{bare} {own}" if kg else bare) + trail
        mm = parse_length(bare, before)
    except ReadingError:
        return text
    told = exact_figure(mm, after)
    own = "in" if "/" in bare else before
    return lead + (told or f"{bare} {own}") + trail


def exact_figure(mm: float, unit: BareUnit) -> str:
    """A length [mm] as a bare figure that loses nothing; empty where there is none short enough.

    Millimetres have up to six decimals, which hold 64ths of an inch; inches a fraction or four decimals.
    """
    if unit == "mm":
        return _decimal(mm, mm, 6)
    inches = mm / float(MM_PER_INCH)
    steps = round(inches * 64)
    if steps < 0 or abs(float(Fraction(steps, 64) * MM_PER_INCH) - mm) > _HAIR:
        return _decimal(inches, mm, 4, float(MM_PER_INCH))
    whole, rest = divmod(Fraction(steps, 64), 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def _decimal(value: float, mm: float, places: int, unit: float = 1.0) -> str:
    """A number of so many decimals, where they lose nothing of `mm`; else empty."""
    rounded = round(value, places)
    if abs(rounded * unit - mm) > _HAIR:
        return ""
    text = f"{Decimal(repr(rounded)):f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) or "0"
