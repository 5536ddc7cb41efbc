"""The columns of a job's tables, and the keys that stand above their headings."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

from drawerwright.files.column_names import ColumnNames
from drawerwright.files.columns import Column, columns_of
from drawerwright.model.job import Cabinet, Drawer

JOB_SETTINGS: Final = {"title": Column("title", "text"), "units": Column("units", "word", ("mm", "in"))}


@cache
def drawer_columns() -> Mapping[str, Column]:
    """The columns of a drawer."""
    return columns_of(Drawer)


@cache
def cabinet_columns() -> Mapping[str, Column]:
    """The columns of a cabinet in a table of its own."""
    return columns_of(Cabinet)


@cache
def job_columns() -> Mapping[str, Column]:
    """The columns of a table of drawers, those of their cabinets with `cabinet.` before them."""
    beside = {
        f"cabinet.{key}": Column(f"cabinet.{key}", column.kind, column.choices)
        for key, column in cabinet_columns().items()
        if key != "id"
    }
    return {**drawer_columns(), **beside}


@cache
def job_column_names() -> ColumnNames:
    """The columns of a table of drawers and their cabinets, as headings name them."""
    return ColumnNames(job_columns(), {"cabinet.id": "cabinet"})


@cache
def job_groups() -> tuple[str, ...]:
    """What may stand as a group above the names of columns: the keys that lead to others."""
    return tuple(dict.fromkeys(key.rpartition(".")[0] for key in job_columns() if "." in key))


@cache
def job_settings() -> Mapping[str, Column]:
    """The keys that stand above the heading, or in a sheet of their own."""
    defaults = {
        f"defaults.{key}": Column(f"defaults.{key}", column.kind, column.choices)
        for key, column in drawer_columns().items()
        if key != "id"
    }
    return {**JOB_SETTINGS, **defaults}
