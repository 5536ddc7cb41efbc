"""Blocks pasted from spreadsheets, tidy and odd."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.web.schedule.columns import (
    FIRST_COLUMNS,
    chosen_columns,
    filed_text_of,
    schedule_columns,
    text_of,
)
from drawerwright.web.schedule.edits import Paste, edit_values
from drawerwright.web.schedule.paste import heading_of_block, read_block, write_block


def pasted(text: str, drawers: list[dict[str, Any]] | None = None, **more: Any) -> list[dict[str, Any]]:
    """The drawers after a paste at the end, or where `row` and `key` say."""
    values = {"units": more.pop("units", "mm"), "drawer": drawers or []}
    edit = Paste(**{"row": len(drawers or []), "columns": list(FIRST_COLUMNS), "text": text, **more})
    return edit_values(values, [edit]).drawers


def remarks(text: str) -> list[str]:
    """What is told of a paste."""
    return edit_values({"drawer": []}, [Paste(row=0, columns=list(FIRST_COLUMNS), text=text)]).remarks


CELL = st.text(
    st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="\u00a0\ufeff\u200b")
    | st.sampled_from('\t\n" =')
)
ROW = st.lists(CELL, min_size=1, max_size=6).filter(lambda row: any(cell.strip() for cell in row))


@given(st.lists(ROW, min_size=1, max_size=8))
def test_a_block_that_is_written_reads_back_the_same(rows: list[list[str]]) -> None:
    assert read_block(write_block(rows)) == rows


@given(st.text(st.sampled_from('\t\n\r"a1,;=\ufeff '), max_size=60))
def test_any_text_reads_as_a_block_without_blank_rows(text: str) -> None:
    assert all(any(cell.strip() for cell in row) for row in read_block(text))


def test_a_cell_that_a_spreadsheet_would_calculate_is_written_with_a_mark_and_a_number_is_not() -> None:
    assert write_block([["=1+1", "-5", "+49 20", "@x"]]) == "'=1+1\t-5\t+49 20\t'@x"


@pytest.mark.parametrize(
    ("text", "block"),
    [
        ('"two\nlines"\tB', [["two\nlines", "B"]]),
        ('21 3/4"\t8"', [['21 3/4"', '8"']]),
        ('"21 3/4"""\tB', [['21 3/4"', "B"]]),
        ('"open\tB', [['"open', "B"]]),
        ("\ufeffA\tB\r\nC\tD\r\n", [["A", "B"], ["C", "D"]]),
        ("A\n\n\t\t\nB", [["A"], ["B"]]),
        ("A\t\tC", [["A", "", "C"]]),
    ],
    ids=[
        "quoted line end",
        "inch marks",
        "inch mark in quotes",
        "a quote never closed",
        "BOM",
        "blank rows",
        "gap",
    ],
)
def test_odd_spreadsheets_are_read_as_they_look(text: str, block: list[list[str]]) -> None:
    assert read_block(text) == block


def test_readings_fractions_and_german_decimals_go_into_their_cells() -> None:
    told = pasted("opening.width\topening.height\topening.depth\n562; 561.5\t21 3/4\t561,5")
    assert told[0]["opening"] == {"width": [562, 561.5], "height": "21 3/4", "depth": 561.5}


def test_a_heading_may_use_the_words_of_the_sheet_and_carry_units() -> None:
    told = pasted("Drawer\tWidth (cm)\tHeight [in]\tDepth (mm)\nA\t56,2; 56.1\t6 5/8\t530")
    assert told[0]["opening"] == {"width": ["56,2 cm", "56.1 cm"], "height": "6 5/8 in", "depth": 530}
    assert told[0]["id"] == "A"


def test_a_merged_heading_over_two_rows_names_its_columns_together() -> None:
    block = read_block(
        "\tOpening\t\t\tFront\t\nid\twidth\theight\tdepth\tstyle\tgap\nA\t562\t168\t530\tinset\t2,5"
    )
    heading = heading_of_block(block)
    assert heading is not None
    keys = [heading.columns[at].key for at in sorted(heading.columns)]
    assert keys == ["id", "opening.width", "opening.height", "opening.depth", "front.style", "front.gap"]
    assert heading.rows == 2


