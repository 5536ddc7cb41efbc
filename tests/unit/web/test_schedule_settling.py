"""Two versions settled: what was chosen stands, and nothing that only one side changed is lost."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from drawerwright.store.parts import ABSENT, JOB, alike, parts_of
from drawerwright.web.schedule.settling import clashes_of, settled_values

DRAWER = st.fixed_dictionaries(
    {"id": st.sampled_from("ABCD")},
    optional={
        "side": st.sampled_from([12.7, 16, 19]),
        "note": st.sampled_from(["x", "y"]),
        "opening": st.fixed_dictionaries(
            {}, optional={"width": st.integers(1, 3), "height": st.integers(1, 3)}
        ),
    },
)
VALUES = st.fixed_dictionaries(
    {
        "title": st.sampled_from(["one", "two", "three"]),
        "units": st.just("mm"),
        "defaults": st.fixed_dictionaries({}, optional={"side": st.sampled_from([15, 16])}),
        "cabinet": st.just([]),
        "drawer": st.lists(DRAWER, max_size=4, unique_by=lambda one: one["id"]),
    }
)


@given(VALUES, VALUES, VALUES, st.sampled_from(["mine", "theirs"]))
def test_what_clashes_is_as_one_side_has_it_and_the_rest_has_what_either_changed(
    base: dict[str, Any], mine: dict[str, Any], theirs: dict[str, Any], side: str
) -> None:
    clashes = clashes_of(base, mine, theirs)
    told = {key.field: side for clash in clashes for key in clash.keys}
    settled = parts_of(settled_values(base, mine, theirs, clashes, told), JOB)
    before, ours, others = (parts_of(one, JOB) for one in (base, mine, theirs))
    chosen = ours if side == "mine" else others
    twice = {clash.part for clash in clashes}
    for key in {*before, *ours, *others}:
        changed = others if alike(before, ours, key) else ours
        wanted = chosen if key in twice else changed
        assert settled.get(key, ABSENT) == wanted.get(key, ABSENT)
    assert set(settled) <= {*ours, *others}


@given(VALUES, VALUES)
def test_where_only_one_side_changed_anything_nothing_clashes(
    base: dict[str, Any], mine: dict[str, Any]
) -> None:
    assert clashes_of(base, mine, base) == []
    assert clashes_of(base, base, mine) == []
    assert clashes_of(base, mine, mine) == []


def test_keys_of_one_drawer_are_chosen_one_by_one_and_those_of_one_side_alone_are_suggested() -> None:
    base = {"drawer": [{"id": "A", "side": 16, "opening": {"width": 1, "height": 1}}]}
    mine = {"drawer": [{"id": "A", "side": 16, "opening": {"width": 2, "height": 1}, "note": "x"}]}
    theirs = {"drawer": [{"id": "A", "side": 19, "opening": {"width": 3, "height": 1}}]}
    (clash,) = clashes_of(base, mine, theirs)
    assert {key.key: (key.suggested, key.both) for key in clash.keys} == {
        "side": ("theirs", False),
        "opening.width": ("mine", True),
        "note": ("mine", False),
    }
    settled = settled_values(base, mine, theirs, [clash], {})
    assert settled["drawer"] == [{"id": "A", "side": 19, "opening": {"width": 2, "height": 1}, "note": "x"}]
    width = next(key for key in clash.keys if key.key == "opening.width")
    settled = settled_values(base, mine, theirs, [clash], {width.field: "theirs"})
    assert settled["drawer"][0]["opening"] == {"width": 3, "height": 1}
