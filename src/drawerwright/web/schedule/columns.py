"""The columns of the schedule: what stands in a cell of stored values, and what a typed cell stores.

A typed cell is never refused: what does not read is stored as it was typed, and answered with its fault.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any, Final

from drawerwright.catalogue.contents import contents_preset_ids
from drawerwright.errors import ReadingError
from drawerwright.files.cells import value_of
from drawerwright.files.column_names import heading_of
from drawerwright.files.columns import Column
from drawerwright.files.job_columns import cabinet_columns, drawer_columns
from drawerwright.web.reading_places import readings_as_filed, readings_in_words

FIRST_COLUMNS: Final = (
    "id",
    "cabinet",
    "row",
    "opening.width",
    "opening.height",
    "opening.depth",
    "side",
    "front.style",
    "contents",
    "slide",
    "quantity",
    "note",
)
"""Columns that a schedule always has, in their order."""

_TYPED: Final = {
    "opening.width": "clear width; several readings: commas between, by place: front top …, back top …",
    "opening.height": "clear height; several readings: commas between, by place: left …, right …",
}
"""What columns are for where people type otherwise than a file has it."""

_NUMBER: Final = re.compile(r"[+-]?\d{1,12}(?:[.,]\d{1,6})?")
_GROUPED: Final = re.compile(r"[+-]?\d{1,3},\d{3}")
"""Could be thousands or a decimal comma: left as it is, so that it is asked about."""


@dataclass(frozen=True, slots=True)
class ScheduleColumn:
    """One column: what its cells hold, its heading, and what it is for."""

    column: Column
    heading: str
    note: str

    @property
    def key(self) -> str:
        """The dotted key."""
        return self.column.key

    @property
    def choices(self) -> tuple[str, ...]:
        """Words that the column takes; empty: any."""
        return ("true", "false") if self.column.kind == "truth" else self.column.choices


@cache
def schedule_columns() -> Mapping[str, ScheduleColumn]:
    """Every column that a schedule may have, by key, in the model's order."""
    return _described(drawer_columns(), "drawer")


@cache
def cabinet_keys() -> Mapping[str, ScheduleColumn]:
    """What may be told of a cabinet, by key."""
    return _described(cabinet_columns(), "cabinet")


def _described(columns: Mapping[str, Column], kind: str) -> Mapping[str, ScheduleColumn]:
    text = files("drawerwright.files").joinpath("template_columns.toml").read_text(encoding="utf-8")
    notes = {key: told.get("note", "") for key, told in tomllib.loads(text)[kind].items()} | _TYPED
    return {
        key: ScheduleColumn(column, heading_of(key), notes.get(key, "")) for key, column in columns.items()
    }


def chosen_columns(extra: Sequence[str]) -> tuple[ScheduleColumn, ...]:
    """The first columns, and those of `extra` that exist, before the note."""
    known = schedule_columns()
    more = [key for key in dict.fromkeys(extra) if key in known and key not in FIRST_COLUMNS]
    keys = (*FIRST_COLUMNS[:-1], *more, FIRST_COLUMNS[-1])
    return tuple(known[key] for key in keys)


def text_of(values: object, column: Column) -> str:
    """What a cell shows: the value that stands at the column's key; empty where there is none."""
    return told_value(column.key, _value_at(values, column))


def filed_text_of(values: object, column: Column) -> str:
    """The same as the cell of a file has it: places of readings by the file's own names."""
    return _filed_value(column.key, _value_at(values, column))


def _value_at(values: object, column: Column) -> Any:
    here: Any = values
    for key in column.path:
        if not isinstance(here, Mapping) or key not in here:
            return None
        here = here[key]
    return here


def told_value(key: str, value: Any) -> str:
    """A stored value of a key as its field shows it; empty where there is none."""
    words = readings_in_words(key, value, shown_value)
    return words if words is not None else _filed_value(key, value)


def _filed_value(key: str, value: Any) -> str:
    if key == "contents" and isinstance(value, Mapping) and set(value) == {"preset"}:
        return str(value["preset"])
    return shown_value(value)


def shown_value(value: Any) -> str:
    """A stored value as a cell shows it; empty where there is none."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return f"{Decimal(repr(value)):f}".removesuffix(".0")
    if isinstance(value, str):
        return value
    if isinstance(value, Mapping):
        if any(isinstance(one, (Mapping, list)) for one in value.values()):
            return _inline(value)
        return "; ".join(f"{key}={shown_value(one)}" for key, one in value.items())
    if any(isinstance(one, (Mapping, list)) for one in value):
        return _inline(value)
    return "; ".join(shown_value(one) for one in value)


def _inline(value: Any) -> str:
    """A table or a list of tables as a TOML file has it on one line."""
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{key} = {_inline(one)}" for key, one in value.items()) + " }"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(map(_inline, value)) + "]"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
    return shown_value(value)


def value_from(text: str, column: Column) -> Any:
    """What a typed cell stores; None where it is empty."""
    if column.kind == "text":
        return text if text != "" else None
    plain = text.strip()
    if not plain:
        return None
    if column.key == "contents" and plain.casefold() in contents_preset_ids():
        return {"preset": plain.casefold()}
    if column.kind == "word":
        return plain
    try:
        value = value_of(readings_as_filed(column.key, plain), column.kind)
    except ReadingError:
        return plain
    return _plain(value) if column.kind in ("number", "list") else value


def _plain(value: Any) -> Any:
    """Numbers where text says nothing but a number; anything else as it was typed."""
    if isinstance(value, str):
        if not _NUMBER.fullmatch(value) or _GROUPED.fullmatch(value):
            return value
        number = float(value.replace(",", "."))
        return int(number) if number.is_integer() else number
    if isinstance(value, Mapping):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(one) for one in value]
    return value


def with_cell(values: Mapping[str, Any], column: Column, text: str) -> dict[str, Any]:
    """A copy of a drawer's or cabinet's values with one cell typed anew; an empty cell takes its key away.

    A value that stands in the way of a deeper key (one overlay for all edges) gives way to it.
    """
    return _put(values, column.path, value_from(text, column))


def _put(values: Mapping[str, Any], path: tuple[str, ...], value: Any) -> dict[str, Any]:
    key, rest = path[0], path[1:]
    copied = dict(values)
    if not rest:
        if value is None:
            copied.pop(key, None)
        else:
            copied[key] = value
        return copied
    below = copied.get(key)
    inner = _put(below if isinstance(below, Mapping) else {}, rest, value)
    if inner:
        copied[key] = inner
    elif isinstance(below, Mapping):
        copied.pop(key, None)
    return copied
