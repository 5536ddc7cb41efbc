from __future__ import annotations

import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import Fault, InputError
from drawerwright.files import JobFile, job_from_mapping, job_template, read_job_file, write_job_csv
from drawerwright.files.toml_text import parse_toml

HEADING = "id,opening.width,opening.height,opening.depth,side"
DRAWER = "A-1,562,168,530,16"


@pytest.fixture
def read(tmp_path: Path):
    def read(text: str | bytes, name: str = "job.csv") -> JobFile:
        path = tmp_path / name
        path.write_bytes(text.encode() if isinstance(text, str) else text)
        return read_job_file(path)

    return read


@pytest.fixture
def faults_of(read):
    def faults_of(text: str | bytes, name: str = "job.csv") -> tuple[Fault, ...]:
        with pytest.raises(InputError) as refused:
            read(text, name)
        return refused.value.faults

    return faults_of


def test_columns_come_in_any_order_among_blank_rows_and_comments(read) -> None:
    text = """# measured on Monday
title,Kitchen

note,side,opening.depth,id,Opening.Height,opening.width
# free text,,,,,
"left; upper",16,530,A-1,168,562

,,,,,
# ,,,,,
,16,530,A-2,168,562
"""
    job = read(text).job
    assert job.title == "Kitchen"
    assert [(drawer.id, drawer.note) for drawer in job.drawers] == [("A-1", "left; upper"), ("A-2", "")]
    assert job.drawers[0].opening.height.values == (168.0,)


def test_several_and_labelled_readings_stand_in_a_cell_or_in_columns(read) -> None:
    text = (
        "id,opening.width,opening.width.back,opening.height,opening.depth,side\n"
        "A-1,562; 561.5,,168,530,16\n"
        "A-2,front_bottom=562; back_bottom=561.2,,168; 168.5,530,15.9; 16.1\n"
        "A-3,front=562,561,168,530,16\n"
    )
    first, second, third = read(text).job.drawers
    assert first.opening.width.values == (562.0, 561.5)
    assert second.opening.width.labelled == {"front_bottom": 562.0, "back_bottom": 561.2}
    assert second.opening.height.values == (168.0, 168.5)
    assert second.side == 16.0
    assert third.opening.width.labelled == {"front": 562.0, "back": 561.0}


def test_the_unit_of_a_file_of_inches_stands_above_the_heading(read) -> None:
    job = read(f'units,in\n{HEADING}\nA-1,"22 1/8",7,"1\' 9""",0.5\n').job
    assert job.units == "in"
    assert job.drawers[0].opening.width.values == (561.975,)
    assert job.drawers[0].opening.depth.values == (533.4,)
    assert job.drawers[0].side == 12.7


def test_inch_marks_need_no_quotes_around_the_cell(read) -> None:
    drawer = read(f'{HEADING}\nA-1,22-1/8",168,21",5/8"\n').job.drawers[0]
    assert (drawer.opening.width.values, drawer.side) == ((561.975,), 15.875)


def test_defaults_stand_above_the_heading_and_a_cell_overrides_them(read) -> None:
    text = "defaults.side,16\ndefaults.front.style,overlay\n" + HEADING + ",front.style\n"
    job = read(text + "A-1,562,168,530,,\nA-2,562,168,530,19,inset\n").job
    assert [(drawer.side, drawer.front.style) for drawer in job.drawers] == [
        (16.0, "overlay"),
        (19.0, "inset"),
    ]


PLAIN = f"{HEADING},note\n{DRAWER},Küche\n"


@pytest.mark.parametrize(
    "content",
    [
        PLAIN.encode(),
        PLAIN.encode("utf-8-sig"),
        PLAIN.encode("utf-16"),
        PLAIN.encode("utf-16-le"),
        PLAIN.encode("utf-16-be"),
        PLAIN.encode("cp1252"),
        PLAIN.replace("\n", "\r\n").encode(),
        PLAIN.replace("\n", "\r").encode(),
        PLAIN.replace(",", ";").encode(),
        PLAIN.replace(",", "\t").encode("utf-16"),
    ],
)
def test_the_encodings_separators_and_line_ends_of_spreadsheets_are_read(read, content: bytes) -> None:
    (drawer,) = read(content).job.drawers
    assert (drawer.id, drawer.opening.width.values, drawer.note) == ("A-1", (562.0,), "Küche")


