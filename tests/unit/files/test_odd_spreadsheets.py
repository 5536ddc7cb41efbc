"""What spreadsheets hold beside a tidy table: read right, or refused with cell, value and what would do."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import InputError
from drawerwright.files import read_job_file

from .workbooks import HEADING, ROW, workbook

LINE = "id,opening.width,opening.height,opening.depth,side"


@pytest.mark.parametrize(
    ("row", "sizes"),
    [
        (["A-1 ", " 562 ", "168\u00a0", "530\u00a0mm", "16\u202f"], (562.0, 168.0, 530.0, 16.0)),
        (["A-1", "22 1/8″", "6 5/8”", "1′ 8 7/8″", "5/8''"], (561.975, 168.275, 530.225, 15.875)),
        (["A-1", "22⅛″", "6⅝ in", "20 ⅞", "⅝"], (561.975, 168.275, 530.225, 15.875)),
        (["A-1", "562,5", "168,25", "53 cm", "15,9"], (562.5, 168.25, 530.0, 15.9)),
        (["A-1", "'562", "168 mm", "530", "16"], (562.0, 168.0, 530.0, 16.0)),
    ],
    ids=["blanks of all kinds", "primes and quotes", "fraction signs", "decimal commas", "marked as text"],
)
def test_numbers_typed_as_text_in_many_ways_are_read(read, row: list[str], sizes: tuple[float, ...]) -> None:
    (drawer,) = read(workbook([f"{one}\u00a0" for one in HEADING[:5]], row)).job.drawers
    opening = drawer.opening
    found = (*opening.width.values, *opening.height.values, *opening.depth.values, drawer.side)
    assert drawer.id == "A-1"
    assert found == sizes


@pytest.mark.parametrize(
    "text", ["1. Feb", "1-Feb", "Feb-01", "2. Mär 24", "2024-02-01 00:00:00", "1/2/2024", "01.02.24"]
)
def test_a_date_that_a_fraction_became_is_told_in_csv_as_well(faults_of, text: str) -> None:
    (fault,) = faults_of(f"{LINE}\nA-1,562,168,530,{text}\n")
    assert (fault.where, fault.value) == ("job.csv:2 drawer A-1 side", f'"{text}"')
    assert "looks like a date" in fault.says
    assert "format Text" in fault.try_


@pytest.mark.parametrize("text", ["22-1/8", "1 1/2", "5/8", "12.5", "2,5", "1/2 in"])
def test_a_fraction_or_a_decimal_is_not_taken_for_a_date(read, text: str) -> None:
    assert read(f'{LINE}\nA-1,562,168,530,"{text}"\n').job.drawers[0].side > 0


@pytest.mark.parametrize("text", ["-", "–", "—", "n/a", "?"])
def test_a_sign_for_nothing_is_told_to_be_left_out(faults_of, text: str) -> None:
    (fault,) = faults_of(f"{LINE},contents\nA-1,562,168,530,16,{text}\n")
    assert (fault.where, fault.try_) == ("job.csv:2 drawer A-1 contents", "an empty cell")


def test_an_error_cell_of_csv_is_neither_text_nor_a_comment(faults_of) -> None:
    found = faults_of(f"{LINE}\n#REF!,562,168,530,16\nA-2,#N/A,168,530,16\nA-3,562,#div/0!,530,16\n")
    assert [(one.where, one.value) for one in found] == [
        ("job.csv:2 drawer 1 id", "#REF!"),
        ("job.csv:3 drawer A-2 opening.width", "#N/A"),
        ("job.csv:4 drawer A-3 opening.height", "#div/0!"),
    ]


def test_a_comment_with_an_error_word_in_it_stays_a_comment(read) -> None:
    assert len(read(f"{LINE}\n#REF! was here,,,,\nA-1,562,168,530,16\n").job.drawers) == 1


@pytest.mark.parametrize(
    "text",
    [
        f"sep=;\n{LINE.replace(',', ';')}\nA-1;562;168;530;16\n",
        f'"sep=;"\r\n{LINE.replace(",", ";")}\r\nA-1;562;168;530;16\r\n',
        f'{LINE.replace(",", ", ")}\nA-1, "562", 168, "530", 16\n',
        f"{LINE},,,\nA-1,562,168,530,16,,,\n,,,,,,,\n",
        f"\ufeff{LINE}\n\n ,  ,\nA-1,562,168,530,16\n\n",
    ],
    ids=[
        "separator told",
        "separator told in quotes",
        "blanks before quotes",
        "spare separators",
        "blank lines",
    ],
)
def test_csv_as_programs_write_it_is_read(read, text: str) -> None:
    (drawer,) = read(text).job.drawers
    assert (drawer.id, drawer.opening.width.values, drawer.opening.depth.values) == (
        "A-1",
        (562.0,),
        (530.0,),
    )


def test_a_line_that_tells_the_separator_is_counted(faults_of) -> None:
    (fault,) = faults_of(f"sep=;\n{LINE.replace(',', ';')}\nA-1;abc;168;530;16\n")
    assert fault.where == "job.csv:3 drawer A-1 opening.width"


def test_blanks_at_the_beginning_of_a_note_stay(read) -> None:
    (drawer,) = read(f"{LINE},note\nA-1,562,168,530,16,  oak\n").job.drawers
    assert drawer.note == "  oak"


@pytest.mark.parametrize(
    "row",
    [["Upper cabinets"], ["Total", None, None, None, None, 7], [None, None, None, None, None, None, "sum"]],
)
def test_a_row_without_any_size_is_told_once_and_how_it_is_passed_over(faults_of, row: list[Any]) -> None:
    (fault,) = faults_of(workbook(HEADING, ROW, row))
    first = next(one for one in row if one is not None)
    assert fault.where == f"job.xlsx:drawers!{'A' if row[0] else 'G'}3"
    assert (fault.value, fault.try_) == (f'"{first}"', f"# {first}")


def test_a_row_of_an_id_alone_is_a_drawer_where_its_sizes_are_defaults(read) -> None:
    text = "defaults.opening.width,562\ndefaults.opening.height,168\ndefaults.opening.depth,530\n"
    (drawer,) = read(f"{text}defaults.side,16\n{LINE}\nA-1,,,,\n").job.drawers
    assert (drawer.id, drawer.side) == ("A-1", 16.0)


@pytest.mark.parametrize("above", [["Kitchen of the Smiths"], ["Kitchen"]])
def test_a_title_above_the_heading_is_told_as_it_stands_with_the_key_to_put_before_it(
    faults_of, above: list[str]
) -> None:
    (in_sheet,) = faults_of(workbook(above, [], HEADING, ROW))
    assert (in_sheet.where, in_sheet.value) == ("job.xlsx:drawers!A1", f'"{above[0]}"')
    assert in_sheet.try_ == f"title | {above[0]}"
    (in_csv,) = faults_of(f"{above[0]}\n\n{LINE}\nA-1,562,168,530,16\n")
    assert in_csv.try_ == f"title,{above[0]}"


def test_a_line_above_the_heading_that_is_no_key_is_told_the_nearest_or_how_it_is_passed_over(
    faults_of,
) -> None:
    text = f"Date,3 May\nunit,mm\nside,16\n{LINE}\nA-1,562,168,530,16\n"
    assert [one.try_ for one in faults_of(text)] == [
        "# Date, to have the line passed over",
        "units",
        "defaults.side",
    ]


def test_a_heading_in_the_last_column_of_a_sheet_is_told_with_its_cell(faults_of) -> None:
    def far(book: Any) -> None:
        book["drawers"].cell(1, 16_384).value = "remarks of the fitter"

    (fault,) = faults_of(workbook(HEADING, ROW, change=far))
    assert fault.where == "job.xlsx:drawers!XFD1 heading"


def test_a_value_under_no_heading_says_nothing_of_separators_in_a_workbook(faults_of) -> None:
    (fault,) = faults_of(workbook(HEADING, [*ROW, "spare"]))
    assert (fault.where, fault.try_) == ("job.xlsx:drawers!H2", "a heading for the column")


def zipped(part: str) -> bytes:
    """A zip with one part."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr(part, "x")
    return out.getvalue()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (zipped("mimetype"), "is an OpenDocument file (.ods), no XLSX workbook"),
        (zipped("xl/workbook.bin"), "is a binary workbook (.xlsb), no XLSX workbook"),
        (b"<html><table></table></html>\n", "is no workbook but a web page or XML"),
        (b"\xef\xbb\xbf<?xml version='1.0'?><Workbook/>\n", "is no workbook but a web page or XML"),
    ],
)
def test_another_kind_of_file_under_the_ending_of_a_workbook_is_named(
    faults_of, content: bytes, says: str
) -> None:
    (fault,) = faults_of(content)
    assert fault.says.startswith(says)
    assert "saving it as .xlsx" in fault.try_


