"""Templates of a job as tables: a heading, what goes into each column, and one invented drawer."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Final

from drawerwright.files.columns import Column
from drawerwright.files.job_columns import cabinet_columns, drawer_columns
from drawerwright.files.job_rows import Figure, Written
from drawerwright.files.write_csv import cell_text, csv_text
from drawerwright.files.write_xlsx import JobWorkbook
from drawerwright.model.quantities import Units

_TITLE: Final = "Invented example"
_FIGURES: Final = ("number", "list", "count")


@cache
def _explained() -> Mapping[str, Mapping[str, Mapping[str, str]]]:
    return tomllib.loads(files(__package__).joinpath("template_columns.toml").read_text(encoding="utf-8"))


def column_notes(table: str) -> dict[str, str]:
    """What goes into each column of the table of drawers ("drawer") or of cabinets ("cabinet")."""
    return {key: told["note"] for key, told in _explained()[table].items()}


def job_template_csv(units: Units = "mm") -> str:
    """A valid job as CSV text to fill in: title and units, heading, a comment on each column, one drawer."""
    columns, cells = _example("drawer", drawer_columns(), units)
    notes = column_notes("drawer")
    explained = [notes[column.key] for column in columns]
    return csv_text(
        [
            ["title", _TITLE],
            ["units", units],
            [column.key for column in columns],
            [f"# {explained[0]}", *explained[1:]],
            [cell_text(cells[column.key]) for column in columns],
        ]
    )


def job_template_xlsx(units: Units = "mm") -> bytes:
    """A valid job as a workbook to fill in, with the choices of each column offered.

    Its sheets: drawers, cabinets, job (title and units), and columns, which explains every column there is.
    """
    book = JobWorkbook()
    for table, known in (("drawer", drawer_columns()), ("cabinet", cabinet_columns())):
        columns, cells = _example(table, known, units)
        book.table(f"{table}s", columns, [cells], column_notes(table))
    book.settings({"title": _TITLE, "units": units})
    book.explained("columns", ("sheet", "column", "takes", "what it is for"), list(_all_columns()))
    return book.content()


def _example(
    table: str, known: Mapping[str, Column], units: Units
) -> tuple[list[Column], dict[str, Written]]:
    """The columns that have an example, and the cells of one row."""
    columns: list[Column] = []
    cells: dict[str, Written] = {}
    for key, told in _explained()[table].items():
        example = told.get("inch", told.get("example")) if units == "in" else told.get("example")
        if example is not None:
            columns.append(known[key])
            cells[key] = _written(known[key], example)
    return columns, cells


def _written(column: Column, example: str) -> Written:
    if column.kind == "truth":
        return example == "true"
    return Figure(example) if column.kind in _FIGURES else example


def _all_columns() -> Iterator[tuple[str, str, str, str]]:
    for table, known in (("drawer", drawer_columns()), ("cabinet", cabinet_columns())):
        notes = column_notes(table)
        for key, column in known.items():
            yield f"{table}s", key, _takes(column), notes.get(key, notes.get(key.rpartition(".")[0], ""))


def _takes(column: Column) -> str:
    """What the cells of a column hold, in words."""
    if column.choices:
        return ", ".join(column.choices)
    words = {
        "text": "text",
        "word": "a name",
        "number": "a number, with or without its unit; several with ; between them",
        "list": "numbers with ; between them",
        "tables": "a list of tables, written as in a TOML file",
        "count": "a whole number",
        "truth": "true or false",
    }
    return words[column.kind]
