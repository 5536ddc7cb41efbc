"""Jobs kept as revisions: made, read, saved, listed."""

from __future__ import annotations

import copy
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.store import NotInStore, Store

Values = dict[str, Any]
MakeDrawer = Callable[..., Values]


def test_a_job_comes_back_as_it_was_given(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers, by="Ann")
    again = store.job(job.id)
    assert again.values == two_drawers
    assert list(again.values) == ["title", "units", "defaults", "cabinet", "drawer"]
    assert list(again.values["drawer"][0]) == list(two_drawers["drawer"][0])
    assert (again.revision, again.by, again.how, again.drawer_count) == (1, "Ann", "saved", 2)
    assert again.saved_at == datetime(2030, 5, 6, 7, 8, 10, 123456, tzinfo=UTC)


def test_an_empty_job_has_every_key_of_the_job_file(store: Store) -> None:
    values = store.create_job({}).values
    assert values == {"title": "", "units": "mm", "defaults": {}, "cabinet": [], "drawer": []}


def test_what_is_half_typed_is_kept(store: Store) -> None:
    values = {
        "title": "½ typed",
        "units": "furlong",
        "defaults": {"front": None},
        "cabinet": [],
        "drawer": [{}, {"id": ""}, {"id": "A", "side": "a bit"}, {"id": "A"}, {"id": 7}, {"id": None}],
        "hints": ["kept too"],
    }
    kept = store.job(store.create_job(values).id).values
    assert kept["drawer"] == values["drawer"]
    assert kept == values


def test_several_changes_saved_at_once_are_a_revision_each_and_one_where_others_saved_since(
    store: Store, two_drawers: Values
) -> None:
    job = store.create_job(two_drawers)
    stages: list[Values] = []
    for note in ("one", "two", "three"):
        stages.append(copy.deepcopy(stages[-1] if stages else two_drawers))
        stages[-1]["drawer"][0]["note"] = note
    assert store.save_job_in_steps(job.id, stages, based_on=1).revision == 4
    assert store.save_job_in_steps(job.id, stages, based_on=1).revision == 4, "sent twice is done once"
    assert store.undo(job.id, based_on=4).values["drawer"][0]["note"] == "two"
    other = store.create_job(two_drawers)
    store.save_drawer(other.id, "B", None, based_on=1)
    assert store.save_job_in_steps(other.id, stages, based_on=1).revision == 3
    (left,) = store.job(other.id).values["drawer"]
    assert (left["id"], left["note"]) == ("A", "three")


def test_each_save_is_a_revision_and_says_what_changed(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers, by="Ann")
    changed = copy.deepcopy(two_drawers)
    changed["drawer"][0]["opening"]["width"] = 561.5
    changed["drawer"][0]["note"] = "tight"
    store.save_job(job.id, changed, based_on=1, by="Bob")
    store.save_drawer(job.id, "B", None, based_on=2, by="Cay", what="not wanted")
    told = [(one.number, one.by, one.what, one.entries) for one in store.revisions(job.id)]
    assert told == [
        (3, "Cay", "not wanted", 1),
        (2, "Bob", "changed drawer A: opening.width, note", 2),
        (1, "Ann", "begun", 2),
    ]
    assert store.job(job.id, 1).values == two_drawers
    assert store.job(job.id, 2).values == changed
    assert [one.number for one in store.revisions(job.id, most=2)] == [3, 2]
    assert [one.number for one in store.revisions(job.id, before=3, most=10**30)] == [2, 1]
    assert store.revisions(job.id, before=-(10**30)) == []


