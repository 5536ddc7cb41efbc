"""Revisions of a job read and saved for its pages: a revision never changes, so it is read once."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from threading import Lock
from typing import Any, Final, Literal, TypeAlias

from starlette.requests import Request

from drawerwright.errors import Fault, InputError
from drawerwright.store import Conflict, NotInStore, Store, StoredJob
from drawerwright.web.schedule.edits import Edit, Edited, SetCell, edit_values

Then: TypeAlias = Literal["undo", "redo"] | None
"""What is done behind the edits: the newest change taken back, or done again."""

STEPS: Final = 20
"""Of edits that come together, so many of the last are a revision each, for undo. Own choice."""

KEPT: Final = 16
"""How many revisions' values a process keeps: 2,000 drawers are about 3 MB. Own choice."""


@dataclass(frozen=True, slots=True)
class Saved:
    """What a save came to.

    `touched`: rows whose answer may be another one. `places`: where the rows of the page that saved stand
    now, None for those that are gone; None altogether where each stands where that page has it.
    `refused`: edits that were not kept, by their place among those told, and why.
    """

    job: StoredJob
    values: dict[str, Any]
    touched: tuple[int, ...]
    places: tuple[int | None, ...] | None
    remarks: tuple[str, ...]
    shared: bool
    refused: tuple[tuple[int, Fault], ...] = ()


class Revisions:
    """The revisions of one store that were read last."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self._read: OrderedDict[tuple[str, int], dict[str, Any]] = OrderedDict()
        self._lock = Lock()

    def values(self, job: StoredJob) -> dict[str, Any]:
        """The values of a revision; not to be changed."""
        key = (job.id, job.revision)
        with self._lock:
            if key in self._read:
                self._read.move_to_end(key)
                return self._read[key]
        return self.keep(job, job.values)

    def keep(self, job: StoredJob, values: dict[str, Any]) -> dict[str, Any]:
        """Keep values that a revision is known to have."""
        with self._lock:
            self._read[job.id, job.revision] = values
            while len(self._read) > KEPT:
                self._read.popitem(last=False)
        return values

    def at(self, job_id: str, revision: int) -> dict[str, Any]:
        """The values of a job at a revision. Raises NotInStore."""
        with self._lock:
            if (job_id, revision) in self._read:
                return self._read[job_id, revision]
        return self.values(self.store.job(job_id, revision))

    def save(
        self,
        job_id: str,
        edits: Sequence[Edit],
        *,
        based_on: int,
        by: str = "",
        then: Then = None,
        in_steps: bool = False,
    ) -> Saved:
        """Edits done on revision `based_on` and saved, put together with what others saved since.

        `by`: who saves, as told. `in_steps`: each edit (of many, the last ones) is a revision of its own, so
        that undo takes back one; else they are one revision. Edits that cannot be kept are left out and told.
        Raises Conflict (nothing is lost: values with the edits are kept on the side), NotInStore, InputError.
        """
        base = self.at(job_id, based_on)
        edited = edit_values(base, edits, stages=STEPS if in_steps else 0)
        saved = (
            self._saved(job_id, edited, base, edits, based_on, by)
            if edits
            else self.store.job(job_id, based_on)
        )
        if then is not None:
            saved = self._gone(job_id, edited, saved, then, by)
        values = self.values(saved)
        places = None if values == edited.values else _places(edited.drawers, values["drawer"])
        return Saved(
            saved,
            values,
            tuple(sorted(_touched(base, values))),
            places,
            tuple(edited.remarks),
            _but_drawers(values) != _but_drawers(base),
            tuple(edited.refused),
        )

    def _gone(
        self, job_id: str, edited: Edited, saved: StoredJob, then: Literal["undo", "redo"], by: str
    ) -> StoredJob:
        """The job after undo or redo; as it is, with a remark, where there is nothing to do."""
        go = self.store.undo if then == "undo" else self.store.redo
        try:
            return go(job_id, based_on=saved.revision, by=by)
        except (Conflict, NotInStore):
            raise
        except InputError:
            newest = self.store.job(job_id)
            if newest.binned_at is not None:
                raise
            what = "take back" if then == "undo" else "bring back"
            if newest.revision == saved.revision:
                edited.remarks.append(f"there is nothing to {what}")
            else:
                edited.remarks.append(
                    f"there was nothing to {what} in revision {saved.revision}, which this page showed; "
                    f"what others saved since is shown now, as revision {newest.revision}"
                )
            return newest

    def _saved(
        self,
        job_id: str,
        edited: Edited,
        base: Mapping[str, Any],
        edits: Sequence[Edit],
        based_on: int,
        by: str,
    ) -> StoredJob:
        """One drawer alone where that is all: it costs the same however long the job is."""
        row = next(iter(edited.rows), 0)
        alone = len(edited.rows) == 1 and not edited.moved and all(isinstance(one, SetCell) for one in edits)
        if alone:
            name = base["drawer"][row].get("id")
            told = [one.get("id") for one in base["drawer"]]
            if isinstance(name, str) and name.strip() and told.count(name) == 1:
                saved = self.store.save_drawer(job_id, name, edited.drawers[row], based_on=based_on, by=by)
                if saved.how == "saved" and saved.revision == based_on + 1:
                    self.keep(saved, edited.values)
                return saved
        stages = [*edited.stages, edited.values]
        return self.store.save_job_in_steps(job_id, stages, based_on=based_on, by=by)


def _name(drawer: Mapping[str, Any]) -> str:
    return str(drawer.get("id") or "").strip()


def _numbered(drawers: Sequence[Mapping[str, Any]]) -> list[tuple[str, int]]:
    seen: dict[str, int] = {}
    names = []
    for one in drawers:
        name = _name(one)
        seen[name] = seen.get(name, 0) + 1
        names.append((name, seen[name]))
    return names


def _places(
    mine: Sequence[Mapping[str, Any]], saved: Sequence[Mapping[str, Any]]
) -> tuple[int | None, ...] | None:
    """Where each row of mine stands now; None where none moved."""
    now = {name: at for at, name in enumerate(_numbered(saved))}
    places = tuple(now.get(name) for name in _numbered(mine))
    return None if places == tuple(range(len(saved))) else places


def _touched(base: Mapping[str, Any], values: Mapping[str, Any]) -> set[int]:
    """Rows of the saved job that are not as the page had them, or share a cabinet with one that is not."""
    before = base["drawer"]
    changed = {at for at, one in enumerate(values["drawer"]) if at >= len(before) or one != before[at]}
    names = {_name(values["drawer"][at]) for at in changed}
    names |= {_name(before[at]) for at in changed if at < len(before)}
    names -= {""}
    # Ids that stand twice, or do so no longer, are told at every row that bears them.
    alike = {at for at, one in enumerate(values["drawer"]) if _name(one) in names}
    cabinets = {str(values["drawer"][at].get("cabinet") or "").strip() for at in changed}
    cabinets |= {str(before[at].get("cabinet") or "").strip() for at in changed if at < len(before)}
    cabinets -= {""}
    beside = {
        at for at, one in enumerate(values["drawer"]) if str(one.get("cabinet") or "").strip() in cabinets
    }
    return changed | beside | alike


def _but_drawers(values: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in values.items() if key != "drawer"}


def revisions_of(request: Request) -> Revisions:
    """The revisions that this application has read last."""
    state = request.app.state
    if not hasattr(state, "revisions"):
        state.revisions = Revisions(state.store)
    revisions: Revisions = state.revisions
    return revisions
