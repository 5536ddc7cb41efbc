"""A job written as a job file, so that reading it gives the same job."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from drawerwright.model.job import Cabinet, Contents, Drawer, Job, Overlay
from drawerwright.model.quantities import Record, Units
from drawerwright.model.readings import Readings

_MASSES = frozenset({"mass"})
_PLAIN = frozenset({"row", "quantity", "opens"})
"""Keys whose numbers have no unit to carry: counts, and angles, which are always in degrees."""


def write_job_toml(job: Job) -> str:
    """The text of a job file that reads back equal; keys at their default value are left out.

    In an inch job each length and mass carries "mm" or "kg", because mm is what the job holds exactly.
    """
    lines = [f"title = {_text(job.title)}", f'units = "{job.units}"']
    for cabinet in job.cabinets:
        lines += ["", "[[cabinet]]", *_lines(cabinet, job.units)]
    for drawer in job.drawers:
        lines += ["", "[[drawer]]", *_lines(drawer, job.units)]
    return "\n".join(lines) + "\n"


def _lines(record: Cabinet | Drawer, units: Units) -> Iterator[str]:
    for key, value in told(record):
        yield f"{key} = {_value(key, value, units)}"


def list_text(key: str, values: tuple[Any, ...], units: Units) -> str:
    """A list as it stands in a job file, with its brackets."""
    return _value(key, values, units)


def told(record: Record) -> Iterator[tuple[str, Any]]:
    """Each key of a record whose value is not the default, in the model's order."""
    for key, field in type(record).model_fields.items():
        value = getattr(record, key)
        if field.is_required() or value != field.get_default(call_default_factory=True, validated_data={}):
            yield key, value


def _value(key: str, value: Any, units: Units) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Readings):
        return _readings(value, units)
    if isinstance(value, Contents) and value.preset is None:
        return _number("mass", value.mass, units)
    if isinstance(value, Overlay) and len({value.left, value.right, value.top, value.bottom}) == 1:
        return _number("overlay", value.left, units)
    if isinstance(value, Record):
        inner = ", ".join(f"{name} = {_value(name, one, units)}" for name, one in told(value))
        return f"{{ {inner} }}"
    if isinstance(value, tuple):
        return "[" + ", ".join(_value(key, one, units) for one in value) + "]"
    if key == "slide":
        return _text(f"{value} mm" if units == "in" and "/" in value else value)
    return _text(value) if isinstance(value, str) else _number(key, value, units)


def _readings(readings: Readings, units: Units) -> str:
    values = [_number("length", one, units) for one in readings.values]
    if readings.labels is not None:
        pairs = zip(readings.labels, values, strict=True)
        return "{ " + ", ".join(f"{label} = {value}" for label, value in pairs) + " }"
    return values[0] if len(values) == 1 else "[" + ", ".join(values) + "]"


def _number(key: str, value: float, units: Units) -> str:
    """A number; in an inch job text, with its unit."""
    text = with_unit(key, value, units)
    return text if units == "mm" or key in _PLAIN else f'"{text}"'


def with_unit(key: str, value: float, units: Units) -> str:
    """A number in full, never with an exponent; in an inch job with the unit of its key."""
    if key in _PLAIN:
        return str(value)
    whole = value == int(value) and abs(value) < 1e15
    text = str(int(value)) if whole else f"{Decimal(repr(value)):f}"
    return text if units == "mm" else f"{text} {'kg' if key in _MASSES else 'mm'}"


def _text(text: str) -> str:
    """A TOML string on one line."""
    escapes = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r", "\t": "\\t"}
    return (
        '"'
        + "".join(
            escapes.get(sign, f"\\u{ord(sign):04X}" if ord(sign) < 32 or ord(sign) == 127 else sign)
            for sign in text
        )
        + '"'
    )
