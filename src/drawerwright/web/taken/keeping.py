"""Slides written into the schedule: as they were taken before, or as they are chosen now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import ChosenSlide, FittedDrawer
from drawerwright.store import Store
from drawerwright.store.parts import id_text
from drawerwright.web.families import families_of
from drawerwright.web.fitting import Values, answer_values
from drawerwright.web.schedule.edits import Edit, SetCell, edit_values
from drawerwright.web.schedule.saving import Revisions
from drawerwright.web.taken.changes import changed_since, seen_of, slide_key
from drawerwright.web.taken.words import slide_told


@dataclass(frozen=True, slots=True)
class Written:
    """The job's newest revision, the drawers whose slides were written, those that could not be.

    A slide cannot be kept where its own data changed, or where it is there no more.
    """

    revision: int
    written: tuple[str, ...]
    not_kept: tuple[str, ...] = ()


def keep_slides(revisions: Revisions, job_id: str, *, by: str = "") -> Written:
    """Write the slides as they were taken into the drawers that get others now: one revision.

    Raises Conflict, NotInStore, InputError.
    """
    store = revisions.store
    job = store.job(job_id)
    values = revisions.values(job)
    found = changed_since(store, job, values)
    if found is None or not found.changes:
        return Written(job.revision, ())
    before = [(one.row, one.before) for one in found.changes if one.other_slide]
    same = tuple(one.drawer for one in found.changes if not one.other_slide)
    edits, kept, not_kept = _pinned(values, before, families_of(store))
    not_kept += same
    if not edits:
        return Written(job.revision, (), not_kept)
    saved = revisions.save(job_id, edits, based_on=job.revision, by=by)
    newest = saved.job
    left = changed_since(store, newest, saved.values)
    if left is not None and not left.told:
        newest = store.take_slides(job_id, by=by)
    return Written(newest.revision, kept, not_kept)


def hold_slides(revisions: Revisions, job_id: str, *, by: str = "") -> Written:
    """Write the slides that are chosen now into every drawer that leaves them open: one revision.

    Raises Conflict; NotInStore; InputError, too, where drawers take other slides than those that were taken.
    """
    store = revisions.store
    job = store.job(job_id)
    values = revisions.values(job)
    changed = changed_since(store, job, values)
    if changed is not None and any(one.other_slide for one in changed.changes):
        says = "are others than those that were taken: what is chosen now would be held unseen"
        raise InputError([Fault("slides", "", says, "keeping them as they were, or taking the new choice")])
    families = families_of(store)
    rows = _rows(values)
    chosen = [
        (rows[one.name], one.fitted)
        for one in answer_values(values, families).drawers
        if one.fitted is not None and one.fitted.slide is not None and "/" not in one.fitted.drawer.slide
    ]
    edits, kept, not_kept = _pinned(values, chosen, families)
    if not edits:
        return Written(job.revision, (), not_kept)
    saved = revisions.save(job_id, edits, based_on=job.revision, by=by)
    return Written(saved.job.revision, kept, not_kept)


def take_slides(store: Store, job_id: str, seen: str, *, by: str = "") -> int:
    """Take the slides as they are chosen now, with the families that were `seen`; the newest revision.

    Raises InputError where families were changed since; NotInStore.
    """
    since = store.slides_since(job_id)
    if since is None:
        return store.job(job_id).revision
    line = since.now if seen_of(since.now) == seen else ""
    return store.take_slides(job_id, seen=line, by=by).revision


def slides_open(values: Values) -> int:
    """How many drawers of a job do not tell family and length of their slide, nor the defaults for them."""
    defaults = values.get("defaults")
    usual = defaults.get("slide") if isinstance(defaults, Mapping) else None
    return sum("/" not in str(one.get("slide") or usual or "") for one in values["drawer"])


def _pinned(
    values: Values, wanted: Sequence[tuple[int, FittedDrawer]], families: Sequence[SlideFamily]
) -> tuple[list[Edit], tuple[str, ...], tuple[str, ...]]:
    """The edits that bring these slides, the drawers that then have them, and those that have not.

    Where the slide alone would be mounted otherwise, the mount is written, too.
    """
    unit = " mm" if values.get("units") == "in" else ""
    there = {(family.id, one.nominal) for family in families for one in family.lengths}
    slides = {
        row: fitted.slide
        for row, fitted in wanted
        if fitted.slide is not None and (fitted.slide.family.id, fitted.slide.length.nominal) in there
    }
    edits: dict[int, list[Edit]] = {
        row: [SetCell(row=row, key="slide", text=f"{slide_told(slide)}{unit}")]
        for row, slide in slides.items()
    }
    for with_mount in (True, False):
        tried = edit_values(values, [one for those in edits.values() for one in those]).values
        answers = _answers(tried, families)
        for row in [row for row in edits if not _is(answers.get(row), slides[row])]:
            if with_mount:
                edits[row].append(SetCell(row=row, key="mount", text=slides[row].mount))
            else:
                del edits[row]
    kept = tuple(fitted.id for row, fitted in wanted if row in edits)
    others = tuple(fitted.id for row, fitted in wanted if row not in edits)
    return [one for those in edits.values() for one in those], kept, others


def _is(answer: FittedDrawer | None, wanted: ChosenSlide) -> bool:
    return answer is not None and answer.slide is not None and slide_key(answer.slide) == slide_key(wanted)


def _answers(values: Mapping[str, Any], families: Sequence[SlideFamily]) -> dict[int, FittedDrawer | None]:
    rows = _rows(values)
    return {rows[one.name]: one.fitted for one in answer_values(values, families).drawers}


def _rows(values: Mapping[str, Any]) -> dict[str, int]:
    drawers: Iterable[Mapping[str, Any]] = values["drawer"]
    return {id_text(one.get("id")) or f"{at + 1}": at for at, one in enumerate(drawers)}
