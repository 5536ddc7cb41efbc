"""Many threads, several processes, and a process that is killed: nothing that was saved is lost."""

from __future__ import annotations

import signal
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from sqlalchemy import make_url

from drawerwright.store import Conflict, Store, open_store

MakeDrawer = Callable[..., dict[str, Any]]

SAVER = """
import sys
from drawerwright.store import open_store
address, job, me, times = sys.argv[1:]
with open_store(address) as store:
    seen = 1
    for at in range(int(times)):
        drawer = {"id": f"{me}{at % 5}", "side": 16, "note": f"{me} {at}"}
        seen = store.save_drawer(job, drawer["id"], drawer, based_on=seen, by=me).revision
        print(seen, flush=True)
"""


def processes(address: str, job: str, names: str, times: int) -> list[subprocess.Popen[str]]:
    return [
        subprocess.Popen(
            [sys.executable, "-c", SAVER, address, job, name, str(times)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for name in names
    ]


def test_processes_that_save_into_one_job_at_once_lose_nothing(address: str, a_drawer: MakeDrawer) -> None:
    with open_store(address) as store:
        job = store.create_job({"drawer": [a_drawer("A")]}).id
        running = processes(address, job, "xyz", 20)
        said = [one.communicate() for one in running]
        assert [fault for _, fault in said] == ["", "", ""]
        numbers = sorted(int(line) for told, _ in said for line in told.split())
        assert numbers == list(range(2, 62))
        drawers = {one["id"]: one.get("note") for one in store.job(job).values["drawer"]}
        wanted = {f"{name}{at}": f"{name} {15 + at}" for name in "xyz" for at in range(5)}
        assert drawers == {"A": None, **wanted}
        for one in store.revisions(job)[:-1]:
            (changed,) = store.compare(job, one.number - 1, one.number).parts
            assert changed.id.startswith(one.by)


def test_threads_on_different_drawers_all_get_through(store: Store, a_drawer: MakeDrawer) -> None:
    names = [f"D{at}" for at in range(8)]
    job = store.create_job({"drawer": [a_drawer(name) for name in names]}).id

    def save(name: str) -> None:
        seen = 1
        for at in range(6):
            drawer = a_drawer(name, note=str(at))
            seen = store.save_drawer(job, name, drawer, based_on=seen).revision

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(save, names))
    assert [one["note"] for one in store.job(job).values["drawer"]] == ["5"] * 8
    assert len(store.revisions(job)) == 1 + 8 * 6


def test_threads_on_one_drawer_each_save_or_are_kept_on_the_side(store: Store, a_drawer: MakeDrawer) -> None:
    job = store.create_job({"drawer": [a_drawer("A")]}).id
    outcomes: list[str] = []
    barrier = threading.Barrier(8)

    def save(name: str) -> None:
        barrier.wait()
        try:
            store.save_drawer(job, "A", a_drawer("A", note=name), based_on=1, by=name)
            outcomes.append("saved")
        except Conflict as conflict:
            kept = store.job(job, conflict.kept_revision).values["drawer"]
            outcomes.append("kept" if kept == [a_drawer("A", note=name)] else "lost")

    threads = [threading.Thread(target=save, args=(f"t{at}",)) for at in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["kept"] * 7 + ["saved"]
    assert {one.by for one in store.revisions(job)} == {"", *(f"t{at}" for at in range(8))}


def test_readers_see_one_moment_while_others_write(store: Store, a_drawer: MakeDrawer) -> None:
    both = [a_drawer("A", note="0"), a_drawer("B", note="0")]
    job = store.create_job({"drawer": both})
    stop = threading.Event()
    torn: list[Any] = []
    reads = 0

    def read() -> None:
        nonlocal reads
        while not stop.is_set():
            notes = [one["note"] for one in store.job(job.id).values["drawer"]]
            reads += 1
            if len(set(notes)) != 1:
                torn.append(notes)

    reader = threading.Thread(target=read)
    reader.start()
    revision = job.revision
    for at in range(1, 40):
        values = {"drawer": [a_drawer(name, note=str(at)) for name in "AB"]}
        revision = store.save_job(job.id, values, based_on=revision).revision
    stop.set()
    reader.join()
    assert reads > 3
    assert torn == []


@pytest.mark.parametrize("after", [1, 13])
def test_a_process_that_is_killed_in_mid_save_leaves_every_save_that_was_told(
    address: str, a_drawer: MakeDrawer, after: int
) -> None:
    with open_store(address) as store:
        job = store.create_job({"drawer": [a_drawer("A")]}).id
    (running,) = processes(address, job, "x", 100_000)
    assert running.stdout is not None
    told = [int(running.stdout.readline()) for _ in range(after)]
    running.send_signal(signal.SIGKILL)
    told += [int(line) for line in running.communicate()[0].split()]
    with open_store(address) as store:
        # A server may still be at the last save: this waits until it has done with the job.
        store.restore_job(job)
        head = store.job(job).revision
        # The last save may have been kept without the word of it getting out.
        assert told == list(range(2, told[-1] + 1))
        assert head in (told[-1], told[-1] + 1)
        assert [one.number for one in store.revisions(job)] == list(range(head, 0, -1))
        for number in range(2, head + 1):
            assert len(store.compare(job, number - 1, number).parts) == 1
        assert store.save_drawer(job, "A", None, based_on=head).revision == head + 1
    url = make_url(address)
    if url.drivername == "sqlite":
        with sqlite3.connect(url.database or "") as raw:
            assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
