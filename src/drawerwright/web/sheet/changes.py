"""What would make a drawer fit: the smallest changes, each as a link that puts it into the fields."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.shown import Shown
from drawerwright.errors import ReadingError
from drawerwright.model.fitted import Change, FittedDrawer
from drawerwright.pack.figures import change_text
from drawerwright.units import KG_PER_POUND, BareUnit, parse_length, parse_mass
from drawerwright.web.sheet.asked import Asked
from drawerwright.web.sheet.fields import FIELDS, Field
from drawerwright.web.sheet.units import exact_figure

_SPLIT: Final = re.compile(r"(;|,\s+)")


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """One change: by how much (empty for a choice), in words, and the address with it put in, or empty."""

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
    return "" if change.to else change_text(change.by, change.unit, shown)


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
    """A piece of a field's text after the change: by as much as the link states, which is enough."""
    lead = " " if piece.startswith(" ") else ""
    stated = change_text(change.by, change.unit, Shown(bare)).replace("−", "-")
    if change.unit == "kg":
        kg = max(parse_mass(piece.strip(), bare) + _mass_stated(stated), 0.0)
        return lead + _hundredths_down(kg if bare == "mm" else kg / float(KG_PER_POUND))
    mm = max(parse_length(piece.strip(), bare) + parse_length(stated), 0.0)
    return lead + (exact_figure(mm, bare) or f"{exact_figure(round(mm, 4), 'mm')} mm")


def _mass_stated(stated: str) -> float:
    sign = -1.0 if stated.startswith("-") else 1.0
    return sign * parse_mass(stated.lstrip("+-"))


def _hundredths_down(value: float) -> str:
    return f"{math.floor(value * 100 + 1e-6) / 100:.2f}".rstrip("0").rstrip(".") or "0"
