"""The study of a whole job: every slide drawn out at once, then each drawer judged."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, fields
from typing import Final, TypedDict, Unpack

import numpy as np

from drawerwright.carry.alike import alike_key
from drawerwright.carry.carried import CarriedDrawer, CarriedJob, Slide
from drawerwright.carry.closing import STEEPEST
from drawerwright.carry.judging import Asked, carried_drawer, slide_of, unfitted_drawer
from drawerwright.carry.nearest import HEAVIEST, on_nearest
from drawerwright.carry.sides import Hand, shares_of, side_data, slides_apart
from drawerwright.carry.slide_data import SlideData, slide_data, together
from drawerwright.carry.telescope import TOGETHER, Drawn, draw_out, positions_of
from drawerwright.carry.tipping import Tipping, tipping_of
from drawerwright.carry.words import Words
from drawerwright.catalogue.materials import Materials
from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.spelling import nearest
from drawerwright.units import ShownUnits, show_value

Progress = Callable[[int, int], None]

POSITIONS: Final = 41
LEAST_POSITIONS: Final = 2
MOST_POSITIONS: Final = 10_001


@dataclass(frozen=True, slots=True)
class _Row:
    """One drawer's slide, and the same under the shares of an uneven load."""

    data: SlideData
    shares: dict[Hand, float] | None


class Asking(TypedDict, total=False):
    """How the study of a fitted job is asked; what is left out is as below.

    `only`: the id of one drawer (None: all). `tilt_deg`: how far the cabinet leans forward, so that closing
    goes uphill [°]; negative, it leans back (0). `positions`: how many extensions, from closed to fully out
    (`POSITIONS`). `off_centre`: how far right of the middle the load's middle lies [mm] (0). `sag_limit` [mm]
    goes before the family's (None). `units` of the sentences ("mm"); results are in mm, kg and N.
    `materials`: those that the job was read with (None: the shipped ones). `progress` is called as drawers
    are judged. `where` goes before the name of what a fault is about ("carry ").
    """

    only: str | None
    tilt_deg: float
    positions: int
    off_centre: float
    sag_limit: float | None
    units: ShownUnits
    materials: Materials | None
    progress: Progress | None
    where: str


def carry_job(fitted: FittedJob, **asking: Unpack[Asking]) -> CarriedJob:
    """What each drawer of a fitted job carries, over its whole travel.

    Raises InputError where no drawer has the id asked for, or a number is none that can be used.
    """
    return CarriedJob(fitted.title, tuple(carry_by_drawer(fitted, **asking)))


def carry_drawer(one: FittedDrawer, **asking: Unpack[Asking]) -> CarriedDrawer:
    """One drawer alone, as `carry_job`; the balance of its cabinet is of this drawer alone."""
    return carry_job(FittedJob("", (one,)), **asking).drawers[0]


def carry_by_drawer(
    fitted: FittedJob,
    *,
    only: str | None = None,
    tilt_deg: float = 0.0,
    positions: int = POSITIONS,
    off_centre: float = 0.0,
    sag_limit: float | None = None,
    units: ShownUnits = "mm",
    materials: Materials | None = None,
    progress: Progress | None = None,
    where: str = "carry ",
) -> Iterator[CarriedDrawer]:
    """As `carry_job`, one drawer after the other, for those who keep none; refused before the first."""
    asked = Asked(Words(units), tilt_deg, sag_limit, materials)
    drawers = _wanted(fitted, only, where)
    _require_reason(drawers, positions, off_centre, sag_limit, tilt_deg, where)
    return _carried(drawers, _Balances(fitted, units), asked, positions, off_centre, progress)


