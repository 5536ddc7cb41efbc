"""Connections to the database: what is set on each, how reading and writing begin, how faults are told."""

from __future__ import annotations

import contextlib
import json
import threading
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from typing import Any, Final

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL
from sqlalchemy.exc import DBAPIError
from sqlalchemy.exc import TimeoutError as PoolTimeout

from drawerwright.errors import Fault
from drawerwright.store.address import shown
from drawerwright.store.faults import StoreUnusable

BUSY_SECONDS: Final = 30
"""How long a writer waits for others; our own choice (invented), a save takes milliseconds."""

_POOL: Final = 5
_OVERFLOW: Final = 60
"""More connections than a web worker has threads (40 by default): none waits for one."""

_WRITES: Final = "store_writes"


def json_text(value: Any) -> str:
    """A content as it is stored: JSON without blanks."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def new_engine(url: URL) -> Engine:
    """An engine for SQLite or PostgreSQL; nothing is connected yet."""
    shared: dict[str, Any] = {
        "json_serializer": json_text,
        "pool_size": _POOL,
        "max_overflow": _OVERFLOW,
        "pool_timeout": BUSY_SECONDS,
        "hide_parameters": True,
    }
    if url.get_backend_name() == "postgresql":
        # Pre-ping: a server that was started anew is found again without a failed save.
        return create_engine(url, pool_pre_ping=True, **shared)
    engine = create_engine(url, connect_args={"timeout": BUSY_SECONDS, "check_same_thread": False}, **shared)
    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _set_up_sqlite(connection: Any, _record: Any) -> None:
    # Without this the driver begins transactions itself, and late: two savers could read the same revision.
    connection.isolation_level = None
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = ON")
    # FULL: with a write-ahead log, NORMAL may forget the last saves when the power fails. It costs one flush
    # to the disk a save (a millisecond or two on a solid-state disk), and "saved" must mean saved.
    cursor.execute("PRAGMA synchronous = FULL")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    writes = connection.get_execution_options().get(_WRITES)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def utc_now() -> datetime:
    """The moment, aware, in UTC."""
    return datetime.now(UTC)


class Connections:
    """The connections of one store. Safe for many threads; each process opens its own."""

    def __init__(self, engine: Engine, now: Callable[[], datetime] = utc_now) -> None:
        self.engine = engine
        self.now = now
        self.sqlite = engine.dialect.name == "sqlite"
        self.shown = shown(engine.url)
        # SQLite takes one writer at a time and lets the others poll: a queue of our own is fairer.
        self._queue: contextlib.AbstractContextManager[object] = (
            threading.Lock() if self.sqlite else contextlib.nullcontext()
        )

    @contextlib.contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that sees one moment of the store throughout. Raises StoreUnusable."""
        # SQLite's snapshot is that moment anyway.
        options = {} if self.sqlite else {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}
        with self._told(), self.engine.connect() as plain:
            connection = plain.execution_options(**options)
            with connection.begin():
                yield connection

    @contextlib.contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that is kept whole when the block ends, or not at all. Raises StoreUnusable."""
        with self._queue, self._told(), self.engine.connect() as plain:
            connection = plain.execution_options(**{_WRITES: True})
            with connection.begin():
                yield connection

    @contextlib.contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except (DBAPIError, PoolTimeout) as error:
            raise self.unusable(error) from error

    def unusable(self, error: Exception) -> StoreUnusable:
        """A fault of the database as ours: place, address and what would do."""
        reason = str(error.orig if isinstance(error, DBAPIError) else error).strip().split("\n")[0]
        says, try_ = f"cannot be used: {reason}", "the same again in a moment"
        if "is locked" in reason:
            says = f"is busy: others have been writing for {BUSY_SECONDS} s"
        elif "not a database" in reason or "malformed" in reason:
            says, try_ = "is no SQLite database", "the address of a store, or a file that is not there yet"
        elif "unable to open" in reason:
            says, try_ = (
                "cannot be opened: is there such a folder, and may you write in it?",
                "another folder",
            )
        elif "readonly" in reason or "read-only" in reason:
            says, try_ = "may be read, not written", "a file that you may write"
        elif "is full" in reason:
            says, try_ = (
                "cannot grow: the disk is full; nothing of this save was kept",
                "the same with more room",
            )
        elif not self.sqlite and isinstance(error, DBAPIError) and error.connection_invalidated:
            says, try_ = f"does not answer any more: {reason}", "the same again when the server is back"
        elif not self.sqlite and "connect" in reason:
            says, try_ = f"cannot be reached: {reason}", "the address of a server that is running"
        return StoreUnusable([Fault("store", self.shown, says, try_)])

    def close(self) -> None:
        """Close all connections that are not in use."""
        self.engine.dispose()
