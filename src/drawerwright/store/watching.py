"""Whether anything was saved since: told without reading it, so that what was read may be used again."""

from __future__ import annotations

import contextlib
import sqlite3
import threading

from drawerwright.store.connections import Connections


class ChangeWatch:
    """Watches a store for saves of any kind, by this process or another."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections
        self._lock = threading.Lock()
        self._watching: sqlite3.Connection | None = None

    def mark(self) -> int | None:
        """A number that stays while nothing is saved; None where that cannot be told, as on a server.

        SQLite counts, on each connection, the commits of all others (its documentation, PRAGMA data_version):
        a connection that never writes sees every one.
        """
        if not self._connections.sqlite:
            return None
        with self._lock, contextlib.suppress(sqlite3.Error):
            if self._watching is None:
                self._watching = self._open()
            return int(self._watching.execute("PRAGMA data_version").fetchone()[0])
        return None

    def close(self) -> None:
        """Stop watching; the next mark begins anew."""
        with self._lock:
            if self._watching is not None:
                self._watching.close()
                self._watching = None

    def _open(self) -> sqlite3.Connection:
        path = self._connections.engine.url.database or ""
        return sqlite3.connect(path, check_same_thread=False, isolation_level=None)