def test_a_web_page_named_csv_is_named(faults_of) -> None:
    (fault,) = faults_of("<html><table></table></html>\n")
    assert fault.says.startswith("is a web page or XML")


NAMES = ["id", "Opening", "width", "height", "depth", "side", "Front", "style", "Width (cm)", "opening.width"]
VALUES = ["A-1", "562", "562,5", "1-Feb", "#REF!", "# x", "units", "mm", "-", "“5/8”", "", "  "]
CELLS = st.sampled_from([*NAMES, *VALUES, "Kitchen", "Cabinet", "note"])


@pytest.mark.parametrize(
    "lines",
    [
        f"{LINE}\n{10**300},,,,\n",
        f"{LINE}\n{'x' * 300},,,,\n",
        f"{'Kitchen' * 50}\n{LINE}\nA,562,168,530,16\n",
        f"{'Kitchen' * 50},{'x' * 300}\n{LINE}\nA,562,168,530,16\n",
        f"title,{10**300}\n{LINE}\n{10**300},{10**300},,,\n",
    ],
    ids=["a number for a name", "words for a name", "a long title", "a long line", "all of it"],
)
def test_what_is_far_too_long_is_cut_in_what_would_do(faults_of, lines: str) -> None:
    for fault in faults_of(lines):
        assert len(fault.value) <= 80
        assert len(fault.try_) <= 120