def test_a_western_code_page_is_remarked_on(read) -> None:
    (remark,) = read(PLAIN.encode("cp1252")).remarks
    assert remark.where == "job.csv:2"
    assert "Windows-1252" in remark.says
    assert read(PLAIN).remarks == ()


def test_decimal_commas_go_with_semicolons_between_cells_and_readings_in_quotes(read) -> None:
    text = HEADING.replace(",", ";") + '\nA-1;"562,5; 561,75";168,5;53 cm;15,9\n'
    drawer = read(text).job.drawers[0]
    assert drawer.opening.width.values == (562.5, 561.75)
    assert (drawer.opening.height.values, drawer.side) == ((168.5,), 15.9)


def test_a_comma_that_could_mark_thousands_is_refused_with_the_reason(faults_of) -> None:
    text = HEADING.replace(",", ";") + '\nA-1;"562,125";168;530;16\n'
    (fault,) = faults_of(text)
    assert fault.where == "job.csv:2 drawer A-1 opening.width"
    assert fault.says == "could be thousands or a decimal comma"
    assert fault.try_ == '"562125" or "562.125", whichever is meant'


def test_cabinets_stand_beside_their_drawers_and_agree(read, faults_of) -> None:
    heading = HEADING + ",cabinet,row,cabinet.inside_width,cabinet.shelf_fixed\n"
    rows = "A-1,562,168,530,16,B1,1,644,\nA-2,562,168,530,16,B1,2,644.0,yes\nA-3,562,168,530,16,B2,1,,\n"
    job = read(heading + rows).job
    assert [(one.id, one.inside_width, one.shelf_fixed) for one in job.cabinets] == [
        ("B1", 644.0, True),
        ("B2", None, None),
    ]
    (fault,) = faults_of(heading + rows.replace("644.0", "646"))
    assert fault.where == "job.csv:3 cabinet.inside_width"
    assert fault.says == "is not what job.csv:2 tells of cabinet B1"


def test_cabinets_in_rows_of_their_own_show_a_name_that_none_has(read, faults_of) -> None:
    text = f"cabinet,{HEADING},cabinet.first_row\nB1,,,,,,45\nB1,{DRAWER},\n"
    (cabinet,) = read(text).job.cabinets
    assert (cabinet.id, cabinet.first_row) == ("B1", 45.0)
    (fault,) = faults_of(text.replace("B1,A", "B2,A"))
    assert fault.where == "job.csv:3 drawer A-1 cabinet"
    assert "is not a cabinet of this job: B1" in fault.says


def test_a_cabinet_that_has_no_name_is_a_fault(faults_of) -> None:
    (fault,) = faults_of(f"{HEADING},cabinet,cabinet.first_row\n{DRAWER},,45\n")
    assert fault.where == "job.csv:2 cabinet.first_row"
    assert "the row names none" in fault.says


def test_names_alone_describe_no_cabinet(read) -> None:
    job = read(f"{HEADING},cabinet\n{DRAWER},B1\n").job
    assert job.cabinets == ()
    assert job.drawers[0].cabinet == "B1"


def test_all_faults_come_together_with_their_line_and_column(faults_of) -> None:
    text = (
        "title,Kitchen,and more\nunit,mm\n"
        "id,opening.width,opening.height,opening.depht,side,front.overlay,front.overlay.left,side\n"
        'A-1,"562; abc",168,530,16,16,12,\n'
        "A-2,562,,530,true,,,\n"
        "A-2,562,168,530,16,left=3; 4,,\n"
    )
    assert [(fault.where, fault.value) for fault in faults_of(text)] == [
        ("job.csv:1", '"title"'),
        ("job.csv:2", '"unit"'),
        ("job.csv:3 heading", ""),
        ("job.csv:3 heading", '"opening.depht"'),
        ("job.csv:3 heading", '"side"'),
        ("job.csv:4 drawer A-1 opening.width item 2", '"abc"'),
        ("job.csv:4 drawer A-1 front.overlay.left", '"12"'),
        ("job.csv:5 drawer A-2 opening.height", ""),
        ("job.csv:5 drawer A-2 side", '"true"'),
        ("job.csv:6 drawer A-2 id", '"A-2"'),
        ("job.csv:6 drawer A-2 front.overlay", '"left=3; 4"'),
    ]


