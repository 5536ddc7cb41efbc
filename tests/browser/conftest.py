"""A running server and Debian's Chromium. Whatever a page complains of in its console fails the test."""

from __future__ import annotations

import importlib.util
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Protocol

import pytest
import uvicorn

from drawerwright.store import Store, open_store
from drawerwright.web.app import create_app
from drawerwright.web.settings import Settings

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PATIENCE_SECONDS = 20
REFUSED_WITH_REASON = re.compile(r"the server responded with a status of (409|422)")
"""Answers of ours that Chromium writes into the console by itself."""


class Server(Protocol):
    """A server on its own store: where it answers, the store, and how to end and begin it again."""

    url: str
    store: Store

    def stop(self) -> None:
        """End it as it is."""

    def start(self) -> None:
        """Let it answer again, at the same address and on the same store."""


def _free_port() -> int:
    with socket.socket() as bound:
        bound.bind(("127.0.0.1", 0))
        return int(bound.getsockname()[1])


def wait_for(condition: Callable[[], bool], what: str) -> None:
    """Wait until something holds; the test fails where it does not in time."""
    end = time.monotonic() + PATIENCE_SECONDS
    while not condition():
        assert time.monotonic() < end, f"waited in vain: {what}"
        threading.Event().wait(0.02)


def _answers(url: str) -> bool:
    try:
        with urllib.request.urlopen(f"{url}/openapi.json", timeout=2) as told:
            return bool(told.status == 200)
    except OSError:
        return False


class ServerHere:
    """A server in a thread of this process: quick to begin."""

    def __init__(self, folder: Path) -> None:
        self.store = open_store(f"sqlite:///{folder / 'store.db'}")
        self._settings = Settings(cache=str(folder / "cache"), port=_free_port())
        self.url = f"http://127.0.0.1:{self._settings.port}"
        self.start()

    def start(self) -> None:
        app = create_app(self._settings, store=self.store)
        config = uvicorn.Config(
            app, port=self._settings.port, log_level="error", timeout_graceful_shutdown=1, server_header=False
        )
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run, daemon=True)
        self._thread.start()
        wait_for(lambda: self._server.started, "the server to begin")

    def stop(self) -> None:
        self._server.should_exit = True
        self._thread.join(PATIENCE_SECONDS)
        assert not self._thread.is_alive()


class ServerProcess:
    """`drawerwright serve` as a process of its own, that can be killed in the midst of its work."""

    def __init__(self, folder: Path) -> None:
        self._address = f"sqlite:///{folder / 'store.db'}"
        self.store = open_store(self._address)
        self._cache = str(folder / "cache")
        self._port = _free_port()
        self.url = f"http://127.0.0.1:{self._port}"
        self.start()

    def start(self) -> None:
        words = ["serve", "--port", str(self._port), "--store", self._address]
        self._process = subprocess.Popen(
            [sys.executable, "-m", "drawerwright.cli.main", *words],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            env={**os.environ, "DRAWERWRIGHT_CACHE": self._cache},
        )
        wait_for(lambda: self._process.poll() is not None or _answers(self.url), "the server to begin")
        assert self._process.poll() is None, self._process.communicate()[1].decode()

    def stop(self) -> None:
        """Kill it without a word."""
        if self._process.poll() is None:
            self._process.send_signal(signal.SIGKILL)
        self._process.communicate(timeout=PATIENCE_SECONDS)


@pytest.fixture
def server(tmp_path: Path) -> Iterator[ServerHere]:
    """A running server on a fresh store: `.url`, `.store`, `.stop()`, `.start()`."""
    made = ServerHere(tmp_path)
    yield made
    made.stop()
    made.store.close()


@pytest.fixture
def server_process(tmp_path: Path) -> Iterator[ServerProcess]:
    """The same as a process of its own; `.stop()` kills it."""
    made = ServerProcess(tmp_path)
    yield made
    made.stop()
    made.store.close()


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Debian's Chromium, begun once; tests are left out where it is not there, unless nothing may be."""
    missing = [
        name
        for name, there in (
            (f"{CHROMIUM} (apt-get install chromium)", CHROMIUM.exists() or shutil.which("chromium")),
            ("playwright", importlib.util.find_spec("playwright")),
        )
        if not there
    ]
    if missing:
        leave = pytest.fail if os.environ.get("DRAWERWRIGHT_ORACLES") else pytest.skip
        leave(f"not installed: {', '.join(missing)}")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        begun = playwright.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield begun
        begun.close()


class ConsoleFaults(list[str]):
    """What pages complained of: errors and warnings in the console, exceptions, requests to elsewhere."""

    def __init__(self) -> None:
        super().__init__()
        self._forgiven: list[re.Pattern[str]] = [REFUSED_WITH_REASON]

    def forgive(self, pattern: str) -> None:
        """Let complaints pass that a test provokes on purpose, such as `ERR_CONNECTION_REFUSED`."""
        self._forgiven.append(re.compile(pattern))

    def left(self) -> list[str]:
        """What was not forgiven."""
        return [one for one in self if not any(pattern.search(one) for pattern in self._forgiven)]


@pytest.fixture
def console_faults() -> Iterator[ConsoleFaults]:
    """Collects what pages complain of; at the end of the test there must be nothing."""
    faults = ConsoleFaults()
    yield faults
    assert faults.left() == []


@pytest.fixture
def new_page(browser: Any, console_faults: ConsoleFaults) -> Iterator[Callable[..., Any]]:
    """Opens a watched page in a context of its own; options are those of Playwright's `new_context`."""
    contexts: list[Any] = []

    def opened(**options: Any) -> Any:
        context = browser.new_context(**{"viewport": {"width": 1600, "height": 1000}, **options})
        context.set_default_timeout(PATIENCE_SECONDS * 1000)
        contexts.append(context)
        context.on("console", lambda said: _heard(console_faults, said))
        context.on("weberror", lambda error: console_faults.append(f"exception: {error.error}"))
        context.on("request", lambda asked: _asked(console_faults, asked.url))
        return context.new_page()

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def browser_page(new_page: Callable[..., Any]) -> Any:
    """A page of 1600 × 1000 whose complaints fail the test."""
    return new_page()


def _heard(faults: ConsoleFaults, said: Any) -> None:
    if said.type in ("error", "warning"):
        faults.append(f"{said.type}: {said.text} ({said.location.get('url', '')})")


def _asked(faults: ConsoleFaults, url: str) -> None:
    if not re.match(r"(http://(127\.0\.0\.1|localhost|\[::1\])[:/]|data:|blob:|about:)", url):
        faults.append(f"asked elsewhere: {url}")
