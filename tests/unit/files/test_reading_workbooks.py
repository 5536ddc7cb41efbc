from __future__ import annotations

import io
import zipfile
from datetime import date, time
from pathlib import Path
from typing import Any

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import Fault, InputError
from drawerwright.files import JobFile, read_job, read_job_file
from drawerwright.files.sheet_look import MOST_CELLS
from drawerwright.files.workbook_parts import MOST_PARTS, MOST_UNPACKED

from .workbooks import HEADING, ROW, with_part, workbook

SHEET = "xl/worksheets/sheet1.xml"
WHOLE = workbook()
"""Saved once, because a workbook of the test library holds the time of its saving."""


@pytest.fixture
def read(tmp_path: Path):
    def read(content: bytes, name: str = "job.xlsx") -> JobFile:
        path = tmp_path / name
        path.write_bytes(content)
        return read_job_file(path)

    return read


@pytest.fixture
def faults_of(read):
    def faults_of(content: bytes, name: str = "job.xlsx") -> tuple[Fault, ...]:
        with pytest.raises(InputError) as refused:
            read(content, name)
        return refused.value.faults

    return faults_of


def refused_or_read(path: Path) -> bool:
    try:
        return bool(read_job(path).drawers)
    except InputError as error:
        return all(fault.where and fault.says for fault in error.faults)


def test_a_sheet_of_drawers_is_read(read) -> None:
    (drawer,) = read(workbook()).job.drawers
    assert (drawer.id, drawer.opening.width.values, drawer.side, drawer.note) == (
        "A-1",
        (562.0,),
        16.0,
        "cutlery",
    )


def test_numbers_stored_as_text_and_names_stored_as_numbers_are_read(read) -> None:
    row = [12, "562", "168,5", "53 cm", "5/8", "2", 2024]
    (drawer,) = read(workbook(HEADING, row)).job.drawers
    assert (drawer.id, drawer.note, drawer.quantity) == ("12", "2024", 2)
    assert (drawer.opening.height.values, drawer.opening.depth.values) == ((168.5,), (530.0,))
    assert drawer.side == 15.875


def test_sheets_of_settings_and_cabinets_are_read(read) -> None:
    def add(book: Any) -> None:
        job = book.create_sheet("Job")
        for row in (["title", "Kitchen"], ["units", "in"], ["defaults.front.style", "inset"]):
            job.append(row)
        cabinets = book.create_sheet("cabinets")
        for row in (["id", "inside_width", "freestanding", "interlock"], ["B1", "644 mm", False, True]):
            cabinets.append(row)

    heading, row = [*HEADING, "cabinet"], ["A-1", 22, 7, 21, 0.625, 1, "", "B1"]
    job = read(workbook(heading, row, change=add)).job
    assert (job.title, job.units) == ("Kitchen", "in")
    assert job.drawers[0].opening.width.values == (558.8,)
    assert job.drawers[0].front.style == "inset"
    (cabinet,) = job.cabinets
    assert (cabinet.inside_width, cabinet.freestanding, cabinet.interlock) == (644.0, False, True)


def test_what_cannot_be_a_number_is_told_with_sheet_and_cell(faults_of) -> None:
    rows = [
        HEADING,
        ["A-1", date(2024, 5, 6), True, 530, 16, 1, ""],
        ["A-2", 562, "#N/A", time(7, 8), 16, 1, ""],
        ["A-3", 562, "=A1+1", 530, "abc", 1.5, ""],
    ]
    found = [(fault.where, fault.value) for fault in faults_of(workbook(*rows))]
    assert found == [
        ("job.xlsx:drawers!B2 drawer A-1 opening.width", "2024-05-06"),
        ("job.xlsx:drawers!C2 drawer A-1 opening.height", "TRUE"),
        ("job.xlsx:drawers!C3 drawer A-2 opening.height", "#N/A"),
        ("job.xlsx:drawers!D3 drawer A-2 opening.depth", "07:08:00"),
        ("job.xlsx:drawers!C4 drawer A-3 opening.height", "a formula"),
        ("job.xlsx:drawers!E4 drawer A-3 side", '"abc"'),
        ("job.xlsx:drawers!F4 drawer A-3 quantity", "1.5"),
    ]


