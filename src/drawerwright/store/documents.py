"""What jobs and slide families have in common: revisions, undo, comparing, the bin."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final

from sqlalchemy import Connection, Row, select, update

from drawerwright.errors import Fault, InputError
from drawerwright.store import history
from drawerwright.store.connections import Connections
from drawerwright.store.differing import Difference, difference
from drawerwright.store.faults import Clash
from drawerwright.store.history import Document
from drawerwright.store.parts import values_of
from drawerwright.store.records import Revision
from drawerwright.store.saving import Saver
from drawerwright.store.shape import settle_text
from drawerwright.store.tables import document, revision
from drawerwright.units import show_value

LONGEST_NAME: Final = 200
LONGEST_WORDS: Final = 500

_Going = Callable[[Connection, Document, int, Saver], "Row[Any] | Clash"]


class Documents:
    """Documents of a store, by their kind."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def _saver(self, by: str, what: str = "") -> Saver:
        who = settle_text(by, "by", longest=LONGEST_NAME, needed=False)
        return Saver(
            who, self._connections.now(), settle_text(what, "what", longest=LONGEST_WORDS, needed=False)
        )

    def _stored(self, of: Document, row: Row[Any]) -> dict[str, Any]:
        number: int = row.number

        def read() -> dict[str, Any]:
            with self._connections.reading() as connection:
                again = history.find(connection, of.kind, of.id)
                return values_of(history.parts_at(connection, again, number), of.layout)

        return {
            "id": of.id,
            "revision": number,
            "how": row.how,
            "saved_at": row.saved_at,
            "by": row.author,
            "what": row.what,
            "title": row.title,
            "units": row.units,
            "can_undo": row.previous is not None,
            "can_redo": row.tip != row.shows,
            "binned_at": of.binned_at,
            "_read": read,
        }

    def _revisions(
        self, kind: str, name: str, before: int | None = None, most: int | None = None
    ) -> list[Revision]:
        with self._connections.reading() as connection:
            of = history.find(connection, kind, name)
            query = select(revision).where(revision.c.document == of.key).order_by(revision.c.number.desc())
            if before is not None:
                query = query.where(revision.c.number < max(0, min(before, of.last + 1)))
            if most is not None:
                query = query.limit(max(0, min(most, of.last)))
            return [history.revision_of(row) for row in connection.execute(query)]

    def _go(
        self, kind: str, name: str, going: _Going, based_on: int, by: str
    ) -> tuple[Document, Row[Any] | Clash]:
        saver = self._saver(by)
        with self._connections.writing() as connection:
            of = self._to_change(connection, kind, name)
            return of, going(connection, of, based_on, saver)

    @staticmethod
    def _to_change(connection: Connection, kind: str, name: str) -> Document:
        """A document that is to be changed. Raises NotInStore; InputError where it lies in the bin."""
        of = history.find(connection, kind, name, to_write=True)
        if of.binned_at is not None:
            says = "lies in the bin, where nothing is changed"
            raise InputError([Fault(f"{kind} {of.id}", "", says, "taking it out of the bin first")])
        return of

    def _compare(self, kind: str, name: str, a: int, b: int) -> Difference:
        with self._connections.reading() as connection:
            of = history.find(connection, kind, name)
            old, new = (history.parts_at(connection, of, number) for number in (a, b))
        return difference(old, new, of.layout, numbers=(a, b))

    def _set_binned(self, kind: str, name: str, *, binned: bool) -> None:
        with self._connections.writing() as connection:
            of = history.find(connection, kind, name, to_write=True)
            if (of.binned_at is not None) != binned:
                when = self._connections.now() if binned else None
                connection.execute(update(document).where(document.c.key == of.key).values(binned_at=when))

    def _delete(self, kind: str, name: str, sure: str) -> None:
        with self._connections.writing() as connection:
            of = history.find(connection, kind, name, to_write=True)
            where = f"{kind} {of.id}"
            if of.binned_at is None:
                says = "is not in the bin: only what lies there is deleted for good"
                raise InputError([Fault(where, "", says, "putting it in the bin first")])
            title = history.revision_row(connection, of, of.head).title
            if sure != of.id and not (title and sure == title):
                says = "is neither its id nor its title: it is deleted for good only when that is said again"
                raise InputError([Fault(f"{where} sure", show_value(sure), says, show_value(of.id))])
            history.delete_document(connection, of)
