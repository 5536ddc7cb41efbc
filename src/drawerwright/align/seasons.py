"""Fronts of solid wood over a year: the gap to set today so that it never closes.

A front grows and shrinks across its grain about the screws that hold it. Its moisture follows the air of the
house: the year is drawn as one swing between a dry and a wet season (own choice; wood lags behind the air,
which only makes the swing smaller).
"""

from __future__ import annotations

import math
from collections.abc import Collection, Container, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final, Literal, TypeAlias

import numpy as np

from drawerwright.align.air import Air
from drawerwright.align.season_room import cures
from drawerwright.catalogue.wood_species import Cut, WoodSpecies
from drawerwright.equations.wood_moisture import equilibrium_moisture, swelling
from drawerwright.errors import Fault, InputError
from drawerwright.fit.columns import front_overlaps
from drawerwright.model.columns import columns_of
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.spelling import nearest

Across: TypeAlias = Literal["height", "width"]
"""Which size of a front lies across the grain: its height where the grain runs level."""

MONTHS: Final = 12
_NEAREST_FRONTS: Final = 0.05
SCREWS_MOVE: Final = 0.25
"""Movement at a screw from which on it wants a slot [mm]: half of what a hole of 5 leaves a screw of 4.
Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Climate:
    """Air of the workshop where a front was cut, of the house now, and in its dry and wet season."""

    workshop: Air
    now: Air
    dry: Air
    wet: Air


@dataclass(frozen=True, slots=True)
class Moistures:
    """Moisture contents [%] that wood comes to in each."""

    workshop: float
    now: float
    dry: float
    wet: float


@dataclass(frozen=True, slots=True)
class SeasonalGap:
    """One gap over the year [mm]: what to set today, the smallest and the largest of the year, by month.

    `as_cut`: what it would be today for a front cut in the workshop to the job's size; below `set_today` the
    front must lose the difference.
    """

    edge: str
    set_today: float
    smallest: float
    largest: float
    months: tuple[float, ...]
    as_cut: float

    @property
    def margin(self) -> float:
        """How much wider than wanted the gap of a front as cut is today [mm]; negative: it lacks that."""
        return self.as_cut - self.set_today

    @property
    def smallest_as_cut(self) -> float:
        """The smallest of the year for a front as cut [mm]; below 0 it binds."""
        return self.smallest + self.margin


@dataclass(frozen=True, slots=True)
class SeasonedFront:
    """One front over the year: `size` across the grain as cut, and its growth from today to dry and wet [mm].

    `today`: growth from the workshop to today. `lacks`: what must come off it, so that it and the fronts
    it shares gaps with have their room [mm]. `shift`: how much higher (or further right) it is to hang, where
    that is enough [mm]; lower is negative. `screw_play`: how far over the year the wood moves past the screw
    that is farthest from its still place [mm]; 0 where no screws are told.
    """

    drawer: str
    size: float
    today: float
    to_dry: float
    to_wet: float
    gaps: tuple[SeasonalGap, ...]
    lacks: float = 0.0
    shift: float = 0.0
    screw_play: float = 0.0

    @property
    def wants_slots(self) -> bool:
        """Whether its screws want slots or wider holes than usual."""
        return self.screw_play > SCREWS_MOVE


@dataclass(frozen=True, slots=True)
class Seasons:
    """Fronts of one species and cut over the year; `moisture_months` (12,) from the driest month on [%]."""

    species: WoodSpecies
    cut: Cut
    across: Across
    climate: Climate
    moistures: Moistures
    limit: float
    settled: bool
    moisture_months: tuple[float, ...]
    fronts: tuple[SeasonedFront, ...]


def seasons_of(
    fitted: FittedJob,
    species: WoodSpecies,
    climate: Climate,
    *,
    cut: Cut = "flat",
    across: Across = "height",
    limit: float = 1.0,
    settled: bool = True,
    only: str | None = None,
    where: str = "drawer",
) -> Seasons:
    """The gaps to set today at every front of a job, so that none is ever smaller than `limit` [mm].

    `settled`: the wood has come to the moisture of the house; else it still has that of the workshop.
    Raises InputError where there is no front, or none of the drawer `only`.
    """
    drawers = [one for one in fitted.drawers if one.front is not None and one.front.style != "none"]
    ids = [one.id for one in drawers]
    if not drawers or (only is not None and only not in ids):
        says = "has no front" if only in {one.id for one in fitted.drawers} else "is no drawer of this job"
        said = (f'"{only}"', says) if only is not None else ("", "no drawer of this job has a front")
        raise InputError([Fault(where, *said, nearest(only or "", ids) or 'front = { style = "inset" }')])
    moistures = Moistures(
        *(float(equilibrium_moisture(air.temperature_c, air.humidity)) for air in _airs(climate))
    )
    months = _months(moistures)
    today = moistures.now if settled else moistures.workshop
    year = np.array([*months, moistures.dry, moistures.wet, today, moistures.workshop])
    growth = {one.id: _growth(one, species, cut, across, moistures.workshop, year) for one in drawers}
    above = _above(fitted, growth) if across == "height" else {}
    lowest = growth.keys() - {upper.id for upper in above.values()}
    free = _nothing_under(fitted) if across == "height" else frozenset()
    found = {
        one.id: _front(one, growth, above.get(one.id), across, limit, meets_below=one.id in lowest - free)
        for one in drawers
    }
    for column in _columns(found, above, lowest):
        under = math.inf if column[0].drawer in free else column[0].gaps[-1].margin
        margins = [under, *(front.gaps[0].margin for front in column)]
        for front, cure in zip(column, cures(margins, [front.size for front in column]), strict=True):
            found[front.drawer] = replace(front, lacks=cure.lacks, shift=cure.shift)
    fronts = tuple(found[name] for name in ids if only is None or name == only)
    return Seasons(species, cut, across, climate, moistures, limit, settled, tuple(months.tolist()), fronts)


def _airs(climate: Climate) -> Sequence[Air]:
    return (climate.workshop, climate.now, climate.dry, climate.wet)


def _months(moistures: Moistures) -> np.ndarray:
    """Moisture of each month, from the driest on: one even swing."""
    middle, half = (moistures.wet + moistures.dry) / 2, (moistures.wet - moistures.dry) / 2
    return middle - half * np.cos(2.0 * np.pi * np.arange(MONTHS) / MONTHS)


def _growth(
    one: FittedDrawer, species: WoodSpecies, cut: Cut, across: Across, workshop: float, year: np.ndarray
) -> np.ndarray:
    """Growth of a front since it was cut, by moisture: the months, dry, wet, today, workshop [mm]."""
    assert one.front is not None
    size = one.front.height if across == "height" else one.front.width
    return swelling(size, workshop, year, species.coefficient(cut), species.shrinkage(cut))


def _held_at(one: FittedDrawer, across: Across) -> float:
    """Where between its lower (or left) and upper (or right) edge a front is held, as a share."""
    front, fixing = one.front, one.fixing
    if across == "width" or front is None or fixing is None or not fixing.holes_in_front:
        return 0.5
    heights = [y for _, y in fixing.holes_in_front]
    return min(max(sum(heights) / len(heights) / front.height, 0.0), 1.0)


def _nothing_under(fitted: FittedJob) -> frozenset[str]:
    """Drawers whose overlay front hangs free below: nothing is told to stand under it, so no gap is there."""
    over_another = {
        drawer.id
        for column in columns_of(one.drawer for one in fitted.drawers).values()
        for drawer in column[1:]
    }
    return frozenset(
        one.id for one in fitted.drawers if one.drawer.front.style == "overlay" and one.id not in over_another
    )


def _screw_play(one: FittedDrawer, across: Across, held: float, size: float, year: float) -> float:
    """How far the wood moves over the year past the screw that is farthest from where it is held [mm]."""
    if one.fixing is None or not one.fixing.holes_in_front:
        return 0.0
    middle = held * size if across == "height" else 0.0
    axis = 1 if across == "height" else 0
    return year * max(abs(hole[axis] - middle) for hole in one.fixing.holes_in_front) / size


def _above(fitted: FittedJob, fronts: Container[str]) -> Mapping[str, FittedDrawer]:
    """By drawer, that whose front shares the gap over it; both are among the `fronts`."""
    by_id = {one.id: one for one in fitted.drawers}
    cabinets = {one.cabinet.id: one.cabinet for one in fitted.drawers if one.cabinet is not None}
    overlaps = front_overlaps([one.drawer for one in fitted.drawers], cabinets)
    found: dict[str, FittedDrawer] = {}
    for column in columns_of(one.drawer for one in fitted.drawers).values():
        for lower, upper in pairwise(column):
            both_there = lower.id in fronts and upper.id in fronts
            if both_there and "overlay" == lower.front.style == upper.front.style:
                top = lower.opening.floor + lower.opening.height.largest + overlaps[lower.id].top
                gap = upper.opening.floor - overlaps[upper.id].bottom - top
                if abs(gap - lower.front.gap) < _NEAREST_FRONTS:
                    found[lower.id] = by_id[upper.id]
    return found


def _columns(
    found: Mapping[str, SeasonedFront], above: Mapping[str, FittedDrawer], lowest: Collection[str]
) -> list[list[SeasonedFront]]:
    """Fronts that share gaps, from the lowest up; one alone is a column too."""
    columns = [[name] for name in lowest]
    for column in columns:
        while column[-1] in above:
            column.append(above[column[-1]].id)
    return [[found[name] for name in column] for column in columns]


def _front(
    one: FittedDrawer,
    growth: Mapping[str, np.ndarray],
    upper: FittedDrawer | None,
    across: Across,
    limit: float,
    *,
    meets_below: bool,
) -> SeasonedFront:
    """One front by itself. `upper`: whose front shares its upper gap; `meets_below`: its lower gap is told.

    Without that the lower gap is the one over the front below, or there is none: it hangs free.
    """
    assert one.front is not None
    held, own = _held_at(one, across), growth[one.id]
    over = (1.0 - held) * own
    if upper is not None:
        over = over + _held_at(upper, across) * growth[upper.id]
    names = ("top", "bottom") if across == "height" else ("right", "left")
    gaps = [_gap(names[0], over, one.drawer.front.gap, limit)]
    if meets_below:
        gaps.append(_gap(names[1], held * own, one.drawer.front.gap, limit))
    dry, wet, today = own[MONTHS : MONTHS + 3].tolist()
    size = one.front.height if across == "height" else one.front.width
    return SeasonedFront(
        one.id,
        size,
        today,
        dry - today,
        wet - today,
        tuple(gaps),
        screw_play=_screw_play(one, across, held, size, abs(wet - dry)),
    )


def _gap(edge: str, closing: np.ndarray, designed: float, limit: float) -> SeasonalGap:
    """A gap that closes by (16,) since the front was cut: the months, dry, wet, today, workshop."""
    today = float(closing[MONTHS + 2])
    year = closing[: MONTHS + 2] - today
    set_today = max(limit + float(year.max()), limit)
    opened = set_today - year
    return SeasonalGap(
        edge=edge,
        set_today=set_today,
        smallest=float(opened.min()),
        largest=float(opened.max()),
        months=tuple(opened[:MONTHS].tolist()),
        as_cut=designed - today,
    )
