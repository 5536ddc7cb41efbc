"""Edits of a schedule: what each does, and that doing them again changes nothing that matters."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.web.schedule.edits import (
    AddRow,
    CopyRows,
    MoveRows,
    RemoveRows,
    SetCell,
    SetShared,
    edit_values,
    is_empty,
    next_id,
)


def rows(*ids: str) -> dict[str, Any]:
    """A job of drawers with these ids."""
    return {"drawer": [{"id": name} for name in ids]}


def ids(values: dict[str, Any], *edits: Any) -> list[str]:
    """The ids after edits."""
    return [one["id"] for one in edit_values(values, edits).drawers]


@pytest.mark.parametrize(
    ("picked", "by", "order"),
    [
        ([1], -1, "BACD"),
        ([0], -1, "ABCD"),
        ([0, 1], -1, "ABCD"),
        ([1, 2], -1, "BCAD"),
        ([0, 2], -1, "ACBD"),
        ([2], 1, "ABDC"),
        ([2, 3], 1, "ABCD"),
        ([0, 1], 1, "CABD"),
        ([9], 1, "ABCD"),
    ],
)
def test_rows_move_past_their_neighbours_and_stop_at_the_ends(picked: list[int], by: Any, order: str) -> None:
    assert ids(rows(*"ABCD"), MoveRows(rows=picked, by=by)) == list(order)


@given(st.lists(st.integers(0, 7), unique=True), st.sampled_from([-1, 1]))
def test_moving_loses_no_row_and_keeps_the_order_of_those_that_stay(picked: list[int], by: Any) -> None:
    before = list("ABCDEFGH")
    after = ids(rows(*before), MoveRows(rows=picked, by=by))
    assert sorted(after) == before
    stay = [name for at, name in enumerate(before) if at not in picked]
    assert [name for name in after if name in stay] == stay


def test_rows_are_added_copied_and_removed_with_ids_that_nobody_has() -> None:
    assert ids(rows("B1-1", "B1-2", "X"), AddRow(at=1)) == ["B1-1", "B1-3", "B1-2", "X"]
    assert ids(rows("B1-1", "B1-2", "X"), CopyRows(rows=[0, 2])) == ["B1-1", "B1-2", "X", "B1-3", "X-2"]
    assert ids(rows("B1-1", "B1-2", "X"), RemoveRows(rows=[0, 2, 7])) == ["B1-2"]


@pytest.mark.parametrize(
    ("there", "name"),
    [([], "D1"), (["K9"], "K10"), (["A-09"], "A-10"), (["left"], "left-2"), (["A1", "A2", "A1"], "A3")],
)
def test_a_new_row_counts_on_from_the_one_above(there: list[str], name: str) -> None:
    assert next_id([{"id": one} for one in there]) == name


def test_a_cell_typed_below_the_last_row_begins_a_drawer() -> None:
    done = edit_values(rows("A1"), [SetCell(row=1, key="opening.width", text="562")])
    assert done.drawers[1] == {"id": "A2", "opening": {"width": 562}}
    assert edit_values(rows("A1"), [SetCell(row=1, key="note", text=" ")]).drawers == [{"id": "A1"}]


def test_what_drawers_share_is_typed_by_its_key() -> None:
    done = edit_values(
        rows("A"),
        [
            SetShared(key="title", text="Boathouse"),
            SetShared(key="units", text="in"),
            SetShared(key="defaults.front.gap", text="2,5"),
            SetShared(key="defaults.id", text="B"),
            SetShared(key="colour", text="red"),
        ],
    )
    assert {**done.values, "drawer": 0} == {
        "title": "Boathouse",
        "units": "in",
        "defaults": {"front": {"gap": 2.5}},
        "drawer": 0,
    }


def test_a_row_with_no_more_than_its_id_is_still_to_be_measured() -> None:
    assert is_empty({"id": "A", "opening": {}})
    assert not is_empty({"id": "A", "side": 16})


@given(
    st.lists(
        st.one_of(
            st.builds(
                SetCell,
                row=st.integers(0, 5),
                key=st.sampled_from(["side", "note"]),
                text=st.sampled_from(["1", "", "x"]),
            ),
            st.builds(AddRow, at=st.integers(0, 6)),
            st.builds(CopyRows, rows=st.lists(st.integers(0, 5), max_size=2)),
            st.builds(RemoveRows, rows=st.lists(st.integers(0, 5), max_size=2)),
            st.builds(MoveRows, rows=st.lists(st.integers(0, 5), max_size=3), by=st.sampled_from([-1, 1])),
        ),
        max_size=8,
    )
)
def test_edits_give_the_same_values_each_time_and_ids_that_stay_apart(edits: list[Any]) -> None:
    start = rows("A1", "A2", "B")
    once, again = edit_values(start, edits), edit_values(start, edits)
    assert once.values == again.values
    names = [one["id"] for one in once.drawers]
    assert len(set(names)) == len(names)
    assert start == rows("A1", "A2", "B")
