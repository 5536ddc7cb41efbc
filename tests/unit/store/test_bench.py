"""What comes from the bench: gap readings and ticks, also twice, late, and in the wrong order."""

from __future__ import annotations

import itertools
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.store import NotInStore, Store

NOON = datetime(2030, 5, 6, 12, tzinfo=UTC)


@pytest.fixture
def job(store: Store, two_drawers: dict[str, Any]) -> str:
    return store.create_job(two_drawers).id


def test_gap_readings_are_kept_each_as_it_was_taken(store: Store, job: str) -> None:
    store.add_gaps(job, "A", {"left_top": 2.5, "right_top": 3}, by="Ann")
    store.add_gaps(job, "B", {"left_top": 2})
    store.add_gaps(job, "A", {"left_top": 3.0}, by="Bob")
    readings = store.gaps(job, "A")
    assert [(one.drawer, one.values, one.by) for one in readings] == [
        ("A", {"left_top": 2.5, "right_top": 3}, "Ann"),
        ("A", {"left_top": 3}, "Bob"),
    ]
    assert readings[0].saved_at < readings[1].saved_at
    assert len(store.gaps(job)) == 3
    assert store.gaps(job, "C") == []


def test_a_reading_that_is_sent_twice_is_kept_once(store: Store, job: str) -> None:
    first = store.add_gaps(job, "A", {"left_top": 2.5}, token="tablet-1")
    assert store.add_gaps(job, "A", {"left_top": 2.5}, token="tablet-1") == first
    store.add_gaps(job, "A", {"left_top": 2.5}, token="tablet-2")
    other = store.create_job({"drawer": [{"id": "A"}]}).id
    store.add_gaps(other, "A", {"left_top": 2.5}, token="tablet-1")
    assert len(store.gaps(job)) == 2


def test_a_token_goes_with_one_reading_and_swallows_no_other(store: Store, job: str) -> None:
    first = store.add_gaps(job, "A", {"left_top": 2.5}, token="tablet-1")
    for drawer, values in (("B", {"left_top": 2.5}), ("A", {"left_top": 9}), ("A", {"left_top": True})):
        with pytest.raises(InputError, match="another reading"):
            store.add_gaps(job, drawer, values, token="tablet-1")
    again = store.add_gaps(job, "A", {"left_top": 2.5}, token="tablet-1")
    assert (first.again, again.again) == (False, True)
    assert store.gaps(job) == [first]


def test_readings_are_of_drawers_that_are_there_or_were_called_so(store: Store, job: str) -> None:
    with pytest.raises(InputError, match="no drawer of this job"):
        store.add_gaps(job, "nix", {"left_top": 3})
    store.save_drawer(job, "A", {"id": "A2"}, based_on=1)
    store.add_gaps(job, "A", {"left_top": 3})
    assert [one.drawer for one in store.gaps_now(job)] == ["A2"]


@pytest.mark.parametrize(
    ("drawer", "values"), [("", {}), ("A", []), ("A", {"left_top": float("nan")}), ("A\0", {}), (5, {})]
)
def test_a_reading_that_cannot_be_kept_is_refused(store: Store, job: str, drawer: Any, values: Any) -> None:
    with pytest.raises(InputError):
        store.add_gaps(job, drawer, values)
    assert store.gaps(job) == []


def test_readings_and_ticks_belong_to_a_job_that_is_there(store: Store) -> None:
    for ask in (
        lambda: store.add_gaps("7", "A", {}),
        lambda: store.gaps("7"),
        lambda: store.ticks("7"),
        lambda: store.set_tick("7", "A", "bore", True, at=NOON),
    ):
        with pytest.raises(NotInStore):
            ask()


def test_ticks_are_set_and_taken_away(store: Store, job: str) -> None:
    store.set_tick(job, "B", "bore", True, at=NOON, by="Ann")
    store.set_tick(job, "A", "notch", True, at=NOON)
    store.set_tick(job, "A", "bore", True, at=NOON)
    told = store.set_tick(job, "A", "notch", False, at=NOON + timedelta(minutes=5))
    assert told.done is False
    ticks = [(one.drawer, one.step, one.done) for one in store.ticks(job)]
    assert ticks == [("A", "bore", True), ("A", "notch", False), ("B", "bore", True)]
    assert [one.step for one in store.ticks(job, "B")] == ["bore"]
    assert store.ticks(job, "B")[0].at == NOON


