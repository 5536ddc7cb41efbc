"""A table as a shop gets it: named columns of text and numbers, written as XLSX and as CSV.

Same table, same bytes. Text stays text: nothing a user typed can become a formula.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from datetime import datetime
from typing import Final, Literal, TypeAlias

import xlsxwriter  # type: ignore[import-untyped]

from drawerwright.pack.papers import Paper

Cell: TypeAlias = str | int | float | None
Kind: TypeAlias = Literal["text", "count", "length", "thickness", "inches", "mass", "money", "ids"]

FIXED_DATE: Final = datetime(2000, 1, 1)
"""Written where a file format asks for a date, so that the same job gives the same bytes."""

NUMBER_FORMATS: Final[dict[Kind, str]] = {
    "text": "@",
    "count": "0",
    "length": "0.0",
    "thickness": "0.0##",
    "inches": "@",
    "mass": "0.0",
    "money": "0.00",
    "ids": "@",
}
PLACES: Final[dict[Kind, int]] = {"length": 2, "thickness": 3, "mass": 3, "money": 2}
"""Decimals that numbers are written to."""
LONGEST_CELL: Final = 32_767
"""Most characters a cell of a workbook holds (ECMA-376 applications, common limit)."""

_STARTS_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading (with the unit), what its cells hold, and its width [characters]."""

    heading: str
    kind: Kind
    width: float


@dataclass(frozen=True, slots=True)
class Table:
    """A titled table; each row has one cell a column. `remarks` are sentences for whoever reads it."""

    title: str
    sheet: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    remarks: tuple[str, ...] = ()


def inert(text: str) -> str:
    """Text that no spreadsheet takes for a formula: `'` goes before a leading `= + - @`, tab or line end.

    Source: the escape is common practice for CSV that spreadsheets open.
    """
    return f"'{text}" if text.startswith(_STARTS_FORMULA) else text


def plain_number(cell: int | float, kind: Kind) -> int | float:
    """A number without the machine's crumbs: lengths to 0.01 mm, thicknesses to 0.001 (3.175 is 1/8 in)."""
    if isinstance(cell, int) or kind not in PLACES:
        return cell
    return round(cell, PLACES[kind]) + 0.0


def write_csv(table: Table) -> bytes:
    """The table as CSV (RFC 4180): UTF-8, a header line, lines ended by CR LF, decimal points.

    Remarks are left out: a file of rows is read by programs.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([inert(column.heading) for column in table.columns])
    for row in table.rows:
        writer.writerow(
            [
                ""
                if cell is None
                else inert(cell)
                if isinstance(cell, str)
                else plain_number(cell, column.kind)
                for column, cell in zip(table.columns, row, strict=True)
            ]
        )
    return out.getvalue().encode("utf-8", "replace")


def _fitting_a_cell(text: str) -> str:
    """Text as a workbook's cell can hold it: no lone surrogates, and cut where it is too long."""
    held = text.encode("utf-8", "replace").decode("utf-8")
    return held if len(held) <= LONGEST_CELL else held[: LONGEST_CELL - 1] + "…"


def write_xlsx(table: Table, paper: Paper) -> bytes:
    """The table as a workbook: header row frozen, to be printed across and one page wide.

    Remarks, if any, stand on a second sheet, so that the first holds nothing but rows.
    """
    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out,
        {
            "in_memory": True,
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
        },
    )
    book.set_properties({"title": _fitting_a_cell(table.title)[:250], "created": FIXED_DATE})
    sheet = book.add_worksheet(table.sheet)
    heading = book.add_format(
        {"bold": True, "text_wrap": True, "valign": "top", "bottom": 2, "num_format": "@", "align": "left"}
    )
    number_heading = book.add_format(
        {"bold": True, "text_wrap": True, "valign": "top", "bottom": 2, "num_format": "@", "align": "right"}
    )
    for index, column in enumerate(table.columns):
        is_text = column.kind in ("text", "ids", "inches")
        cells = book.add_format(
            {
                "num_format": NUMBER_FORMATS[column.kind],
                "valign": "top",
                "text_wrap": column.kind in ("text", "ids"),
                "align": "right" if column.kind == "inches" else "left" if is_text else "right",
                "bottom": 4,
            }
        )
        sheet.set_column(index, index, column.width)
        sheet.write_string(
            0, index, column.heading, heading if column.kind in ("text", "ids") else number_heading
        )
        for number, row in enumerate(table.rows, start=1):
            cell = row[index]
            if cell is None:
                sheet.write_blank(number, index, None, cells)
            elif isinstance(cell, str):
                sheet.write_string(number, index, _fitting_a_cell(cell), cells)
            else:
                sheet.write_number(number, index, plain_number(cell, column.kind), cells)
    sheet.freeze_panes(1, 0)
    sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.set_paper(paper.spreadsheet)
    sheet.fit_to_pages(1, 0)
    sheet.set_footer("&L" + _fitting_a_cell(table.title)[:90].replace("&", "&&") + "&R&P / &N")
    if table.rows:
        sheet.autofilter(0, 0, len(table.rows), len(table.columns) - 1)
    if table.remarks:
        notes = book.add_worksheet("Remarks")
        wrapped = book.add_format({"num_format": "@", "text_wrap": True, "valign": "top"})
        notes.set_column(0, 0, 100)
        notes.set_paper(paper.spreadsheet)
        for number, remark in enumerate(table.remarks):
            notes.write_string(number, 0, _fitting_a_cell(remark), wrapped)
    book.close()
    return out.getvalue()
