"""Cells of the schedule: what a typed cell stores and what a stored value shows."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.web.schedule.columns import (
    FIRST_COLUMNS,
    chosen_columns,
    schedule_columns,
    text_of,
    value_from,
    with_cell,
)

WIDTH = schedule_columns()["opening.width"].column
NOTE = schedule_columns()["note"].column


@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ("562", 562),
        ("561.5", 561.5),
        ("561,5", 561.5),
        ("562; 561,5", [562, 561.5]),
        ("21 3/4", "21 3/4"),
        ("21¾ in", "21¾ in"),
        ("1,234", "1,234"),
        ("front_top=562; back_top=561,5", {"front_top": 562, "back_top": 561.5}),
        ("562; front=561", "562; front=561"),
        ("wide", "wide"),
        ("  ", None),
    ],
)
def test_a_length_is_a_number_where_it_says_no_more_and_else_stays_as_typed(typed: str, stored: Any) -> None:
    assert value_from(typed, WIDTH) == stored


def test_a_preset_is_named_in_the_column_of_the_contents() -> None:
    column = schedule_columns()["contents"].column
    assert value_from("kcma-drawer", column) == {"preset": "kcma-drawer"}
    assert text_of({"contents": {"preset": "kcma-drawer"}}, column) == "kcma-drawer"
    assert value_from("20 kg", column) == "20 kg"
    assert value_from("20", column) == 20


def test_an_empty_cell_takes_its_key_away_and_the_table_around_it() -> None:
    assert with_cell(
        {"id": "A", "front": {"style": "inset"}}, schedule_columns()["front.style"].column, ""
    ) == {"id": "A"}


def test_a_value_in_the_way_of_a_deeper_key_gives_way() -> None:
    column = schedule_columns()["front.overlay.left"].column
    told = with_cell({"front": {"overlay": 16, "gap": 3}}, column, "12")
    assert told == {"front": {"overlay": {"left": 12}, "gap": 3}}


def test_a_cell_of_one_drawer_never_changes_the_values_it_was_made_of() -> None:
    before = {"id": "A", "opening": {"width": 562, "height": 168}}
    with_cell(before, WIDTH, "500")
    assert before == {"id": "A", "opening": {"width": 562, "height": 168}}


def test_further_columns_stand_before_the_note_each_once_and_unknown_ones_are_passed_over() -> None:
    keys = [column.key for column in chosen_columns(["mount", "id", "colour", "mount", "front.gap"])]
    assert keys == [*FIRST_COLUMNS[:-1], "mount", "front.gap", "note"]


NUMBERS = st.one_of(
    st.integers(0, 99_999),
    st.decimals(0, 9_999, places=3, allow_nan=False).map(float),
    st.sampled_from([0.1, 561.5]),
)
LABELS = st.sampled_from(["front_top", "front_bottom", "back_top", "back_bottom"])


@given(
    st.one_of(
        NUMBERS,
        st.lists(NUMBERS, min_size=2, max_size=5),
        st.dictionaries(LABELS, NUMBERS, min_size=1),
        st.sampled_from(["21 3/4 in", "552.5 mm", '8"', "1' 9 3/4\""]),
    )
)
def test_a_length_that_is_shown_and_typed_back_is_the_same(value: Any) -> None:
    shown = text_of({"opening": {"width": value}}, WIDTH)
    assert value_from(shown, WIDTH) == value


@given(st.text().filter(bool))
def test_a_note_is_stored_letter_for_letter(text: str) -> None:
    assert text_of(with_cell({}, NOTE, text), NOTE) == text


@given(st.sampled_from(sorted(schedule_columns())), st.text(max_size=30))
def test_whatever_is_typed_is_stored_and_typing_what_is_shown_changes_nothing(key: str, text: str) -> None:
    column = schedule_columns()[key].column
    once = with_cell({}, column, text)
    again = with_cell(once, column, text_of(once, column))
    assert text_of(again, column) == text_of(once, column)
