"""Gaps files: what a cell may hold, where faults are said."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import InputError, ReadingError
from drawerwright.files.gap_text import parse_gap
from drawerwright.files.gaps import gaps_of_mappings, read_gaps
from drawerwright.model.gaps import GAP_NAMES

HEAD = "drawer,left_top,left_bottom,right_top,right_bottom"


@pytest.mark.parametrize(
    ("told", "value", "within"),
    [
        ("3", 3.0, 0.1),
        (2.5, 2.5, 0.1),
        ("1/8", 3.175, 0.1),
        ("< 1", 0.5, 1 / 12**0.5),
        ("> 3", 4.0, 2 / 12**0.5),
        ("2..2.5", 2.25, 0.5 / 12**0.5),
        ("~2", 2.0, 0.5),
        ("2 ± 0.3", 2.0, 0.3),
        ("2 +- 0.3 mm", 2.0, 0.3),
        ("2,5", 2.5, 0.1),
        ("3/32..1/8", 2.778125, 0.79375 / 12**0.5),
        ("0", 0.0, 0.1),
    ],
)
def test_a_gap_is_read_with_its_certainty(told: object, value: float, within: float) -> None:
    reading = parse_gap(told, "mm")
    assert reading is not None
    assert (reading.value, reading.uncertainty) == pytest.approx((value, within))


def test_a_corner_may_stand_in_and_its_bounds_are_open_on_both_sides() -> None:
    assert [parse_gap(told, "mm", corner=True).value for told in ("-0.5", "< 1", "> -1")] == [-0.5, 0.0, 0.0]  # type: ignore[union-attr]


def test_a_bare_number_is_in_the_units_of_the_file_and_a_fraction_in_inches() -> None:
    assert parse_gap("0.125", "in").value == pytest.approx(3.175)  # type: ignore[union-attr]
    assert parse_gap("3 mm", "in").value == 3.0  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ("-1", "is negative"),
        ("wide", "cannot be read"),
        ("2.5..2", "lower bound above"),
        ("30", "at most 25 mm"),
        ("< ", "is empty"),
        ("2 ± 0", "no spread"),
        (True, "is not a length"),
    ],
)
def test_what_is_no_gap_is_refused(told: object, says: str) -> None:
    with pytest.raises(ReadingError, match=says):
        parse_gap(told, "mm")


def test_a_number_that_is_no_gap_is_told_as_a_number_and_a_text_as_a_text() -> None:
    with pytest.raises(InputError) as refused:
        gaps_of_mappings([{"drawer": "A", "left_top": -1, "right_top": "-1", "top_left": -0.5}])
    assert [one.value for one in refused.value.faults] == ["-1", '"-1"', "-0.5"]
    (front,) = gaps_of_mappings([{"drawer": "A", "left_top": 3, "right_top": 2.5, "top_left": "3"}])
    assert [one.value for one in front.readings.values()] == [3.0, 2.5, 3.0]


def test_millimetres_in_a_file_of_inches_are_told_as_such() -> None:
    with pytest.raises(ReadingError) as refused:
        parse_gap("3", "in")
    assert refused.value.try_ == '"3 mm", if mm were meant: a bare number here is inches'


def test_a_gaps_file_is_read_with_its_empty_cells_left_out(tmp_path: Path) -> None:
    path = tmp_path / "gaps.csv"
    path.write_text(f"units,in\n{HEAD},set_height_left\nA,1/8,,0.1,,4\n", encoding="utf-8")
    (front,) = read_gaps(path)
    assert {name: one.value for name, one in front.readings.items()} == pytest.approx(
        {"left_top": 3.175, "right_top": 2.54}
    )
    assert front.settings == {("left", "height"): 4.0}
    assert front.place("left_top") == "gaps.csv:3 left_top"


def test_all_faults_of_a_file_are_told_at_their_cells(tmp_path: Path) -> None:
    path = tmp_path / "gaps.csv"
    path.write_text(f"{HEAD}\nA,3,-1,,\nB,3..2,,,\n", encoding="utf-8")
    with pytest.raises(InputError) as refused:
        read_gaps(path)
    assert [one.where for one in refused.value.faults] == ["gaps.csv:2 left_bottom", "gaps.csv:3 left_top"]


def test_toml_and_row_objects_tell_the_same(tmp_path: Path) -> None:
    path = tmp_path / "gaps.toml"
    path.write_text('[[gap]]\ndrawer = "A"\nleft_top = 3.5\nright_top = "< 1"\n', encoding="utf-8")
    (of_file,) = read_gaps(path)
    (of_row,) = gaps_of_mappings([{"drawer": "A", "left_top": 3.5, "right_top": "< 1"}])
    assert of_file.readings == of_row.readings
    assert of_row.place("left_top") == "gaps 1 left_top"


def test_a_column_that_is_not_known_is_named_with_the_nearest() -> None:
    with pytest.raises(InputError, match='nearest is "left_top"'):
        gaps_of_mappings([{"drawer": "A", "left_tops": 3}])


@given(st.sampled_from(GAP_NAMES), st.floats(0, 20).map(lambda value: round(value, 2)))
def test_any_gap_written_down_reads_back(name: str, value: float) -> None:
    (front,) = gaps_of_mappings([{"drawer": "A", name: f"{value:g} mm"}])
    assert front.readings[name].value == pytest.approx(value)  # type: ignore[index]
