"""Tables as CSV and XLSX."""

from __future__ import annotations

import csv
import io

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.pack.papers import papers
from drawerwright.pack.tables import Column, Table, inert, write_csv, write_xlsx

COLUMNS = (Column("Id", "text", 12), Column("Count", "count", 8), Column("Length, mm", "length", 10))
A4 = papers()["a4"]
FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("x")')


def table(*rows: tuple[str | None, int, float]) -> Table:
    return Table("A list", "List", COLUMNS, rows)


@pytest.mark.parametrize("text", FORMULAS)
def test_text_that_starts_a_formula_is_inert_in_csv(text: str) -> None:
    rows = list(csv.reader(io.StringIO(write_csv(table((text, 1, 2.0))).decode("utf-8"), newline="")))
    assert rows[1][0] == "'" + text


@pytest.mark.parametrize("text", FORMULAS)
def test_text_that_starts_a_formula_stays_text_in_a_workbook(text: str) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(write_xlsx(table((text, 1, 2.0)), A4))).active
    assert sheet is not None
    assert sheet["A2"].data_type == "s"
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)


@given(st.text(max_size=30))
def test_no_text_at_all_starts_a_formula_once_it_is_inert(text: str) -> None:
    assert not inert(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
    assert inert(text).endswith(text)


def test_numbers_stay_numbers_and_negative_ones_too() -> None:
    content = table(("B1", 2, -1.5))
    assert write_csv(content) == b'Id,Count,"Length, mm"\r\nB1,2,-1.5\r\n'
    sheet = openpyxl.load_workbook(io.BytesIO(write_xlsx(content, A4))).active
    assert sheet is not None
    assert (sheet["B2"].value, sheet["C2"].value) == (2, -1.5)


def test_a_workbook_is_set_up_to_be_printed_and_scrolled() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(write_xlsx(table(("B1", 1, 2.0)), A4))).active
    assert sheet is not None
    assert sheet.freeze_panes == "A2"
    assert sheet.page_setup.orientation == "landscape"
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
    assert sheet.page_setup.paperSize == 9
    assert sheet.print_title_rows == "$1:$1"
    assert sheet.column_dimensions["A"].width == pytest.approx(12.7109375)


def test_an_empty_cell_and_a_very_long_one_are_written() -> None:
    content = table((None, 1, 2.0), ("x" * 40_000, 1, 2.0))
    sheet = openpyxl.load_workbook(io.BytesIO(write_xlsx(content, A4))).active
    assert sheet is not None
    assert sheet["A2"].value is None
    assert sheet["A3"].value == "x" * 32_766 + "…"


def test_control_characters_do_not_break_a_workbook() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(write_xlsx(table(("a\x01b\ud800c", 1, 2.0)), A4))).active
    assert sheet is not None
    assert "a" in str(sheet["A2"].value)


def test_the_same_table_gives_the_same_bytes() -> None:
    content = table(("B1", 1, 2.0), ("Küche", 3, 4.5))
    assert write_xlsx(content, A4) == write_xlsx(content, A4)
    assert write_csv(content) == write_csv(content)
