"""Packs over HTTP: built once, found by whoever asks next, watched while they are built."""

from __future__ import annotations

import hashlib
import io
import json
import os
import subprocess
import sys
import threading
import time
import zipfile
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.cli.main import run
from drawerwright.store import Store
from drawerwright.web.app import create_app
from drawerwright.web.demo_job import demo_cabinet
from drawerwright.web.packs_kept import PacksKept, Progress, Step
from drawerwright.web.settings import Settings

NAME = "a" * 64
PATIENCE = 20.0


@pytest.fixture
def job(store: Store) -> str:
    return store.create_job(demo_cabinet()).id


def messages(stream: str) -> list[dict[str, Any]]:
    """The data of server-sent events: what stands behind `data:` (WHATWG HTML, server-sent events)."""
    lines = [line.removeprefix("data: ") for line in stream.splitlines() if line.startswith("data: ")]
    return [json.loads(line) for line in lines]


def wait_until(condition: Any) -> None:
    end = time.monotonic() + PATIENCE
    while not condition():
        assert time.monotonic() < end
        threading.Event().wait(0.01)


def test_a_pack_is_the_one_that_the_command_writes(client: TestClient, job: str, tmp_path: Path) -> None:
    answer = client.get(f"/api/v1/jobs/{job}/pack?only=lists&only=labels")
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "application/zip"
    assert int(answer.headers["Content-Length"]) == len(answer.content)
    path = tmp_path / "job.toml"
    path.write_bytes(client.get(f"/api/v1/jobs/{job}/file.toml").content)
    out = tmp_path / "pack.zip"
    assert run(["pack", str(path), "--out", str(out), "--only", "labels", "--only", "lists"]) == 0
    assert answer.content == out.read_bytes()


def test_the_same_pack_is_built_once_whatever_the_order_of_its_options(
    client: TestClient, job: str, tmp_path: Path
) -> None:
    first = client.get(f"/api/v1/jobs/{job}/pack?only=lists&only=labels&paper=letter").content
    (kept,) = (tmp_path / "cache" / "packs").glob("*.zip")
    written = kept.stat().st_ino
    again = client.get(f"/api/v1/jobs/{job}/pack?paper=letter&only=labels&only=lists&only=lists").content
    assert first == again
    assert [one.stat().st_ino for one in (tmp_path / "cache" / "packs").glob("*.zip")] == [written]
    client.get(f"/api/v1/jobs/{job}/pack?only=lists")
    assert len(list((tmp_path / "cache" / "packs").glob("*.zip"))) == 2


def test_what_another_worker_built_is_found(
    client: TestClient, job: str, store: Store, tmp_path: Path
) -> None:
    address = f"/api/v1/jobs/{job}/pack?only=lists"
    first = client.get(address).content
    other = create_app(Settings(cache=str(tmp_path / "cache")), store=store)
    with TestClient(other, base_url="http://localhost") as asking:
        progress = asking.get(
            f"/api/v1/jobs/{job}/pack/progress?only=lists", headers={"Accept": "application/json"}
        )
        assert progress.json() == {"ready": f"/api/v1/jobs/{job}/pack?revision=1&only=lists"}
        assert asking.get(address).content == first


def test_progress_is_told_step_by_step_until_the_pack_is_ready(client: TestClient, job: str) -> None:
    answer = client.get(f"/api/v1/jobs/{job}/pack/progress?only=lists&only=labels")
    assert answer.headers["Content-Type"].startswith("text/event-stream")
    told = messages(answer.text)
    assert all(set(one) == {"step", "done", "of"} for one in told[:-1])
    assert [one["done"] for one in told[:-1]] == sorted(one["done"] for one in told[:-1])
    assert client.get(told[-1]["ready"]).status_code == 200


def test_who_lost_the_stream_asks_again_until_the_pack_is_ready(client: TestClient, job: str) -> None:
    address = f"/api/v1/jobs/{job}/pack/progress?only=lists"
    seen: list[dict[str, Any]] = []

    def is_ready() -> bool:
        seen.append(client.get(address, headers={"Accept": "application/json"}).json())
        return "ready" in seen[-1]

    wait_until(is_ready)
    assert all(set(one) == {"step", "done", "of"} for one in seen[:-1])
    assert client.get(seen[-1]["ready"]).status_code == 200


