"""The choice of slides of a job: with which families it was taken, and whether others answer now.

A job that is saved says nothing of slides it did not look at: what stands is the choice that was taken, when
the job was made or when somebody said so since; of drawers that came later, that of their first save.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, func, select, update

from drawerwright.errors import Fault, InputError
from drawerwright.store import history
from drawerwright.store.family_state import read_state, state_now
from drawerwright.store.following import drawers_since
from drawerwright.store.history import Document
from drawerwright.store.jobs import Jobs
from drawerwright.store.parts import values_of
from drawerwright.store.records import StoredJob
from drawerwright.store.tables import document, revision


@dataclass(frozen=True, slots=True)
class SlidesSince:
    """Families other than now's, with which slides of a job were taken.

    `now`: the line of the families that answer now. `lines`: of other families, each with the present names
    of the drawers whose slides were taken with them; `gone`: ids of families among them that were deleted for
    good. `revision`: the newest of the job. `stretches`: every line of families since, in the order of saves.
    """

    revision: int
    now: str
    lines: tuple[tuple[str, frozenset[str]], ...]
    gone: tuple[str, ...] = ()
    stretches: tuple[str, ...] = ()


class TakenSlides(Jobs):
    """Jobs, and the families with which their slides were taken."""

    def slides_since(self, job_id: str) -> SlidesSince | None:
        """With which other families slides of a job were taken; None where all answer as they did.

        Costs the same however long the job is, where no family was changed since. Raises NotInStore.
        """
        with self._connections.reading() as connection:
            of = history.find(connection, "job", job_id)
            now = state_now(connection)
            begins = _begins(connection, of)
            if all(line == now for line, _ in begins):
                return None
            names = drawers_since(connection, of, [number for _, number in begins])
            lines: dict[str, set[str]] = {}
            for (line, _), those in zip(begins, names, strict=True):
                if line != now:
                    lines.setdefault(line, set()).update(those)
            there = set(connection.scalars(select(document.c.key).where(document.c.kind == "family")))
        named = {name: key for line in lines for name, (key, _) in read_state(line).items()}
        gone = tuple(name for name, key in named.items() if key not in there)
        told = tuple((line, frozenset(those)) for line, those in lines.items())
        return SlidesSince(of.head, now, told, gone, tuple(line for line, _ in begins))

    def families_in(self, line: str) -> list[dict[str, Any]]:
        """The values of the families that a line names, but those that were deleted for good."""
        found = []
        with self._connections.reading() as connection:
            for key, number in read_state(line).values():
                row = connection.execute(select(document).where(document.c.key == key)).one_or_none()
                if row is not None:
                    of = history.document_of(row)
                    found.append(values_of(history.parts_at(connection, of, number), of.layout))
        return found

    def take_slides(self, job_id: str, *, seen: str | None = None, by: str = "", what: str = "") -> StoredJob:
        """Take the slides of a job as they are chosen now; the families `seen` must still be those of now.

        A revision with the values of the newest one says who did it, unless that was saved with these very
        families. Undo passes over it.

        Raises:
            InputError: families were changed since they were `seen`; the job lies in the bin.
            NotInStore: no such job.
        """
        saver = self._saver(by, what)
        with self._connections.writing() as connection:
            of = self._to_change(connection, "job", job_id)
            now = state_now(connection)
            if seen is not None and seen != now:
                says = "were changed again since they were looked at"
                raise InputError([Fault("slides", "", says, "looking at the job again")])
            row = history.revision_row(connection, of, of.head)
            if row.families != now:
                row = history.add_revision(
                    connection,
                    of,
                    how="saved",
                    based_on=of.head,
                    shows=row.shows,
                    previous=row.previous,
                    tip=row.tip,
                    saved_at=saver.at,
                    author=saver.by,
                    what=saver.what or "slides taken as they are chosen now",
                    title=row.title,
                    units=row.units,
                    entries=row.entries,
                )
            taken = update(document).where(document.c.key == of.key)
            connection.execute(taken.values(slides_taken=row.number))
            return self._job(of, row)


def _begins(connection: Connection, of: Document) -> list[tuple[str, int]]:
    """The families of each stretch of saves since slides were taken, and its first revision."""
    told = select(func.coalesce(document.c.slides_taken, 1)).where(document.c.key == of.key)
    before = func.lag(revision.c.families).over(order_by=revision.c.number).label("before")
    saves = (
        select(revision.c.number, revision.c.families, before)
        .where(
            revision.c.document == of.key,
            revision.c.how != "kept",
            revision.c.number >= told.scalar_subquery(),
        )
        .subquery()
    )
    query = (
        select(saves.c.families, saves.c.number)
        .where(saves.c.before.is_(None) | (saves.c.before != saves.c.families))
        .order_by(saves.c.number)
    )
    return [(row[0], row[1]) for row in connection.execute(query)]
