"""Every drawer of a job against every slide: grouped by situation, tried mount by mount, chosen, told."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from drawerwright.catalogue.materials import Materials
from drawerwright.equations.equation import Q
from drawerwright.fit.alternatives import other_ways
from drawerwright.fit.answer import Place, drawer_that_fits_nothing, fitted_drawer, nearest_place, rejected_of
from drawerwright.fit.asked_for import check_slides_asked_for, slides_allowed
from drawerwright.fit.changes import one_of_each, smallest_changes
from drawerwright.fit.choose import choose
from drawerwright.fit.collector import collector_at_rest
from drawerwright.fit.column_sums import fitted_columns
from drawerwright.fit.columns import front_overlaps
from drawerwright.fit.drawer_values import NO_ERRORS, DrawerValues, drawer_values, stack
from drawerwright.fit.retrofit import retrofits
from drawerwright.fit.situation import mounts_to_try
from drawerwright.fit.slide_rows import SlideRows, slide_rows
from drawerwright.fit.trial import Mask, Trial, run_trial
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob, Mount, Rejected
from drawerwright.model.job import Job
from drawerwright.units import ShownUnits

_TOGETHER = 256
_NAMELESS = {"id": "", "cabinet": None, "row": None, "quantity": 1, "note": ""}
"""What of a drawer changes nothing about its answer; what its cabinet and row change stands in its values."""

Group = tuple[Mapping[str, str], tuple[Mount, ...], list[DrawerValues]]
Tried = tuple[Trial, int, Mask]
Progress = Callable[[int, int], None]


def fit_job(
    job: Job,
    families: Sequence[SlideFamily],
    *,
    units: ShownUnits = "mm",
    materials: Materials | None = None,
    progress: Progress | None = None,
    pinned: Mapping[str, int] | None = None,
) -> FittedJob:
    """Fit every drawer of a job.

    `units` of the sentences; results stay in mm and kg. `materials`: those that the job was read with, the
    shipped ones without. `progress(done, total)` is called as drawers are answered. `pinned` takes the choice
    out of our hands: by drawer id, the place in the files of the slide that it gets, one that does not stop
    on the first mount that has any. Raises InputError where a drawer asks for a slide that is not there.
    """
    check_slides_asked_for(job.drawers, families)
    rows = slide_rows(families)
    answered: dict[str, FittedDrawer] = {}
    with collector_at_rest():
        for situation, mounts, drawers in drawer_groups(job, materials):
            alike = _alike(drawers, pinned or {})
            for start in range(0, len(alike), _TOGETHER):
                some = alike[start : start + _TOGETHER]
                firsts = [same[0] for same in some]
                found = _fit_group(situation, mounts, firsts, rows, units, pinned or {})
                for same, first in zip(some, found, strict=True):
                    if first.drawer.existing_box is not None:
                        first = replace(first, retrofit=retrofits(same[0], rows, units))
                    answered[first.id] = first
                    for one in same[1:]:
                        answered[one.drawer.id] = replace(first, drawer=one.drawer, cabinet=one.cabinet)
                if progress is not None:
                    progress(len(answered), len(job.drawers))
    in_order = tuple(answered[drawer.id] for drawer in job.drawers)
    return FittedJob(job.title, in_order, fitted_columns(in_order, units))


def _alike(drawers: Sequence[DrawerValues], pinned: Mapping[str, int]) -> list[list[DrawerValues]]:
    """Drawers with the same answer, those that differ in nothing but their name and place, in their order."""
    found: dict[tuple[object, ...], list[DrawerValues]] = {}
    for one in drawers:
        nameless = one.drawer.model_copy(update=_NAMELESS)
        key = (nameless, tuple(one.values.values()), one.overlaps, pinned.get(one.drawer.id))
        found.setdefault(key, []).append(one)
    return list(found.values())


def drawer_groups(job: Job, materials: Materials | None = None) -> list[Group]:
    """Drawers that share a situation and the mounts to try, in the order in which each group begins."""
    cabinets = {cabinet.id: cabinet for cabinet in job.cabinets}
    overlaps = front_overlaps(job.drawers, cabinets)
    groups: dict[tuple[object, ...], Group] = {}
    for drawer in job.drawers:
        cabinet = cabinets.get(drawer.cabinet) if drawer.cabinet is not None else None
        one = drawer_values(drawer, cabinet, overlaps[drawer.id], materials)
        mounts = mounts_to_try(drawer)
        key = (*one.situation.values(), mounts)
        groups.setdefault(key, (one.situation, mounts, []))[2].append(one)
    return list(groups.values())


def _fit_group(
    situation: Mapping[str, str],
    mounts: Sequence[Mount],
    drawers: Sequence[DrawerValues],
    rows: Sequence[SlideRows],
    units: ShownUnits,
    pinned: Mapping[str, int],
) -> list[FittedDrawer]:
    answered: dict[int, FittedDrawer] = {}
    rejected: dict[int, list[Rejected]] = defaultdict(list)
    tried: dict[int, list[Tried]] = defaultdict(list)
    waiting = list(range(len(drawers)))
    for mount in mounts:
        if not waiting:
            break
        those = [drawers[index] for index in waiting]
        columns = {**NO_ERRORS, **stack(those)}
        trials = [run_trial(situation, mount, group, columns) for group in rows]
        allowed = [slides_allowed(those, group) for group in rows]
        choice = choose(
            trials,
            [_as_pinned(those, mask, group, pinned) for mask, group in zip(allowed, rows, strict=True)],
        )
        for row, index in enumerate(waiting):
            for trial, mask in zip(trials, allowed, strict=True):
                rejected[index] += rejected_of(trial, row, mask[row])
                tried[index].append((trial, row, mask[row]))
            if choice.trial[row] >= 0:
                place = Place(trials[choice.trial[row]], row, int(choice.column[row]))
                answered[index] = fitted_drawer(drawers[index], place, rejected[index], units)
        waiting = [index for index in waiting if index not in answered]
    for index in waiting:
        answered[index] = _not_fitted(
            situation, mounts, drawers[index], rows, tried[index], rejected[index], units
        )
    return [answered[index] for index in range(len(drawers))]


def _not_fitted(
    situation: Mapping[str, str],
    mounts: Sequence[Mount],
    one: DrawerValues,
    rows: Sequence[SlideRows],
    tried: Sequence[Tried],
    rejected: Sequence[Rejected],
    units: ShownUnits,
) -> FittedDrawer:
    columns: dict[str, Q] = {**NO_ERRORS, **stack([one])}
    steps = smallest_changes(
        situation,
        mounts,
        rows,
        columns,
        [slides_allowed([one], group) for group in rows],
        width=one.drawer.opening.width,
        as_side=one.as_side,
        units=units,
    )
    nearest = nearest_place(tried)
    changes = one_of_each([*steps, *other_ways(one, rows, _filler(nearest), units)])
    return drawer_that_fits_nothing(one, nearest, changes, rejected, units)


def _filler(nearest: Place | None) -> tuple[float, float]:
    """What the way out lacks on both sides; 0 where nothing is told of it."""
    values = nearest.values() if nearest is not None else {}
    return values.get("filler_left", 0.0), values.get("filler_right", 0.0)


def _as_pinned(
    drawers: Sequence[DrawerValues], allowed: Mask, rows: SlideRows, pinned: Mapping[str, int]
) -> Mask:
    if not pinned:
        return allowed
    wanted = allowed.copy()
    for row, one in enumerate(drawers):
        if one.drawer.id in pinned:
            wanted[row] &= rows.orders == pinned[one.drawer.id]
    return wanted
