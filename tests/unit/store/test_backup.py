"""A store as one file, and a store made from it: the same on SQLite and PostgreSQL, whole or not at all."""

from __future__ import annotations

import json
import threading
import warnings
import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.store import Conflict, Store, StoreUnusable, backup, open_store, restore
from drawerwright.store.tables import SCHEMA

Values = dict[str, Any]
MakeDrawer = Callable[..., Values]


def fill(store: Store, values: Values) -> str:
    """A store with one of everything in it: a conflict, undo, the bin, a family, gaps, ticks, a log."""
    job = store.create_job(values, by="Ann Ö")
    drawer = values["drawer"][0]
    store.save_drawer(job.id, "A", {**drawer, "side": 18}, based_on=1)
    with pytest.raises(Conflict):
        store.save_drawer(job.id, "A", {**drawer, "side": 19, "note": None}, based_on=1)
    store.undo(job.id, based_on=2)
    store.bin_job(store.create_job({}).id)
    length = {"nominal": 500, "holes": [0, 32, 224, 416]}
    store.save_family({"id": "own", "capacity": 45, "inside_width_deduction": 42, "length": [length]})
    store.add_gaps(job.id, "A", {"left_top": 2.5}, token="t")
    store.set_tick(job.id, "A", "bore", True, at=datetime(2030, 5, 6, tzinfo=UTC))
    store.append_rows(store.create_log("Log").id, [{"cycles": 1}, {"cycles": 2}])
    return job.id


def everything(store: Store, job: str) -> list[Any]:
    """All that can be asked."""
    return [
        store.jobs(),
        store.jobs(binned=True),
        store.revisions(job),
        [store.job(job, one.number).values for one in store.revisions(job)],
        [(one.id, one.revision, one.values) for one in store.families()],
        store.gaps(job),
        store.ticks(job),
        [store.log(one.id) for one in store.logs()],
    ]


def test_a_backup_of_either_kind_restores_into_either_kind(
    store: Store, bare_address: str, tmp_path: Path, two_drawers: Values
) -> None:
    job = fill(store, two_drawers)
    told = backup(store, tmp_path / "store.zip")
    assert (told.jobs, told.families, told.rows["test_row"]) == (2, 1, 2)
    assert restore(tmp_path / "store.zip", bare_address) == told
    with open_store(bare_address) as again:
        assert everything(again, job) == everything(store, job)
        backup(again, tmp_path / "again.zip")
        assert (tmp_path / "again.zip").read_bytes() == (tmp_path / "store.zip").read_bytes()
        # Numbers go on behind those that are there.
        new = again.create_job({"title": "new", "drawer": [{"id": "A"}]})
        assert new.id not in {card.id for card in (*store.jobs(), *store.jobs(binned=True))}
        assert again.add_gaps(new.id, "A", {}).id > store.gaps(job)[-1].id
        assert len(again.append_rows(again.logs()[0].id, [{"cycles": 3}]).rows) == 3


def test_a_backup_is_one_moment_while_others_write(
    store: Store, tmp_path: Path, a_drawer: MakeDrawer
) -> None:
    job = store.create_job({"drawer": [a_drawer(f"D{at}") for at in range(300)]}).id
    stop = threading.Event()
    saves = 0

    def save() -> None:
        nonlocal saves
        revision = 1
        while not stop.is_set():
            drawer = a_drawer(f"D{saves % 300}", note=str(saves))
            revision = store.save_drawer(job, drawer["id"], drawer, based_on=revision).revision
            saves += 1

    saver = threading.Thread(target=save)
    saver.start()
    try:
        paths = [tmp_path / f"{at}.zip" for at in range(4)]
        for path in paths:
            backup(store, path)
    finally:
        stop.set()
        saver.join()
    assert saves > 4
    for at, path in enumerate(paths):
        target = f"sqlite:///{tmp_path / f'{at}.sqlite3'}"
        restore(path, target)
        with open_store(target) as again:
            head = again.job(job).revision
            assert [one.number for one in again.revisions(job)] == list(range(head, 0, -1))
            assert again.job(job).values == store.job(job, head).values


def test_a_store_that_is_not_empty_is_kept_unless_it_is_said_that_it_may_go(
    store: Store, address: str, tmp_path: Path, two_drawers: Values
) -> None:
    job = fill(store, two_drawers)
    before = everything(store, job)
    backup(store, tmp_path / "store.zip")
    store.create_job({"title": "later"})
    with pytest.raises(InputError, match="is not empty: it holds 4 jobs and families, and 1 test logs"):
        restore(tmp_path / "store.zip", address)
    assert store.jobs()[0].title == "later"
    restore(tmp_path / "store.zip", address, replace=True)
    assert everything(store, job) == before