def test_a_save_that_changes_nothing_makes_no_revision(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    as_a_browser_sends_it = copy.deepcopy(two_drawers)
    as_a_browser_sends_it["drawer"][0]["side"] = 16.0
    as_a_browser_sends_it["drawer"][1] = dict(reversed(as_a_browser_sends_it["drawer"][1].items()))
    assert store.save_job(job.id, as_a_browser_sends_it, based_on=1).revision == 1
    assert store.save_drawer(job.id, "B", two_drawers["drawer"][1], based_on=1).revision == 1
    assert store.save_drawer(job.id, "no such", None, based_on=1).revision == 1
    assert len(store.revisions(job.id)) == 1


def test_true_and_one_are_two_things(store: Store, a_drawer: MakeDrawer) -> None:
    job = store.create_job({"drawer": [a_drawer("A", stabiliser=True)]})
    saved = store.save_drawer(job.id, "A", a_drawer("A", stabiliser=1), based_on=1)
    assert saved.revision == 2
    assert saved.values["drawer"][0]["stabiliser"] is not True


def test_a_drawer_that_is_not_there_is_added_at_the_end(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer
) -> None:
    job = store.create_job(two_drawers)
    saved = store.save_drawer(job.id, "C", a_drawer("C"), based_on=1)
    assert [one["id"] for one in saved.values["drawer"]] == ["A", "B", "C"]
    assert (saved.drawer_count, saved.what) == (3, "added drawer C")


def test_a_drawer_that_is_renamed_keeps_its_place(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer
) -> None:
    job = store.create_job(two_drawers)
    saved = store.save_drawer(job.id, "A", a_drawer("Z"), based_on=1)
    assert [one["id"] for one in saved.values["drawer"]] == ["Z", "B"]
    assert saved.drawer_count == 2


def test_one_of_two_drawers_with_the_same_id_is_changed_alone(store: Store, a_drawer: MakeDrawer) -> None:
    job = store.create_job({"drawer": [a_drawer("A"), a_drawer("A", note="second"), a_drawer("")]})
    saved = store.save_drawer(job.id, "A", a_drawer("A", note="first"), based_on=1)
    assert [one.get("note") for one in saved.values["drawer"]] == ["first", "second", None]
    saved = store.save_drawer(job.id, "A", None, based_on=2)
    assert [one.get("note") for one in saved.values["drawer"]] == ["second", None]
    saved = store.save_drawer(job.id, "", None, based_on=3)
    assert [one.get("note") for one in saved.values["drawer"]] == ["second"]


def test_drawers_are_added_behind_one_and_put_in_order(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer
) -> None:
    job = store.create_job(two_drawers)
    saved = store.add_drawers(job.id, [a_drawer("A1"), a_drawer("A2")], after="A", based_on=1)
    assert [one["id"] for one in saved.values["drawer"]] == ["A", "A1", "A2", "B"]
    saved = store.add_drawers(job.id, [a_drawer("C")], based_on=saved.revision)
    assert [one["id"] for one in saved.values["drawer"]] == ["A", "A1", "A2", "B", "C"]
    saved = store.order_drawers(job.id, ["C", "A", "A1", "A2", "B"], based_on=saved.revision)
    assert [one["id"] for one in saved.values["drawer"]] == ["C", "A", "A1", "A2", "B"]
    assert saved.what == "moved drawer C"
    with pytest.raises(InputError, match="each once"):
        store.order_drawers(job.id, ["C", "A", "A", "A2", "B"], based_on=saved.revision)
    with pytest.raises(InputError, match="is no drawer of this job"):
        store.add_drawers(job.id, [a_drawer("D")], after="nobody", based_on=saved.revision)


def test_jobs_are_listed_with_the_one_saved_last_first(store: Store, two_drawers: Values) -> None:
    first, second = store.create_job(two_drawers), store.create_job({"title": "Bath", "units": "in"})
    assert [card.title for card in store.jobs()] == ["Bath", "Kitchen"]
    store.save_drawer(first.id, "B", None, based_on=1, by="Cay")
    cards = store.jobs()
    assert [(one.id, one.title, one.units, one.drawers, one.revision) for one in cards] == [
        (first.id, "Kitchen", "mm", 1, 2),
        (second.id, "Bath", "in", 0, 1),
    ]
    assert cards[0].by == "Cay"


@pytest.mark.parametrize("name", ["999", "", "x", "-1", "²", "1" * 30, "a\0b", "\ud800", "1 or 1=1"])
def test_a_job_that_is_not_there_is_said_so(store: Store, name: str) -> None:
    store.create_job({})
    with pytest.raises(NotInStore, match="is no job of this store"):
        store.job(name)
    with pytest.raises(NotInStore):
        store.save_drawer(name, "A", {}, based_on=1)


@pytest.mark.parametrize("number", [0, -1, 2, 2**40, 2**80])
def test_a_revision_that_is_not_there_is_said_so(store: Store, number: int) -> None:
    job = store.create_job({})
    with pytest.raises(NotInStore, match="is no revision of this store; try 1 to 1"):
        store.job(job.id, number)
    with pytest.raises(NotInStore):
        store.save_job(job.id, {}, based_on=number)
    with pytest.raises(NotInStore):
        store.compare(job.id, 1, number)


def test_two_revisions_are_compared_key_by_key(
    store: Store, two_drawers: Values, a_drawer: MakeDrawer
) -> None:
    job = store.create_job(two_drawers)
    changed = copy.deepcopy(two_drawers)
    changed |= {"title": "Pantry", "defaults": {"contents": "25 kg"}}
    changed["cabinet"][0]["first_row"] = 45
    changed["drawer"] = [a_drawer("C"), changed["drawer"][1], changed["drawer"][0]]
    changed["drawer"][2]["opening"]["width"] = [562, 561]
    store.save_job(job.id, changed, based_on=1)
    told = store.compare(job.id, 1, 2)
    keys = {(part.name, part.change): {k.key: (k.old, k.new) for k in part.keys} for part in told.parts}
    assert keys[("title", "changed")] == {"": ("Kitchen", "Pantry")}
    assert keys[("defaults.contents", "changed")] == {"": ("20 kg", "25 kg")}
    assert keys[("defaults.front", "removed")] == {"style": ("overlay", None)}
    assert keys[("cabinet B1", "changed")] == {"first_row": (None, 45)}
    assert keys[("drawer A", "changed")] == {"opening.width": (562, [562, 561])}
    assert [part.id for part in told.drawers] == ["C", "A"]
    assert told.moved == {"drawer": ("B",)}
    assert store.compare(job.id, 2, 2).as_json() == {"old": 2, "new": 2, "parts": [], "moved": {}}


def test_a_job_goes_to_the_bin_and_comes_back(store: Store, two_drawers: Values) -> None:
    job = store.create_job(two_drawers)
    store.bin_job(job.id)
    store.bin_job(job.id)
    assert store.jobs() == []
    assert [card.id for card in store.jobs(binned=True)] == [job.id]
    for change in (
        lambda: store.save_drawer(job.id, "B", None, based_on=1),
        lambda: store.save_job(job.id, {}, based_on=1),
        lambda: store.save_job_in_steps(job.id, [{}], based_on=1),
        lambda: store.undo(job.id, based_on=1),
        lambda: store.redo(job.id, based_on=1),
    ):
        with pytest.raises(InputError, match="lies in the bin"):
            change()
    store.restore_job(job.id)
    assert [(card.drawers, card.revision) for card in store.jobs()] == [(2, 1)]
    assert store.job(job.id).binned_at is None


def test_a_job_is_deleted_for_good_only_from_the_bin_and_when_it_is_named_again(
    store: Store, two_drawers: Values
) -> None:
    job, other = store.create_job(two_drawers), store.create_job(two_drawers)
    store.add_gaps(job.id, "A", {"left_top": 2})
    with pytest.raises(InputError, match="is not in the bin"):
        store.delete_job(job.id, sure=job.id)
    store.bin_job(job.id)
    for sure in ("", "yes", other.id):
        with pytest.raises(InputError, match="only when that is said again"):
            store.delete_job(job.id, sure=sure)
    store.delete_job(job.id, sure="Kitchen")
    with pytest.raises(NotInStore):
        store.job(job.id)
    assert store.job(other.id).values == two_drawers
    store.bin_job(other.id)
    store.delete_job(other.id, sure=other.id)
    assert store.jobs(binned=True) == []
    assert store.create_job({}).id not in (job.id, other.id)