def test_a_title_row_above_the_heading_is_passed_over() -> None:
    told = pasted("Kitchen, first floor\nid\twidth\theight\nA\t562\t168")
    assert told == [{"id": "A", "opening": {"width": 562, "height": 168}}]


def test_a_column_that_nobody_knows_is_named_and_the_rest_is_taken() -> None:
    text = "id\twidht\theight\nA\t562\t168"
    assert pasted(text) == [{"id": "A", "opening": {"height": 168}}]
    (told,) = remarks(text)
    assert told == 'column "widht" was not taken: the nearest that there is, is "opening.width"'


def test_rows_with_the_id_of_a_drawer_go_to_that_drawer_and_others_behind() -> None:
    there = [{"id": "A", "note": "stays"}, {"id": "B"}]
    told = pasted("id\tside\nB\t16\nC\t19\nA\t12.7", there)
    assert told == [
        {"id": "A", "note": "stays", "side": 12.7},
        {"id": "B", "side": 16},
        {"id": "C", "side": 19},
    ]


def test_a_block_without_a_heading_fills_right_and_down_and_adds_rows() -> None:
    there = [{"id": "A", "opening": {"width": 500}}, {"id": "B"}]
    told = pasted("1\t2\n3\t4\n5\t6", there, row=1, key="opening.width")
    assert [one["id"] for one in told] == ["A", "B", "B-2", "B-3"]
    assert [one["opening"] for one in told[1:]] == [
        {"width": 1, "height": 2},
        {"width": 3, "height": 4},
        {"width": 5, "height": 6},
    ]


def test_cells_beyond_the_last_column_are_told() -> None:
    edit = Paste(row=0, key="note", columns=list(FIRST_COLUMNS), text="one\ttwo\tthree")
    assert edit_values({"drawer": []}, [edit]).remarks == [
        "2 columns stand beyond the last of the schedule, not taken"
    ]


def test_text_without_cells_is_told_and_changes_nothing() -> None:
    done = edit_values({"drawer": [{"id": "A"}]}, [Paste(row=0, text=" \n\t\n")])
    assert done.drawers == [{"id": "A"}]
    assert done.remarks == ["nothing was pasted: the text holds no cells"]


def test_rows_copied_out_and_pasted_into_an_empty_job_are_the_same_drawers() -> None:
    there = pasted(
        'id\tcabinet\twidth\tnote\nA\tK1\t562; 561,5\t=not a formula\nB\tK1\t21 3/4 in\ttwo "words"'
    )
    columns = chosen_columns(())
    block = [[column.key for column in columns]]
    block += [[text_of(one, column.column) for column in columns] for one in there]
    assert pasted(write_block(block)) == there


@pytest.mark.parametrize(
    "text",
    [
        "drawer;width;height;depth;side\nQ;562;168;530;16",
        "drawer,width,height,depth,side\nQ,562,168,530,16",
        '"drawer";"width";"height";"depth";"side"\n"Q";562;168;530;16\n',
    ],
)
def test_lines_of_a_csv_file_are_parted_into_cells_and_that_is_told(text: str) -> None:
    (one,) = pasted(text)
    assert one["id"] == "Q"
    assert one["opening"] == {"width": 562, "height": 168, "depth": 530}
    assert any("CSV" in remark for remark in remarks(text))


def test_lines_of_a_csv_file_without_a_heading_are_parted_too() -> None:
    (one,) = pasted("Q;K1;1;562;168;530;16")
    assert one["opening"] == {"width": 562, "height": 168, "depth": 530}


@pytest.mark.parametrize(("key", "text"), [("opening.width", "562; 561.5; 562"), ("note", "oak; 2; 3; left")])
def test_readings_and_notes_keep_their_semicolons(key: str, text: str) -> None:
    (one,) = pasted(text, [{"id": "A"}], row=0, key=key)
    assert filed_text_of(one, schedule_columns()[key].column).replace(" ", "") == text.replace(" ", "")


def test_cells_without_a_heading_are_told_where_they_went() -> None:
    told = " ".join(remarks("Q\t562\t168"))
    assert "no heading line" in told
    assert "Drawer, Cabinet, Row" in told
    assert remarks("drawer\twidth\theight\nQ\t562\t168") == []
