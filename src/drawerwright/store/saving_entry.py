"""Saving one drawer: only its own rows are read and written, however long the job is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Row, insert

from drawerwright.errors import Fault, InputError
from drawerwright.store import history, saving
from drawerwright.store.differing import difference, words_of
from drawerwright.store.faults import Clash
from drawerwright.store.history import Document
from drawerwright.store.parts import PartKey, Parts, id_text, numbered, same
from drawerwright.store.saving import Saver
from drawerwright.store.shape import MOST_DRAWERS
from drawerwright.store.tables import part


def save_entry(
    connection: Connection,
    of: Document,
    key: PartKey,
    content: dict[str, Any] | None,
    based_on: int,
    saver: Saver,
) -> Row[Any] | Clash:
    """Save or remove (None) the first entry of that kind and id; as `saving.save` in all else."""
    base_number = history.main_line(connection, of, based_on)
    live = history.live_rows(connection, of, kind=key.kind, name=key.id)
    named = of.layout.lists[key.kind]
    new_key = key if content is None else PartKey(key.kind, id_text(content.get(named)))
    if base_number != of.head:
        before = history.rows_at(connection, of, base_number, kind=key.kind, name=key.id)
        if new_key != key or not _same_contents(before, live):
            parts = _with_entry(history.parts_at(connection, of, base_number), key, new_key, content)
            return saving.save(connection, of, parts, base_number, saver)
    old = live[0] if live else None
    head = history.revision_row(connection, of, of.head)
    if content is None if old is None else (content is not None and same(old.content, content)):
        return head
    entries = head.entries + (content is not None) - (old is not None)
    if content is not None and old is None and entries > MOST_DRAWERS:
        says = f"would be one more than the {MOST_DRAWERS} drawers that a job may have"
        raise InputError([Fault(f"{of.kind} {of.id} {key.kind} {new_key.id}", "", says, "another job")])
    number = of.last + 1
    if old is not None:
        history.end_rows(connection, [old.key], number)
    if content is not None:
        place = old.position if old is not None else history.last_position(connection, of, key.kind)
        values = history.row_values(of, number, new_key, place, content)
        connection.execute(insert(part), values)
    told = difference(
        {} if old is None else {key: old.content}, {} if content is None else {new_key: content}, of.layout
    )
    return history.add_revision(
        connection,
        of,
        how="saved" if base_number == of.head else "merged",
        based_on=base_number,
        shows=number,
        previous=head.shows,
        tip=number,
        saved_at=saver.at,
        author=saver.by,
        what=saver.what or words_of(told),
        title=head.title,
        units=head.units,
        entries=entries,
    )


def _same_contents(rows: Sequence[Row[Any]], others: Sequence[Row[Any]]) -> bool:
    return len(rows) == len(others) and all(
        same(one.content, other.content) for one, other in zip(rows, others, strict=True)
    )


def _with_entry(parts: Parts, key: PartKey, new_key: PartKey, content: dict[str, Any] | None) -> Parts:
    """Parts in which one entry is replaced in its place, taken away, or added at the end."""
    entries: list[tuple[str, str, Any]] = []
    for one, values in parts.items():
        if one != key:
            entries.append((*one[:2], values))
        elif content is not None:
            entries.append((*new_key[:2], content))
    if content is not None and key not in parts:
        entries.append((*new_key[:2], content))
    return numbered(entries)
