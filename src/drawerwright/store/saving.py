"""Saving on top of what others saved meanwhile; undo and redo. Everything happens in one transaction."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, select

from drawerwright.errors import Fault, InputError
from drawerwright.store import history
from drawerwright.store.differing import difference, words_of
from drawerwright.store.faults import Clash, PartClash
from drawerwright.store.history import Document
from drawerwright.store.merging import merge
from drawerwright.store.parts import Parts, values_of
from drawerwright.store.tables import revision


@dataclass(frozen=True, slots=True)
class Saver:
    """Who saves, when, and what they say they changed ("": it is found out)."""

    by: str
    at: datetime
    what: str = ""


def begin(connection: Connection, of: Document, parts: Parts, saver: Saver) -> Row[Any]:
    """Write the first revision of a new document."""
    history.put_parts(connection, of, 1, [], parts)
    return history.add_revision(
        connection,
        of,
        how="saved",
        shows=1,
        tip=1,
        saved_at=saver.at,
        author=saver.by,
        what=saver.what or "begun",
        **history.facts_of(of, parts),
    )


def save_new(connection: Connection, of: Document, mine: Parts, saver: Saver) -> Row[Any] | Clash:
    """Save what was thought to be new, and is there already: it clashes wherever the two differ."""
    first = history.parts_at(connection, of, 1)
    theirs = history.parts_of_rows(history.live_rows(connection, of))
    _, clashes = merge({}, mine, theirs, of.layout)
    if not clashes and mine.keys() == theirs.keys():
        return history.revision_row(connection, of, of.head)
    return _kept(connection, of, 1, (first, mine, theirs), clashes or _all_of(mine, theirs), saver)


def _all_of(mine: Parts, theirs: Parts) -> tuple[PartClash, ...]:
    """Every part that only one of the two has."""
    apart = [key for key in (*theirs, *mine) if (key in mine) != (key in theirs)]
    return tuple(
        PartClash(key.kind, key.id, mine=mine.get(key), theirs=theirs.get(key), base=None) for key in apart
    )


def save(connection: Connection, of: Document, mine: Parts, based_on: int, saver: Saver) -> Row[Any] | Clash:
    """Save `mine`, which was made of revision `based_on`; the revision that holds it now.

    What others saved meanwhile is put together with it. Where that cannot be, `mine` is kept on the side and
    the clash is given back, to be raised when the transaction has ended. A save that changes nothing makes no
    revision. Raises NotInStore for a `based_on` that is not there.
    """
    base_number = history.main_line(connection, of, based_on)
    live = history.live_rows(connection, of)
    theirs = history.parts_of_rows(live)
    base = theirs if base_number == of.head else history.parts_at(connection, of, base_number)
    merged, clashes = merge(base, mine, theirs, of.layout)
    if clashes:
        return _kept(connection, of, base_number, (base, mine, theirs), clashes, saver)
    told = difference(theirs, merged, of.layout)
    if not told.parts and not told.moved:
        return history.revision_row(connection, of, of.head)
    number = of.last + 1
    history.put_parts(connection, of, number, live, merged)
    head = history.revision_row(connection, of, of.head)
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
        **history.facts_of(of, merged),
    )


def _kept(
    connection: Connection,
    of: Document,
    base_number: int,
    sides: tuple[Parts, Parts, Parts],
    clashes: tuple[PartClash, ...],
    saver: Saver,
) -> Clash:
    base, mine, _ = sides
    side = history.side_of(base, mine)
    # The same version tried again, by a browser that got no answer, is kept once.
    tried = select(revision).where(
        revision.c.document == of.key, revision.c.how == "kept", revision.c.based_on == base_number
    )
    for row in connection.execute(tried):
        if row.side == side:
            break
    else:
        row = history.add_revision(
            connection,
            of,
            how="kept",
            based_on=base_number,
            shows=of.last + 1,
            tip=of.last + 1,
            saved_at=saver.at,
            author=saver.by,
            what=saver.what or words_of(difference(base, mine, of.layout)),
            side=side,
            **history.facts_of(of, mine),
        )
    named = tuple(_with_saver(connection, of, part) for part in clashes)
    base_values, mine_values, their_values = (values_of(one, of.layout) for one in sides)
    return Clash(
        where=f"{of.kind} {of.id}",
        base=base_values,
        mine=mine_values,
        theirs=their_values,
        base_revision=base_number,
        kept_revision=row.number,
        theirs_revision=of.head,
        parts=named,
    )


def _with_saver(connection: Connection, of: Document, part: PartClash) -> PartClash:
    """A clash with the revision that changed the part last on the main line."""
    ordered = part.kind == "order"
    number = history.last_change(
        connection, of, part.id if ordered else part.kind, None if ordered else part.id
    )
    row = history.revision_row(connection, of, number)
    return replace(part, theirs_revision=number, theirs_by=row.author)


def undo(connection: Connection, of: Document, based_on: int, saver: Saver) -> Row[Any] | Clash:
    """Take back the change that made revision `based_on`, as a new revision; again: the one before it.

    Where others saved since, only that change is taken back, and theirs stay (or clash, as when saving).

    Raises:
        InputError: there is nothing before it.
        NotInStore: there is no such revision.
    """
    row = history.revision_row(connection, of, history.main_line(connection, of, based_on))
    if row.previous is None:
        raise _nothing(of, row, "undo", "shows what was there first: nothing is before it")
    return _go(connection, of, row, row.previous, "undo", saver)


def redo(connection: Connection, of: Document, based_on: int, saver: Saver) -> Row[Any] | Clash:
    """Bring back what was taken back last before revision `based_on`, as a new revision.

    Raises:
        InputError: nothing was taken back, or something else was saved since.
        NotInStore: there is no such revision.
    """
    row = history.revision_row(connection, of, history.main_line(connection, of, based_on))
    target = row.tip
    if target == row.shows:
        raise _nothing(of, row, "redo", "follows no undo: there is nothing to bring back")
    while (before := history.revision_row(connection, of, target).previous) != row.shows:
        target = before
    return _go(connection, of, row, target, "redo", saver)


def _go(
    connection: Connection, of: Document, row: Row[Any], target: int, how: str, saver: Saver
) -> Row[Any] | Clash:
    """Values of the revision `target`, saved on top of `row`."""
    parts = history.parts_at(connection, of, target)
    done = Saver(saver.by, saver.at, saver.what or _words(connection, of, row, target, how))
    if row.number != of.head:
        return save(connection, of, parts, row.number, done)
    number = of.last + 1
    history.put_parts(connection, of, number, history.live_rows(connection, of), parts)
    shown = history.revision_row(connection, of, target)
    return history.add_revision(
        connection,
        of,
        how=how,
        based_on=row.number,
        shows=target,
        previous=shown.previous,
        tip=row.tip,
        saved_at=done.at,
        author=done.by,
        what=done.what,
        **history.facts_of(of, parts),
    )


def _words(connection: Connection, of: Document, row: Row[Any], target: int, how: str) -> str:
    if how == "redo":
        return f"brought back: {history.revision_row(connection, of, target).what}"
    return f"taken back: {history.revision_row(connection, of, row.shows).what}"


def _nothing(of: Document, row: Row[Any], what: str, says: str) -> InputError:
    """Nothing to take back or to bring back at a revision, which need not be the newest."""
    newer = row.number != of.head
    try_ = f"revision {of.head}, the newest" if newer else "the revisions, to go to any of them"
    return InputError([Fault(f"{of.kind} {of.id} {what}", f"revision {row.number}", says, try_)])
