"""Test logs: rows are added, never changed; a wrong one is put right by a further row with a note."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from sqlalchemy import Connection, Row, func, insert, select

from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest
from drawerwright.store.documents import Documents
from drawerwright.store.faults import not_in_store
from drawerwright.store.history import read_key
from drawerwright.store.records import StoredLog
from drawerwright.store.shape import settle_part, settle_text
from drawerwright.store.tables import test_log, test_row
from drawerwright.units import show_value

LOG_COLUMNS: Final = ("time", "sample", "cycles", "event", "sag", "pull_force", "closing_time", "note")
"""Columns of a test log, as in its file."""

MOST_ROWS: Final = 10_000
"""Rows that may be added at once; our own choice (invented)."""


class Logs(Documents):
    """The test logs of a store."""

    def create_log(self, title: str, *, values: Mapping[str, Any] | None = None, by: str = "") -> StoredLog:
        """A new, empty log. `values`: what belongs to the whole test: family, standard, load, plan.

        Raises InputError for their shape.
        """
        content = settle_part("log", values or {})
        saver = self._saver(by)
        name = settle_text(title, "log title")
        told = {
            "title": name,
            "saved_at": saver.at,
            "author": saver.by,
            "content": content,
        }
        with self._connections.writing() as connection:
            key = connection.execute(insert(test_log).values(told)).inserted_primary_key
            assert key is not None
        return StoredLog(str(key[0]), name, content, saver.at, saver.by, 0)

    def append_rows(
        self,
        log_id: str,
        rows: Sequence[Mapping[str, Any]],
        *,
        by: str = "",
        token: str | None = None,
    ) -> StoredLog:
        """Add rows at the end of a log, all or none. `token`: as with gaps, a second sending is kept once.

        Raises:
            InputError: a row is no table, has a column that a test log does not have, or too many rows.
            NotInStore: there is no such log.
        """
        contents = _checked_rows(rows)
        saver = self._saver(by)
        told = None if token is None else settle_text(token, "token")
        with self._connections.writing() as connection:
            log = self._log_row(connection, log_id, to_write=True)
            again = select(test_row.c.key).where(test_row.c.log == log.key, test_row.c.token == told).limit(1)
            known = told is not None and connection.execute(again).first() is not None
            if contents and not known:
                shared = {"log": log.key, "saved_at": saver.at, "author": saver.by, "token": told}
                connection.execute(insert(test_row), [{**shared, "content": one} for one in contents])
        return self.log(log_id)

    def log(self, log_id: str) -> StoredLog:
        """A log with all its rows, as they came in. Raises NotInStore."""
        with self._connections.reading() as connection:
            log = self._log_row(connection, log_id)
            query = select(test_row.c.content).where(test_row.c.log == log.key).order_by(test_row.c.key)
            rows = tuple(connection.execute(query).scalars())
        return StoredLog(str(log.key), log.title, log.content, log.saved_at, log.author, len(rows), rows)

    def logs(self) -> list[StoredLog]:
        """All logs without their rows, the newest first."""
        count = select(func.count()).where(test_row.c.log == test_log.c.key).scalar_subquery()
        query = select(test_log, count.label("rows")).order_by(test_log.c.key.desc())
        with self._connections.reading() as connection:
            rows = connection.execute(query).all()
        return [
            StoredLog(str(row.key), row.title, row.content, row.saved_at, row.author, row.rows)
            for row in rows
        ]

    @staticmethod
    def _log_row(connection: Connection, log_id: str, *, to_write: bool = False) -> Row[Any]:
        query = select(test_log).where(test_log.c.key == read_key(log_id))
        row = connection.execute(query.with_for_update() if to_write else query).one_or_none()
        if row is None:
            raise not_in_store("log", log_id)
        return row


def _checked_rows(rows: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    if len(rows) > MOST_ROWS:
        says = f"are more than {MOST_ROWS} at once"
        raise InputError([Fault("log rows", str(len(rows)), says, "several parts")])
    faults: list[Fault] = []
    checked = []
    for at, row in enumerate(rows, 1):
        try:
            content = settle_part("log row", row, named=str(at))
        except InputError as error:
            faults += error.faults
            continue
        for key in (one for one in content if one not in LOG_COLUMNS):
            says = f'is no column of a test log: the nearest is "{nearest(key, LOG_COLUMNS)}"'
            faults.append(Fault(f"log row {at}", show_value(key), says, ", ".join(LOG_COLUMNS)))
        checked.append(content)
    if faults:
        raise InputError(faults)
    return checked
