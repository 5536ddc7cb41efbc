"""Two people on one job: what can be put together is, and what cannot is shown and kept on both sides."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.store import Conflict, Store

Values = dict[str, Any]
MakeDrawer = Callable[..., Values]


def with_side(values: Values, drawer: int, side: float) -> Values:
    changed = copy.deepcopy(values)
    changed["drawer"][drawer]["side"] = side
    return changed


def test_two_who_change_different_drawers_both_get_what_they_saved(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    store.save_job(job.id, with_side(two_drawers, 0, 18), based_on=1, by="Ann")
    saved = store.save_job(job.id, with_side(two_drawers, 1, 19), based_on=1, by="Bob")
    assert (saved.how, saved.revision) == ("merged", 3)
    assert [one["side"] for one in saved.values["drawer"]] == [18, 19]


def test_job_wide_parts_are_put_together_too(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    mine, theirs = copy.deepcopy(two_drawers), copy.deepcopy(two_drawers)
    theirs["title"], theirs["defaults"]["contents"] = "Pantry", "25 kg"
    mine["units"], mine["defaults"]["front"] = "in", {"style": "inset"}
    mine["cabinet"].append({"id": "B2"})
    store.save_job(job.id, theirs, based_on=1)
    saved = store.save_job(job.id, mine, based_on=1).values
    assert (saved["title"], saved["units"]) == ("Pantry", "in")
    assert saved["defaults"] == {"front": {"style": "inset"}, "contents": "25 kg"}
    assert [one["id"] for one in saved["cabinet"]] == ["B1", "B2"]


def test_the_second_on_one_drawer_is_shown_both_versions_and_loses_nothing(
    store: Store, two_drawers: Values
) -> None:
    job = store.create_job(two_drawers)
    theirs, mine = with_side(two_drawers, 0, 18), with_side(with_side(two_drawers, 0, 19), 1, 15)
    store.save_job(job.id, theirs, based_on=1, by="Ann")
    with pytest.raises(Conflict) as told:
        store.save_job(job.id, mine, based_on=1, by="Bob")
    conflict = told.value
    assert (conflict.mine, conflict.theirs, conflict.base) == (mine, theirs, two_drawers)
    assert (conflict.base_revision, conflict.theirs_revision, conflict.kept_revision) == (1, 2, 3)
    assert [(one.id, one.mine_keys, one.theirs_keys) for one in conflict.drawers] == [
        ("A", ("side",), ("side",))
    ]
    assert "drawer A: was changed by Ann meanwhile (side), in revision 2" in str(conflict)
    # The browser may be closed now: what Bob saved is kept, beside the main line.
    assert store.job(job.id).values == theirs
    kept = store.job(job.id, conflict.kept_revision)
    assert (kept.how, kept.by, kept.values) == ("kept", "Bob", mine)
    assert {part.name for part in store.compare(job.id, 2, 3).parts} == {"drawer A", "drawer B"}


def test_a_conflict_is_settled_by_saving_on_top_of_what_the_other_saved(
    store: Store, two_drawers: Values
) -> None:
    job = store.create_job(two_drawers)
    store.save_job(job.id, with_side(two_drawers, 0, 18), based_on=1)
    with pytest.raises(Conflict) as told:
        store.save_job(job.id, with_side(two_drawers, 0, 19), based_on=1)
    settled = store.save_job(job.id, told.value.mine, based_on=told.value.theirs_revision)
    assert settled.values["drawer"][0]["side"] == 19
    assert settled.how == "saved"


def test_going_on_from_a_kept_version_clashes_again_as_it_did(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    store.save_job(job.id, with_side(two_drawers, 0, 18), based_on=1)
    with pytest.raises(Conflict) as told:
        store.save_job(job.id, with_side(two_drawers, 0, 19), based_on=1)
    with pytest.raises(Conflict) as again:
        store.save_job(job.id, with_side(two_drawers, 0, 20), based_on=told.value.kept_revision)
    assert again.value.base == two_drawers
    assert again.value.kept_revision != told.value.kept_revision


def test_the_same_version_tried_again_is_kept_once(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    store.save_job(job.id, with_side(two_drawers, 0, 18), based_on=1)
    kept = set()
    for _ in range(3):
        with pytest.raises(Conflict) as told:
            store.save_job(job.id, with_side(two_drawers, 0, 19), based_on=1)
        kept.add(told.value.kept_revision)
    assert len(kept) == 1
    assert len(store.revisions(job.id)) == 3


def test_a_save_that_came_in_already_is_answered_with_what_is_there(
    store: Store, two_drawers: Values
) -> None:
    job = store.create_job(two_drawers)
    changed = with_side(two_drawers, 0, 18)
    first = store.save_job(job.id, changed, based_on=1)
    again = store.save_job(job.id, changed, based_on=1)
    assert (again.revision, again.values) == (first.revision, changed)


@pytest.mark.parametrize("removed_by", ["me", "them"])
def test_a_drawer_that_one_removed_and_the_other_changed_is_a_conflict(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer, removed_by: str
) -> None:
    job = store.create_job(two_drawers)
    changed = a_drawer("A", side=18)
    theirs, mine = (changed, None) if removed_by == "me" else (None, changed)
    store.save_drawer(job.id, "A", theirs, based_on=1, by="Ann")
    with pytest.raises(Conflict) as told:
        store.save_drawer(job.id, "A", mine, based_on=1)
    assert [(one.mine, one.theirs) for one in told.value.drawers] == [(mine, theirs)]
    assert f"was {'changed' if removed_by == 'me' else 'removed'} by Ann" in str(told.value)


def test_one_drawer_saved_late_meets_only_what_was_done_to_it(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer
) -> None:
    job = store.create_job(two_drawers)
    store.save_drawer(job.id, "B", a_drawer("B", side=18), based_on=1)
    store.save_drawer(job.id, "C", a_drawer("C"), based_on=1)
    saved = store.save_drawer(job.id, "A", a_drawer("A", side=19), based_on=1)
    assert saved.how == "merged"
    assert [(one["id"], one["side"]) for one in saved.values["drawer"]] == [("A", 19), ("B", 18), ("C", 16)]
    store.save_drawer(job.id, "C", a_drawer("C", side=18), based_on=saved.revision)
    renamed = store.save_drawer(job.id, "A", a_drawer("Z"), based_on=saved.revision)
    assert [one["id"] for one in renamed.values["drawer"]] == ["Z", "B", "C"]


def test_a_new_drawer_of_the_same_id_on_both_sides_is_a_conflict_unless_they_are_alike(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer
) -> None:
    job = store.create_job(two_drawers)
    store.save_drawer(job.id, "C", a_drawer("C"), based_on=1)
    assert store.save_drawer(job.id, "C", a_drawer("C"), based_on=1).revision == 2
    with pytest.raises(Conflict) as told:
        store.save_drawer(job.id, "C", a_drawer("C", side=18), based_on=1)
    assert told.value.drawers[0].base is None


def test_both_may_add_and_one_may_move(store: Store, two_drawers: Values, a_drawer: MakeDrawer) -> None:
    job = store.create_job(two_drawers)
    store.add_drawers(job.id, [a_drawer("T1"), a_drawer("T2")], based_on=1)
    saved = store.add_drawers(job.id, [a_drawer("M1"), a_drawer("M2")], based_on=1)
    assert [one["id"] for one in saved.values["drawer"]] == ["A", "B", "T1", "T2", "M1", "M2"]
    store.order_drawers(job.id, ["B", "A"], based_on=1)
    ids = [one["id"] for one in store.job(job.id).values["drawer"]]
    assert ids.index("B") < ids.index("A")
    assert sorted(ids) == ["A", "B", "M1", "M2", "T1", "T2"]


def test_two_orders_that_both_moved_things_are_a_conflict(store: Store, a_drawer: MakeDrawer) -> None:
    job = store.create_job({"drawer": [a_drawer(name) for name in "ABC"]})
    store.order_drawers(job.id, ["C", "A", "B"], based_on=1, by="Ann")
    with pytest.raises(Conflict, match="order of the drawers: was changed by Ann") as told:
        store.order_drawers(job.id, ["B", "A", "C"], based_on=1)
    assert [one["id"] for one in store.job(job.id, told.value.kept_revision).values["drawer"]] == [
        "B",
        "A",
        "C",
    ]
    assert store.order_drawers(job.id, ["C", "A", "B"], based_on=1).revision == 2


def test_a_conflict_survives_the_way_to_another_process(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    store.save_job(job.id, with_side(two_drawers, 0, 18), based_on=1)
    with pytest.raises(Conflict) as told:
        store.save_job(job.id, with_side(two_drawers, 0, 19), based_on=1)
    again = pickle.loads(pickle.dumps(told.value))
    assert type(again) is Conflict
    assert (str(again), again.mine, again.faults) == (str(told.value), told.value.mine, told.value.faults)


def test_a_clash_of_a_whole_without_keys_names_none(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    store.save_job(job.id, {**two_drawers, "title": "theirs"}, based_on=1)
    with pytest.raises(Conflict) as raised:
        store.save_job(job.id, {**two_drawers, "title": "mine"}, based_on=1)
    (fault,) = raised.value.faults
    assert "was changed by somebody meanwhile, in revision 2" in fault.says