def _carried(
    drawers: Sequence[FittedDrawer],
    balances: _Balances,
    asked: Asked,
    positions: int,
    off_centre: float,
    progress: Progress | None,
) -> Iterator[CarriedDrawer]:
    """As many drawers at once as are drawn out together; those alike once, as far as they are kept."""
    together = max(TOGETHER // positions, 1)
    kept: dict[Hashable, Slide | None] = {}
    for start in range(0, len(drawers), together):
        if len(kept) > together:
            kept.clear()
        some = drawers[start : start + together]
        shown = [one if one.slide is not None else on_nearest(one) for one in some]
        keys = [None if one is None else alike_key(one) for one in shown]
        rows = {
            key: _row(one, off_centre)
            for key, one in zip(keys, shown, strict=True)
            if one is not None and key not in kept
        }
        drawn = _drawn_out([row for row in rows.values() if row is not None], positions)
        for done, (one, there, key) in enumerate(zip(some, shown, keys, strict=True), start + 1):
            tipping = balances.of(one)
            if there is not None and key not in kept:
                row = rows[key]
                kept[key] = None if row is None else _slide(there, row, drawn, off_centre, asked)
            slide = None if there is None else kept[key]
            if slide is not None and there is one:
                yield carried_drawer(one, slide, tipping, asked)
            else:
                yield unfitted_drawer(one, slide, tipping, asked)
            if progress is not None:
                progress(done, len(drawers))


def _slide(one: FittedDrawer, row: _Row, drawn: Iterator[Drawn], off_centre: float, asked: Asked) -> Slide:
    """What the drawer's slide does, from the next of those drawn out."""
    own = next(drawn)
    sides = None if row.shares is None else (off_centre, row.shares, next(drawn), next(drawn))
    return slide_of(one, row.data, own, sides, asked)


class _Balances:
    """The balance of each free-standing cabinet, found once for all its drawers."""

    def __init__(self, fitted: FittedJob, units: ShownUnits) -> None:
        self._drawers, self._units = fitted.drawers, units
        self._found: dict[str, Tipping | None] = {}

    def of(self, one: FittedDrawer) -> Tipping | None:
        """The balance of the drawer's cabinet; None where it does not stand free."""
        cabinet = one.cabinet
        if cabinet is None:
            return None
        if cabinet.id not in self._found:
            self._found[cabinet.id] = tipping_of(cabinet, self._drawers, units=self._units)
        return self._found[cabinet.id]


def _wanted(fitted: FittedJob, only: str | None, where: str) -> Sequence[FittedDrawer]:
    if only is None:
        return fitted.drawers
    found = [one for one in fitted.drawers if one.id == only]
    if not found:
        known = [one.id for one in fitted.drawers]
        says = f'is no drawer of this job: the nearest is "{nearest(only, known)}"'
        raise InputError([Fault(f"{where}drawer", show_value(only), says, nearest(only, known))])
    return found


def _require_reason(
    drawers: Sequence[FittedDrawer],
    positions: int,
    off_centre: float,
    sag_limit: float | None,
    tilt_deg: float,
    where: str,
) -> None:
    """Refuse what cannot be computed with, all of it together."""
    faults = []
    if not LEAST_POSITIONS <= positions <= MOST_POSITIONS:
        says = f"is not a number of positions from {LEAST_POSITIONS} to {MOST_POSITIONS}"
        faults.append(Fault(f"{where}positions", str(positions), says, str(POSITIONS)))
    if not abs(off_centre) <= 5000.0:
        says = "is not a distance from the middle, up to 5,000 mm either way"
        faults.append(Fault(f"{where}off-centre", f"{off_centre:g} mm", says, "100"))
    if sag_limit is not None and not 0.0 < sag_limit < math.inf:
        faults.append(Fault(f"{where}sag-limit", f"{sag_limit:g} mm", "is not above 0", "4"))
    if not abs(tilt_deg) <= STEEPEST:
        says = f"is no cabinet out of level: up to {STEEPEST:g}° either way"
        faults.append(Fault(f"{where}tilt", f"{tilt_deg:g}°", says, "1"))
    for one in drawers:
        if one.mass is not None and not one.mass.moving <= HEAVIEST:
            says = f"move, which is beyond what is computed: up to {HEAVIEST:g} kg"
            faults.append(Fault(f"{where}drawer {one.id}", f"{one.mass.moving:g} kg", says, "30 kg"))
    if faults:
        raise InputError(faults)


def _row(one: FittedDrawer, off_centre: float) -> _Row | None:
    if one.slide is None or one.mounting is None or one.mass is None or one.box is None:
        return None
    data = slide_data(one.slide, one.mounting, one.mass)
    if off_centre == 0.0:
        return _Row(data, None)
    return _Row(data, shares_of(off_centre, slides_apart(one.box, one.slide.family)))


def _drawn_out(rows: Sequence[_Row], positions: int) -> Iterator[Drawn]:
    """Every slide drawn out: of each row its own, and then those of an uneven load."""
    data: list[SlideData] = []
    for row in rows:
        data.append(row.data)
        if row.shares is not None:
            data += side_data(row.data, row.shares)
    if not data:
        return iter(())
    slides = together(data)
    drawn = draw_out(slides, positions_of(slides.travel, positions))
    columns = np.stack([getattr(drawn, field.name) for field in fields(Drawn)], axis=1)
    return (Drawn(*columns[row]) for row in range(len(data)))
