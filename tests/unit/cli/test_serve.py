"""`drawerwright serve`: what it refuses to begin with, and the real process from first word to end."""

from __future__ import annotations

import json
import os
import re
import secrets
import signal
import socket
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import create_engine, make_url, text

from drawerwright.cli.serve import _bind, _name_in_host
from drawerwright.web.settings import Settings, is_loopback

BIN = [sys.executable, "-m", "drawerwright.cli.main"]
PATIENCE = 60.0
"""Seconds to wait for a process on a busy machine."""


class Served:
    """A server's process, and how to ask it."""

    def __init__(self, *words: str, cache: Path) -> None:
        self.process = subprocess.Popen(
            [*BIN, "serve", "--port", "0", *words],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "DRAWERWRIGHT_CACHE": str(cache)},
        )
        assert self.process.stdout is not None
        self.told = self._told_json() if "--json" in words else self.process.stdout.readline()

    def _told_json(self) -> dict[str, str]:
        assert self.process.stdout is not None
        text = ""
        while not text.rstrip().endswith("}"):
            line = self.process.stdout.readline()
            assert line, self.process.stderr and self.process.stderr.read()
            text += line
        return dict(json.loads(text))

    @property
    def address(self) -> str:
        if isinstance(self.told, dict):
            return self.told["address"]
        found = re.search(r"http://\S+", self.told)
        assert found, self.told
        return found[0]

    def get(self, path: str, host: str | None = None) -> tuple[int, Any]:
        request = urllib.request.Request(self.address + path, headers={"Host": host} if host else {})
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
                return answer.status, json.load(answer)
        except urllib.error.HTTPError as refused:
            return refused.code, json.load(refused)

    def end(self, how: int = signal.SIGTERM) -> tuple[int, str]:
        """Its exit code, and what it said on standard error."""
        if self.process.poll() is None:
            self.process.send_signal(how)
        _, said = self.process.communicate(timeout=PATIENCE)
        return self.process.returncode, said


SERVER = os.environ.get("DRAWERWRIGHT_TEST_POSTGRES")
NOTHING_LEFT_OUT = bool(os.environ.get("DRAWERWRIGHT_ORACLES"))
KINDS = ["sqlite", "postgresql"] if SERVER or NOTHING_LEFT_OUT else ["sqlite"]


@pytest.fixture(params=KINDS)
def address(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Addresses of empty stores: a file, and a schema of the PostgreSQL server where there is one."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'store.db'}"
        return
    assert SERVER, "no PostgreSQL: DRAWERWRIGHT_TEST_POSTGRES=$(tools/start_postgres.sh start FOLDER)"
    engine = create_engine(make_url(SERVER).set(drivername="postgresql+psycopg"))
    schema = f"test_{secrets.token_hex(6)}"
    with engine.begin() as connection:
        connection.execute(text(f"CREATE SCHEMA {schema}"))
    told = make_url(SERVER).update_query_dict({"options": f"-csearch_path={schema}"})
    yield told.render_as_string(hide_password=False)
    with engine.begin() as connection:
        connection.execute(text(f"DROP SCHEMA {schema} CASCADE"))
    engine.dispose()


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[..., Served]]:
    """Begin a server on a fresh store; whatever is left of it is killed at the end."""
    begun: list[Served] = []

    def begin(*words: str) -> Served:
        store = () if "--store" in words else ("--store", f"sqlite:///{tmp_path / 'store.db'}")
        begun.append(Served(*store, *words, cache=tmp_path / "cache"))
        return begun[-1]

    yield begin
    for one in begun:
        if one.process.poll() is None:
            one.process.kill()
            one.process.communicate(timeout=PATIENCE)


def refused(ran: Any) -> dict[str, str]:
    assert ran.code == 2
    (told,) = json.loads(ran.out)["errors"]
    return dict(told)


def test_an_address_beyond_this_machine_wants_to_be_meant(command: Any) -> None:
    for host in ("0.0.0.0", "192.168.1.5", "shop.example", "::"):
        told = refused(command("serve", "--host", host, "--json"))
        assert told["where"].endswith("--host")
        assert "--open" in told["try"]


