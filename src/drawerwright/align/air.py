"""Air by temperature and relative humidity, as people write it: `20 °C, 45 %`, `68F/45`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from drawerwright.errors import ReadingError
from drawerwright.units import show_value

EXAMPLE: Final = '"20C/45" or "68F/45"'
COLDEST: Final = -1.1
HOTTEST: Final = 54.4
"""Temperatures of the Wood Handbook's table 4-2, 30 to 130 °F [°C]."""
DAMPEST: Final = 95.0
"""Highest relative humidity of that table [%]."""

_AIR: Final = re.compile(
    r"([+-]?\d+(?:[.,]\d+)?)\s*°?\s*([cCfF])?\s*[/;, ]\s*(\d+(?:[.,]\d+)?)\s*(?:%|rh)?\s*", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Air:
    """Temperature [°C] and relative humidity [share, 0..1]."""

    temperature_c: float
    humidity: float


def parse_air(text: str) -> Air:
    """Air from its words; °C unless it says F, humidity in percent. Raises ReadingError."""
    found = _AIR.fullmatch(text.strip())
    shown = show_value(text)
    if found is None:
        raise ReadingError(shown, "is not a temperature with a relative humidity", EXAMPLE)
    warmth, humidity = (float(part.replace(",", ".")) for part in (found[1], found[3]))
    if (found[2] or "C").upper() == "F":
        warmth = (warmth - 32.0) / 1.8
    if not COLDEST - 0.1 <= warmth <= HOTTEST + 0.1:
        says = f"is {warmth:.1f} °C: the moisture of wood is known from {COLDEST:g} to {HOTTEST:g} °C"
        raise ReadingError(shown, says, EXAMPLE)
    if not 0.0 < humidity <= DAMPEST:
        says = f"has a relative humidity outside 0 to {DAMPEST:g} %"
        raise ReadingError(shown, says, EXAMPLE)
    return Air(warmth, humidity / 100.0)