def test_a_formula_without_a_value_says_to_save_it_in_the_spreadsheet(faults_of) -> None:
    (fault,) = faults_of(workbook(HEADING, ["A-1", "=500+62", 168, 530, 16, 1, ""]))
    assert fault.says == "has no computed value in the file"
    assert fault.try_.startswith("opening the workbook in the spreadsheet and saving it")


def test_the_value_last_computed_of_a_formula_is_read_and_remarked_on(read) -> None:
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    sheet = book.add_worksheet("drawers")
    for at, (key, value) in enumerate(zip(HEADING, ROW, strict=True)):
        sheet.write(0, at, key)
        sheet.write(1, at, value)
    sheet.write_formula(1, 1, "=500+62.5", None, 562.5)
    sheet.write_formula(1, 6, '="a"&"b"', None, "ab")
    book.close()
    found = read(out.getvalue())
    assert found.job.drawers[0].opening.width.values == (562.5,)
    assert found.job.drawers[0].note == "ab"
    (remark,) = found.remarks
    assert (
        str(remark) == "job.xlsx:drawers: 2 formulas: the values last computed by the spreadsheet were read"
    )


def test_a_name_that_the_spreadsheet_made_a_date_of_is_told(faults_of) -> None:
    (fault,) = faults_of(workbook(HEADING, [date(2024, 2, 1), *ROW[1:]]))
    assert fault.where.startswith("job.xlsx:drawers!A2")
    assert "is a date" in fault.says
    assert "format Text" in fault.try_


def test_merged_cells_hidden_rows_columns_and_sheets_are_remarked_on(read) -> None:
    def change(book: Any) -> None:
        book["drawers"].merge_cells("G2:G3")
        book["drawers"].row_dimensions[3].hidden = True
        book["drawers"].column_dimensions["F"].hidden = True
        book.create_sheet("old").sheet_state = "hidden"
        book.create_sheet("sketch")

    found = read(workbook(HEADING, ROW, ["A-2", *ROW[1:]], change=change))
    assert [str(remark) for remark in found.remarks] == [
        "job.xlsx:drawers: merged cells G2:G3: the value counts for the first cell of each alone",
        "job.xlsx:drawers: hidden rows 3 were read",
        "job.xlsx:drawers: hidden columns F were read",
        "job.xlsx:old: is hidden and was not read",
        "job.xlsx:sketch: was not read",
    ]
    assert len(found.job.drawers) == 2


def test_a_hidden_sheet_of_drawers_is_read_and_told(read) -> None:
    def hide(book: Any) -> None:
        book.create_sheet("other")
        book["drawers"].sheet_state = "hidden"

    remarks = [str(remark) for remark in read(workbook(change=hide)).remarks]
    assert remarks == ["job.xlsx:drawers: is a hidden sheet, and was read", "job.xlsx:other: was not read"]


def test_one_sheet_of_any_name_is_the_sheet_of_drawers(read) -> None:
    found = read(workbook(change=lambda book: setattr(book["drawers"], "title", "Küche unten")))
    assert found.job.drawers[0].id == "A-1"


def test_a_workbook_without_a_sheet_of_drawers_is_refused(faults_of) -> None:
    (fault,) = faults_of(workbook(change=lambda book: setattr(book["drawers"], "title", "cabinets")))
    assert fault.says == "has no sheet of drawers"


OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504)