def test_opening_this_machine_alone_opens_nothing_and_is_said_so(command: Any) -> None:
    assert "opens nothing" in refused(command("serve", "--open", "--json"))["says"]


def test_a_port_that_is_taken_is_told_with_what_would_do(command: Any, tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        store = f"sqlite:///{tmp_path / 'store.db'}"
        told = refused(command("serve", "--port", port, "--store", store, "--json"))
    assert told["value"] == f"127.0.0.1:{port}"
    assert told["try"] == "--port 0 for any that is free"


@pytest.mark.parametrize("port", ["70000", "-1", "http"])
def test_a_port_that_is_none_is_refused(command: Any, port: str) -> None:
    assert "--port" in refused(command("serve", "--port", port, "--json"))["says"]


def test_a_host_that_nobody_knows_is_refused(command: Any) -> None:
    told = refused(command("serve", "--host", "nowhere.invalid", "--open", "--port", "0", "--json"))
    assert "nowhere.invalid" in told["value"]


@pytest.mark.parametrize("address", ["mysql://server/base", "sqlite:///no/such/folder/store.db", "store.db"])
def test_a_store_that_cannot_be_opened_is_told_before_anything_is_served(command: Any, address: str) -> None:
    ran = command("serve", "--port", "0", "--store", address, "--json")
    assert refused(ran)["where"]
    assert "http://" not in ran.out + ran.err


def test_a_store_that_is_no_database_is_left_as_it_is(command: Any, tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear customer,\n" * 100, encoding="utf-8")
    refused(command("serve", "--port", "0", "--store", f"sqlite:///{path}", "--json"))
    assert path.read_text("utf-8") == "Dear customer,\n" * 100


def test_slides_that_cannot_be_used_are_told_before_anything_is_served(command: Any, tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text('id = "bad"\n', encoding="utf-8")
    ran = command("serve", "--port", "0", "--slides", path, "--json")
    assert ran.code == 2
    assert all("bad.toml" in one["where"] for one in json.loads(ran.out)["errors"])


def test_the_process_answers_from_its_first_word_on_and_ends_when_it_is_told(
    serve: Callable[..., Served],
) -> None:
    served = serve()
    assert isinstance(served.told, str)
    assert served.told.startswith("Drawerwright answers at http://127.0.0.1:")
    status, told = served.get("api/v1/quick?width=562&height=168&depth=530&side=16")
    assert (status, told["schema"]) == (200, "drawerwright/fit/1")
    assert served.get("api/v1/jobs", host="evil.example")[0] == 400
    assert served.end() == (0, "")


@pytest.mark.parametrize("workers", ["1", "2"])
def test_it_ends_without_a_traceback_while_a_request_is_half_sent(
    serve: Callable[..., Served], workers: str
) -> None:
    served = serve("--json", "--workers", workers)
    port = int(served.address.rpartition(":")[2].rstrip("/"))
    with socket.create_connection(("127.0.0.1", port), timeout=PATIENCE) as asking:
        asking.sendall(b"POST /api/v1/fit HTTP/1.1\r\nHost: localhost\r\nContent-Length: 100\r\n\r\n{")
        assert served.get("api/v1/jobs")[0] == 200
        assert served.end() == (0, "")


@pytest.mark.parametrize("host", ["127.0.0.2", "[::1]", "::1"])
def test_it_answers_at_the_address_that_it_tells(serve: Callable[..., Served], host: str) -> None:
    if ":" in host and not _has_ipv6():
        pytest.skip("this machine has no IPv6")
    served = serve("--json", "--host", host)
    assert served.address.startswith(f"http://[{host.strip('[]')}]:" if ":" in host else f"http://{host}:")
    assert served.get("api/v1/jobs")[0] == 200
    assert served.end()[0] == 0


def _has_ipv6() -> bool:
    try:
        socket.create_server(("::1", 0), family=socket.AF_INET6).close()
    except OSError:
        return False
    return True


def test_an_address_with_colons_stands_in_brackets() -> None:
    assert [_name_in_host(one) for one in ("::1", "127.0.0.2", "Shop.example")] == [
        "[::1]",
        "127.0.0.2",
        "shop.example",
    ]


def test_the_keyboard_ends_it_without_a_traceback(serve: Callable[..., Served]) -> None:
    served = serve("--json")
    assert served.get("api/v1/jobs")[0] == 200
    assert served.end(signal.SIGINT) == (130, "")


def test_several_workers_share_one_address_and_one_store_and_end_together(
    serve: Callable[..., Served], tmp_path: Path, address: str
) -> None:
    served = serve("--workers", "2", "--json", "--slides", str(_shop(tmp_path)), "--store", address)
    assert isinstance(served.told, dict)
    assert served.told["schema"] == "drawerwright/serve/1"
    body = json.dumps({"values": {"title": "Shared", "drawer": []}}).encode()
    with urllib.request.urlopen(served.address + "api/v1/jobs", data=body, timeout=PATIENCE) as made:
        job = json.load(made)["id"]
    found: list[Any] = []
    asking = [
        threading.Thread(target=lambda: found.append(served.get(f"api/v1/jobs/{job}"))) for _ in range(12)
    ]
    for one in asking:
        one.start()
    for one in asking:
        one.join(PATIENCE)
    assert [(status, told["values"]["title"]) for status, told in found] == [(200, "Shared")] * 12
    assert [one["id"] for one in served.get("api/v1/slides")[1]["families"]] == ["shop-16"]
    assert served.end() == (0, "")


def test_a_server_that_is_killed_loses_nothing_that_was_saved(serve: Callable[..., Served]) -> None:
    served = serve("--json")
    body = json.dumps({"values": {"title": "Kept", "drawer": []}}).encode()
    with urllib.request.urlopen(served.address + "api/v1/jobs", data=body, timeout=PATIENCE) as made:
        assert made.status == 201
    served.end(signal.SIGKILL)
    again = serve("--json")
    assert [one["title"] for one in again.get("api/v1/jobs")[1]["jobs"]] == ["Kept"]
    again.end()


def test_an_open_server_warns_and_answers_by_address_and_by_the_names_it_was_given(
    serve: Callable[..., Served],
) -> None:
    served = serve("--host", "0.0.0.0", "--open", "--name", "Shop.example", "--json")
    port = served.address.rpartition(":")[2].rstrip("/")
    served.told = {"address": f"http://127.0.0.1:{port}/"}
    names = ("127.0.0.1", "192.168.7.7", "shop.example", socket.gethostname(), "localhost")
    assert [served.get("api/v1/jobs", host=f"{name}:{port}")[0] for name in names] == [200] * len(names)
    assert served.get("api/v1/jobs", host="evil.example")[0] == 400
    code, said = served.end()
    assert code == 0
    assert "there are no accounts yet" in said
    assert len(said.splitlines()) == 1


@pytest.mark.parametrize(
    "settings",
    [
        Settings(),
        Settings(host="::1", port=1, store="sqlite:///a b.db", open=True, body_cap=5, cache="c d"),
        Settings(hosts=("localhost", "shop.example"), slides=("a b.toml", "folder")),
    ],
)
def test_settings_come_back_from_the_environment_as_they_were(settings: Settings) -> None:
    assert Settings.from_environment(settings.as_environment()) == settings


@pytest.mark.parametrize(
    ("host", "near"),
    [
        ("localhost", True),
        ("127.0.0.1", True),
        ("127.8.9.1", True),
        ("::1", True),
        ("[::1]", True),
        ("0.0.0.0", False),
        ("::", False),
        ("192.168.1.5", False),
        ("localhost.example", False),
    ],
)
def test_this_machine_alone_is_told_from_others(host: str, near: bool) -> None:
    assert is_loopback(host) is near


def _shop(folder: Path) -> Path:
    path = folder / "shop.toml"
    path.write_text(
        'id = "shop-16"\ncapacity = 40\ninside_width_deduction = 42\n[[length]]\nnominal = 500\n',
        encoding="utf-8",
    )
    return path


def test_the_socket_sends_small_answers_at_once() -> None:
    with _bind("127.0.0.1", 0) as bound:
        assert bound.proto == socket.IPPROTO_TCP
