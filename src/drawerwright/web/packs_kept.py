"""Packs that are built are kept for a while in a folder that all workers share.

A pack's name is the hash of everything that it is made of, so whoever asks next finds it, whichever worker
built it. One builder at a time works on a pack: it holds a lock on a file beside it, which the system lets go
of when its process ends, however it ends. How far it is stands in a small file, for whoever watches.
"""

from __future__ import annotations

import contextlib
import json
import os
import sys
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import asdict, dataclass
from pathlib import Path
from time import monotonic
from typing import IO, Final

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

KEPT_BYTES: Final = 500_000_000
"""How much of all packs together is kept: a large pack is about a tenth of it. Own choice."""

TOLD_EVERY: Final = 0.1
"""Seconds between two notes of how far a pack is. Own choice."""

Progress = Callable[[int, int, str], None]
Make = Callable[[Path, Progress], object]
"""Writes a pack as the zip file given, and tells how far it is."""


@dataclass(frozen=True, slots=True)
class Step:
    """How far a pack is: steps done, steps in all, what was done last."""

    step: str
    done: int
    of: int


class Stopped(Exception):
    """The server ends while a pack is built."""


class PacksKept:
    """The packs of one folder, as one process sees and makes them."""

    def __init__(self, folder: Path, *, kept_bytes: int = KEPT_BYTES) -> None:
        self._folder = folder
        self._kept_bytes = kept_bytes
        self._builders: ThreadPoolExecutor | None = None
        self._under_way: dict[str, Future[None]] = {}
        self._lock = threading.Lock()
        self._stopping = threading.Event()

    def open(self, name: str) -> IO[bytes] | None:
        """The pack of that name, opened so that it stays whole while it is sent; None: not built."""
        path = self._path(name)
        try:
            opened = path.open("rb")
        except FileNotFoundError:
            return None
        with contextlib.suppress(OSError):  # asked for lately: thrown away last
            os.utime(path)
        return opened

    def is_ready(self, name: str) -> bool:
        """Whether a pack is built."""
        return self._path(name).exists()

    def step(self, name: str) -> Step | None:
        """How far a pack is, whoever builds it; None where nothing is told yet."""
        try:
            return Step(**json.loads(self._path(name, ".json").read_text(encoding="utf-8")))
        except (OSError, ValueError, TypeError):
            return None

    def begun(self, name: str) -> Future[None] | None:
        """The building of a pack in this process; None where it is not under way here."""
        with self._lock:
            return self._under_way.get(name)

    def begin(self, name: str, make: Make) -> Future[None] | None:
        """Begin to build a pack in this process; None where it is ready, or another process builds it.

        The future ends when the pack is ready, with the exception where it could not be made.
        """
        with self._lock:
            under_way = self._under_way.get(name)
            if under_way is not None:
                return under_way
            if self.is_ready(name) or self._is_held(name):
                return None
            if self._builders is None:
                self._stopping.clear()
                self._builders = ThreadPoolExecutor(max_workers=1, thread_name_prefix="pack")
            begun = self._builders.submit(self._build, name, make)
            self._under_way[name] = begun
        # Outside the lock: what has ended by now is told at once, here, and wants the lock itself.
        begun.add_done_callback(lambda _: self._ended(name))
        return begun

    def close(self) -> None:
        """End: what is being built is left at its next step, and begun anew by whoever asks next."""
        self._stopping.set()
        with self._lock:
            builders, self._builders = self._builders, None
        if builders is not None:
            builders.shutdown(wait=True, cancel_futures=True)

    def _ended(self, name: str) -> None:
        with self._lock:
            self._under_way.pop(name, None)

    def _build(self, name: str, make: Make) -> None:
        self._folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        with _held(self._path(name, ".lock")) as ours:
            if not ours or self.is_ready(name):
                return
            told_at = float("-inf")

            def tell(done: int, of: int, what: str) -> None:
                nonlocal told_at
                if self._stopping.is_set():
                    raise Stopped
                if done >= of or monotonic() - told_at >= TOLD_EVERY:
                    told_at = monotonic()
                    self._tell(name, Step(what, done, of))

            self._tell(name, Step("begun", 0, 0))
            try:
                make(self._path(name), tell)
            finally:
                self._path(name, ".json").unlink(missing_ok=True)
        self._prune(name)

    def _tell(self, name: str, step: Step) -> None:
        beside = self._path(name, ".json.part")
        beside.write_text(json.dumps(asdict(step)), encoding="utf-8")
        beside.replace(self._path(name, ".json"))

    def _is_held(self, name: str) -> bool:
        """Whether some process builds a pack now."""
        lock = self._path(name, ".lock")
        if not lock.exists():
            return False
        with _held(lock) as ours:
            return not ours

    def _prune(self, newest: str) -> None:
        """Throw away what was asked for longest ago until the rest is small enough; not the newest."""
        packs = []
        for path in self._folder.glob("*.zip"):
            with contextlib.suppress(OSError):
                told = path.stat()
                packs.append((path == self._path(newest), told.st_mtime, told.st_size, path))
        left = sum(size for _, _, size, _ in packs)
        for is_newest, _, size, path in sorted(packs):
            if left <= self._kept_bytes or is_newest:
                return
            left -= size
            for one in (path, path.with_suffix(".lock")):
                with contextlib.suppress(OSError):
                    one.unlink()

    def _path(self, name: str, ending: str = ".zip") -> Path:
        return self._folder / f"{name}{ending}"


@contextlib.contextmanager
def _held(path: Path) -> Iterator[bool]:
    """Hold a lock file while the block runs; False where another holds it."""
    with path.open("ab") as file:
        try:
            _take(file)
        except OSError:
            yield False
            return
        try:
            yield True
        finally:
            _let_go(file)


def _take(file: IO[bytes]) -> None:
    if sys.platform == "win32":
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _let_go(file: IO[bytes]) -> None:
    if sys.platform == "win32":
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)
    else:
        fcntl.flock(file, fcntl.LOCK_UN)
