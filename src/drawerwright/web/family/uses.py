"""What hangs on a family of the shop's own: the drawers that have it, and what they would have without it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.figures import box_text
from drawerwright.pack.shown import Shown
from drawerwright.store import Store
from drawerwright.units import ShownUnits
from drawerwright.web.families import families_of, own_families, shipped_families
from drawerwright.web.fitting import DrawerAnswer, Values, answer_values

LOOKED_AT: Final = 2_000
"""Drawers that are answered to find out who uses a family: some seconds of work. Own choice."""
TOLD: Final = 20
"""Drawers of one job that are told one by one. Own choice."""


@dataclass(frozen=True, slots=True)
class DrawerUse:
    """A drawer that has the family: slide and box (outside) now, and without the family."""

    name: str
    now: str
    then: str


@dataclass(frozen=True, slots=True)
class JobUse:
    """A job with drawers that have the family; `more` beyond those that are told."""

    id: str
    title: str
    units: ShownUnits
    drawers: tuple[DrawerUse, ...]
    more: int


@dataclass(frozen=True, slots=True)
class FamilyUses:
    """The jobs that use a family, the one saved last first; how many were not looked at."""

    jobs: tuple[JobUse, ...]
    not_looked_at: int


def uses_of(store: Store, family_id: str) -> FamilyUses:
    """Who uses a family: drawers that ask for it, and those that get it because it serves them best."""
    families, without = families_of(store), _without(store, family_id)
    used, looked_at, left = [], 0, 0
    for card in store.jobs():
        if looked_at and looked_at + card.drawers > LOOKED_AT:
            left += 1
            continue
        looked_at += card.drawers
        use = _use(card.id, card.title, store.job(card.id).values, family_id, families, without)
        if use is not None:
            used.append(use)
    return FamilyUses(tuple(used), left)


def _without(store: Store, family_id: str) -> tuple[SlideFamily, ...]:
    """The families that answer when one of the shop's own is in the bin: a shipped one of its id again."""
    rest = {one.id: one for one in own_families(store) if one.id != family_id}
    shipped = tuple(rest.pop(one.id, one) for one in shipped_families())
    return shipped + tuple(rest.values())


def _use(
    job_id: str,
    title: str,
    values: Values,
    family_id: str,
    families: Sequence[SlideFamily],
    without: Sequence[SlideFamily],
) -> JobUse | None:
    units: ShownUnits = "in" if values.get("units") == "in" else "mm"
    shown = Shown(units)
    now = answer_values(values, families, units=units).drawers
    if not any(_has(one.fitted, family_id) for one in now):
        return None
    then = answer_values(values, without, units=units).drawers
    drawers = [
        DrawerUse(before.name, _words(before, shown), _words(after, shown))
        for before, after in zip(now, then, strict=True)
        if _has(before.fitted, family_id)
    ]
    return JobUse(job_id, title, units, tuple(drawers[:TOLD]), max(0, len(drawers) - TOLD))


def _has(fitted: FittedDrawer | None, family_id: str) -> bool:
    if fitted is None:
        return False
    taken = fitted.slide
    return fitted.drawer.slide_family == family_id or (taken is not None and taken.family.id == family_id)


def _words(answer: DrawerAnswer, shown: Shown) -> str:
    if answer.fitted is None:
        return "does not read: its slide is not there"
    if answer.fitted.box is None:
        return "does not fit"
    unit = "in" if shown.in_inches else "mm"
    return f"{slide_text(answer.fitted)}, box {box_text(answer.fitted.box, shown)} {unit}"
