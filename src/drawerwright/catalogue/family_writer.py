"""A slide family written as its file, so that reading it gives the same family."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any, Final

from drawerwright.model.family import SlideFamily
from drawerwright.model.quantities import Record

_MASSES: Final = frozenset({"capacity", "hardware_mass", "load"})
_PLAIN: Final = frozenset(
    {
        "bracket_angle", "width_to_length", "price", "carton", "cabinet", "intermediate", "drawer", "modulus",
        "stiffness", "pull_in", "spring", "damping", "drag", "yield", "ultimate", "carries", "count",
        "mount_stiffness", "cycles", "screws",
    }
)  # fmt: skip
"""Keys whose numbers are neither lengths nor masses, and have one unit that no file can change."""
_TABLES: Final = ("length", "profile", "evidence")


def write_family_toml(family: SlideFamily) -> str:
    """The text of a family file that reads back equal; a key that was left out stays left out.

    In an inch family every length and mass carries "mm" or "kg", because mm is what a family holds exactly.
    """
    bare = family.units == "mm"
    lines = [f"{key} = {_value(key, value, bare=bare)}" for key, value in _told(family) if key not in _TABLES]
    tables: tuple[tuple[str, tuple[Record, ...]], ...] = (
        ("profile", family.profiles),
        ("evidence", family.evidence),
        ("length", family.lengths),
    )
    for name, records in tables:
        for record in records:
            lines += ["", f"[[{name}]]"]
            lines += [f"{key} = {_value(key, one, bare=bare)}" for key, one in _told(record)]
    return "\n".join(lines) + "\n"


def _told(record: Record) -> Iterator[tuple[str, Any]]:
    """Each key that a record was given, as a file has it, in the model's order; not what holds nothing."""
    for key, field in type(record).model_fields.items():
        value = getattr(record, key)
        if key in record.model_fields_set and value is not None:
            yield field.alias or key, value


def _value(key: str, value: Any, *, bare: bool) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, Record):
        return (
            "{ " + ", ".join(f"{name} = {_value(name, one, bare=bare)}" for name, one in _told(value)) + " }"
        )
    if isinstance(value, tuple):
        return "[" + ", ".join(_value(key, one, bare=bare) for one in value) + "]"
    if key in _MASSES:
        return f'"{_number(value)} kg"'
    return _number(value) if bare or key in _PLAIN else f'"{_number(value)} mm"'


def _number(value: float) -> str:
    """A number in full, never with an exponent."""
    if value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return f"{Decimal(repr(value)):f}"


def _text(text: str) -> str:
    """A TOML string on one line."""
    escapes = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r", "\t": "\\t"}
    signs = (
        escapes.get(sign, f"\\u{ord(sign):04X}" if ord(sign) < 32 or ord(sign) == 127 else sign)
        for sign in text
    )
    return '"' + "".join(signs) + '"'