def test_the_pack_that_is_ready_stays_that_of_its_revision(client: TestClient, job: str) -> None:
    ready = messages(client.get(f"/api/v1/jobs/{job}/pack/progress?only=lists").text)[-1]["ready"]
    before = client.get(ready).content
    values = {**demo_cabinet(), "title": "Another title"}
    client.put(f"/api/v1/jobs/{job}", json={"values": values, "based_on": 1})
    assert client.get(ready).content == before
    assert client.get(f"/api/v1/jobs/{job}/pack?only=lists").content != before


def test_a_job_that_does_not_read_has_no_pack_but_its_faults(client: TestClient, store: Store) -> None:
    job = store.create_job({"drawer": [{"id": "A", "side": "thick"}]}).id
    for address in ("pack", "pack/progress", "pack/files", "pack/files/cut-list.csv"):
        answer = client.get(f"/api/v1/jobs/{job}/{address}")
        assert answer.status_code == 422
        assert "job drawer A side" in [one["where"] for one in answer.json()["errors"]]


def test_the_files_of_a_pack_are_listed_and_fetched_one_by_one(client: TestClient, job: str) -> None:
    address = f"/api/v1/jobs/{job}/pack/files"
    listed = client.get(address, params={"only": ["lists"]}).json()
    assert listed["schema"] == "drawerwright/pack/1"
    kinds = {}
    for file in listed["files"]:
        told = client.get(f"{address}/{file['path']}", params={"only": ["lists"]})
        assert hashlib.sha256(told.content).hexdigest() == file["sha256"]
        kinds[Path(file["path"]).suffix] = told.headers["Content-Type"].partition(";")[0]
    assert kinds[".pdf"] == "application/pdf"
    assert kinds[".csv"] == "text/csv"


@pytest.mark.parametrize(
    "path", ["nothing.pdf", "../../store.db", "%2e%2e%2f%2e%2e%2fstore.db", "/etc/passwd", "cut-list.csv/"]
)
def test_what_is_not_in_a_pack_is_not_found(client: TestClient, job: str, path: str) -> None:
    assert client.get(f"/api/v1/jobs/{job}/pack/files/{path}?only=lists").status_code == 404


@pytest.mark.parametrize(
    "query", ["only=everything", "paper=a3", "units=cm", "fraction=16", "cheapest=true&fewest_lengths=true"]
)
def test_an_option_of_a_pack_that_is_none_is_refused(client: TestClient, job: str, query: str) -> None:
    answer = client.get(f"/api/v1/jobs/{job}/pack?{query}")
    assert answer.status_code == 422
    assert answer.json()["errors"]


def test_a_packs_slides_may_be_chosen_for_the_whole_job(client: TestClient, job: str) -> None:
    plain = client.get(f"/api/v1/jobs/{job}/pack/files/hardware-list.csv?only=lists").content
    answer = client.get(f"/api/v1/jobs/{job}/pack?only=lists&cheapest=true")
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        assert archive.read("hardware-list.csv") != plain


def make_slowly(letting_go: threading.Event | None, steps: int = 3) -> Any:
    """A maker of packs that tells its steps, and waits before it is done."""

    def make(out: Path, progress: Progress) -> None:
        for step in range(1, steps + 1):
            progress(step, steps, f"step {step}")
        if letting_go is not None:
            assert letting_go.wait(PATIENCE)
        out.write_bytes(b"a pack")

    return make


def test_one_pack_is_built_by_one_builder_however_many_ask(tmp_path: Path) -> None:
    here, there = PacksKept(tmp_path), PacksKept(tmp_path)
    letting_go = threading.Event()
    begun = here.begin(NAME, make_slowly(letting_go))
    assert begun is not None
    wait_until(lambda: here.step(NAME) == Step("step 3", 3, 3))
    assert here.begin(NAME, make_slowly(None)) is begun
    assert there.begin(NAME, make_slowly(None)) is None
    assert there.step(NAME) == Step("step 3", 3, 3)
    assert there.open(NAME) is None
    letting_go.set()
    begun.result(PATIENCE)
    opened = there.open(NAME)
    assert opened is not None
    with opened:
        assert opened.read() == b"a pack"
    assert here.begin(NAME, make_slowly(None)) is None
    assert here.step(NAME) is None


