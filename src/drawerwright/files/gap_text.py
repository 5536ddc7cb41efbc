"""One gap as people write it: a length, a feeler's bounds, or a length they are not sure of."""

from __future__ import annotations

import math
import re
from typing import Final

from drawerwright.errors import ReadingError
from drawerwright.model.gaps import SURE_WITHIN, Reading
from drawerwright.units import BareUnit, parse_length, show_value

EXAMPLE: Final = '3, "< 1", "> 3", "2..2.5", "~2" or "2 ± 0.3"'
UNSURE_WITHIN: Final = 0.5
"""Standard uncertainty of a reading marked `~` [mm]. Own choice, no source."""
OPEN_BOUND: Final = 2.0
"""How far beyond a bound that is open a reading may lie [mm]: "> 3" is 3 to 5. Own choice, no source."""
LARGEST_GAP: Final = 25.0
"""What is wider is no gap of a front [mm]. Own choice, no source."""

_RANGE: Final = re.compile(r"(.+?)\s*(?:\.\.|…)\s*(.+)")
_SPREAD: Final = re.compile(r"(.+?)\s*(?:±|\+/-|\+-)\s*(.+)")


def parse_gap(value: object, bare_unit: BareUnit, *, corner: bool = False) -> Reading | None:
    """A reading [mm]; None where there is none. `corner`: how far a corner stands out, of either sign.

    Between two bounds any value is as likely, so the middle is taken, and the width over √12 as standard
    uncertainty (JCGM 100:2008, 4.3.7). Raises ReadingError.
    """
    told = value.strip() if isinstance(value, str) else value
    if told is None or told == "":
        return None
    shown = show_value(told)
    if not isinstance(told, str):
        return _plain(parse_length(told, bare_unit), SURE_WITHIN, shown, bare_unit, corner)
    sign = told[0]
    if sign in "<≤>≥":
        bound = _length(told[1:].lstrip("= "), bare_unit, shown)
        beyond = bound - OPEN_BOUND if corner else 0.0
        low, high = (beyond, bound) if sign in "<≤" else (bound, bound + OPEN_BOUND)
        return _between(low, high, shown, bare_unit, corner)
    if sign == "~":
        return _plain(_length(told[1:], bare_unit, shown), UNSURE_WITHIN, shown, bare_unit, corner)
    several = _RANGE.fullmatch(told)
    if several is not None:
        low, high = (_length(part, bare_unit, shown) for part in several.groups())
        return _between(low, high, shown, bare_unit, corner)
    spread = _SPREAD.fullmatch(told)
    if spread is not None:
        value_, within = (_length(part, bare_unit, shown) for part in spread.groups())
        if within <= 0.0:
            raise ReadingError(shown, "has no spread above 0 after ±", '"2 ± 0.3"')
        return _plain(value_, within, shown, bare_unit, corner)
    return _plain(_length(told, bare_unit, shown), SURE_WITHIN, shown, bare_unit, corner)


def _length(text: str, bare_unit: BareUnit, shown: str) -> float:
    try:
        return parse_length(text, bare_unit)
    except ReadingError as error:
        raise ReadingError(shown, error.says, EXAMPLE) from None


def _between(low: float, high: float, shown: str, bare_unit: BareUnit, corner: bool) -> Reading:
    if low > high:
        raise ReadingError(shown, "has its lower bound above its upper one", '"2..2.5"')
    for bound in (low, high):
        _check(bound, shown, bare_unit, corner, LARGEST_GAP + OPEN_BOUND)
    within = max((high - low) / math.sqrt(12.0), SURE_WITHIN)
    return Reading((low + high) / 2, within, shown)


def _plain(mm: float, within: float, shown: str, bare_unit: BareUnit, corner: bool) -> Reading:
    _check(mm, shown, bare_unit, corner)
    return Reading(mm + 0.0, within, shown)


def _check(mm: float, shown: str, bare_unit: BareUnit, corner: bool, most: float = LARGEST_GAP) -> None:
    if mm < 0.0 and not corner:
        raise ReadingError(shown, "is negative: a gap is 0 or more, and 0 where the front touches", "0")
    if abs(mm) > most:
        what = "a corner stands out at most" if corner else "a gap of a front is at most"
        says = f"is {mm:.6g} mm: {what} {LARGEST_GAP:g} mm"
        mixed = bare_unit == "in" and abs(mm) / 25.4 <= LARGEST_GAP
        instead = f'"{mm / 25.4:.4g} mm", if mm were meant: a bare number here is inches' if mixed else "3"
        raise ReadingError(shown, says, instead)
