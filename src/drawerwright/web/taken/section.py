"""The caution on a job's pages: slides that are not what they were when they were taken, and what to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.store import Store, StoredJob
from drawerwright.web.fitting import Values
from drawerwright.web.schedule.answers import units_of
from drawerwright.web.taken.changes import changed_since, seen_of
from drawerwright.web.taken.words import ChangeLine, lines_of

LOOKED_AT: Final = 400
"""Drawers of a job whose answers its schedule compares by itself; of more, on a page that is asked for.

As many as its totals are counted for without being asked. Own choice.
"""

Back: TypeAlias = Literal["schedule", "papers", "bench", "choice", "drawer"]


@dataclass(frozen=True, slots=True)
class SlidesSection:
    """What stands on a page. `looked`: the drawers were compared; `drawer`: the one whose page it is.

    `keeps`: whether there are slides that can be written as they were.
    """

    job: str
    back: Back
    drawer: str
    seen: str
    looked: bool
    lines: tuple[ChangeLine, ...] = ()
    gone: tuple[str, ...] = ()
    keeps: bool = False


def slides_section(
    store: Store, job: StoredJob, values: Values, back: Back, *, drawer: str = ""
) -> SlidesSection | None:
    """The caution for a page of a job as it is now; None where there is nothing to tell.

    With `drawer`, its cabinet alone is looked at, and what is told is of that drawer.
    """
    if job.binned_at is not None:
        return None
    if back == "schedule" and len(values["drawer"]) > LOOKED_AT:
        since = store.slides_since(job.id)
        return None if since is None else SlidesSection(job.id, back, "", seen_of(since.now), looked=False)
    changed = changed_since(store, job, values, only=drawer or None)
    if changed is None:
        return None
    changes = [one for one in changed.changes if not drawer or one.drawer == drawer]
    long = back == "choice" and len(values["drawer"]) > LOOKED_AT
    if not (changes or long or (changed.gone and not drawer)):
        return None
    return SlidesSection(
        job.id,
        back,
        drawer,
        changed.seen,
        looked=True,
        lines=tuple(lines_of(changes, units_of(values))),
        gone=changed.gone,
        keeps=any(one.other_slide for one in changes),
    )
