"""A real server on a socket: requests that are half sent, connections too many, and what is no HTTP."""

from __future__ import annotations

import asyncio
import contextlib
import json
import logging
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn

from drawerwright.store import Store
from drawerwright.web.app import create_app
from drawerwright.web.connections import Connection
from drawerwright.web.settings import Settings

PATIENCE = 20.0
HALF_HEAD = b"GET /api/v1/jobs HTTP/1.1\r\nHost: localhost\r\n"
HALF_BODY = b"POST /api/v1/fit HTTP/1.1\r\nHost: localhost\r\nContent-Length: 100\r\n\r\n{"
WHOLE = HALF_HEAD + b"\r\n"


class _Hurried(Connection):
    silence_seconds = 0.4
    most_connections = 5


@pytest.fixture
def server(store: Store, tmp_path: Path) -> Iterator[tuple[uvicorn.Server, int]]:
    """A server with little patience, and its port."""
    bound = socket.create_server(("127.0.0.1", 0))
    app = create_app(Settings(cache=str(tmp_path)), store=store)
    config = uvicorn.Config(
        app, http=_Hurried, ws="none", log_config=None, server_header=False, timeout_graceful_shutdown=1
    )
    made = uvicorn.Server(config)
    thread = threading.Thread(target=lambda: asyncio.run(made.serve(sockets=[bound])))
    thread.start()
    end = time.monotonic() + PATIENCE
    while not made.started and time.monotonic() < end:
        time.sleep(0.01)
    yield made, bound.getsockname()[1] if bound.fileno() >= 0 else 0
    made.should_exit = True
    thread.join(PATIENCE)
    assert not thread.is_alive()


def all_of(port: int, *sent: bytes, pause: float = 0.0) -> bytes:
    """All that is answered until the connection is closed."""
    with socket.create_connection(("127.0.0.1", port), timeout=PATIENCE) as asking:
        for piece in sent:
            asking.sendall(piece)
            time.sleep(pause)
        told = b""
        with contextlib.suppress(ConnectionResetError):
            while piece := asking.recv(65536):
                told += piece
    return told


def test_a_request_whose_head_is_not_sent_to_its_end_is_given_up(server: tuple[uvicorn.Server, int]) -> None:
    told = all_of(server[1], HALF_HEAD)
    assert told.startswith(b"HTTP/1.1 408 ")
    assert b"Content-Security-Policy" in told
    assert "did not come" in json.loads(told.partition(b"\r\n\r\n")[2])["errors"][0]["says"]


@pytest.mark.parametrize("sent", [b"", HALF_BODY], ids=["nothing", "half a body"])
def test_a_connection_that_says_nothing_more_is_closed(
    server: tuple[uvicorn.Server, int], sent: bytes, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.ERROR):
        assert all_of(server[1], sent) == b""
        time.sleep(0.1)
    assert caplog.records == []


def test_a_body_that_comes_slowly_is_read_to_its_end(server: tuple[uvicorn.Server, int]) -> None:
    head = b"POST /api/v1/fit HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Length: 5\r\n\r\n"
    assert b'"where":"job"' in all_of(server[1], head, b"{ ", b"  ", b"}", pause=0.2)


def test_a_connection_too_many_is_turned_away(server: tuple[uvicorn.Server, int]) -> None:
    with contextlib.ExitStack() as stack:
        for _ in range(5):
            stack.enter_context(socket.create_connection(("127.0.0.1", server[1])))
        time.sleep(0.1)
        assert all_of(server[1]).startswith(b"HTTP/1.1 503 ")
    time.sleep(0.1)
    assert all_of(server[1], WHOLE.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n")).startswith(
        b"HTTP/1.1 200 "
    )


@pytest.mark.parametrize(
    "sent", [b"nonsense\r\n\r\n", b"GET / HTTP/1.1\r\n\r\n", b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n"]
)
def test_what_is_no_http_is_answered_in_the_form_of_all_others(
    server: tuple[uvicorn.Server, int], sent: bytes
) -> None:
    head, _, body = all_of(server[1], sent).partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 400 ")
    assert b"nosniff" in head
    assert json.loads(body)["errors"][0]["says"] == "is not HTTP/1.1"


def test_a_body_whose_end_is_told_twice_is_refused_and_the_connection_closed(
    server: tuple[uvicorn.Server, int],
) -> None:
    head = HALF_BODY.replace(b"100\r\n\r\n{", b"2\r\nTransfer-Encoding: chunked\r\n\r\n")
    told = all_of(server[1], head + b"2\r\n{}\r\n0\r\n\r\n" + WHOLE)
    assert told.startswith(b"HTTP/1.1 400 ")
    assert b"told twice" in told
    assert told.count(b"HTTP/1.1 ") == 1


def test_a_half_sent_request_does_not_hold_up_the_end(
    server: tuple[uvicorn.Server, int], monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setattr(_Hurried, "silence_seconds", PATIENCE)
    with socket.create_connection(("127.0.0.1", server[1]), timeout=PATIENCE) as asking:
        asking.sendall(HALF_BODY)
        time.sleep(0.1)
        with caplog.at_level(logging.WARNING):
            server[0].should_exit = True
            assert asking.recv(1) == b""
            time.sleep(0.5)
    assert caplog.records == []
