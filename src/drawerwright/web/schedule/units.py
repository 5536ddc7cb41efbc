"""A job's bare numbers with their unit written behind them, so that they mean the same in other units."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final

from drawerwright.units import BareUnit
from drawerwright.web.schedule.columns import ScheduleColumn, cabinet_keys, schedule_columns, shown_value

_BARE: Final = re.compile(r"[+-]?[\d¼½¾⅛⅜⅝⅞][\d.,/¼½¾⅛⅜⅝⅞\s-]*")
_SLIDE: Final = re.compile(r"(.*/\s*)(\d[\d.,/\s-]*)")
_MASS_UNITS: Final = {"mm": "kg", "in": "lb"}
_NO_LENGTHS: Final = ("door.opens",)
"""Keys with numbers that are neither lengths nor masses: an angle."""
_NAMES: Final = ("what", "side")
"""Keys of a thing in the way that hold words."""


def with_units_written(values: Mapping[str, Any]) -> dict[str, Any]:
    """A copy of a job's values in which every bare length and mass has the unit that it had until now."""
    unit: BareUnit = "in" if values.get("units") == "in" else "mm"
    copied = dict(values)
    for key, columns in (("drawer", schedule_columns()), ("cabinet", cabinet_keys())):
        entries = values.get(key)
        if isinstance(entries, (list, tuple)):
            copied[key] = [_entry(one, columns, unit) for one in entries]
    if isinstance(values.get("defaults"), Mapping):
        copied["defaults"] = _entry(values["defaults"], schedule_columns(), unit)
    return copied


def _entry(entry: Any, columns: Mapping[str, ScheduleColumn], unit: BareUnit) -> Any:
    """One drawer, cabinet, or the defaults."""
    if not isinstance(entry, Mapping):
        return entry
    told: dict[str, Any] = {**entry}
    for key, column in columns.items():
        kind = column.column.kind
        if key == "slide":
            told = _changed(told, column.column.path, lambda value: _slide(value, unit))
        elif key not in _NO_LENGTHS and kind in ("number", "list", "tables"):
            own = _MASS_UNITS[unit] if key.partition(".")[0] in ("contents", "mass") else unit
            told = _changed(told, column.column.path, lambda value, own=own: _written(value, own))
    return told


def _changed(table: dict[str, Any], path: tuple[str, ...], change: Any) -> dict[str, Any]:
    """A copy with the value at a path changed, where there is one."""
    key, rest = path[0], path[1:]
    if key not in table:
        return table
    if not rest:
        return {**table, key: change(table[key])}
    below = table[key]
    return {**table, key: _changed({**below}, rest, change)} if isinstance(below, Mapping) else table


def _written(value: Any, unit: str) -> Any:
    """A value with the unit behind each bare number; what has a unit, or does not read, stays as it is."""
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, (int, float)):
        return f"{shown_value(value)} {unit}"
    if isinstance(value, str):
        return f"{value.strip()} {unit}" if _BARE.fullmatch(value.strip()) else value
    if isinstance(value, Mapping):
        return {key: one if key in (*_NAMES, "preset") else _written(one, unit) for key, one in value.items()}
    return [_written(one, unit) for one in value]


def _slide(value: Any, unit: str) -> Any:
    """A slide of one length: "house-16/500" is 500 of the job's units."""
    found = _SLIDE.fullmatch(value.strip()) if isinstance(value, str) else None
    return value if found is None else f"{found[1]}{found[2].strip()} {unit}"
