"""Headings in two rows: groups, merged or followed by blank cells, above the names of the columns."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.files.column_names import (
    ColumnNames,
    columns_named,
    heading_of,
    under_groups,
    with_unit_of_heading,
)
from drawerwright.files.job_columns import drawer_columns, job_columns
from drawerwright.web.schedule.paste import heading_of_block

from .workbooks import workbook

GROUPS = ["id", "Opening", None, None, "side", "Front", None, "note"]
NAMES = [None, "width", "height", "depth", None, "style", "gap", None]
ROW = ["A-1", 562, 168, 530, 16, "inset", 2.5, "oak"]
KEYS = ["id", "opening.width", "opening.height", "opening.depth", "side", "front.style", "front.gap", "note"]


def merged(*rows: list[Any], over: tuple[str, ...] = ()) -> bytes:
    """A workbook with those rows, and those ranges merged."""

    def change(book: Any) -> None:
        for one in over:
            book["drawers"].merge_cells(one)

    return workbook(*rows, change=change)


def text(*rows: list[Any], separator: str = ",") -> str:
    """The same rows as CSV."""
    return "".join(separator.join("" if one is None else str(one) for one in row) + "\n" for row in rows)


@pytest.mark.parametrize(
    "content",
    [
        merged(GROUPS, NAMES, ROW, over=("A1:A2", "B1:D1", "E1:E2", "F1:G1", "H1:H2")),
        merged(GROUPS, NAMES, ROW, over=("B1:D1",)),
        merged(GROUPS, NAMES, ROW),
        merged(["title", "Kitchen"], ["units", "mm"], GROUPS, NAMES, ROW, over=("B3:D3", "F3:G3")),
        merged([None, *GROUPS], [None, *NAMES], [None, *ROW], over=("C1:E1", "G1:H1")),
        text(GROUPS, NAMES, ROW),
        text(GROUPS, NAMES, ROW, separator=";").replace("2.5", "2,5"),
        text(GROUPS, NAMES, ROW, separator="\t"),
    ],
    ids=[
        "all merged",
        "one merged",
        "none merged",
        "settings above",
        "a column in",
        "commas",
        "semicolons",
        "tabs",
    ],
)
def test_groups_above_the_names_are_read_as_one_heading(read, content: bytes | str) -> None:
    found = read(content)
    (drawer,) = found.job.drawers
    assert (drawer.id, drawer.side, drawer.note) == ("A-1", 16.0, "oak")
    opening = drawer.opening
    assert (opening.width.values, opening.height.values, opening.depth.values) == (
        (562.0,),
        (168.0,),
        (530.0,),
    )
    assert (drawer.front.style, drawer.front.gap) == ("inset", 2.5)
    (remark,) = found.remarks
    assert remark.says == "was read as a row of groups above the names in the next one: " + ", ".join(KEYS)


def test_pasting_and_files_take_the_same_columns_from_groups() -> None:
    block = [["" if one is None else one for one in row] for row in (GROUPS, NAMES)]
    pasted = heading_of_block([*block, [str(one) for one in ROW]])
    assert pasted is not None
    assert [pasted.columns[at].key for at in sorted(pasted.columns)] == KEYS
    named = columns_named(under_groups(*block), ColumnNames(job_columns()))
    assert [named[at].key for at in sorted(named)] == KEYS


@given(st.sampled_from([key for key in drawer_columns() if key.count(".") == 1]), st.booleans())
def test_every_key_of_two_words_reads_from_its_group_and_its_name(key: str, is_held: bool) -> None:
    group, name = key.split(".")
    names = under_groups(
        ["id", group.replace("_", " ").title(), ""],
        ["", name.replace("_", " ").upper(), ""],
        (lambda at: 1) if is_held else None,
    )
    assert names[1].column(ColumnNames(job_columns())) == drawer_columns()[key]


@given(st.sampled_from(sorted(drawer_columns())))
def test_every_column_reads_by_its_key_and_by_its_word_with_any_unit(key: str) -> None:
    names = ColumnNames(job_columns())
    for told in (
        key,
        heading_of(key),
        f" {heading_of(key).upper()} ",
        f"{key} (mm)",
        f"{heading_of(key)} [in]",
    ):
        assert names.named(told) == drawer_columns()[key]


def test_a_group_of_a_cabinet_has_its_id_and_what_is_told_of_it(read) -> None:
    (drawer,) = (
        found := read(
            merged(
                ["id", "Opening", None, None, "side", "Cabinet", None],
                [None, "width", "height", "depth", None, "id", "inside width"],
                ["A", 562, 168, 530, 16, "B1", 644],
                over=("B1:D1", "F1:G1"),
            )
        )
    ).job.drawers
    assert (drawer.cabinet, found.job.cabinets[0].inside_width) == ("B1", 644.0)


def test_a_group_of_readings_by_place_has_three_steps(read) -> None:
    (drawer,) = read(
        merged(
            ["id", "Opening width", None, "Opening", None, "side"],
            [None, "front", "back", "height", "depth", None],
            ["A", 562, 561, 168, 530, 16],
            over=("B1:C1", "D1:E1"),
        )
    ).job.drawers
    assert drawer.opening.width.labelled == {"front": 562.0, "back": 561.0}


HEIGHTS = [
    [None, "Opening", None, None, "Front", None, None],
    ["id", "width", "height", "depth", "style", "height", "side"],
]


def test_a_merged_group_says_how_far_it_reaches(read) -> None:
    row = ["A", 562, 168, 530, "overlay", 200, 16]
    (drawer,) = read(merged(*HEIGHTS, row, over=("B1:D1", "E1:F1"))).job.drawers
    assert (drawer.opening.height.values, drawer.front.height) == ((168.0,), 200.0)


def test_a_name_that_may_stand_under_a_group_or_alone_is_refused_with_both_readings(faults_of) -> None:
    (fault,) = faults_of(text(*HEIGHTS, ["A", 562, 168, 530, "overlay", 200, 16]))
    assert (fault.where, fault.value) == ("job.csv:2 heading", '"height"')
    assert fault.says == (
        'could be front.height, under "Front", which no merged cell tells, or opening.height'
    )
    assert fault.try_ == '"front.height" or "opening.height", whichever is meant'


def test_a_word_under_a_group_that_is_no_key_is_not_taken_for_another_thing(faults_of) -> None:
    rows = [
        ["id", "Old box", None, "Opening", None, None, "side"],
        [None, "height", "length", "width", "height", "depth"],
    ]
    faults = faults_of(merged(*rows, ["A", 150, 500, 562, 168, 530, 16], over=("B1:C1", "D1:F1")))
    assert [(one.where, one.says) for one in faults] == [
        (
            "job.xlsx:drawers!B2 heading",
            'under "Old box" is no column: without the group it would be opening.height',
        ),
        (
            "job.xlsx:drawers!C2 heading",
            'under "Old box" is not a known column: the nearest is "existing_box.length"',
        ),
    ]


def test_a_mistyped_name_under_a_group_is_told_with_the_group_and_the_nearest(faults_of) -> None:
    faults = faults_of(
        merged(["id", "Opening", None, None, "side"], [None, "widht", "height", "depth"], over=("B1:D1",))
    )
    assert ('"widht"', 'under "Opening" is not a known column: the nearest is "opening.width"') in [
        (one.value, one.says) for one in faults
    ]


def test_units_beside_names_and_groups_count_for_numbers_without_one(read) -> None:
    first, second = read(
        merged(
            ["id", "Opening (cm)", None, None, "Sides"],
            [None, "width", "height [in]", "depth (mm)", None],
            ["A", 56.2, "6 5/8; 168 mm", "530", "5/8"],
            ["B", "back_top=56,2; back_bottom=561 mm", 6.5, 530, 16],
            over=("B1:D1",),
        )
    ).job.drawers
    assert (first.opening.width.values, first.opening.height.values) == ((562.0,), (168.275, 168.0))
    assert (first.opening.depth.values, first.side) == ((530.0,), 15.875)
    assert second.opening.width.labelled == {"back_top": 562.0, "back_bottom": 561.0}
    assert (second.opening.height.values, second.opening.depth.values) == ((165.1,), (530.0,))


@pytest.mark.parametrize(
    ("cell", "with_unit"),
    [
        ("56,2; 56.1", "56,2 cm; 56.1 cm"),
        ("front_bottom=56.2; back_bottom=561 mm", "front_bottom=56.2 cm; back_bottom=561 mm"),
        ("front top 56.2, back top 56.1", "front top 56.2 cm, back top 56.1 cm"),
        ("21 3/4", "21 3/4 cm"),
        ('21 3/4"', '21 3/4"'),
        ("1/2 ply", "1/2 ply"),
        ("562 mm", "562 mm"),
        ("abc", "abc"),
    ],
)
def test_the_unit_of_a_heading_goes_to_each_reading_that_has_none(cell: str, with_unit: str) -> None:
    assert with_unit_of_heading(cell, "cm") == with_unit


ALONE = [[None, "opening", None, None, None], ["id", "width", "height", "depth", "side"]]
"""One group, above names that could all stand for themselves."""
SIZES = ["A", 562, 168, 530, 16]


@pytest.mark.parametrize(
    "content",
    [
        text(*ALONE, SIZES),
        text(*ALONE, SIZES, separator=";"),
        text(["title", "Kitchen"], *ALONE, SIZES),
        text([None, "Opening (mm)"], *ALONE[1:], SIZES),
        text([None, "opening"], *ALONE[1:], SIZES),
        merged(*ALONE, SIZES, over=("B1:D1",)),
        merged(*ALONE, SIZES, over=("B1:C1",)),
        merged(*ALONE, SIZES, over=("B1:E1",)),
        merged(*ALONE, SIZES),
    ],
    ids=[
        "commas",
        "semicolons",
        "title above",
        "unit",
        "short row",
        "merged",
        "merged too short",
        "merged too long",
        "not merged",
    ],
)
def test_one_group_alone_above_names_is_read_as_a_group(read, content: bytes | str) -> None:
    found = read(content)
    (drawer,) = found.job.drawers
    opening = drawer.opening
    sizes = [reading.values for reading in (opening.width, opening.height, opening.depth)]
    assert (drawer.id, sizes, drawer.side) == ("A", [(562.0,), (168.0,), (530.0,)], 16.0)
    assert found.remarks[-1].says == (
        "was read as a row of groups above the names in the next one: "
        "id, opening.width, opening.height, opening.depth, side"
    )


def test_sizes_stand_under_the_names_that_a_lone_group_has_in_any_order(read) -> None:
    rows = [[None, "opening", None, None, None], ["id", "depth", "height", "width", "side"]]
    (drawer,) = read(text(*rows, ["A", 530, 168, 562, 16])).job.drawers
    assert (drawer.opening.width.values, drawer.opening.depth.values) == ((562.0,), (530.0,))


@pytest.mark.parametrize("merge", [None, "B1:D1"])
def test_the_unit_of_a_group_is_not_taken_for_names_that_only_follow_its_own(read, merge: str | None) -> None:
    rows = [[None, "opening (cm)", None, None, None], ALONE[1], ["A", 56.2, 16.8, 53, 16]]
    (drawer,) = read(text(*rows) if merge is None else merged(*rows, over=(merge,))).job.drawers
    assert (drawer.opening.width.values, drawer.opening.depth.values) == ((562.0,), (530.0,))
    assert drawer.side == 16.0


def test_a_name_just_past_the_end_of_a_merged_group_is_told_where_the_group_ends(faults_of) -> None:
    rows = [
        ["id", "Opening", None, None, "side", "Front", None, None],
        [None, "width", "height", "depth", None, "style", "gap", "overlay"],
        ["A", 562, 168, 530, 16, "overlay", 3, 16],
    ]
    faults = faults_of(merged(*rows, over=("B1:D1", "F1:G1")))
    assert [(one.where, one.value, one.says, one.try_) for one in faults] == [
        (
            "job.xlsx:drawers!H2 heading",
            '"overlay"',
            'is not a known column: the merged cell "Front" ends before it',
            '"front.overlay", or merging "Front" over it as well',
        )
    ]


def test_a_misspelt_group_alone_is_told_with_the_nearest_and_other_words_as_a_title(faults_of) -> None:
    says = "stands alone above the headings and is not a key of the job"
    for word, told, would_do in (
        ("openning", f'{says} or a group of columns: the nearest is "opening"', "opening"),
        ("Job sheet", says, "title,Job sheet"),
    ):
        (fault,) = faults_of(text([None, word, None, None, None], ALONE[1], SIZES))
        assert (fault.where, fault.says, fault.try_) == ("job.csv:1", told, would_do)


def test_words_above_a_lone_group_are_a_fault_of_their_own_line_alone(faults_of) -> None:
    (fault,) = faults_of(text(["Job sheet"], *ALONE, SIZES))
    assert (fault.where, fault.try_) == ("job.csv:1", "title,Job sheet")