@pytest.mark.parametrize(
    ("text", "where", "says"),
    [
        ("", "job.csv", "is empty"),
        ("\n\n", "job.csv", "holds no table"),
        ("# only a comment\n", "job.csv", "holds no table"),
        ("title,Kitchen\n", "job.csv", "holds no table"),
        ("one,two\nthree,four\n", "job.csv:1", "should name the columns, and none of its cells does"),
        (HEADING + "\n", "job.csv drawer", "a job has at least one drawer"),
        (f"title,{HEADING}\nx,{DRAWER}\n", "job.csv:1 heading", "is not a column"),
        (f"{HEADING},sidde\n{DRAWER},16\n", "job.csv:1 heading", 'the nearest is "side"'),
        (f"{HEADING}\n{DRAWER},17\n", "job.csv:2", "stands under no heading"),
        (f'{HEADING}\nA-1,"562,168,530,16\n', "job.csv:2", "a quote is opened on this line and never closed"),
        (f'{HEADING}\nA-1,"562"x,168,530,16\n', "job.csv:2", "a quote is closed inside a cell"),
        (f"defaults.sid,16\n{HEADING}\n{DRAWER}\n", "job.csv:1", "is not a key of the job"),
        (f"units,ft\n{HEADING}\n{DRAWER}\n", "job.csv:1 units", 'is not one of "mm", "in"'),
        (f"title,a\ntitle,b\n{HEADING}\n{DRAWER}\n", "job.csv:1 title", "is told twice"),
        (f"defaults.side,abc\n{HEADING}\nA-1,562,168,530,\n", "job.csv:1 defaults.side", "cannot be read"),
        (f"{HEADING},quantity\n{DRAWER},1.5\n", "job.csv:2 drawer A-1 quantity", "is not a whole number"),
        (
            f"{HEADING},cabinet,cabinet.interlock\n{DRAWER},B,maybe\n",
            "job.csv:2 cabinet B interlock",
            "neither true",
        ),
        ("id\0,x\n", "job.csv:1", "is not text"),
        ("%PDF-1.7\n", "job.csv", "is a PDF"),
    ],
)
def test_text_that_is_no_job_is_refused_with_its_place(faults_of, text: str, where: str, says: str) -> None:
    (fault,) = faults_of(text)
    assert fault.where == where
    assert says in fault.says
    assert fault.try_


def test_lines_are_counted_right_after_a_cell_of_several_lines(faults_of) -> None:
    (fault,) = faults_of(f'{HEADING},note\n{DRAWER},"two\nlines"\nA-2,562,168,530,x,\n')
    assert fault.where == "job.csv:4 drawer A-2 side"


def test_a_missing_column_is_told_once_for_all_drawers(faults_of) -> None:
    rows = "".join(f"A-{at},562,168,530\n" for at in range(50))
    (fault,) = faults_of(HEADING.removesuffix(",side") + "\n" + rows)
    assert (fault.where, fault.says) == ("job.csv:1 heading", "has no column side, which every drawer needs")


def test_a_default_stands_in_for_a_column(read) -> None:
    text = f"defaults.side,16\n{HEADING.removesuffix(',side')}\nA-1,562,168,530\n"
    assert read(text).job.drawers[0].side == 16.0


@given(text=st.text(st.sampled_from("aid,;\"\t\n\r=#'.0x½é") | st.characters(), max_size=60))
def test_any_text_is_a_job_or_refused(text: str, tmp_path_factory) -> None:
    path = tmp_path_factory.getbasetemp() / "any.csv"
    for before in ("", f"{HEADING},note,cabinet\n{DRAWER},"):
        path.write_text(before + text, encoding="utf-8", errors="replace", newline="")
        try:
            found = read_job_file(path).job.drawers
        except InputError as error:
            found = error.faults
        assert found


def test_the_toml_template_written_as_csv_is_the_same_job(read) -> None:
    job = job_from_mapping(parse_toml(job_template(), "job.toml").values)
    assert read(write_job_csv(job)).job == job


def test_progress_is_told_up_to_all_rows_and_5000_are_read_in_seconds(tmp_path: Path) -> None:
    path = tmp_path / "job.csv"
    path.write_text(HEADING + "\n" + "".join(f"D{at},562,168,530,16\n" for at in range(5000)))
    told: list[tuple[int, int]] = []
    start = time.perf_counter()
    job = read_job_file(path, progress=lambda done, total: told.append((done, total))).job
    assert time.perf_counter() - start < 10
    assert len(job.drawers) == 5000
    assert told[0] == (0, 5000)
    assert told[-1] == (5000, 5000)
    assert told == sorted(told)
