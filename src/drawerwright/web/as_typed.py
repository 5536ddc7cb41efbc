"""A stored job as a file with everything as it was typed, also what does not read yet.

TOML holds all that is stored, key by key. A table of rows holds what has a column; its cells are those of a
job file, so that it can be finished in a spreadsheet and brought in.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, Final

from drawerwright.files.columns import Column
from drawerwright.files.job_columns import cabinet_columns, drawer_columns
from drawerwright.files.job_rows import CellsByKey, Figure, Written
from drawerwright.web.reading_places import PLACES
from drawerwright.web.schedule.columns import filed_text_of, shown_value

Values = Mapping[str, Any]
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES: Final = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r", "\t": "\\t"}
_LISTS: Final = ("cabinet", "drawer")


def typed_toml(values: Values) -> bytes:
    """A TOML file of a job's values as they are stored (TOML 1.0)."""
    lines = [
        f"{_key(key)} = {_toml(value)}"
        for key, value in values.items()
        if key not in (*_LISTS, "defaults") and value is not None
    ]
    if values.get("defaults"):
        lines += ["", "[defaults]", *_table(values["defaults"])]
    for kind in _LISTS:
        for entry in values.get(kind) or ():
            lines += ["", f"[[{kind}]]", *_table(entry)]
    return ("\n".join(lines) + "\n").encode("utf-8")


def typed_csv(values: Values) -> bytes:
    """A CSV file of them, with the mark by which spreadsheets know UTF-8."""
    from drawerwright.files.write_csv import rows_as_csv

    settings = {key: cell for key, cell in _settings(values) if cell not in ("", "mm")}
    return b"\xef\xbb\xbf" + rows_as_csv(settings, *_rows(values)).encode("utf-8")


def typed_xlsx(values: Values) -> bytes:
    """A workbook of them."""
    from drawerwright.files.write_xlsx import rows_as_xlsx

    return rows_as_xlsx(dict(_settings(values)), *_rows(values))


TYPED_WRITERS: Final[Mapping[str, Callable[[Values], bytes]]] = {
    "toml": typed_toml,
    "csv": typed_csv,
    "xlsx": typed_xlsx,
}


def _settings(values: Values) -> Iterator[tuple[str, Written]]:
    yield "title", str(values.get("title") or "")
    yield "units", str(values.get("units") or "mm")
    defaults = values.get("defaults") or {}
    for key, cell in _cells(defaults, drawer_columns()).items():
        yield f"defaults.{key}", cell


def _rows(values: Values) -> tuple[list[CellsByKey], list[CellsByKey]]:
    """The rows of the drawers and those of described cabinets."""
    drawers = [_cells(one, drawer_columns()) for one in values.get("drawer") or ()]
    cabinets = [_cells(one, cabinet_columns()) for one in values.get("cabinet") or ()]
    return drawers, cabinets


def _cells(entry: Values, columns: Mapping[str, Column]) -> CellsByKey:
    return {key: cell for key, column in columns.items() if (cell := _cell(entry, column)) is not None}


def _cell(entry: Values, column: Column) -> Written | None:
    """What was typed in a column; None where nothing was, or where the columns inside it tell it."""
    value: Any = entry
    for at, key in enumerate(column.path):
        inside = ".".join(column.path[:at]) in PLACES  # readings by place stand in one cell
        if inside or not isinstance(value, Mapping) or value.get(key) is None:
            return None
        value = value[key]
    if isinstance(value, bool):
        return value
    if isinstance(value, Mapping) and column.key not in PLACES:
        return None
    text = filed_text_of(entry, column)
    return Figure(text) if _all_numbers(value) else text


def _all_numbers(value: Any) -> bool:
    if isinstance(value, (list, tuple)):
        return all(_all_numbers(one) for one in value)
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _table(entry: Values) -> list[str]:
    return [f"{_key(key)} = {_toml(value)}" for key, value in entry.items() if value is not None]


def _key(key: str) -> str:
    return key if _BARE_KEY.fullmatch(key) else _string(key)


def _toml(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, Mapping):
        return "{ " + ", ".join(_table(value)) + " }" if any(True for _ in _table(value)) else "{}"
    if isinstance(value, str):
        return _string(value)
    if isinstance(value, Sequence):
        return "[" + ", ".join(_toml(one) for one in value if one is not None) + "]"
    if isinstance(value, float) and value.is_integer():
        return f"{shown_value(value)}.0"
    return shown_value(value)


def _string(text: str) -> str:
    escaped = (
        _ESCAPES.get(sign, f"\\u{ord(sign):04X}" if ord(sign) < 32 or ord(sign) == 127 else sign)
        for sign in text
    )
    return f'"{"".join(escaped)}"'
