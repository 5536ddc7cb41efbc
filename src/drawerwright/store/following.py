"""Whose a name was: drawers followed from what the bench named to what they are called now."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select

from drawerwright.store.history import Document
from drawerwright.store.tables import part, revision


@dataclass(frozen=True, slots=True)
class Life:
    """A drawer as it was from revision `since` to the one before `until` (None: still)."""

    id: str
    position: int
    since: int
    until: int | None
    content: dict[str, Any]


class Following:
    """The lives of a job's drawers, and when its revisions were saved."""

    def __init__(self, connection: Connection, of: Document) -> None:
        query = (
            select(revision.c.number, revision.c.saved_at)
            .where(revision.c.document == of.key, revision.c.how != "kept")
            .order_by(revision.c.number)
        )
        rows = connection.execute(query).all()
        self._numbers: list[int] = [row.number for row in rows]
        self._moments = [row.saved_at for row in rows]
        self._lives = _lives(connection, of)

    def revision_at(self, moment: datetime) -> int:
        """The newest revision at a moment; the first where there was none yet."""
        return self._numbers[max(0, bisect_right(self._moments, moment) - 1)]

    def name_now(self, name: str, number: int) -> str | None:
        """What the drawer that was called so at a revision is called now; None: it is there no more."""
        return follow(self._lives, name, number)


def _lives(connection: Connection, of: Document) -> tuple[Life, ...]:
    columns = (part.c.id, part.c.position, part.c.since, part.c.until, part.c.content)
    drawers = (
        select(*columns)
        .where(part.c.document == of.key, part.c.kind == "drawer")
        .order_by(part.c.since, part.c.position, part.c.key)
    )
    return tuple(Life(*row) for row in connection.execute(drawers))


def drawers_since(connection: Connection, of: Document, begins: Sequence[int]) -> list[set[str]]:
    """The present names of a job's drawers by the stretch of revisions in which they came.

    `begins`: the first revision of each stretch; what was there before the first belongs to that.
    """
    lives = _lives(connection, of)
    now = {one.id for one in lives if one.until is None}
    left, found = set(now), []
    for end in begins[1:]:
        there = {one.id for one in lives if one.since < end and (one.until is None or one.until >= end)}
        names = {name for one in there if (name := one if one in now else follow(lives, one, end - 1))}
        found.append(names & left)
        left -= names
    return [*found, left]


def follow(lives: Sequence[Life], name: str, number: int) -> str | None:
    """The present name of the drawer that was called `name` at a revision; None: it is there no more.

    A drawer is renamed where, in one revision, its name goes and another comes that stands in its very place,
    or tells the same but for the name. One that is taken away and comes back as it was is the same drawer.
    A name that nobody had then is that of whoever had it last before.
    """
    then = [one for one in lives if one.id == name and one.since <= number]
    if not then:
        return None
    life = max(then, key=lambda one: one.since)
    while life.until is not None:
        following = _next(lives, life, life.until)
        if following is None:
            return None
        life = following
    return life.id


def _next(lives: Sequence[Life], life: Life, end: int) -> Life | None:
    """What became of a drawer at the revision that ended a life of it."""
    coming = [one for one in lives if one.since == end]
    same_name = next((one for one in coming if one.id == life.id), None)
    if same_name is not None:
        return same_name
    before = {one.id for one in lives if one.until == end}
    new = [one for one in coming if one.id not in before]
    for one in new:
        if one.position == life.position or _but_name(one) == _but_name(life):
            return one
    back = [one for one in lives if one.since > end and one.id == life.id and one.content == life.content]
    return min(back, key=lambda one: one.since) if back else None


def _but_name(life: Life) -> dict[str, Any]:
    return {key: value for key, value in life.content.items() if key != "id"}
