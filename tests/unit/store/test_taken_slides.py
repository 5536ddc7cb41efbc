"""With which families a job's slides were taken: remembered through saves, renames, the bin; taken anew."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import create_engine, make_url, text

from drawerwright.errors import InputError
from drawerwright.store import Store, open_store
from drawerwright.store.tables import VERSION_TABLE

FAMILY = {
    "id": "mine-19",
    "invented": True,
    "extension": "full",
    "capacity": "45 kg",
    "inside_width_deduction": 49,
    "design_side": 19,
    "length": [{"nominal": 500}],
}
"""A family as a file has it; invented."""

A_Drawer = Callable[..., dict[str, Any]]


def names(store: Store, job: str) -> list[frozenset[str]]:
    since = store.slides_since(job)
    return [] if since is None else [those for _, those in since.lines]


def test_a_new_job_is_taken_with_the_families_that_there_are(
    store: Store, two_drawers: dict[str, Any]
) -> None:
    store.save_family(FAMILY)
    job = store.create_job(two_drawers)
    assert store.slides_since(job.id) is None


def test_a_family_that_is_new_is_seen_by_every_job_that_was_there(
    store: Store, two_drawers: dict[str, Any]
) -> None:
    job = store.create_job(two_drawers)
    store.save_family(FAMILY)
    since = store.slides_since(job.id)
    assert since is not None
    assert since.lines == (("[]", frozenset({"A", "B"})),)
    assert store.families_in("[]") == []
    assert [one["id"] for one in store.families_in(since.now)] == ["mine-19"]


def test_an_edit_that_has_nothing_to_do_with_it_takes_no_slides(
    store: Store, two_drawers: dict[str, Any], a_drawer: A_Drawer
) -> None:
    job = store.create_job(two_drawers)
    store.save_family(FAMILY)
    job = store.save_drawer(job.id, "A", a_drawer("A", note="painted"), based_on=1)
    job = store.save_job(job.id, {**job.values, "title": "Kitchen, upstairs"}, based_on=job.revision)
    store.undo(job.id, based_on=job.revision)
    assert names(store, job.id) == [{"A", "B"}]


def test_a_drawer_that_came_later_was_taken_with_the_families_of_its_first_save(
    store: Store, two_drawers: dict[str, Any], a_drawer: A_Drawer
) -> None:
    job = store.create_job(two_drawers)
    first = store.save_family(FAMILY)
    store.save_drawer(job.id, "C", a_drawer("C"), based_on=1)
    assert names(store, job.id) == [{"A", "B"}]
    store.save_family({**FAMILY, "capacity": "50 kg"}, based_on=first.revision)
    assert names(store, job.id) == [{"A", "B"}, {"C"}]


def test_a_drawer_that_is_renamed_stays_the_drawer_that_it_was(
    store: Store, two_drawers: dict[str, Any], a_drawer: A_Drawer
) -> None:
    job = store.create_job(two_drawers)
    store.save_family(FAMILY)
    store.save_drawer(job.id, "B", a_drawer("B9", side=12.7), based_on=1)
    assert names(store, job.id) == [{"A", "B9"}]


def test_the_bin_takes_a_family_away_and_gives_it_back_as_it_was(
    store: Store, two_drawers: dict[str, Any], a_drawer: A_Drawer
) -> None:
    store.save_family(FAMILY)
    job = store.create_job(two_drawers)
    store.bin_family("mine-19")
    assert names(store, job.id) == [{"A", "B"}]
    store.save_drawer(job.id, "C", a_drawer("C"), based_on=1)
    store.restore_family("mine-19")
    assert names(store, job.id) == [{"C"}]


def test_a_family_that_is_deleted_for_good_is_told_as_gone_also_where_its_id_is_taken_again(
    store: Store, two_drawers: dict[str, Any]
) -> None:
    store.save_family(FAMILY)
    job = store.create_job(two_drawers)
    store.bin_family("mine-19")
    store.delete_family("mine-19", sure="mine-19")
    store.save_family({**FAMILY, "capacity": "20 kg"})
    since = store.slides_since(job.id)
    assert since is not None
    [(line, _)] = since.lines
    assert store.families_in(line) == []
    assert since.gone == ("mine-19",)


def test_slides_are_taken_as_a_revision_that_undo_passes_over(
    store: Store, two_drawers: dict[str, Any], a_drawer: A_Drawer
) -> None:
    job = store.create_job(two_drawers)
    edited = store.save_drawer(job.id, "A", a_drawer("A", side=12.7), based_on=1)
    store.save_family(FAMILY)
    taken = store.take_slides(job.id, by="Ann")
    assert (taken.revision, taken.by, taken.values) == (3, "Ann", edited.values)
    assert store.slides_since(job.id) is None
    back = store.undo(job.id, based_on=3)
    assert back.values == store.job(job.id, 1).values
    assert store.redo(job.id, based_on=back.revision).values == edited.values
    assert store.slides_since(job.id) is None


def test_a_save_with_these_very_families_needs_no_revision_of_its_own_to_be_taken(
    store: Store, two_drawers: dict[str, Any], a_drawer: A_Drawer
) -> None:
    job = store.create_job(two_drawers)
    store.save_family(FAMILY)
    store.save_drawer(job.id, "A", a_drawer("A", slide="house-16/500"), based_on=1)
    assert store.take_slides(job.id).revision == 2
    assert store.slides_since(job.id) is None


def test_what_was_not_seen_is_not_taken(store: Store, two_drawers: dict[str, Any]) -> None:
    job = store.create_job(two_drawers)
    first = store.save_family(FAMILY)
    since = store.slides_since(job.id)
    assert since is not None
    store.save_family({**FAMILY, "capacity": "50 kg"}, based_on=first.revision)
    with pytest.raises(InputError, match="changed again"):
        store.take_slides(job.id, seen=since.now)
    assert names(store, job.id) == [{"A", "B"}]
    assert store.job(job.id).revision == 1


def test_two_who_take_the_slides_at_once_make_one_revision(address: str, two_drawers: dict[str, Any]) -> None:
    with open_store(address) as one, open_store(address) as other:
        job = one.create_job(two_drawers)
        one.save_family(FAMILY)
        ready, revisions = threading.Barrier(2), []

        def take(store: Store) -> None:
            ready.wait()
            revisions.append(store.take_slides(job.id).revision)

        threads = [threading.Thread(target=take, args=(store,)) for store in (one, other)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert revisions == [2, 2]
        assert one.slides_since(job.id) is None
        assert other.slides_since(job.id) is None


def test_a_store_of_before_takes_the_last_save_of_each_job_as_the_choice_that_stands(
    bare_address: str, two_drawers: dict[str, Any], clock: Callable[[], Any]
) -> None:
    with open_store(bare_address, now=clock) as store:
        early = store.create_job(two_drawers)
        store.save_family(FAMILY)
        late = store.create_job(two_drawers)
    url = make_url(bare_address)
    engine = create_engine(url if url.drivername == "sqlite" else url.set(drivername="postgresql+psycopg"))
    with engine.begin() as connection:
        connection.execute(text("ALTER TABLE revision DROP COLUMN families"))
        connection.execute(text("ALTER TABLE document DROP COLUMN slides_taken"))
        connection.execute(text(f"UPDATE {VERSION_TABLE} SET version_num = '0001'"))
    engine.dispose()
    with open_store(bare_address, now=clock) as store:
        assert names(store, early.id) == [{"A", "B"}]
        assert store.slides_since(late.id) is None