def broken(path: Path, change: Callable[[dict[str, bytes]], None]) -> Path:
    """A backup whose entries were changed."""
    with zipfile.ZipFile(path) as archive:
        entries = {name: archive.read(name) for name in archive.namelist()}
    change(entries)
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in entries.items():
            archive.writestr(name, content)
    return path


def with_manifest(**keys: Any) -> Callable[[dict[str, bytes]], None]:
    def change(entries: dict[str, bytes]) -> None:
        entries["manifest.json"] = json.dumps({**json.loads(entries["manifest.json"]), **keys}).encode()

    return change


def with_entry(name: str, content: bytes) -> Callable[[dict[str, bytes]], None]:
    return lambda entries: entries.__setitem__(name, content)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda entries: entries.pop("manifest.json"), "is no backup of a store"),
        (lambda entries: entries.pop("part.jsonl"), "is no backup of a store"),
        (with_entry("part.jsonl", b""), "part is not as it was written: the file is damaged"),
        (with_entry("part.jsonl", b'{"key": 1}\n'), "row 1 of part has other columns"),
        (with_entry("part.jsonl", b"\xff\n"), "is no backup of a store"),
        (with_entry("tick.jsonl", b"[]\n"), "is no backup of a store"),
        (with_entry("manifest.json", b"[]"), "is no backup of a store"),
        (with_entry("manifest.json", b" " * 2_000_000), "its manifest is too long"),
        (with_manifest(schema="drawerwright/pack/1"), "it is drawerwright/pack/1"),
        (with_manifest(store_schema="9999"), f"is of the schema 9999, ours is {SCHEMA}"),
        (with_manifest(tables={}), "does not name the tables of a store"),
    ],
)
def test_a_file_that_is_no_sound_backup_changes_nothing(
    sqlite_address: str, clock: Any, tmp_path: Path, two_drawers: Values, change: Any, says: str
) -> None:
    with open_store(sqlite_address, now=clock) as store:
        job = fill(store, two_drawers)
        before = everything(store, job)
        backup(store, tmp_path / "store.zip")
        with pytest.raises(InputError, match=says):
            restore(broken(tmp_path / "store.zip", change), sqlite_address, replace=True)
        assert everything(store, job) == before


def test_a_restore_that_fails_half_way_changes_nothing(
    store: Store, address: str, tmp_path: Path, two_drawers: Values
) -> None:
    job = fill(store, two_drawers)
    before = everything(store, job)
    path = tmp_path / "store.zip"
    backup(store, path)

    def point_nowhere(entries: dict[str, bytes]) -> None:
        import hashlib

        entries["tick.jsonl"] = entries["tick.jsonl"].replace(b'"document":1', b'"document":77')
        manifest = json.loads(entries["manifest.json"])
        manifest["tables"]["tick"]["sha256"] = hashlib.sha256(entries["tick.jsonl"]).hexdigest()
        entries["manifest.json"] = json.dumps(manifest).encode()

    with pytest.raises(StoreUnusable, match=r"(?i)foreign key"):
        restore(broken(path, point_nowhere), address, replace=True)
    assert everything(store, job) == before


def test_a_file_that_is_there_already_is_left_alone_and_none_is_left_behind(
    store: Store, tmp_path: Path
) -> None:
    taken = tmp_path / "taken.zip"
    taken.write_text("somebody's")
    with pytest.raises(InputError, match="is there already, and is left alone"):
        backup(store, taken)
    assert taken.read_text() == "somebody's"
    with pytest.raises(InputError, match="cannot be written"):
        backup(store, tmp_path / "no such folder" / "x.zip")
    for path, says in (
        (tmp_path / "missing.zip", "is not there"),
        (taken, "is no backup"),
        (tmp_path, "read"),
    ):
        with pytest.raises(InputError, match=says):
            restore(path, f"sqlite:///{tmp_path / 'new.sqlite3'}")
    assert sorted(one.name for one in tmp_path.iterdir() if "store.sqlite3" not in one.name) == ["taken.zip"]


def test_a_backup_with_an_entry_that_is_no_table_or_stands_twice_is_refused(
    store: Store, address: str, tmp_path: Path, two_drawers: Values
) -> None:
    fill(store, two_drawers)
    before = sorted(job.id for job in store.jobs())
    for name, says in (("more/rows.jsonl", "no table"), ("document.jsonl", "twice")):
        path = tmp_path / f"{says}.zip"
        backup(store, path)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", UserWarning)  # zipfile's own, of a name that stands twice
            with zipfile.ZipFile(path, "a") as archive:
                archive.writestr(name, "")
        with pytest.raises(InputError, match=says):
            restore(path, address, replace=True)
    assert sorted(job.id for job in store.jobs()) == before
