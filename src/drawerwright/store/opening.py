"""Opening a store: the database is made or brought up to date, whoever comes first."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, inspect, text
from sqlalchemy.exc import DBAPIError

from drawerwright.errors import Fault
from drawerwright.store.address import store_address
from drawerwright.store.connections import Connections, new_engine, utc_now
from drawerwright.store.faults import StoreUnusable
from drawerwright.store.tables import SCHEMA, VERSION_TABLE, metadata

_LOCK_KEY: Final = 0x0D7A3E
"""Any number, the same for all who open a store on one PostgreSQL database."""

_TRIES: Final = 50
_PAUSE: Final = 0.1

# Alembic keeps what it works on in the module, so one thread at a time.
_one_at_a_time = threading.Lock()


def connect(url: str | None, now: Callable[[], datetime] = utc_now, *, make: bool = True) -> Connections:
    """Connections to a store that is up to date; made if it is not there, unless `make` says not to.

    Raises:
        StoreUnusable: no such kind of address, a folder that is not there, a file that is no database or
            belongs to another program, a server that does not answer, a store made by a newer version.
    """
    address = store_address(url)
    try:
        connections = Connections(new_engine(address), now)
    except (ImportError, TypeError, ValueError) as error:
        raise StoreUnusable([Fault("store", "", f"cannot be used: {error}", "another address")]) from None
    try:
        if connections.sqlite:
            _check_file(Path(address.database or ""), connections, make=make)
            _use_write_ahead_log(connections)
        with connections.reading() as connection:
            version = _version(connection, connections)
        if version is None and not make:
            raise _no_store(connections)
        if version != SCHEMA:
            _bring_up_to_date(connections)
    except BaseException:
        connections.close()
        raise
    return connections


def _check_file(path: Path, connections: Connections, *, make: bool) -> None:
    try_ = "sqlite:///shop.sqlite3 in a folder that is there"
    if path.is_dir():
        raise StoreUnusable([Fault("store", connections.shown, "is a folder, not a file", try_)])
    if not path.absolute().parent.is_dir():
        raise StoreUnusable([Fault("store", connections.shown, "is in a folder that is not there", try_)])
    if not make and not path.exists():
        raise _no_store(connections)
    try:
        # A new store is for its owner alone: it may hold addresses of customers.
        path.touch(mode=0o600, exist_ok=True)
    except OSError as error:
        says = f"cannot be written: {error.strerror}"
        raise StoreUnusable([Fault("store", connections.shown, says, try_)]) from None


def _no_store(connections: Connections) -> StoreUnusable:
    return StoreUnusable(
        [Fault("store", connections.shown, "holds no store", "the address of one that is there")]
    )


def _use_write_ahead_log(connections: Connections) -> None:
    """Readers and a writer at once. It stays with the file; several may want to set it at the same time."""
    for left in range(_TRIES, 0, -1):
        raw = None
        try:
            raw = connections.engine.raw_connection()
            cursor = raw.cursor()
            cursor.execute("PRAGMA journal_mode")
            # Read to the end: a statement that is half read would forbid the change.
            if cursor.fetchall() != [("wal",)]:
                cursor.execute("PRAGMA journal_mode = WAL")
                cursor.fetchall()
            cursor.close()
            return
        except (DBAPIError, sqlite3.Error) as error:
            busy = isinstance(error, sqlite3.Error) and _is_busy(error)
            if not busy or left == 1:
                fault = error if isinstance(error, DBAPIError) else DBAPIError(None, None, error)
                raise connections.unusable(fault) from error
        finally:
            if raw is not None:
                raw.close()
        time.sleep(_PAUSE)


def _is_busy(error: sqlite3.Error) -> bool:
    # The low byte of an extended code is the plain one.
    return getattr(error, "sqlite_errorcode", 0) & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def _version(connection: Connection, connections: Connections) -> str | None:
    """The schema that a store has; None: it has none yet.

    Raises:
        StoreUnusable: the database is of another program, or of a newer version.
    """
    names = set(inspect(connection).get_table_names())
    if VERSION_TABLE not in names:
        # A server's database may be shared; a file is ours alone.
        foreign = names if connections.sqlite else names & metadata.tables.keys()
        if foreign:
            says = f"is a database of something else: it has the table {min(foreign)}"
            raise StoreUnusable([Fault("store", connections.shown, says, "a database that is empty")])
        return None
    versions = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalars().all()
    if not versions:
        return None
    if versions != [SCHEMA] and not _known(versions[0]):
        says = f"was made by a newer version of this program: its schema is {versions[0]}, ours {SCHEMA}"
        raise StoreUnusable([Fault("store", connections.shown, says, "the newer version")])
    return str(versions[0])


def _known(version: str) -> bool:
    from drawerwright.store.migrating import known_versions

    return version in known_versions()


def _bring_up_to_date(connections: Connections) -> None:
    """All steps in one transaction; who comes second waits, and finds them done."""
    from drawerwright.store.migrating import upgrade

    with _one_at_a_time, connections.writing() as connection:
        if not connections.sqlite:
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _LOCK_KEY})
        if _version(connection, connections) != SCHEMA:
            upgrade(connection)
