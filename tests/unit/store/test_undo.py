"""Undo and redo: new revisions with older values; nothing is ever taken out of the history."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawerwright.errors import InputError
from drawerwright.store import Conflict, Store, StoredJob, open_store

MakeDrawer = Callable[..., dict[str, Any]]


def sides(job: StoredJob) -> list[Any]:
    return [one["side"] for one in job.values["drawer"]]


@pytest.fixture
def edited(store: Store, a_drawer: MakeDrawer) -> StoredJob:
    """A job of one drawer whose side was 16, 17, 18, 19."""
    job = store.create_job({"drawer": [a_drawer("A")]})
    for side in (17, 18, 19):
        job = store.save_drawer(job.id, "A", a_drawer("A", side=side), based_on=job.revision)
    return job


def test_undo_goes_back_step_by_step_and_redo_comes_back(store: Store, edited: StoredJob) -> None:
    job, seen = edited, []
    while job.can_undo:
        job = store.undo(job.id, based_on=job.revision, by="Ann")
        seen.append(sides(job))
    assert seen == [[18], [17], [16]]
    with pytest.raises(InputError, match="shows what was there first: nothing is before it"):
        store.undo(job.id, based_on=job.revision)
    seen = []
    while job.can_redo:
        job = store.redo(job.id, based_on=job.revision)
        seen.append(sides(job))
    assert seen == [[17], [18], [19]]
    with pytest.raises(InputError, match="there is nothing to bring back"):
        store.redo(job.id, based_on=job.revision)
    told = store.revisions(job.id)
    assert len(told) == 10
    assert told[5].what == "taken back: changed drawer A: side"
    assert told[5].how == "undo"


def test_a_save_after_undo_ends_what_redo_could_bring_and_keeps_it_in_the_history(
    store: Store, edited: StoredJob, a_drawer: MakeDrawer
) -> None:
    back = store.undo(edited.id, based_on=edited.revision)
    saved = store.save_drawer(edited.id, "A", a_drawer("A", side=12), based_on=back.revision)
    assert not saved.can_redo
    assert sides(store.undo(edited.id, based_on=saved.revision)) == [18]
    assert sides(store.job(edited.id, edited.revision)) == [19]


def test_undo_leaves_what_others_saved_since(store: Store, edited: StoredJob, a_drawer: MakeDrawer) -> None:
    store.save_drawer(edited.id, "B", a_drawer("B", side=12), based_on=edited.revision, by="Bob")
    back = store.undo(edited.id, based_on=edited.revision)
    assert sides(back) == [18, 12]
    assert back.how == "merged"


def test_undo_of_what_somebody_changed_since_is_a_conflict(
    store: Store, edited: StoredJob, a_drawer: MakeDrawer
) -> None:
    store.save_drawer(edited.id, "A", a_drawer("A", side=12), based_on=edited.revision, by="Bob")
    with pytest.raises(Conflict, match="drawer A: was changed by Bob"):
        store.undo(edited.id, based_on=edited.revision)


def test_undo_after_a_merge_takes_back_the_last_change_alone(
    store: Store, edited: StoredJob, a_drawer: MakeDrawer
) -> None:
    store.save_drawer(edited.id, "B", a_drawer("B"), based_on=edited.revision)
    merged = store.save_drawer(edited.id, "C", a_drawer("C"), based_on=edited.revision)
    back = store.undo(edited.id, based_on=merged.revision)
    assert [one["id"] for one in back.values["drawer"]] == ["A", "B"]


class Model:
    """What undo and redo should show: a list of values, and where one stands in it."""

    def __init__(self) -> None:
        self.states: list[int] = [16]
        self.at = 0

    def save(self, side: int) -> None:
        if side != self.states[self.at]:
            self.states[self.at + 1 :] = [side]
            self.at += 1


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.one_of(st.integers(12, 15), st.sampled_from(["undo", "redo"])), max_size=14))
def test_any_mix_of_saves_undo_and_redo_shows_what_a_list_with_a_finger_on_it_shows(
    sqlite_address: str, a_drawer: MakeDrawer, steps: list[Any]
) -> None:
    model = Model()
    with open_store(sqlite_address) as store:
        job = store.create_job({"drawer": [a_drawer("A")]})
        for step in steps:
            if step == "undo" and job.can_undo:
                job, model.at = store.undo(job.id, based_on=job.revision), model.at - 1
            elif step == "redo" and job.can_redo:
                job, model.at = store.redo(job.id, based_on=job.revision), model.at + 1
            elif isinstance(step, int):
                job = store.save_drawer(job.id, "A", a_drawer("A", side=step), based_on=job.revision)
                model.save(step)
            assert sides(job) == [model.states[model.at]]
            assert (job.can_undo, job.can_redo) == (model.at > 0, model.at < len(model.states) - 1)
