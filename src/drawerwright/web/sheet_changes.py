"""What would make a drawer fit: the smallest changes, each as a link that puts it into the fields."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.shown import Shown
from drawerwright.errors import ReadingError
from drawerwright.model.fitted import Change, FittedDrawer
from drawerwright.pack.figures import change_text
from drawerwright.units import KG_PER_POUND, MM_PER_INCH, BareUnit, parse_length, parse_mass
from drawerwright.web.sheet_asked import Asked
from drawerwright.web.sheet_fields import FIELDS, Field

_SPLIT: Final = re.compile(r"(;|,\s+)")
_ENOUGH: Final = 0.01
"""How finely a changed length is written [mm]: rounded so that it is enough."""


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """One change: by how much, in words, and the address with it put in; empty where no field holds it."""

    by: str
    says: str
    address: str


def change_rows(fitted: FittedDrawer, asked: Asked, texts: Mapping[str, str]) -> tuple[ChangeRow, ...]:
    """The smallest single change of each kind; `texts` are those of all fields, also those not asked anew."""
    return tuple(
        ChangeRow(_by(change, asked.shown), change.says, _address(change, asked, texts))
        for change in fitted.changes
    )


def _by(change: Change, shown: Shown) -> str:
    return change.to.replace("-", " ") if change.to else change_text(change.by, change.unit, shown)


def _address(change: Change, asked: Asked, told: Mapping[str, str]) -> str:
    texts = dict(asked.texts)
    keys = ("lost.left", "lost.right") if change.change == "lost" else (change.change,)
    for key in keys:
        found = next((one for one in FIELDS if one.key == key), None)
        changed = None if found is None else _changed(found, told.get(found.name, ""), change, asked)
        if found is None or changed is None:
            return ""
        texts[found.name] = changed
    return asked.with_texts(texts).address(show="")


def _changed(field: Field, text: str, change: Change, asked: Asked) -> str | None:
    """What the field holds after the change; None where that cannot be told."""
    if change.to:
        words = [word for word, _ in field.choices]
        if change.to in words or not words:
            return change.to
        return "" if "" in words else None
    if change.readings not in ("", "all"):
        return None
    bare: BareUnit = "in" if asked.units == "in" else "mm"
    usual = field.usual if field.usual.replace(".", "").isdecimal() else ""
    told = text.strip() or (f"{usual} mm" if usual and change.unit == "mm" else usual)
    if not told or "=" in told:
        return None
    pieces = _SPLIT.split(told)
    try:
        return "".join(_moved(piece, change, bare) if piece.strip(" ;,") else piece for piece in pieces)
    except ReadingError:
        return None


def _moved(piece: str, change: Change, bare: BareUnit) -> str:
    lead = " " if piece.startswith(" ") else ""
    if change.unit == "kg":
        kg = max(parse_mass(piece.strip(), bare) + change.by, 0.0)
        return lead + (
            _trimmed(kg - 0.005, 2) if bare == "mm" else _trimmed(kg / float(KG_PER_POUND) - 0.005, 2)
        )
    mm = parse_length(piece.strip(), bare) + change.by
    away = _ENOUGH / 2 if change.by > 0 else -_ENOUGH / 2
    if abs(mm - round(mm, 2)) < 1e-6:
        away = 0.0
    return lead + (_trimmed(mm + away, 2) if bare == "mm" else _trimmed((mm + away) / float(MM_PER_INCH), 4))


def _trimmed(value: float, places: int) -> str:
    return f"{max(value, 0.0):.{places}f}".rstrip("0").rstrip(".") or "0"
