"""A shop's own slide families: only sound ones are kept, and they are taken back as jobs are."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from drawerwright.catalogue import families_from_mappings
from drawerwright.errors import InputError
from drawerwright.store import Conflict, NotInStore, Store

Values = dict[str, Any]


@pytest.fixture
def own_16() -> Values:
    """An invented family, with units told."""
    return {
        "id": "own-16",
        "title": "Own slides, 16",
        "invented": True,
        "capacity": "45 kg",
        "inside_width_deduction": "42 mm",
        "length": [
            {"nominal": 450, "member": 450, "holes": [0, 32, 224, 366]},
            {"nominal": 500, "member": 500, "holes": [0, 32, 224, 416]},
        ],
    }


def test_a_family_comes_back_as_it_was_written_and_can_be_used(store: Store, own_16: Values) -> None:
    saved = store.save_family(own_16, by="Ann")
    assert (saved.id, saved.revision, saved.title) == ("own-16", 1, "Own slides, 16")
    (family,) = store.families()
    assert family.values == own_16
    assert list(family.values)[:2] == ["id", "title"]
    assert families_from_mappings([family.values])[0].capacity == 45


def test_what_is_no_family_is_refused_with_all_its_faults(store: Store, own_16: Values) -> None:
    with pytest.raises(InputError) as told:
        store.save_family({**own_16, "capacity": "heavy", "extention": "full"})
    assert [fault.where.split()[-1] for fault in told.value.faults] == ["capacity", "extention"]
    assert 'the nearest is "extension"' in str(told.value)
    with pytest.raises(InputError, match="is not a table of keys"):
        store.save_family([])
    assert store.families() == []


def test_two_who_change_different_keys_and_lengths_both_get_them(store: Store, own_16: Values) -> None:
    store.save_family(own_16)
    mine, theirs = copy.deepcopy(own_16), copy.deepcopy(own_16)
    theirs["capacity"], theirs["length"][0]["price"] = "40 kg", 12
    mine["title"], mine["length"][1]["price"] = "Other title", 14
    store.save_family(theirs, based_on=1)
    saved = store.save_family(mine, based_on=1)
    assert saved.how == "merged"
    assert (saved.values["capacity"], saved.values["title"]) == ("40 kg", "Other title")
    assert [one["price"] for one in saved.values["length"]] == [12, 14]


def test_the_same_key_changed_on_both_sides_is_a_conflict(store: Store, own_16: Values) -> None:
    store.save_family(own_16)
    store.save_family({**own_16, "capacity": "40 kg"}, based_on=1, by="Ann")
    with pytest.raises(Conflict, match="family own-16 capacity: was changed by Ann"):
        store.save_family({**own_16, "capacity": "50 kg"}, based_on=1)


def test_a_new_family_whose_id_is_taken_is_a_conflict_unless_it_is_the_same(
    store: Store, own_16: Values
) -> None:
    store.save_family(own_16)
    assert store.save_family(own_16).revision == 1
    with pytest.raises(Conflict) as told:
        store.save_family({**own_16, "capacity": "50 kg"})
    assert [part.name for part in told.value.parts] == ["capacity"]
    assert store.family("own-16", told.value.kept_revision).values["capacity"] == "50 kg"
    with pytest.raises(Conflict) as told:
        store.save_family({**own_16, "min_gap": 4})
    assert [part.name for part in told.value.parts] == ["min_gap"]
    with pytest.raises(NotInStore):
        store.save_family({**own_16, "id": "unknown"}, based_on=3)


def test_families_have_undo_comparing_and_a_bin(store: Store, own_16: Values) -> None:
    store.save_family(own_16)
    saved = store.save_family({**own_16, "capacity": "40 kg"}, based_on=1)
    assert store.undo_family("own-16", based_on=2).values == own_16
    assert store.redo_family("own-16", based_on=3).values == saved.values
    assert [part.name for part in store.compare_family("own-16", 1, 2).parts] == ["capacity"]
    assert [one.how for one in store.family_revisions("own-16")] == ["redo", "undo", "saved", "saved"]
    store.bin_family("own-16")
    assert store.families() == []
    assert [one.id for one in store.families(binned=True)] == ["own-16"]
    with pytest.raises(InputError, match="is the id of a family in the bin"):
        store.save_family(own_16)
    store.restore_family("own-16")
    assert [one.id for one in store.families()] == ["own-16"]
    store.bin_family("own-16")
    with pytest.raises(InputError, match="only when that is said again"):
        store.delete_family("own-16", sure="own")
    store.delete_family("own-16", sure="own-16")
    assert store.save_family(own_16).revision == 1


def test_jobs_and_families_do_not_get_in_each_others_way(store: Store, own_16: Values) -> None:
    store.save_family({**own_16, "id": "1"})
    job = store.create_job({"title": "own-16"})
    store.save_family(own_16)
    assert [one.id for one in store.families()] == ["1", "own-16"]
    assert [one.id for one in store.jobs()] == [job.id]
    with pytest.raises(NotInStore):
        store.family(job.id)
