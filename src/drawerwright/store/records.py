"""What the store gives back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from typing import Any, Literal

How = Literal["saved", "merged", "undo", "redo", "kept"]


@dataclass(frozen=True, slots=True)
class Revision:
    """One save.

    `how`: "saved"; "merged" with what somebody saved meanwhile; "undo"; "redo"; "kept": on the side.
    `shows`: the revision that has the same values, other than itself after undo and redo. `based_on`: what
    the saver had before them; None: the first. `what`: in a few words, what changed. `saved_at`: aware, UTC.
    """

    number: int
    how: How
    saved_at: datetime
    by: str
    what: str
    based_on: int | None
    shows: int
    title: str
    units: str
    entries: int


@dataclass(frozen=True, slots=True)
class JobCard:
    """A job in a list. `drawers`: how many; `revision`: the newest; `binned_at`: None unless in the bin."""

    id: str
    title: str
    units: str
    drawers: int
    revision: int
    saved_at: datetime
    by: str
    binned_at: datetime | None


@dataclass(frozen=True)
class _Stored:
    id: str
    revision: int
    how: How
    saved_at: datetime
    by: str
    what: str
    title: str
    units: str
    can_undo: bool
    can_redo: bool
    binned_at: datetime | None
    _read: Callable[[], dict[str, Any]] = field(repr=False, compare=False)

    @cached_property
    def values(self) -> dict[str, Any]:
        """The values of this revision, read when first asked for. Raises NotInStore, StoreUnusable."""
        return self._read()


@dataclass(frozen=True)
class StoredJob(_Stored):
    """One revision of a job. `values`: the job file's keys: title, units, defaults, cabinet, drawer.

    `how` "merged": others had saved other drawers meanwhile, and both are in. `drawer_count`: how many
    drawers.
    """

    drawer_count: int = 0


@dataclass(frozen=True)
class StoredFamily(_Stored):
    """One revision of a slide family; `id` is the family's own. `values`: the keys of a family file."""


@dataclass(frozen=True, slots=True)
class StoredGaps:
    """Gaps of one front as they were measured once.

    `values`: columns of the gaps file. `again`: it was kept before, and was sent a second time.
    """

    id: int
    drawer: str
    values: dict[str, Any]
    saved_at: datetime
    by: str
    again: bool = field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class Tick:
    """A step of the work on a drawer, done or not. `at`: when the bench said so, by its own clock (UTC)."""

    drawer: str
    step: str
    done: bool
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class TickNow:
    """A tick of a drawer that is there, which bears its present name.

    `told_of`: what the drawer was called; `revision`: the job's newest when it was told.
    """

    tick: Tick
    told_of: str
    revision: int


@dataclass(frozen=True, slots=True)
class StoredLog:
    """A test log. `values`: whatever belongs to the whole test (family, standard, load, plan)."""

    id: str
    title: str
    values: dict[str, Any]
    saved_at: datetime
    by: str
    row_count: int
    rows: tuple[dict[str, Any], ...] = ()
