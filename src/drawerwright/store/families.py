"""A shop's own slide families: kept, changed and taken back as jobs are, but only sound ones."""

from __future__ import annotations

from typing import Any, Final

from sqlalchemy import Row, select
from sqlalchemy.dialects import postgresql, sqlite

from drawerwright.errors import Fault, InputError
from drawerwright.store import history, saving
from drawerwright.store.differing import Difference
from drawerwright.store.documents import Documents
from drawerwright.store.faults import Clash, Conflict
from drawerwright.store.history import Document
from drawerwright.store.parts import FAMILY, parts_of
from drawerwright.store.records import Revision, StoredFamily
from drawerwright.store.shape import settle_part
from drawerwright.store.tables import document, revision
from drawerwright.units import show_value

LONGEST_ID: Final = 60
"""Longest id of a family [characters]: it stands in tables and on drawings. Own choice."""
PAGES: Final = ("new", "compare", "check")
"""Words that are no ids: pages that stand beside those of the families are called so."""


class Families(Documents):
    """The slide families of a store."""

    def families(self, *, binned: bool = False) -> list[StoredFamily]:
        """All families, or all in the bin, by their ids."""
        told = document.c.binned_at.is_not(None) if binned else document.c.binned_at.is_(None)
        query = (
            select(document, revision)
            .join(revision, (revision.c.document == document.c.key) & (revision.c.number == document.c.head))
            .where(document.c.kind == "family", told)
        )
        with self._connections.reading() as connection:
            rows = connection.execute(query).all()
        # Sorted here: each database has an order of letters of its own.
        return [self._family(history.document_of(row), row) for row in sorted(rows, key=lambda row: row.name)]

    def family(self, family_id: str, revision: int | None = None) -> StoredFamily:
        """A family, as it is or as it was at a revision; also one in the bin. Raises NotInStore."""
        with self._connections.reading() as connection:
            of = history.find(connection, "family", family_id)
            return self._family(
                of, history.revision_row(connection, of, of.head if revision is None else revision)
            )

    def save_family(
        self, values: object, *, based_on: int | None = None, by: str = "", what: str = ""
    ) -> StoredFamily:
        """Save a family by its `id`, with the keys of a family file; `based_on` None: it is new.

        Others' saves are put together with it, key by key and length by length.

        Raises:
            InputError: it cannot be used as a family, all faults together; or one of that id is in the bin.
            Conflict: the same key or length was changed on both sides, or a new one has an id that is taken.
            NotInStore: `based_on` is no revision of it.
        """
        from drawerwright.catalogue import families_from_mappings

        settled = settle_part("family", values)
        # What is kept is what was written, with its units; read only to see that it can be used.
        name = families_from_mappings([settled], where="family")[0].id
        if based_on is None:
            _check_new_id(name)
        parts = parts_of(settled, FAMILY)
        saver = self._saver(by, what)
        with self._connections.writing() as connection:
            if based_on is None:
                insert = sqlite.insert if self._connections.sqlite else postgresql.insert
                new = insert(document).values(kind="family", name=name, head=0, last=0)
                # Two who make one family at once: the second finds the first one's.
                connection.execute(new.on_conflict_do_nothing())
            of = history.find(connection, "family", name, to_write=True)
            if of.binned_at is not None:
                says = "is the id of a family in the bin"
                raise InputError(
                    [Fault("family id", show_value(name), says, "restoring that, or another id")]
                )
            if of.head == 0:
                saved: Row[Any] | Clash = saving.begin(connection, of, parts, saver)
            elif based_on is None:
                saved = saving.save_new(connection, of, parts, saver)
            else:
                saved = saving.save(connection, of, parts, based_on, saver)
        return self._settled_family(of, saved)

    def family_revisions(self, family_id: str) -> list[Revision]:
        """All saves of a family, the newest first."""
        return self._revisions("family", family_id)

    def undo_family(self, family_id: str, *, based_on: int, by: str = "") -> StoredFamily:
        """Take back the change that made revision `based_on`; as with jobs."""
        return self._settled_family(*self._go("family", family_id, saving.undo, based_on, by))

    def redo_family(self, family_id: str, *, based_on: int, by: str = "") -> StoredFamily:
        """Bring back what the last undo took back; as with jobs."""
        return self._settled_family(*self._go("family", family_id, saving.redo, based_on, by))

    def compare_family(self, family_id: str, a: int, b: int) -> Difference:
        """What differs from revision `a` to revision `b`. Raises NotInStore."""
        return self._compare("family", family_id, a, b)

    def bin_family(self, family_id: str) -> None:
        """Put a family in the bin: it is offered no more, and can still be read and restored."""
        self._set_binned("family", family_id, binned=True)

    def restore_family(self, family_id: str) -> None:
        """Take a family out of the bin."""
        self._set_binned("family", family_id, binned=False)

    def delete_family(self, family_id: str, *, sure: str) -> None:
        """Delete a family for good: out of the bin alone, `sure` is its id or title. Raises InputError."""
        self._delete("family", family_id, sure)

    def _settled_family(self, of: Document, saved: Row[Any] | Clash) -> StoredFamily:
        if isinstance(saved, Clash):
            raise Conflict(saved)
        return self._family(of, saved)

    def _family(self, of: Document, row: Row[Any]) -> StoredFamily:
        return StoredFamily(**self._stored(of, row))


def _check_new_id(name: str) -> None:
    if name.casefold() in PAGES:
        says = "is the name of a page: no family can be called so"
    elif len(name) > LONGEST_ID:
        says = f"has {len(name)} characters: at most {LONGEST_ID} are taken"
    else:
        return
    raise InputError([Fault("family id", show_value(name[: LONGEST_ID + 1]), says, '"plain-16"')])
