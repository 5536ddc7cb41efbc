"""Ticks held against what the drawer is now: a step is done only while its figures are those of then."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.shown import Shown
from drawerwright.store import Store, StoredJob, Tick
from drawerwright.units import ShownUnits
from drawerwright.web.bench.steps import bench_steps
from drawerwright.web.fitting import DrawerAnswer, answer_values

_Figures: TypeAlias = dict[str, tuple[object, ...]]


@dataclass(frozen=True, slots=True)
class Standing:
    """Ticks under the present names of their drawers; `changed`: (drawer, step) ticked before a change."""

    ticks: tuple[Tick, ...]
    changed: Collection[tuple[str, str]]


def standing_ticks(
    store: Store,
    job: StoredJob,
    answers: Sequence[DrawerAnswer],
    families: Sequence[SlideFamily],
    units: ShownUnits,
) -> Standing:
    """The ticks of a job that still say what was done.

    A step counts as changed where the slide, how it is mounted, or a figure that the step wants is another
    than in the revision that the bench had.
    """
    shown = Shown(units)
    now = {one.name: _figures(one.fitted, shown) for one in answers}
    then: dict[tuple[int, str], _Figures] = {}
    ticks, changed = [], set()
    for told in store.ticks_now(job.id):
        ticks.append(told.tick)
        if not told.tick.done or told.revision == job.revision:
            continue
        before = (told.revision, told.told_of)
        if before not in then:
            values = store.job(job.id, told.revision).values
            found = answer_values(values, families, units=units, only=told.told_of).drawers
            named = [one.fitted for one in found if one.name == told.told_of]
            then[before] = _figures(named[0] if named else None, shown)
        step = told.tick.step.partition(" ")[0]
        if then[before].get(step) != now.get(told.tick.drawer, {}).get(step):
            changed.add((told.tick.drawer, told.tick.step))
    return Standing(tuple(ticks), changed)


def _figures(fitted: FittedDrawer | None, shown: Shown) -> _Figures:
    """What each step of a drawer goes by; nothing where it is not hung."""
    if fitted is None or fitted.slide is None:
        return {}
    hung = (slide_text(fitted), fitted.slide.mount)
    return {step.key: (*hung, *step.figures) for step in bench_steps(fitted, shown)}
