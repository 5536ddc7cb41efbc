"""Lists of a pack as another program reads them (openpyxl, an independent reader of ECMA-376 workbooks)."""

from __future__ import annotations

import csv
import io

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from drawerwright.catalogue import families_from_mappings
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.pack import pack_contents

FAMILY = {
    "id": "plain-16",
    "title": "Plain slide (invented)",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500, "holes": [0, 32, 224, 256, 416], "slots": [16]}],
}
DRAWER = {"opening": {"width": 562, "height": 168, "depth": 530}, "side": 16, "contents": "20 kg"}


@pytest.fixture(scope="module")
def fitted_and_files() -> tuple[FittedJob, dict[str, bytes]]:
    job = job_from_mapping(
        {
            "title": "=1+1",
            "drawer": [
                {**DRAWER, "id": "@SUM(A1)", "quantity": 3},
                {**DRAWER, "id": "-2", "side": 12.7, "note": "+1"},
                {**DRAWER, "id": "=HYPERLINK(0)", "front": {"style": "overlay"}},
            ],
        }
    )
    fitted = fit_job(job, families_from_mappings([FAMILY]))
    return fitted, pack_contents(job, fitted, units="both")


def sheet_of(content: bytes) -> Worksheet:
    sheet = openpyxl.load_workbook(io.BytesIO(content)).active
    assert isinstance(sheet, Worksheet)
    return sheet


def test_sizes_in_the_workbook_are_the_numbers_of_the_answer(
    fitted_and_files: tuple[FittedJob, dict[str, bytes]],
) -> None:
    fitted, contents = fitted_and_files
    sheet = sheet_of(contents["cut-list.xlsx"])
    headings = [cell.value for cell in sheet[1]]
    assert headings[:6] == ["Drawers", "Part", "Count", "Length, mm", "Width, mm", "Thickness, mm"]
    listed: dict[tuple[float, float, float, str], int] = {}
    for row in sheet.iter_rows(min_row=2, values_only=True):
        listed[row[3], row[4], row[5], row[1]] = listed.get((row[3], row[4], row[5], row[1]), 0) + row[2]
    wanted: dict[tuple[float, float, float, str], int] = {}
    for drawer in fitted.drawers:
        for part in drawer.parts:
            key = (part.length, part.width, part.thickness, part.part)
            wanted[key] = wanted.get(key, 0) + part.count * drawer.drawer.quantity
    assert listed == wanted


@pytest.mark.parametrize("name", ["cut-list.xlsx", "hardware-list.xlsx"])
def test_no_cell_is_a_formula_whatever_a_drawer_is_called(
    fitted_and_files: tuple[FittedJob, dict[str, bytes]], name: str
) -> None:
    sheet = sheet_of(fitted_and_files[1][name])
    assert all(cell.data_type in ("s", "n") for row in sheet.iter_rows() for cell in row)
    texts = [cell.value for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str)]
    assert any("@SUM(A1)" in text for text in texts)


@pytest.mark.parametrize("name", ["cut-list.xlsx", "hardware-list.xlsx"])
def test_the_heading_stays_and_the_print_is_one_page_wide_across(
    fitted_and_files: tuple[FittedJob, dict[str, bytes]], name: str
) -> None:
    sheet = sheet_of(fitted_and_files[1][name])
    assert sheet.freeze_panes == "A2"
    assert sheet.page_setup.orientation == "landscape"
    assert sheet.sheet_properties.pageSetUpPr is not None
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert sheet.page_setup.fitToHeight == 0
    assert sheet.page_setup.paperSize == 9


@pytest.mark.parametrize("name", ["cut-list.csv", "hardware-list.csv", "dxf/panels.csv"])
def test_no_cell_of_a_csv_starts_a_formula(
    fitted_and_files: tuple[FittedJob, dict[str, bytes]], name: str
) -> None:
    rows = list(csv.reader(io.StringIO(fitted_and_files[1][name].decode("utf-8"), newline="")))
    assert len(rows) > 1
    assert {len(row) for row in rows} == {len(rows[0])}
    for cell in (cell for row in rows for cell in row):
        assert not cell.startswith(("=", "+", "@", "\t", "\r")), cell
        assert not cell.startswith("-") or float(cell) < 0


def test_inches_are_at_most_a_step_below_and_never_more_but_for_sides_that_are_cut_to_the_nearest(
    fitted_and_files: tuple[FittedJob, dict[str, bytes]],
) -> None:
    sheet = sheet_of(fitted_and_files[1]["cut-list.xlsx"])
    headings = [str(cell.value) for cell in sheet[1]]
    for row in sheet.iter_rows(min_row=2, values_only=True):
        told = dict(zip(headings, row, strict=True))
        for size in ("Length", "Width", "Thickness"):
            inches = sum(
                float(piece.split("/")[0]) / float(piece.split("/")[1]) if "/" in piece else float(piece)
                for piece in str(told[f"{size}, in"]).split()
            )
            exact = float(str(told[f"{size}, mm"]))
            if size == "Length" and told["Part"] == "side":
                assert inches * 25.4 == pytest.approx(exact, abs=25.4 / 64 + 1e-3)
            elif size == "Thickness":
                assert inches * 25.4 == pytest.approx(exact, abs=25.4 / 64 + 1e-9)
            else:
                assert exact - 25.4 / 32 < inches * 25.4 <= exact + 1e-3
