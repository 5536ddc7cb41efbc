"""Jobs of the store: list, make, read, save, take back, compare, throw away."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Row, select

from drawerwright.errors import Fault, InputError
from drawerwright.store import history, saving
from drawerwright.store.differing import Difference
from drawerwright.store.documents import Documents
from drawerwright.store.faults import Clash, Conflict
from drawerwright.store.history import Document
from drawerwright.store.parts import JOB, PartKey, id_text, parts_of
from drawerwright.store.records import JobCard, Revision, StoredJob
from drawerwright.store.saving_entry import save_entry
from drawerwright.store.shape import LONGEST_TEXT, settle_job, settle_part, settle_text
from drawerwright.store.tables import document, revision
from drawerwright.units import show_value


class Jobs(Documents):
    """The jobs of a store."""

    def jobs(self, *, binned: bool = False) -> list[JobCard]:
        """All jobs, or all in the bin; the one saved last first."""
        told = document.c.binned_at.is_not(None) if binned else document.c.binned_at.is_(None)
        query = (
            select(document, revision)
            .join(revision, (revision.c.document == document.c.key) & (revision.c.number == document.c.head))
            .where(document.c.kind == "job", told)
            .order_by(revision.c.saved_at.desc(), document.c.key.desc())
        )
        with self._connections.reading() as connection:
            rows = connection.execute(query).all()
        return [
            JobCard(
                id=str(row.key),
                title=row.title,
                units=row.units,
                drawers=row.entries,
                revision=row.head,
                saved_at=row.saved_at,
                by=row.author,
                binned_at=row.binned_at,
            )
            for row in rows
        ]

    def create_job(self, values: object, *, by: str = "", what: str = "") -> StoredJob:
        """A new job with the job file's keys, as its revision 1. Its id is new in this store.

        It need not be right, or whole; only its shape is looked at. Raises InputError, with all faults.
        """
        parts = parts_of(settle_job(values), JOB)
        saver = self._saver(by, what)
        with self._connections.writing() as connection:
            new = history.add_document(connection, "job", None)
            return self._job(new, saving.begin(connection, new, parts, saver))

    def job(self, job_id: str, revision: int | None = None) -> StoredJob:
        """A job, as it is or as it was at a revision; also one in the bin. Raises NotInStore."""
        with self._connections.reading() as connection:
            of = history.find(connection, "job", job_id)
            return self._job(
                of, history.revision_row(connection, of, of.head if revision is None else revision)
            )

    def export_job(self, job_id: str, revision: int | None = None) -> dict[str, Any]:
        """The values of a job as a mapping with the job file's keys, for the writers of files."""
        return self.job(job_id, revision).values

    def save_job(
        self,
        job_id: str,
        values: object,
        *,
        based_on: int,
        by: str = "",
        what: str = "",
    ) -> StoredJob:
        """Save the whole job, which was made of revision `based_on`.

        What others saved meanwhile is put together with it, drawer by drawer, cabinet by cabinet, key by key
        of the defaults; the answer's `how` is then "merged". A save that changes nothing makes no revision.

        Raises:
            Conflict: the same drawer (cabinet, key) was changed on both sides; this version is kept.
            InputError: its shape; NotInStore: no such job or revision.
        """
        parts = parts_of(settle_job(values), JOB)
        saver = self._saver(by, what)
        with self._connections.writing() as connection:
            of = self._to_change(connection, "job", job_id)
            saved = saving.save(connection, of, parts, based_on, saver)
        return self._settled(of, saved)

    def save_job_in_steps(
        self, job_id: str, stages: Sequence[object], *, based_on: int, by: str = ""
    ) -> StoredJob:
        """Save the whole job as it was after each of several changes, each a revision: all of them, or none.

        Where others saved since revision `based_on`, the last stage alone is put together with theirs, as by
        `save_job`, with its errors.
        """
        steps = [parts_of(settle_job(one), JOB) for one in stages]
        saver = self._saver(by, "")
        with self._connections.writing() as connection:
            of = self._to_change(connection, "job", job_id)
            if of.head != based_on:
                del steps[:-1]
            saved = saving.save(connection, of, steps[0], based_on, saver)
            for parts in steps[1:]:
                of = self._to_change(connection, "job", job_id)
                saved = saving.save(connection, of, parts, of.head, saver)
        return self._settled(of, saved)

    def save_drawer(
        self,
        job_id: str,
        drawer_id: str,
        values: Mapping[str, Any] | None,
        *,
        based_on: int,
        by: str = "",
        what: str = "",
        alone: bool = False,
    ) -> StoredJob:
        """Save one drawer (its whole keys, not only the changed ones), or remove it (None).

        A drawer that is not there yet is added at the end. `values` may bear another id: it keeps its place.
        Others' saves are put together with it as by `save_job`, with the same errors; costs the same however
        long the job is. `alone`: InputError, and nothing is saved, where it would bear another drawer's id.
        """
        content = None if values is None else settle_part("drawer", values, named=drawer_id)
        # A drawer that is half typed may have no id.
        name = settle_text(drawer_id, "drawer", longest=LONGEST_TEXT, needed=False)
        key = PartKey("drawer", id_text(name))
        saver = self._saver(by, what)
        with self._connections.writing() as connection:
            of = self._to_change(connection, "job", job_id)
            new = "" if content is None or not alone else id_text(content.get("id"))
            before = len(history.live_rows(connection, of, kind="drawer", name=new))
            saved = save_entry(connection, of, key, content, based_on, saver)
            if new and len(history.live_rows(connection, of, kind="drawer", name=new)) > max(1, before):
                raise InputError([_taken(of.id, new)])
        return self._settled(of, saved)

    def has_drawer(self, job_id: str, drawer_id: str) -> bool:
        """Whether the job has a drawer of that id now. Raises NotInStore for the job."""
        with self._connections.reading() as connection:
            of = history.find(connection, "job", job_id)
            return bool(history.live_rows(connection, of, kind="drawer", name=id_text(drawer_id)))

    def add_drawers(
        self,
        job_id: str,
        drawers: Sequence[Mapping[str, Any]],
        *,
        based_on: int,
        after: str | None = None,
        by: str = "",
        what: str = "",
    ) -> StoredJob:
        """Add drawers behind the drawer `after`; None: at the end. Errors as by `save_job`.

        InputError, too, where one bears the id of another.
        """
        values = self.job(job_id, based_on).values
        there = values["drawer"]
        taken = {id_text(one.get("id")) for one in there}
        twice: list[str] = []
        for name in filter(None, (id_text(one.get("id")) for one in drawers)):
            if name in taken:
                twice.append(name)
            taken.add(name)
        if twice:
            raise InputError(_taken(job_id, name) for name in dict.fromkeys(twice))
        at = len(there) if after is None else 1 + self._place_of(job_id, there, after)
        values = {**values, "drawer": [*there[:at], *drawers, *there[at:]]}
        return self.save_job(job_id, values, based_on=based_on, by=by, what=what)

    def order_drawers(
        self,
        job_id: str,
        drawer_ids: Sequence[str],
        *,
        based_on: int,
        by: str = "",
        what: str = "",
    ) -> StoredJob:
        """Put the drawers of revision `based_on` in the order of `drawer_ids`, which names each of them once.

        Errors as by `save_job`; InputError, too, where the names are not those of the drawers.
        """
        values = self.job(job_id, based_on).values
        waiting: dict[str, list[Any]] = {}
        for one in values["drawer"]:
            waiting.setdefault(id_text(one.get("id")), []).append(one)
        ordered = [waiting[name].pop(0) for name in map(id_text, drawer_ids) if waiting.get(name)]
        if len(ordered) != len(drawer_ids) or len(ordered) != len(values["drawer"]):
            says = f"are not the {len(values['drawer'])} drawers of revision {based_on}, each once"
            raise InputError(
                [Fault(f"job {job_id} order", f"{len(drawer_ids)} ids", says, "all ids, each once")]
            )
        return self.save_job(job_id, {**values, "drawer": ordered}, based_on=based_on, by=by, what=what)

    def revisions(self, job_id: str, *, before: int | None = None, most: int | None = None) -> list[Revision]:
        """Saves of a job, the newest first, those kept on the side among them. Raises NotInStore.

        `before`: only those with a lower number; `most`: no more than that.
        """
        return self._revisions("job", job_id, before, most)

    def undo(self, job_id: str, *, based_on: int, by: str = "") -> StoredJob:
        """Take back the change that made revision `based_on`, as a new revision; again: the one before it.

        Where others saved since, their changes stay. Raises InputError where nothing is before it; Conflict
        where others changed the same since; NotInStore.
        """
        return self._settled(*self._go("job", job_id, saving.undo, based_on, by))

    def redo(self, job_id: str, *, based_on: int, by: str = "") -> StoredJob:
        """Bring back what the last undo took back. Raises InputError where nothing was; else as `undo`."""
        return self._settled(*self._go("job", job_id, saving.redo, based_on, by))

    def compare(self, job_id: str, a: int, b: int) -> Difference:
        """What differs from revision `a` to `b`; also of those kept on the side. Raises NotInStore."""
        return self._compare("job", job_id, a, b)

    def bin_job(self, job_id: str) -> None:
        """Put a job in the bin: it is in no list, can be read and restored, and is not changed there."""
        self._set_binned("job", job_id, binned=True)

    def restore_job(self, job_id: str) -> None:
        """Take a job out of the bin."""
        self._set_binned("job", job_id, binned=False)

    def delete_job(self, job_id: str, *, sure: str) -> None:
        """Delete a job for good, all its revisions with it: out of the bin alone, `sure` is its id or title.

        Raises InputError where it is not in the bin or `sure` is something else; NotInStore.
        """
        self._delete("job", job_id, sure)

    @staticmethod
    def _place_of(job_id: str, drawers: Sequence[Mapping[str, Any]], name: str) -> int:
        for at, one in enumerate(drawers):
            if id_text(one.get("id")) == id_text(name):
                return at
        says = "is no drawer of this job"
        raise InputError([Fault(f"job {job_id} after", name, says, "the id of one of its drawers")])

    def _settled(self, of: Document, saved: Row[Any] | Clash) -> StoredJob:
        if isinstance(saved, Clash):
            raise Conflict(saved)
        return self._job(of, saved)

    def _job(self, of: Document, row: Row[Any]) -> StoredJob:
        return StoredJob(**self._stored(of, row), drawer_count=row.entries)


def _taken(job_id: str, name: str) -> Fault:
    says = "is the id of another drawer of this job: ids are unique in a job"
    return Fault(f"job {job_id} drawer id", show_value(name), says, "an id that no drawer has")
