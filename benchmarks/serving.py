"""The server: quick answers beside an empty route, memory of idle visitors, weight of the page."""

from __future__ import annotations

import contextlib
import gzip
import os
import re
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from urllib.parse import urljoin, urlsplit

from benchmarks.measuring import Figure

ASKED = 400
VISITORS = 300
PATIENCE = 60.0
QUICK = "/api/v1/quick?width={:.2f}&height={:.2f}&depth={:.2f}&side={:.3f}&contents={:.2f}+kg"
PAGE = "/?width={width:.2f}&height=168&depth=530&side=16&contents=20+kg"

_DRAWING = re.compile(rb"<svg\b(?![^>]*class=\"mark\").*?</svg>", re.DOTALL)
_LINKED = re.compile(rb"<(?:link[^>]*rel=\"stylesheet\"[^>]*href|script[^>]*src)=\"([^\"]+)\"")
_IMPORTED = re.compile(rb"^import\b[^\"']*[\"']([^\"']+)[\"']", re.MULTILINE)


def figures() -> Iterator[Figure]:
    """All figures of the server."""
    with tempfile.TemporaryDirectory() as folder, _drawerwright(Path(folder)) as ours:
        with _empty(Path(folder)) as other:
            yield _quick(ours, other)
        yield _weight(ours)
        yield _idle(ours)


class Asking:
    """One connection that is kept, asked with as little work of our own as can be."""

    def __init__(self, port: int, takes: str = "") -> None:
        self._takes = takes
        self._socket = socket.create_connection(("127.0.0.1", port), timeout=PATIENCE)
        self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)

    def get(self, path: str) -> bytes:
        """The body of an answer, which must be 200."""
        self._socket.sendall(f"GET {path} HTTP/1.1\r\nHost: localhost\r\n{self._takes}\r\n".encode())
        told = b""
        while (end := told.find(b"\r\n\r\n")) < 0:
            told += self._socket.recv(65536)
        head = told[:end].lower()
        assert head.startswith(b"http/1.1 200"), head
        left = int(head.partition(b"content-length:")[2].partition(b"\r\n")[0]) - (len(told) - end - 4)
        parts = [told[end + 4 :]]
        while left > 0:
            parts.append(self._socket.recv(65536))
            left -= len(parts[-1])
        return b"".join(parts)

    def close(self) -> None:
        self._socket.close()


class Server:
    """A server's process and the port that it listens on."""

    def __init__(self, command: list[str], folder: Path) -> None:
        with socket.socket() as bound:
            bound.bind(("127.0.0.1", 0))
            self.port = int(bound.getsockname()[1])
        surroundings = {**os.environ, "DRAWERWRIGHT_CACHE": str(folder / "cache")}
        words = [word.format(port=self.port) for word in command]
        self.process = subprocess.Popen([sys.executable, *words], stdout=subprocess.DEVNULL, env=surroundings)

    def wait(self, path: str) -> None:
        """Until it answers."""
        end = time.monotonic() + PATIENCE
        while True:
            with contextlib.suppress(OSError):
                Asking(self.port).get(path)
                return
            assert self.process.poll() is None
            assert time.monotonic() < end
            time.sleep(0.05)

    @property
    def memory(self) -> int:
        """Resident memory [bytes], as Linux tells it."""
        told = Path(f"/proc/{self.process.pid}/status").read_text()
        found = re.search(r"^VmRSS:\s+(\d+) kB", told, re.MULTILINE)
        assert found is not None
        return int(found[1]) * 1024


@contextlib.contextmanager
def _running(command: list[str], folder: Path, path: str) -> Iterator[Server]:
    server = Server(command, folder)
    try:
        server.wait(path)
        yield server
    finally:
        server.process.terminate()
        server.process.wait(PATIENCE)


def _drawerwright(folder: Path) -> contextlib.AbstractContextManager[Server]:
    store = f"sqlite:///{folder / 'store.db'}"
    command = ["-m", "drawerwright.cli.main", "serve", "--port", "{port}", "--store", store]
    return _running(command, folder, question(0))


def _empty(folder: Path) -> contextlib.AbstractContextManager[Server]:
    options = ["--port", "{port}", "--log-level", "warning", "--no-server-header", "--ws", "none"]
    return _running(["-m", "uvicorn", "benchmarks.empty_route:app", *options], folder, "/")


def question(number: int) -> str:
    """Address of a question of which nothing was asked before: neither a whole answer nor a part is kept."""
    more = number * 0.01
    return QUICK.format(520 + more, 168 + more, 530 + more, 15 + number * 0.001, 20 + more)


def _quick(ours: Server, other: Server) -> Figure:
    """Time of a quick answer over that of an empty route, asked in turn; no question is asked twice."""
    quick, empty = Asking(ours.port), Asking(other.port)
    ratios = []
    for number in range(ASKED):
        start = time.perf_counter()
        quick.get(question(number + 1))
        between = time.perf_counter()
        empty.get("/")
        ratios.append((between - start) / (time.perf_counter() - between))
    quick.close()
    empty.close()
    return Figure("a quick answer over HTTP over an empty route", median(ratios[50:]), "×", 12)


def _weight(ours: Server) -> Figure:
    """The quick answer's page without drawings, with style sheets and modules, as a browser gets them here.

    The page comes as it is, its style sheets and modules compressed.
    """
    asking = Asking(ours.port, "Accept-Encoding: gzip\r\n")
    here = PAGE.format(width=562)
    page = asking.get(here)
    total = len(_DRAWING.sub(b"", page))
    waiting = [urljoin(here, one.decode().replace("&amp;", "&")) for one in _LINKED.findall(page)]
    seen: set[str] = set()
    while waiting:
        address = waiting.pop()
        if urlsplit(address).path in seen:
            continue
        seen.add(urlsplit(address).path)
        content = asking.get(address)
        total += len(content)
        content = gzip.decompress(content)
        waiting += [urljoin(address, one.decode()) for one in _IMPORTED.findall(content)]
    asking.close()
    return Figure("page of a quick answer, before its drawing", total / 1000, "kB", 60)


def _idle(ours: Server) -> Figure:
    """What a visitor leaves behind who asked one question of their own and keeps the connection."""
    warm = Asking(ours.port)
    for number in range(VISITORS):
        warm.get(PAGE.format(width=620 + number * 0.01))
    before = ours.memory
    visitors = []
    for number in range(VISITORS):
        visitors.append(Asking(ours.port))
        visitors[-1].get(PAGE.format(width=640 + number * 0.01))
    grown = ours.memory - before
    for one in (warm, *visitors):
        one.close()
    return Figure("memory that an idle visitor costs", grown / VISITORS / 1000, "kB", 100)
