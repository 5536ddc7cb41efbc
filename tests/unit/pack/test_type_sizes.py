"""How large the words of a column may be set."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from drawerwright.pack.type_sizes import GAPS, SIZES, first_step, height_of, lines_of

WORDS = st.lists(st.text("abcdefghij", min_size=1, max_size=12), min_size=1, max_size=30).map(" ".join)


def group(*says: str) -> dict[str, Any]:
    return {"kind": "checks", "title": "Checks", "rows": [{"says": one} for one in says]}


@given(WORDS, st.floats(20.0, 100.0), st.sampled_from([size for size, _ in SIZES]))
def test_wider_lines_are_never_more_lines(words: str, width: float, size: float) -> None:
    assert lines_of([(words, "regular")], width + 20.0, size) <= lines_of([(words, "regular")], width, size)


@given(st.lists(WORDS, min_size=1, max_size=12))
def test_every_step_takes_less_room_than_the_one_before(says: list[str]) -> None:
    heights = [height_of([group(*says)], 70.0, step) for step in range(len(SIZES))]
    assert heights == sorted(heights, reverse=True)


@given(st.lists(WORDS, min_size=1, max_size=40), st.floats(30.0, 160.0))
def test_the_step_is_the_first_that_finds_room(says: list[str], height: float) -> None:
    groups = [group(*says)]
    step = first_step(groups, 70.0, height)
    if step:
        assert height_of(groups, 70.0, step - 1) > height
    if step < len(SIZES) - 1:
        assert height_of(groups, 70.0, step) * 0.97 <= height


def test_one_line_stays_one_line_and_a_long_word_is_not_broken() -> None:
    assert lines_of([("one", "regular")], 70.0, 9.0) == 1
    assert lines_of([("x" * 200, "regular")], 70.0, 9.0) == 1
    assert lines_of([("x" * 200 + " y", "regular")], 70.0, 9.0) == 2


def test_sizes_fall_and_every_kind_of_group_has_its_gap() -> None:
    assert [size for size, _ in SIZES] == sorted((size for size, _ in SIZES), reverse=True)
    assert set(GAPS) == {"parts", "bores", "working", "checks", "fine", "changes", "rejected", "notes"}
