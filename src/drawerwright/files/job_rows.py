"""A job as rows of cells by dotted key: what its tables hold, whatever they are written as."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from drawerwright.files.columns import Column
from drawerwright.files.job_columns import cabinet_columns, drawer_columns
from drawerwright.files.write_toml import list_text, told, with_unit
from drawerwright.model.job import Contents, Job, Overlay
from drawerwright.model.quantities import Record, Units
from drawerwright.model.readings import Readings


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as a cell holds it: text with its unit in an inch job, because mm is what a job holds."""

    text: str


Written = str | bool | Figure
"""What a written cell holds: text, a truth value or a figure."""

CellsByKey = Mapping[str, Written]


def drawer_rows(job: Job) -> list[dict[str, Written]]:
    """The cells of every drawer, by column; keys at their default value are left out."""
    return [dict(_cells(drawer, job.units)) for drawer in job.drawers]


def cabinet_rows(job: Job) -> list[dict[str, Written]]:
    """The cells of every described cabinet, by the column of a table of cabinets."""
    return [dict(_cells(cabinet, job.units)) for cabinet in job.cabinets]


def used_columns(rows: Iterable[CellsByKey], known: Mapping[str, Column]) -> list[Column]:
    """Known columns that every row needs or some row fills, in their own order."""
    filled = {key for row in rows for key in row}
    return [column for column in known.values() if column.required or column.key in filled]


def columns_of_drawers(rows: Sequence[CellsByKey]) -> list[Column]:
    """The columns that a table of these drawers needs."""
    return used_columns(rows, drawer_columns())


def columns_of_cabinets(rows: Sequence[CellsByKey]) -> list[Column]:
    """The columns that a table of these cabinets needs."""
    return used_columns(rows, cabinet_columns())


def _cells(record: Record, units: Units, before: str = "") -> Iterator[tuple[str, Written]]:
    for key, value in told(record):
        dotted = before + key
        if isinstance(value, Contents) and value.preset is None:
            yield dotted, Figure(with_unit("mass", value.mass, units))
        elif isinstance(value, Overlay) and len({value.left, value.right, value.top, value.bottom}) == 1:
            yield dotted, Figure(with_unit(key, value.left, units))
        elif isinstance(value, Record):
            inner = list(_cells(value, units, f"{dotted}."))
            yield from inner or _by_one_key(value, units, f"{dotted}.")
        else:
            yield dotted, _cell(key, value, units)


def _by_one_key(record: Record, units: Units, before: str) -> Iterator[tuple[str, Written]]:
    """A record that is there with nothing but defaults: its first key that has one."""
    for key in type(record).model_fields:
        value = getattr(record, key)
        if value is not None and not isinstance(value, Record):
            yield before + key, _cell(key, value, units)
            return


def _cell(key: str, value: Any, units: Units) -> Written:
    if isinstance(value, bool):
        return value
    if isinstance(value, Readings):
        return _readings(value, units)
    if isinstance(value, tuple) and value and isinstance(value[0], Record):
        return list_text(key, value, units)
    if isinstance(value, tuple):
        return Figure("; ".join(with_unit(key, one, units) for one in value))
    if isinstance(value, str):
        return f"{value} mm" if key == "slide" and units == "in" and "/" in value else value
    return Figure(with_unit(key, value, units))


def _readings(readings: Readings, units: Units) -> Figure:
    """Readings in one cell, so that the order of their labels is kept."""
    values = [with_unit("length", one, units) for one in readings.values]
    if readings.labels is not None:
        values = [f"{label}={one}" for label, one in zip(readings.labels, values, strict=True)]
    return Figure("; ".join(values))