HANGING = """
import sys, threading
from pathlib import Path
from drawerwright.web.packs_kept import PacksKept

def make(out, progress):
    progress(3, 3, "step 3")
    threading.Event().wait()

PacksKept(Path(sys.argv[1])).begin(sys.argv[2], make)
"""


def test_a_pack_whose_builder_was_killed_is_built_by_whoever_asks_next(tmp_path: Path) -> None:
    started = subprocess.Popen([sys.executable, "-c", HANGING, str(tmp_path), NAME])
    kept = PacksKept(tmp_path)
    try:
        wait_until(lambda: kept.step(NAME) == Step("step 3", 3, 3))
        assert kept.begin(NAME, make_slowly(None)) is None
    finally:
        started.kill()
        started.wait(PATIENCE)
    begun = kept.begin(NAME, make_slowly(None))
    assert begun is not None
    begun.result(PATIENCE)
    assert kept.is_ready(NAME)


def test_a_builder_that_is_done_before_it_is_looked_at_holds_nobody_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def submit(_: ThreadPoolExecutor, work: Callable[..., None], *given: object) -> Future[None]:
        done: Future[None] = Future()
        work(*given)
        done.set_result(None)
        return done

    monkeypatch.setattr(ThreadPoolExecutor, "submit", submit)
    kept = PacksKept(tmp_path)
    asking = threading.Thread(target=kept.begin, args=(NAME, make_slowly(None)), daemon=True)
    asking.start()
    asking.join(PATIENCE)
    assert not asking.is_alive()
    assert kept.is_ready(NAME)
    assert kept.begun(NAME) is None


def test_a_builder_that_fails_leaves_the_next_one_a_clean_start(tmp_path: Path) -> None:
    kept = PacksKept(tmp_path)

    def fail(out: Path, progress: Progress) -> None:
        raise OSError("no room")

    begun = kept.begin(NAME, fail)
    assert begun is not None
    with pytest.raises(OSError, match="no room"):
        begun.result(PATIENCE)
    wait_until(lambda: kept.begun(NAME) is None)
    again = kept.begin(NAME, make_slowly(None))
    assert again is not None
    again.result(PATIENCE)
    assert kept.is_ready(NAME)


def test_a_server_that_ends_leaves_a_pack_at_its_next_step(tmp_path: Path) -> None:
    kept = PacksKept(tmp_path)
    going = threading.Event()

    def forever(out: Path, progress: Progress) -> None:
        while True:
            progress(1, 2, "on and on")
            going.set()

    begun = kept.begin(NAME, forever)
    assert begun is not None
    assert going.wait(PATIENCE)
    kept.close()
    assert begun.done()
    assert not kept.is_ready(NAME)
    assert sorted(one.suffix for one in tmp_path.iterdir()) == [".lock"]


def test_packs_that_nobody_asked_for_lately_are_thrown_away_first(tmp_path: Path) -> None:
    kept = PacksKept(tmp_path, kept_bytes=15)
    names = [letter * 64 for letter in "abc"]
    for age, name in enumerate(names[:2]):
        begun = kept.begin(name, make_slowly(None))
        assert begun is not None
        begun.result(PATIENCE)
        os.utime(tmp_path / f"{name}.zip", (1000 + age, 1000 + age))
    opened = kept.open(names[0])
    assert opened is not None
    begun = kept.begin(names[2], make_slowly(None))
    assert begun is not None
    begun.result(PATIENCE)
    assert [kept.is_ready(name) for name in names] == [True, False, True]
    with opened:
        assert opened.read() == b"a pack"


def test_a_pack_that_is_larger_than_all_that_is_kept_is_kept_while_it_is_the_newest(tmp_path: Path) -> None:
    kept = PacksKept(tmp_path, kept_bytes=1)
    begun = kept.begin(NAME, make_slowly(None))
    assert begun is not None
    begun.result(PATIENCE)
    assert kept.is_ready(NAME)
