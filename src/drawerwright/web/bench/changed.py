"""Ticks held against what the drawer is now: a step is done only while its figures are those of then."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.shown import Shown
from drawerwright.store import Store, StoredJob, Tick, TickNow
from drawerwright.units import ShownUnits
from drawerwright.web.bench.families_then import FamiliesThen
from drawerwright.web.bench.steps import bench_steps
from drawerwright.web.fitting import DrawerAnswer, answer_values

_Figures: TypeAlias = dict[str, tuple[object, ...]]


@dataclass(frozen=True, slots=True)
class Standing:
    """Ticks under the present names of their drawers; `changed`: (drawer, step) ticked before a change.

    `by_slide`: those of them where the data of the slides changed, and not the drawer.
    """

    ticks: tuple[Tick, ...]
    changed: Collection[tuple[str, str]]
    by_slide: Collection[tuple[str, str]] = ()


def standing_ticks(
    store: Store,
    job: StoredJob,
    answers: Sequence[DrawerAnswer],
    families: Sequence[SlideFamily],
    units: ShownUnits,
) -> Standing:
    """The ticks of a job that still say what was done.

    A step counts as changed where the slide, how it is mounted, or a figure that the step wants is another
    than the bench had: by the revision of the job, and of the families, at the moment of the tick.
    """
    shown, families_then = Shown(units), FamiliesThen(store)
    now = {one.name: _figures(one.fitted, shown) for one in answers}
    known: dict[tuple[int, str, int], _Figures] = {}
    of_now = tuple(families)

    def figures(told: TickNow, slides: tuple[SlideFamily, ...]) -> _Figures:
        """What the steps of a drawer went by at the revision that the bench had, with these slides."""
        key = (told.revision, told.told_of, id(slides))  # few and kept: to hash them all takes its time
        if key not in known:
            values = store.job(job.id, told.revision).values
            found = answer_values(values, slides, units=units, only=told.told_of).drawers
            named = [one.fitted for one in found if one.name == told.told_of]
            known[key] = _figures(named[0] if named else None, shown)
        return known[key]

    ticks, changed, by_slide = [], set(), set()
    for told in store.ticks_now(job.id):
        ticks.append(told.tick)
        other_slides = families_then.changed_since(told.tick.at)
        if not told.tick.done or (told.revision == job.revision and not other_slides):
            continue
        step = told.tick.step.partition(" ")[0]
        present = now.get(told.tick.drawer, {}).get(step)
        slides = families_then.at(told.tick.at) if other_slides else of_now
        if figures(told, slides).get(step) != present:
            changed.add((told.tick.drawer, told.tick.step))
            if other_slides and figures(told, of_now).get(step) == present:
                by_slide.add((told.tick.drawer, told.tick.step))
    return Standing(tuple(ticks), changed, by_slide)


def _figures(fitted: FittedDrawer | None, shown: Shown) -> _Figures:
    """What each step of a drawer goes by; nothing where it is not hung."""
    if fitted is None or fitted.slide is None:
        return {}
    hung = (slide_text(fitted), fitted.slide.mount)
    return {step.key: (*hung, *step.figures) for step in bench_steps(fitted, shown)}
