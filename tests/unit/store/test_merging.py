"""Three versions put together, and lists kept in order: what holds whatever the values are."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from drawerwright.store.differing import difference
from drawerwright.store.history import side_of, with_side
from drawerwright.store.merging import merge
from drawerwright.store.ordering import merged_order, moved, positions, staying
from drawerwright.store.parts import JOB, Parts, alike, parts_of, values_of

NAMES = st.sampled_from("ABCDE")
CONTENTS = st.fixed_dictionaries({"side": st.integers(15, 17)})


@st.composite
def jobs(draw: st.DrawFn) -> Parts:
    """A job of a few drawers in any order, some with one id, and defaults."""
    names = draw(st.lists(NAMES, max_size=6))
    drawers = [{"id": name, **draw(CONTENTS)} for name in names]
    defaults = draw(st.dictionaries(st.sampled_from(["front", "side"]), st.integers(1, 2)))
    return parts_of({"title": draw(st.sampled_from("xy")), "defaults": defaults, "drawer": drawers}, JOB)


def same_parts(one: Parts, other: Parts) -> bool:
    return not (told := difference(one, other, JOB)).parts and not told.moved


@given(jobs(), jobs())
def test_what_only_one_side_changed_is_taken_from_it(base: Parts, changed: Parts) -> None:
    for mine, theirs in ((changed, base), (base, changed), (changed, changed)):
        merged, clashes = merge(base, mine, theirs, JOB)
        assert clashes == ()
        assert same_parts(merged, changed)


@given(jobs(), jobs(), jobs())
def test_no_change_of_either_side_is_lost_without_a_clash(base: Parts, mine: Parts, theirs: Parts) -> None:
    merged, clashes = merge(base, mine, theirs, JOB)
    told = {(one.kind, one.id) for one in clashes}
    for key in {*base, *mine, *theirs}:
        mine_changed, theirs_changed = not alike(base, mine, key), not alike(base, theirs, key)
        if mine_changed and theirs_changed and not alike(mine, theirs, key):
            assert (key.kind, key.id) in told
        elif not clashes:
            assert alike(merged, mine if mine_changed else theirs, key)
    if clashes:
        assert merged == theirs


@given(jobs(), jobs(), jobs())
def test_it_does_not_matter_who_saves_first(base: Parts, mine: Parts, theirs: Parts) -> None:
    one, clashes = merge(base, mine, theirs, JOB)
    other, others = merge(base, theirs, mine, JOB)
    assert {(clash.kind, clash.id) for clash in clashes} == {(clash.kind, clash.id) for clash in others}
    if not clashes:
        assert one.keys() == other.keys()
        assert all(alike(one, other, key) for key in one)


@given(jobs(), jobs())
def test_a_version_on_the_side_comes_back_from_what_it_differs_in(base: Parts, version: Parts) -> None:
    again = with_side(base, side_of(base, version))
    assert list(again.items()) == list(version.items())


@given(jobs())
def test_values_come_back_from_their_parts(parts: Parts) -> None:
    values = values_of(parts, JOB)
    assert list(parts_of(values, JOB).items()) == list(parts.items())


PERMUTED = st.permutations("ABCDEFG")


@given(PERMUTED, st.lists(st.sampled_from("ABCDEFGHIJ"), unique=True))
def test_rows_get_rising_positions_and_as_few_as_can_be_move(old: list[str], new: list[str]) -> None:
    before = {name: 100 * at for at, name in enumerate(old, 1)}
    after = positions(before, new)
    assert list(after) and sorted(after, key=lambda name: after[name]) == new if new else after == {}
    assert len(set(after.values())) == len(new)
    still = [name for name in new if name in before]
    stay = len(staying([before[name] for name in still]))
    assert sum(after[name] == before[name] for name in still) >= stay
    assert len(moved(old, new)) == len(still) - stay


def test_rows_are_numbered_anew_where_no_room_is_left() -> None:
    before = {"A": 1, "B": 2}
    after = positions(before, ["A", "C", "B"])
    assert sorted(after, key=lambda name: after[name]) == ["A", "C", "B"]
    before = {"A": 1 << 20, "B": 2 << 20}
    names = ["A", "B"]
    for at in range(200):
        names.insert(1, f"new {at}")
        before = positions(before, names)
        assert sorted(before, key=lambda name: before[name]) == names
    assert min(before.values()) > 0


@given(PERMUTED, PERMUTED, PERMUTED, st.data())
def test_two_orders_are_put_together_or_clash(
    base: list[str], mine: list[str], theirs: list[str], data: Any
) -> None:
    sides = [side[: data.draw(st.integers(0, 7))] for side in (base, mine, theirs)]
    mine_new, theirs_new = sides[1] + ["m"], sides[2] + ["t"]
    wanted = {*mine_new, *theirs_new}
    order = merged_order(sides[0], mine_new, theirs_new, wanted)
    common = set(sides[0]) & set(mine_new) & set(theirs_new)
    before, ours, others = (
        [one for one in side if one in common] for side in (sides[0], mine_new, theirs_new)
    )
    if order is None:
        assert ours != others
        assert before not in (ours, others)
        return
    assert sorted(order) == sorted(wanted)
    assert [one for one in order if one in common] == (others if ours == before else ours)


def test_of_two_added_at_one_place_theirs_comes_first() -> None:
    base = ["A", "B"]
    wanted = ["A", "B", "m1", "m2", "t1", "t2"]
    both_at_the_end = merged_order(base, ["A", "B", "m1", "m2"], ["A", "B", "t1", "t2"], wanted)
    assert both_at_the_end == ["A", "B", "t1", "t2", "m1", "m2"]
    both_in_front = merged_order(base, ["m1", "m2", "A", "B"], ["t1", "t2", "A", "B"], wanted)
    assert both_in_front == ["t1", "t2", "m1", "m2", "A", "B"]
    mine_moved = merged_order(base, ["B", "m1", "A", "m2"], ["A", "t1", "B", "t2"], wanted)
    assert mine_moved == ["B", "t2", "m1", "A", "t1", "m2"]