ROWS = st.lists(st.lists(CELLS, min_size=1, max_size=7), min_size=1, max_size=6)
MERGES = st.lists(
    st.tuples(st.integers(1, 6), st.integers(1, 7), st.integers(0, 2), st.integers(0, 3)), max_size=3
)


def refused_or_read(path: Path) -> bool:
    """Whether a file is read, or refused with the place, the reason and what would do of every fault."""
    try:
        return bool(read_job_file(path).job.drawers)
    except InputError as error:
        return all(one.where.startswith(path.name) and one.says and one.try_ for one in error.faults)


@given(rows=ROWS, separator=st.sampled_from(",;\t"))
def test_any_rows_of_such_cells_are_read_or_refused_with_a_place(
    tmp_path_factory: pytest.TempPathFactory, rows: list[list[str]], separator: str
) -> None:
    path = tmp_path_factory.getbasetemp() / "odd.csv"
    path.write_text("\n".join(separator.join(row) for row in rows) + "\n", encoding="utf-8")
    assert refused_or_read(path)


@given(rows=ROWS, merges=MERGES)
def test_any_such_rows_with_merged_cells_are_read_or_refused_with_a_place(
    tmp_path_factory: pytest.TempPathFactory,
    rows: list[list[str]],
    merges: list[tuple[int, int, int, int]],
) -> None:
    def change(book: Any) -> None:
        for row, column, down, across in merges:
            book["drawers"].merge_cells(
                start_row=row, start_column=column, end_row=row + down, end_column=column + across
            )

    path = tmp_path_factory.getbasetemp() / "odd.xlsx"
    path.write_bytes(workbook(*rows, change=change))
    assert refused_or_read(path)
