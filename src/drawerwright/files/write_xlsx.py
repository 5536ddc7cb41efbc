"""A job written as a workbook, so that reading it gives the same job. Same job, same bytes; no formulas."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, Final

import xlsxwriter  # type: ignore[import-untyped]

from drawerwright.errors import Fault, InputError
from drawerwright.files.cells import inert_in_workbook
from drawerwright.files.columns import Column
from drawerwright.files.job_rows import (
    CellsByKey,
    Figure,
    Written,
    cabinet_rows,
    columns_of_cabinets,
    columns_of_drawers,
    drawer_rows,
)
from drawerwright.model.job import Job

FIXED_DATE: Final = datetime(2000, 1, 1)
"""Written where the format asks for a date, so that the same job gives the same bytes."""

LONGEST_CELL: Final = 32_767
"""Most characters of a cell (Office Open XML applications, common limit)."""

CHECKED_ROWS: Final = 1_000
"""Rows below the heading that offer the choices of their column."""

_WIDTH: Final = {
    "text": 32.0,
    "word": 13.0,
    "number": 12.0,
    "list": 16.0,
    "tables": 48.0,
    "count": 9.0,
    "truth": 9.0,
}


def write_job_xlsx(job: Job) -> bytes:
    """A workbook with the sheets `drawers`, `cabinets` where the job describes any, and `job`.

    Text is written as text, whatever it begins with. A number that the format cannot hold to the last digit
    is written as text. Raises InputError when a text is longer than a cell holds.
    """
    return rows_as_xlsx({"title": job.title, "units": job.units}, drawer_rows(job), cabinet_rows(job))


def rows_as_xlsx(
    settings: Mapping[str, Written], drawers: Sequence[CellsByKey], cabinets: Sequence[CellsByKey]
) -> bytes:
    """The same of cells by key: those of the sheet `job`, those of drawers, those of described cabinets."""
    book = JobWorkbook()
    book.table("drawers", columns_of_drawers(drawers), drawers)
    if cabinets:
        book.table("cabinets", columns_of_cabinets(cabinets), cabinets)
    book.settings(settings)
    return book.content()


class JobWorkbook:
    """The sheets of a job, written one after the other."""

    def __init__(self) -> None:
        self._out = io.BytesIO()
        options = {
            "in_memory": True,
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
        }
        self._book = xlsxwriter.Workbook(self._out, options)
        self._book.set_properties({"created": FIXED_DATE})
        self._heading = self._book.add_format({"bold": True, "bottom": 2, "num_format": "@"})
        self._note = self._book.add_format(
            {"italic": True, "text_wrap": True, "valign": "top", "font_color": "#595959", "num_format": "@"}
        )
        self._text = self._book.add_format({"num_format": "@", "valign": "top"})
        self._number = self._book.add_format({"align": "right", "valign": "top"})

    def table(
        self,
        name: str,
        columns: Sequence[Column],
        rows: Sequence[Mapping[str, Written]],
        notes: Mapping[str, str] | None = None,
    ) -> None:
        """A sheet with a frozen heading, the choices of its columns offered; `notes` as a line of comment."""
        sheet = self._book.add_worksheet(name)
        sheet.freeze_panes(1, 1)
        first = 2 if notes else 1
        for at, column in enumerate(columns):
            kept = self._text if column.kind in ("text", "word", "tables") else self._number
            sheet.set_column(at, at, max(_WIDTH[column.kind], len(column.key) + 2.0), kept)
            sheet.write_string(0, at, column.key, self._heading)
            if notes:
                sheet.write_string(1, at, ("# " if at == 0 else "") + notes.get(column.key, ""), self._note)
            _offer(sheet, at, column, first)
            for row, cells in enumerate(rows, start=first):
                if column.key in cells:
                    self._write(sheet, row, at, cells[column.key], f"{name} {column.key}")

    def settings(self, values: Mapping[str, Written]) -> None:
        """The sheet `job`: a key and a value in each row."""
        sheet = self._book.add_worksheet("job")
        sheet.set_column(0, 0, 18.0)
        sheet.set_column(1, 1, 48.0)
        for row, (key, value) in enumerate(values.items()):
            sheet.write_string(row, 0, key, self._heading)
            if key == "units":
                sheet.data_validation(row, 1, row, 1, {"validate": "list", "source": ["mm", "in"]})
            self._write(sheet, row, 1, value, f"job {key}")

    def explained(self, name: str, heading: Sequence[str], lines: Sequence[Sequence[str]]) -> None:
        """A sheet of plain text that is not read."""
        sheet = self._book.add_worksheet(name)
        for at, word in enumerate(heading):
            sheet.set_column(at, at, 28.0 if at < len(heading) - 1 else 80.0)
            sheet.write_string(0, at, word, self._heading)
            for row, line in enumerate(lines, start=1):
                sheet.write_string(row, at, line[at], self._text)
        sheet.freeze_panes(1, 0)

    def content(self) -> bytes:
        """The whole workbook."""
        self._book.close()
        return self._out.getvalue()

    def _write(self, sheet: Any, row: int, at: int, cell: Written, where: str) -> None:
        if isinstance(cell, bool):
            sheet.write_boolean(row, at, cell, self._number)
        elif isinstance(cell, Figure):
            number = _exact(cell.text)
            if number is None:
                sheet.write_string(row, at, cell.text, self._number)
            else:
                sheet.write_number(row, at, number, self._number)
        elif cell:
            text = inert_in_workbook(cell)
            if len(text) > LONGEST_CELL:
                says = f"is longer than the {LONGEST_CELL} characters that a cell of a workbook holds"
                raise InputError([Fault(where, f'"{cell[:40]}…"', says, "a job file in TOML")])
            sheet.write_string(row, at, text, self._text)


def _exact(text: str) -> float | None:
    """The number that a text is, when a workbook holds it to the last digit: it keeps 16 of them."""
    try:
        number = float(text)
    except ValueError:
        return None
    return number if float(f"{number:.16G}") == number else None


def _offer(sheet: Any, at: int, column: Column, first: int) -> None:
    """The values that a column takes, for the spreadsheet to offer and to check."""
    rules: dict[str, Any]
    if column.choices:
        rules = {"validate": "list", "source": list(column.choices)}
    elif column.kind == "truth":
        rules = {"validate": "list", "source": ["TRUE", "FALSE"]}
    elif column.kind == "count":
        rules = {"validate": "integer", "criteria": ">=", "value": 1}
    else:
        return
    told = {"error_title": column.key, "error_message": "This column takes something else."}
    sheet.data_validation(first, at, first + CHECKED_ROWS - 1, at, {**rules, **told})