def bomb() -> bytes:
    out = io.BytesIO()
    with (
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive,
        zipfile.ZipFile(io.BytesIO(workbook())) as good,
    ):
        for name in good.namelist():
            if name != SHEET:
                archive.writestr(name, good.read(name))
        with archive.open(SHEET, "w") as stream:
            for _ in range(MOST_UNPACKED // 1_000_000 + 1):
                stream.write(b" " * 1_000_000)
    return out.getvalue()


def many_parts() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for at in range(MOST_PARTS + 1):
            archive.writestr(f"xl/media/{at}.png", b"")
    return out.getvalue()


def lying() -> bytes:
    """A workbook whose list of parts tells a smaller size of a sheet than it unpacks to."""
    content = bytearray(workbook())
    with zipfile.ZipFile(io.BytesIO(bytes(content))) as archive:
        told = archive.getinfo(SHEET)
    size, wrong = told.file_size.to_bytes(4, "little"), (10).to_bytes(4, "little")
    return bytes(content.replace(size, wrong))


def entities(kind: bytes) -> bytes:
    return with_part(
        workbook(),
        SHEET,
        lambda xml: b"<!DOCTYPE x [" + kind + b"]>" + xml.replace(b"<v>562</v>", b"<v>&a;</v>"),
    )


LAUGHS = b'<!ENTITY b "ha"><!ENTITY a "&b;&b;&b;&b;">'
FETCHING = b'<!ENTITY a SYSTEM "file:///etc/hostname">'


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "is empty"),
        (b"id,side\nA,16\n", "looks like plain text"),
        (b"\x00\x01\x02\x03" * 10, "is no workbook"),
        (OLE, "old kind (.xls)"),
        (OLE + "EncryptedPackage".encode("utf-16-le"), "protected by a password"),
        (workbook()[:2000], "is a damaged workbook"),
        (b"PK\x03\x04" + bytes(40), "is a damaged workbook"),
        (with_part(workbook(), "xl/vbaProject.bin", lambda _: b"x"), "holds macros"),
        (many_parts(), "parts: at most"),
        (bomb(), "may be a zip bomb"),
        (lying(), "is a damaged workbook"),
        (entities(LAUGHS), "declares a document type or entities"),
        (entities(FETCHING), "declares a document type or entities"),
        (with_part(workbook(), SHEET, lambda xml: xml.decode().encode("utf-16")), "in UTF-16"),
        (with_part(workbook(), SHEET, lambda xml: xml[:-20]), "is a damaged workbook"),
        (with_part(workbook(), SHEET, lambda xml: xml.replace(b'"B2"', b'"B0"')), "is a damaged workbook"),
        (with_part(workbook(), "xl/workbook.xml", lambda _: b"<a/>"), "is a damaged workbook"),
        (with_part(workbook(), "xl/workbook.xml", lambda _: b"<a"), "is a damaged workbook"),
        (
            with_part(workbook(), SHEET, lambda xml: xml.replace(b'"G2"', b'"XFD1048576"')),
            "reaches to XFD1048576",
        ),
    ],
)
def test_a_file_that_is_no_sound_workbook_is_refused_with_the_reason(faults_of, content, says) -> None:
    (fault,) = faults_of(content)
    assert says in fault.says
    assert fault.where.startswith("job.xlsx")
    assert fault.try_


def test_the_largest_area_takes_ten_thousand_rows_of_every_column() -> None:
    assert MOST_CELLS >= 10_000 * 100


def test_a_zip_that_is_another_kind_of_document_is_refused(faults_of) -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("word/document.xml", "<a/>")
    (fault,) = faults_of(out.getvalue())
    assert fault.says == "is a zip archive that holds no XLSX workbook"


@pytest.mark.parametrize(
    ("name", "says"), [("job.xlsm", "macros"), ("job.xls", "old kind"), ("job.ods", "another kind")]
)
def test_the_ending_of_another_spreadsheet_says_what_to_save_it_as(faults_of, name: str, says: str) -> None:
    (fault,) = faults_of(workbook(), name)
    assert says in fault.says
    assert fault.try_ == "job.xlsx"


def test_a_workbook_named_csv_is_refused(faults_of) -> None:
    (fault,) = faults_of(workbook(), "job.csv")
    assert "is a zip archive, perhaps a workbook" in fault.says
    assert ".xlsx" in fault.try_


@given(data=st.data())
def test_a_damaged_workbook_is_read_or_refused(data: st.DataObject, tmp_path_factory) -> None:
    content = bytearray(WHOLE)
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(4, len(content) - 1))] = data.draw(st.integers(0, 255))
    path = tmp_path_factory.getbasetemp() / "damaged.xlsx"
    path.write_bytes(bytes(content))
    assert refused_or_read(path)


@given(data=st.data())
def test_a_sheet_with_damaged_xml_is_read_or_refused(data: st.DataObject, tmp_path_factory) -> None:
    part = data.draw(
        st.sampled_from([SHEET, "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml"])
    )

    def damage(xml: bytes) -> bytes:
        at, cut = data.draw(st.integers(0, len(xml))), data.draw(st.integers(0, 30))
        return (
            xml[:at]
            + data.draw(st.sampled_from([b"", b"<", b">", b'"', b"9", b"<c/>", b"&a;"]))
            + xml[at + cut :]
        )

    path = tmp_path_factory.getbasetemp() / "damaged.xlsx"
    path.write_bytes(with_part(WHOLE, part, damage))
    assert refused_or_read(path)
