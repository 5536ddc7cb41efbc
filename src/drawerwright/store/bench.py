"""What comes from the bench: measured gaps, and ticks of the steps that are done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any, Final

from sqlalchemy import insert, select, update

from drawerwright.errors import Fault, InputError
from drawerwright.store import history
from drawerwright.store.documents import Documents
from drawerwright.store.following import Following
from drawerwright.store.parts import same
from drawerwright.store.records import StoredGaps, Tick, TickNow
from drawerwright.store.shape import settle_part, settle_text
from drawerwright.store.tables import gap_reading, tick
from drawerwright.units import show_value

AHEAD: Final = timedelta(days=1)
"""How far a bench's clock may be ahead; our own choice (invented): more than any zone that was set wrong."""

EARLIEST_YEAR: Final = 2000
"""No bench has told anything before; our own choice (invented)."""


class Bench(Documents):
    """Gap readings and ticks of a store's jobs."""

    def add_gaps(
        self,
        job_id: str,
        drawer_id: str,
        values: Mapping[str, Any],
        *,
        by: str = "",
        token: str | None = None,
    ) -> StoredGaps:
        """Keep one measuring of a front's gaps [mm], by the columns of the gaps file. Earlier ones stay.

        `token`: a text of the sender's own; what comes a second time with it, because the answer was lost, is
        kept once. A drawer may be told by a name that it had before.

        Raises:
            InputError: its shape; no drawer has or had that name; something else came with `token`.
            NotInStore: no such job.
        """
        drawer = settle_text(drawer_id, "drawer")
        content = settle_part("gaps", values, named=drawer)
        saver = self._saver(by)
        told = None if token is None else settle_text(token, "token")
        with self._connections.writing() as connection:
            of = history.find(connection, "job", job_id, to_write=True)
            query = select(gap_reading).where(gap_reading.c.document == of.key)
            row = again = None
            if told is not None:
                row = again = connection.execute(query.where(gap_reading.c.token == told)).one_or_none()
            if row is None:
                if Following(connection, of).name_now(drawer, of.head) is None:
                    says = "is no drawer of this job"
                    raise InputError(
                        [Fault("drawer", show_value(drawer), says, "the id of one of its drawers")]
                    )
                new = {
                    "document": of.key,
                    "drawer": drawer,
                    "saved_at": saver.at,
                    "author": saver.by,
                    "content": content,
                    "token": told,
                }
                key = connection.execute(insert(gap_reading).values(new)).inserted_primary_key
                assert key is not None
                row = connection.execute(query.where(gap_reading.c.key == key[0])).one()
            elif row.drawer != drawer or not same(row.content, content):
                says = f"came before with another reading, of drawer {row.drawer}: nothing was kept now"
                raise InputError([Fault("token", show_value(told), says, "a new token for each reading")])
        return StoredGaps(row.key, row.drawer, row.content, row.saved_at, row.author, again is not None)

    def gaps(self, job_id: str, drawer_id: str | None = None) -> list[StoredGaps]:
        """All gap readings of a job, or of one drawer, as they came in. Raises NotInStore."""
        with self._connections.reading() as connection:
            of = history.find(connection, "job", job_id)
            query = select(gap_reading).where(gap_reading.c.document == of.key).order_by(gap_reading.c.key)
            if drawer_id is not None:
                name = settle_text(drawer_id, "drawer", needed=False)
                query = query.where(gap_reading.c.drawer == name)
            rows = connection.execute(query).all()
        return [StoredGaps(row.key, row.drawer, row.content, row.saved_at, row.author) for row in rows]

    def gaps_now(self, job_id: str) -> list[StoredGaps]:
        """Gap readings of the drawers that are there, each under its present name. Raises NotInStore.

        Those of drawers that are there no more are left out.
        """
        read = self.gaps(job_id)
        if not read:
            return []
        with self._connections.reading() as connection:
            following = Following(connection, history.find(connection, "job", job_id))
        names = [following.name_now(one.drawer, following.revision_at(one.saved_at)) for one in read]
        return [replace(one, drawer=name) for one, name in zip(read, names, strict=True) if name is not None]

    def set_tick(
        self, job_id: str, drawer_id: str, step: str, done: bool, *, at: datetime, by: str = ""
    ) -> Tick:
        """Tick a step of the work on a drawer, or take the tick away; the tick that then holds.

        `at`: when the bench said so, by its own clock, aware. What was said last holds, in whatever order it
        comes in; at the same moment "done" wins, then the later name. Raises InputError; NotInStore.
        """
        drawer, name = settle_text(drawer_id, "drawer"), settle_text(step, "step")
        saver = self._saver(by)
        says = ""
        if at.tzinfo is None:
            says = "has no zone"
        elif at.year < EARLIEST_YEAR or at > saver.at + AHEAD:
            says = f"is before {EARLIEST_YEAR}, or more than a day ahead: is this clock right?"
        if says:
            raise InputError([Fault("tick at", at.isoformat(), says, saver.at.isoformat())])
        new = Tick(drawer, name, bool(done), at.astimezone(UTC), saver.by)
        with self._connections.writing() as connection:
            of = history.find(connection, "job", job_id, to_write=True)
            this = (tick.c.document == of.key, tick.c.drawer == drawer, tick.c.step == name)
            row = connection.execute(select(tick).where(*this)).one_or_none()
            values = {"done": new.done, "told_at": new.at, "author": new.by}
            if row is None:
                told = {"document": of.key, "drawer": drawer, "step": name}
                connection.execute(insert(tick).values({**told, **values}))
            elif (new.at, new.done, new.by) > (row.told_at, row.done, row.author):
                connection.execute(update(tick).where(*this).values(values))
            else:
                return Tick(row.drawer, row.step, row.done, row.told_at, row.author)
        return new

    def ticks(self, job_id: str, drawer_id: str | None = None) -> list[Tick]:
        """All ticks of a job, or of one drawer, those taken away too (`done` false). Raises NotInStore."""
        with self._connections.reading() as connection:
            of = history.find(connection, "job", job_id)
            query = select(tick).where(tick.c.document == of.key)
            if drawer_id is not None:
                name = settle_text(drawer_id, "drawer", needed=False)
                query = query.where(tick.c.drawer == name)
            rows = connection.execute(query).all()
        ticks = [Tick(row.drawer, row.step, row.done, row.told_at, row.author) for row in rows]
        return sorted(ticks, key=lambda one: (one.drawer, one.step))

    def ticks_now(self, job_id: str) -> list[TickNow]:
        """Ticks of the drawers that are there, each under its present name; one of a step. Raises NotInStore.

        What was told last of a step holds, under whatever name of the drawer.
        """
        told = self.ticks(job_id)
        if not told:
            return []
        with self._connections.reading() as connection:
            following = Following(connection, history.find(connection, "job", job_id))
        stand: dict[tuple[str, str], TickNow] = {}
        for one in sorted(told, key=lambda tick: (tick.at, tick.done, tick.by)):
            number = following.revision_at(one.at)
            name = following.name_now(one.drawer, number)
            if name is not None:
                stand[name, one.step] = TickNow(replace(one, drawer=name), one.drawer, number)
        return [stand[key] for key in sorted(stand)]
