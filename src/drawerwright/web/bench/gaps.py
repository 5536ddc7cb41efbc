"""Gaps measured at the bench: the fields around a front, and what to turn, told for one front."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from drawerwright.align import AlignedFront
from drawerwright.errors import Fault, InputError
from drawerwright.files.gaps import SETTING_COLUMNS, gaps_of_mappings
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, GapName
from drawerwright.pack.figures import millimetres
from drawerwright.units import BareUnit, ShownUnits, format_length

EDGES: Final[tuple[GapName, ...]] = GAP_NAMES[:8]
"""Gaps beside the edges."""
CORNERS: Final[tuple[GapName, ...]] = GAP_NAMES[8:]
"""How far the corners stand out."""

_HAS_UNIT: Final = re.compile(r"[A-Za-z]|[\"'′″]")
_NUMBER: Final = re.compile(r"\d+(?:[.,]\d+)?(?:[ -]\d+/\d+|/\d+)?[¼½¾⅛⅜⅝⅞]?|[¼½¾⅛⅜⅝⅞]")
_LONGEST: Final = 40


@dataclass(frozen=True, slots=True)
class GapRow:
    """One reading: its name in words, as measured and as it should be after the moves."""

    words: str
    measured: str
    expected: str


def gap_words(name: GapName) -> str:
    """A reading in words: "left edge, top", "top left corner stands out"."""
    if name.startswith("out_"):
        return f"{name.removeprefix('out_').replace('_', ' ')} corner stands out"
    edge, _, end = name.partition("_")
    return f"{edge} edge, {end}"


def has_gaps(fitted: FittedDrawer) -> bool:
    """Whether the drawer has a front that can be lined up."""
    return fitted.slide is not None and fitted.front is not None and fitted.front.style != "none"


def read_gap_form(
    drawer: str, form: Mapping[str, str], unit: BareUnit
) -> tuple[dict[str, str], dict[str, Fault]]:
    """The readings of a form as they are kept, each with its unit where it has none; faults by field.

    With them where the adjusters stand, in marks. Raises InputError where nothing was measured.
    """
    told: dict[str, str] = {name: form.get(name, "").strip()[:_LONGEST] for name in GAP_NAMES}
    stands = {name: form.get(name, "").strip()[:_LONGEST] for name in SETTING_COLUMNS}
    kept = {name: text for name, text in told.items() if text}
    if not kept:
        says = "are empty: at least one gap is wanted"
        raise InputError([Fault("gaps", "", says, "3 beside the left edge, top and bottom")])
    if unit == "in":  # what is kept carries its unit, whatever the job is told in later
        kept = {name: with_inches(text) for name, text in kept.items()}
    kept |= {name: text.replace("\u2212", "-") for name, text in stands.items() if text}
    try:
        gaps_of_mappings([{"drawer": drawer, **kept}], unit, "gaps")
    except InputError as error:
        return kept, {fault.where.rpartition(" ")[2]: fault for fault in error.faults}
    return kept, {}


def with_inches(text: str) -> str:
    """A reading with "in" behind each of its numbers; as it is where it has a unit already."""
    return text if _HAS_UNIT.search(text) else _NUMBER.sub(lambda number: f"{number[0]} in", text)


def gap_rows(front: AlignedFront, units: ShownUnits) -> tuple[GapRow, ...]:
    """Every reading that is known, as measured and as expected after all moves."""
    return tuple(
        GapRow(gap_words(name), _gap(front.measured[name], units), _gap(front.expected[name], units))
        for name in GAP_NAMES
        if front.measured[name] is not None or front.expected[name] is not None
    )


def left_words(size: float, uncertainty: float, units: ShownUnits = "mm") -> str:
    """What is left [mm], with how sure that is; inches beside it where the job is told in them."""
    if units == "mm":
        return f"{millimetres(size)} ± {millimetres(uncertainty)} mm"
    return f"{_gap(size, units)} ± {millimetres(uncertainty)} mm"


def sent_once(token: str, readings: Mapping[str, Any]) -> str | None:
    """The token of one measuring: a page sent twice is kept once, but not what was typed anew on it.

    None where the page sent none.
    """
    if not token:
        return None
    typed = json.dumps(dict(readings), sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(f"{token} {typed}".encode()).hexdigest()


def _gap(value: float | None, units: ShownUnits) -> str:
    if value is None:
        return "–"
    return format_length(value, "mm" if units == "mm" else "both", decimals=2).replace("-", "−")
