"""Documents and their revisions as rows: found, read at any revision, written on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, Final, cast

from sqlalchemy import Connection, Row, Select, delete, func, insert, or_, select, update

from drawerwright.store.family_state import state_now
from drawerwright.store.faults import not_in_store
from drawerwright.store.ordering import STEP, positions
from drawerwright.store.parts import FAMILY, JOB, Layout, PartKey, Parts, numbered, same
from drawerwright.store.records import How, Revision
from drawerwright.store.shape import is_storable
from drawerwright.store.tables import document, part, revision

LAYOUTS: Final = {"job": JOB, "family": FAMILY}
_ENTRIES: Final = {"job": "drawer", "family": "length"}
_MOST_KEYS: Final = 500


@dataclass(frozen=True, slots=True)
class Document:
    """A job or a family. `head`: its newest revision on the main line; `last`: the highest number of any."""

    key: int
    kind: str
    id: str
    head: int
    last: int
    binned_at: datetime | None

    @property
    def layout(self) -> Layout:
        """How its values are taken apart."""
        return LAYOUTS[self.kind]


def read_key(text: str) -> int | None:
    """The number that a job or a log is named by; None: no such number."""
    # The longest that fits the column; anything else is nobody's name.
    return int(text) if text.isascii() and text.isdecimal() and len(text) <= 9 else None


def find(connection: Connection, kind: str, name: str, *, to_write: bool = False) -> Document:
    """A document by its id; `to_write`: nobody else writes it until this transaction ends.

    Raises:
        NotInStore: there is none.
    """
    if not is_storable(name):
        raise not_in_store(kind, name)
    query = select(document).where(document.c.kind == kind)
    if kind == "job":
        query = query.where(document.c.key == read_key(name))
    else:
        query = query.where(document.c.name == name)
    if to_write:
        query = query.with_for_update()
    row = connection.execute(query).one_or_none()
    if row is None:
        raise not_in_store(kind, name)
    return document_of(row)


def document_of(row: Row[Any]) -> Document:
    """A row of the table of documents."""
    id_ = row.name if row.name is not None else str(row.key)
    return Document(row.key, row.kind, id_, row.head, row.last, row.binned_at)


def revision_row(connection: Connection, of: Document, number: int) -> Row[Any]:
    """A revision by its number. Raises NotInStore."""
    if not 1 <= number <= of.last:
        raise not_in_store("revision", number, f"1 to {of.last}")
    query = select(revision).where(revision.c.document == of.key, revision.c.number == number)
    row = connection.execute(query).one_or_none()
    if row is None:
        raise not_in_store("revision", number, f"1 to {of.last}")
    return row


def revision_of(row: Row[Any]) -> Revision:
    """A row of the table of revisions."""
    return Revision(
        number=row.number,
        how=cast(How, row.how),
        saved_at=row.saved_at,
        by=row.author,
        what=row.what,
        based_on=row.based_on,
        shows=row.shows,
        title=row.title,
        units=row.units,
        entries=row.entries,
    )


def live_rows(connection: Connection, of: Document, *, kind: str = "", name: str = "") -> Sequence[Row[Any]]:
    """The rows of the newest revision; of one list and id alone where they are told."""
    query = _rows(of).where(part.c.until.is_(None))
    if kind:
        query = query.where(part.c.kind == kind, part.c.id == name)
    return connection.execute(query).all()


def rows_at(
    connection: Connection,
    of: Document,
    number: int,
    *,
    kind: str = "",
    name: str = "",
) -> Sequence[Row[Any]]:
    """The rows that hold at a revision of the main line."""
    query = _rows(of).where(part.c.since <= number, or_(part.c.until.is_(None), part.c.until > number))
    if kind:
        query = query.where(part.c.kind == kind, part.c.id == name)
    return connection.execute(query).all()


def _rows(of: Document) -> Select[Any]:
    columns = (part.c.key, part.c.kind, part.c.id, part.c.position, part.c.content)
    return select(*columns).where(part.c.document == of.key).order_by(part.c.position, part.c.key)


def parts_of_rows(rows: Sequence[Row[Any]]) -> Parts:
    """Rows in their order as parts."""
    return numbered((row.kind, row.id, row.content) for row in rows)


def parts_at(connection: Connection, of: Document, number: int) -> Parts:
    """The parts of any revision, also of one on the side. Raises NotInStore."""
    if number == of.head:
        return parts_of_rows(live_rows(connection, of))
    row = revision_row(connection, of, number)
    if row.how != "kept":
        return parts_of_rows(rows_at(connection, of, number))
    return with_side(parts_of_rows(rows_at(connection, of, row.based_on)), row.side)


def main_line(connection: Connection, of: Document, number: int) -> int:
    """The revision of the main line that a revision stands on: itself, or what one on the side was based on.

    Raises:
        NotInStore: there is no such revision.
    """
    if number == of.head:
        return number
    row = revision_row(connection, of, number)
    return cast(int, row.based_on) if row.how == "kept" else number


def side_of(base: Parts, parts: Parts) -> dict[str, Any]:
    """What a version on the side differs in from what it was based on, as JSON."""
    put = [[*key, one] for key, one in parts.items() if key not in base or not same(base[key], one)]
    removed = [list(key) for key in base if key not in parts]
    side: dict[str, Any] = {"put": put, "removed": removed}
    if list(with_side(base, side)) != list(parts):
        side["order"] = [list(key) for key in parts]
    return side


def with_side(base: Parts, side: dict[str, Any]) -> Parts:
    """A version on the side, from what it was based on and what it differs in."""
    parts = dict(base)
    for key in side["removed"]:
        del parts[PartKey(*key)]
    for *key, content in side["put"]:
        parts[PartKey(*key)] = content
    if "order" in side:
        return {PartKey(*key): parts[PartKey(*key)] for key in side["order"]}
    return parts


def add_document(connection: Connection, kind: str, name: str | None) -> Document:
    """A new document, without a revision yet."""
    values = {"kind": kind, "name": name, "head": 0, "last": 0}
    key = connection.execute(insert(document).values(values)).inserted_primary_key
    assert key is not None
    return Document(key[0], kind, name if name is not None else str(key[0]), 0, 0, None)


def put_parts(
    connection: Connection, of: Document, number: int, live: Sequence[Row[Any]], parts: Parts
) -> None:
    """Make `parts` the newest version, as revision `number`; what stays as it is is not touched."""
    old = dict(zip(parts_of_rows(live), live, strict=True))
    places = _places(of, old, parts)
    gone = [row.key for key, row in old.items() if key not in parts]
    added = []
    for key, content in parts.items():
        row = old.get(key)
        if row is not None:
            if row.position == places[key] and same(row.content, content):
                continue
            gone.append(row.key)
        added.append(row_values(of, number, key, places[key], content))
    end_rows(connection, gone, number)
    if added:
        connection.execute(insert(part), added)


def _places(of: Document, old: dict[PartKey, Row[Any]], parts: Parts) -> dict[PartKey, int]:
    """Positions: those of lists follow their order; of all else the order means nothing, so none moves."""
    places: dict[PartKey, int] = {}
    for kind in dict.fromkeys(key.kind for key in parts):
        names = [key for key in parts if key.kind == kind]
        before = {key: row.position for key, row in old.items() if key.kind == kind}
        if kind not in of.layout.lists:
            names.sort(key=lambda key, before=before: before.get(key, 1 << 62))  # type: ignore[misc]
        places |= positions(before, names)
    return places


def row_values(of: Document, number: int, key: PartKey, position: int, content: Any) -> dict[str, Any]:
    """A row to be added for a part, from revision `number` on."""
    return {
        "document": of.key,
        "kind": key.kind,
        "id": key.id,
        "position": position,
        "since": number,
        "content": content,
    }


def end_rows(connection: Connection, keys: Sequence[int], number: int) -> None:
    """Rows that hold no more from revision `number` on."""
    for first in range(0, len(keys), _MOST_KEYS):
        some = keys[first : first + _MOST_KEYS]
        connection.execute(update(part).where(part.c.key.in_(some)).values(until=number))


def last_change(connection: Connection, of: Document, kind: str, name: str | None) -> int:
    """The newest revision that changed a part, or anything of a list (None)."""
    query = select(func.max(part.c.since), func.max(part.c.until)).where(
        part.c.document == of.key, part.c.kind == kind
    )
    if name is not None:
        query = query.where(part.c.id == name)
    since, until = connection.execute(query).one()
    return max(since or 0, until or 0) or of.head


def last_position(connection: Connection, of: Document, kind: str) -> int:
    """The position that a row behind all others of a list gets."""
    query = select(func.max(part.c.position)).where(
        part.c.document == of.key, part.c.kind == kind, part.c.until.is_(None)
    )
    return (connection.execute(query).scalar() or 0) + STEP


def facts_of(of: Document, parts: Parts) -> dict[str, Any]:
    """What a list of documents shows of a version: title, units, number of drawers or lengths."""
    title, units = (parts.get(PartKey("", key)) for key in ("title", "units"))
    return {
        "title": title if isinstance(title, str) else "",
        "units": units if isinstance(units, str) else "mm",
        "entries": sum(key.kind == _ENTRIES[of.kind] for key in parts),
    }


def add_revision(connection: Connection, of: Document, **values: Any) -> Row[Any]:
    """Number and write a revision; unless its `how` is "kept", it is the newest one. Its row."""
    number = of.last + 1
    if of.kind == "job":
        values["families"] = state_now(connection)
    connection.execute(insert(revision).values(document=of.key, number=number, **values))
    head = of.head if values["how"] == "kept" else number
    connection.execute(update(document).where(document.c.key == of.key).values(head=head, last=number))
    return revision_row(connection, replace(of, head=head, last=number), number)


def delete_document(connection: Connection, of: Document) -> None:
    """Delete a document for good, with all that belongs to it."""
    connection.execute(delete(document).where(document.c.key == of.key))
