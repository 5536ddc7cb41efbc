"""Jobs that a change of the families touches: told to whoever saved one, as far as that costs little."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.store import Store
from drawerwright.web.taken.changes import changed_since
from drawerwright.web.taken.words import names_in_line

LOOKED_AT: Final = 400
"""Drawers that are compared when a family was saved: about a second of work. Own choice."""


@dataclass(frozen=True, slots=True)
class TouchedJob:
    """A job of which drawers take other slides, or are cut otherwise, than when its slides were taken."""

    id: str
    title: str
    drawers: str


@dataclass(frozen=True, slots=True)
class Touched:
    """Those jobs, the one saved last first; how many were looked at, and how many not."""

    jobs: tuple[TouchedJob, ...]
    looked_at: int
    not_looked_at: int


def touched_jobs(store: Store) -> Touched:
    """The jobs saved last of which drawers changed, `LOOKED_AT` drawers of them compared at most."""
    found, jobs, drawers, left = [], 0, 0, 0
    for card in store.jobs():
        if drawers + card.drawers > LOOKED_AT:
            left += 1
            continue
        jobs, drawers = jobs + 1, drawers + card.drawers
        job = store.job(card.id)
        changed = changed_since(store, job, job.values)
        if changed is not None and changed.changes:
            found.append(TouchedJob(card.id, card.title, names_in_line(changed.changes)))
    return Touched(tuple(found), jobs, left)