SAID = [(NOON, True, "Ann"), (NOON + timedelta(seconds=1), False, "Bob"), (NOON, False, "Cay")]


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_what_was_said_last_holds_in_whatever_order_and_however_often_it_comes(
    store: Store, job: str, order: tuple[int, ...]
) -> None:
    for at, done, by in [SAID[one] for one in (*order, *order)]:
        store.set_tick(job, "A", "bore", done, at=at, by=by)
    (tick,) = store.ticks(job)
    assert (tick.done, tick.by, tick.at) == (False, "Bob", NOON + timedelta(seconds=1))


def test_at_the_same_moment_done_wins(store: Store, job: str) -> None:
    for done in (True, False):
        assert store.set_tick(job, "A", "bore", done, at=NOON).done is True


def test_a_bench_in_another_zone_means_the_same_moment(store: Store, job: str) -> None:
    there = NOON.astimezone(timezone(timedelta(hours=5, minutes=30)))
    assert store.set_tick(job, "A", "bore", True, at=there).at == NOON
    assert store.ticks(job)[0].at == NOON


@pytest.mark.parametrize(
    ("at", "says"),
    [
        (datetime(2030, 5, 6, 12), "has no zone"),
        (NOON + timedelta(days=2), "is this clock right?"),
        (datetime.max.replace(tzinfo=UTC), "is this clock right?"),
        (datetime.min.replace(tzinfo=timezone(timedelta(hours=14))), "is this clock right?"),
    ],
)
def test_a_bench_whose_clock_is_wrong_is_told(store: Store, job: str, at: datetime, says: str) -> None:
    with pytest.raises(InputError, match=says):
        store.set_tick(job, "A", "bore", True, at=at)
    assert store.ticks(job) == []


def test_test_logs_grow_row_by_row(store: Store) -> None:
    log = store.create_log(" Own 16, 45 kg ", values={"family": "own-16", "load": 45}, by="Ann")
    assert log.title == "Own 16, 45 kg"
    store.append_rows(log.id, [{"sample": "1", "cycles": 0, "sag": 0.5}, {"sample": "2", "cycles": 0}])
    grown = store.append_rows(
        log.id, [{"sample": "1", "cycles": 10000, "event": "failure", "note": "roller"}]
    )
    assert grown.row_count == 3
    assert [one["cycles"] for one in store.log(log.id).rows] == [0, 0, 10000]
    other = store.create_log("Second")
    assert [(one.id, one.row_count, one.rows) for one in store.logs()] == [(other.id, 0, ()), (log.id, 3, ())]
    assert store.log(log.id).values == {"family": "own-16", "load": 45}


def test_rows_that_are_sent_twice_are_kept_once(store: Store) -> None:
    log = store.create_log("Log").id
    for _ in range(2):
        store.append_rows(log, [{"cycles": 1}, {"cycles": 2}], token="rig-7")
    store.append_rows(log, [{"cycles": 3}], token="rig-8")
    assert [one["cycles"] for one in store.log(log).rows] == [1, 2, 3]


def test_a_row_that_will_not_do_stops_all_of_them_and_all_faults_are_told(store: Store) -> None:
    log = store.create_log("Log").id
    with pytest.raises(InputError) as told:
        store.append_rows(log, [{"cycles": 1}, {"cicles": 2}, [], {"sag": float("inf")}])  # type: ignore[list-item]
    assert [fault.where for fault in told.value.faults] == ["log row 2", "log row 3", "log row 4 sag"]
    assert 'the nearest is "cycles"' in str(told.value)
    assert store.log(log).rows == ()
    with pytest.raises(InputError, match="several parts"):
        store.append_rows(log, [{}] * 10_001)
    with pytest.raises(NotInStore, match="is no log of this store"):
        store.append_rows("8", [])
    with pytest.raises(InputError, match="log title"):
        store.create_log("  ")
