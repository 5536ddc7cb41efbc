"""One value of a table: text, a name, a choice, a number, a length [mm], a mass [kg] or a truth value.

A `reading` stays as it was told, text or a number: whoever reads it knows what more it may be.
"""

from __future__ import annotations

import math
from typing import Any, Final, Literal, TypeAlias

from drawerwright.errors import ReadingError
from drawerwright.model.spelling import nearest
from drawerwright.units import (
    BareUnit,
    parse_clearance,
    parse_length,
    parse_mass,
    parse_size,
    show_value,
)

ValueKind: TypeAlias = Literal[
    "text", "reading", "name", "choice", "length", "clearance", "size", "mass", "number", "count", "truth"
]

_EXAMPLES: Final[dict[ValueKind, str]] = {
    "text": "text",
    "reading": "3",
    "name": "B1-2",
    "length": "562",
    "clearance": "3",
    "size": "562",
    "mass": "20 kg",
    "number": "0.5",
    "count": "1",
    "truth": "true",
}


def read_value(
    value: object, kind: ValueKind, choices: tuple[str, ...], required: bool, units: BareUnit
) -> Any:
    """A value that a cell or a key holds; None for one that is not there. Raises ReadingError."""
    if value is None:
        if required:
            raise ReadingError("", "is missing", choices[0] if choices else _EXAMPLES[kind])
        return None
    if kind == "reading" and isinstance(value, (int, float)) and not isinstance(value, bool):
        return value
    if kind in ("text", "reading", "name"):
        return _text(value, whole=kind != "name")
    if kind == "choice":
        return _choice(value, choices)
    if kind == "length":
        return parse_length(value, units)
    if kind == "clearance":
        return parse_clearance(value, units)
    if kind == "size":
        return parse_size(value, units)
    if kind == "mass":
        return parse_mass(value, units)
    if kind == "count":
        return _count(value)
    if kind == "truth":
        return _truth(value)
    return _number(value)


def _text(value: object, *, whole: bool) -> str:
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        value = str(int(value)) if value == value // 1 else str(value)
    if not isinstance(value, str):
        raise ReadingError(show_value(value), "is not text", "text")
    if whole:
        return value
    name = value.strip()
    if not name or len(name) > 80 or not name.isprintable():
        raise ReadingError(show_value(value), "is not a name: 1 to 80 characters, on one line", "B1-2")
    return name


def _choice(value: object, choices: tuple[str, ...]) -> str:
    word = value.strip().casefold() if isinstance(value, str) else value
    if not isinstance(word, str) or word not in choices:
        says = "is not one of " + ", ".join(choices)
        raise ReadingError(show_value(value), says, nearest(str(word), choices))
    return word


def _count(value: object) -> int:
    whole = isinstance(value, (int, float)) and not isinstance(value, bool) and value == value // 1
    if not whole or not isinstance(value, (int, float)) or not 0 <= value <= 1_000_000_000:
        raise ReadingError(show_value(value), "is not a whole number, 0 or more", "1")
    return int(value)


def _truth(value: object) -> bool:
    if not isinstance(value, bool):
        raise ReadingError(show_value(value), "is neither true nor false", "true")
    return value


def _number(value: object) -> float:
    """A finite number; text may have a decimal comma where it cannot mark thousands."""
    if isinstance(value, str):
        text = value.strip()
        before, comma, after = text.partition(",")
        if comma and len(after) == 3 and before.strip("+-0"):
            says = "could be thousands or a decimal comma"
            raise ReadingError(show_value(value), says, f"{before}{after} or {before}.{after}")
        try:
            value = float(text.replace(",", ".") if text.count(",") == 1 and "." not in text else text)
        except ValueError:
            raise ReadingError(show_value(value), "is not a number", "0.5") from None
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not abs(value) < math.inf:
        raise ReadingError(show_value(value), "is not a number", "0.5")
    if abs(value) > 1e300:
        raise ReadingError(show_value(value), "is too large", "0.5")
    return float(value)
