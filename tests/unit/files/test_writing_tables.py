from __future__ import annotations

import csv
import io
from pathlib import Path

import openpyxl
import pytest
from hypothesis import assume, given

from drawerwright.errors import InputError
from drawerwright.files import (
    job_from_mapping,
    job_template_csv,
    job_template_xlsx,
    read_job,
    read_job_file,
    write_job_csv,
    write_job_xlsx,
)
from drawerwright.files.cells import as_typed, inert, inert_in_workbook
from drawerwright.files.job_columns import cabinet_columns, drawer_columns
from drawerwright.files.table_templates import column_notes
from drawerwright.model.job import Job

from .job_strategies import TEXTS, jobs

# Written as escapes, which the reader of workbooks leaves as they are.
NOT_IN_A_WORKBOOK = ("\ufffe", "\uffff", "_x")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("jobs")


def texts_of(job: Job) -> str:
    names = [f"{drawer.id}{drawer.cabinet}{drawer.note}" for drawer in job.drawers]
    return "".join([job.title, *names, *(cabinet.id for cabinet in job.cabinets)])


def again(content: bytes, folder: Path, name: str) -> Job:
    path = folder / name
    path.write_bytes(content)
    return read_job(path)


@given(job=jobs())
def test_a_job_written_as_csv_reads_back_equal(folder: Path, job: Job) -> None:
    assume("\0" not in texts_of(job))
    text = write_job_csv(job)
    assert again(text.encode(), folder, "job.csv") == job


@given(job=jobs())
def test_a_job_written_as_a_workbook_reads_back_equal(folder: Path, job: Job) -> None:
    assume(not any(sign in texts_of(job) for sign in NOT_IN_A_WORKBOOK))
    content = write_job_xlsx(job)
    assert again(content, folder, "job.xlsx") == job
    assert write_job_xlsx(job) == content


@given(text=TEXTS)
def test_text_comes_back_from_a_cell_as_it_was_typed(text: str) -> None:
    assert as_typed(inert(text)) == text
    assert as_typed(inert_in_workbook(text)) == text
    assert not inert(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n", "#"))


DRAWER = {"opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "=cmd|' /C calc'!A0", "'=1", "''", "#1"]


@pytest.mark.parametrize("text", FORMULAS)
def test_text_that_looks_like_a_formula_is_written_inert(text: str, folder: Path) -> None:
    job = job_from_mapping({"title": text, "drawer": [{**DRAWER, "id": "a", "note": text, "cabinet": text}]})
    rows = list(csv.reader(io.StringIO(write_job_csv(job), newline="")))
    assert not any(cell.startswith(("=", "+", "-", "@", "\t")) for row in rows for cell in row)
    content = write_job_xlsx(job)
    book = openpyxl.load_workbook(io.BytesIO(content))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert all(cell.data_type in ("s", "n") for cell in cells)
    assert any(isinstance(cell.value, str) and cell.value.endswith(text) for cell in cells)
    assert again(write_job_csv(job).encode(), folder, "job.csv") == job
    assert again(content, folder, "job.xlsx") == job


def test_a_number_that_a_workbook_would_round_is_written_as_text(folder: Path) -> None:
    job = job_from_mapping({"drawer": [{**DRAWER, "id": "a", "side": 0.1 + 0.2}]})
    assert again(write_job_xlsx(job), folder, "job.xlsx").drawers[0].side == 0.30000000000000004


def test_a_note_longer_than_a_cell_is_refused() -> None:
    job = job_from_mapping({"drawer": [{**DRAWER, "id": "a", "note": "x" * 32_768}]})
    with pytest.raises(InputError, match="longer than the 32767 characters"):
        write_job_xlsx(job)


def test_an_inch_job_is_written_with_its_units(folder: Path) -> None:
    opening = {"width": 22, "height": 7, "depth": 21}
    job = job_from_mapping(
        {"units": "in", "drawer": [{"id": "a", "opening": opening, "side": 0.625, "slide": "house-16/21"}]}
    )
    text = write_job_csv(job)
    assert text.splitlines()[0] == "units,in"
    assert "558.8 mm" in text
    assert again(text.encode(), folder, "job.csv") == job
    assert again(write_job_xlsx(job), folder, "job.xlsx") == job


def test_a_cabinet_without_drawers_has_a_row_of_its_own(folder: Path) -> None:
    values = {"cabinet": [{"id": "B", "pitch": 25}, {"id": "A"}], "drawer": [{**DRAWER, "id": "A-1"}]}
    job = job_from_mapping(values)
    assert again(write_job_csv(job).encode(), folder, "job.csv") == job
    assert again(write_job_xlsx(job), folder, "job.xlsx") == job


@pytest.mark.parametrize("units", ["mm", "in"])
def test_both_templates_are_the_same_valid_job_that_says_it_is_invented(units, folder: Path) -> None:
    paths = folder / "template.csv", folder / "template.xlsx"
    paths[0].write_text(job_template_csv(units), encoding="utf-8", newline="")
    paths[1].write_bytes(job_template_xlsx(units))
    from_csv, from_xlsx = (read_job_file(path) for path in paths)
    assert from_csv.job.drawers == from_xlsx.job.drawers
    assert from_csv.job.units == from_xlsx.job.units == units
    assert (from_csv.remarks, from_xlsx.remarks) == ((), ())
    assert "invented" in from_csv.job.drawers[0].note
    assert [cabinet.id for cabinet in from_xlsx.job.cabinets] == ["A"]


def test_the_template_of_a_workbook_offers_the_choices_of_its_columns() -> None:
    book = openpyxl.load_workbook(io.BytesIO(job_template_xlsx()))
    drawers = book["drawers"]
    heading = {cell.value: cell.column_letter for cell in drawers[1]}
    offered = {}
    for rule in drawers.data_validations.dataValidation:
        offered[str(rule.sqref)] = rule.formula1
    for key in ("front.style", "construction", "mount", "box.joint", "box.bottom"):
        letter = heading[key]
        assert offered[f"{letter}3:{letter}1002"] == '"' + ",".join(drawer_columns()[key].choices) + '"'
    assert drawers.freeze_panes == "B2"
    assert drawers["A2"].value.startswith("# ")
    assert book.sheetnames == ["drawers", "cabinets", "job", "columns"]


def test_every_column_is_explained_and_nothing_else_is() -> None:
    for table, known in (("drawer", drawer_columns()), ("cabinet", cabinet_columns())):
        notes = column_notes(table)
        labels = {key for key in known if key.rpartition(".")[0] in known and key.startswith("opening.")}
        assert set(known) - labels - set(notes) == set(), f"{table}: columns without a note"
        assert set(notes) - set(known) == set(), f"{table}: notes on no column"
