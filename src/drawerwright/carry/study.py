"""The study of a whole job: every slide drawn out at once, then each drawer judged."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, fields
from typing import TypedDict, Unpack

import numpy as np

from drawerwright.carry.alike import alike_key
from drawerwright.carry.asking import POSITIONS, asking_faults, load_faults
from drawerwright.carry.carried import CarriedDrawer, CarriedJob, Slide
from drawerwright.carry.judging import Asked, carried_drawer, slide_of, unfitted_drawer
from drawerwright.carry.nearest import on_nearest
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
    are judged. `besides`: faults in how it is asked that were found before, told with all others. `where`
    goes before the name of what a fault is about ("carry ").
    """

    only: str | None
    tilt_deg: float
    positions: int
    off_centre: float
    sag_limit: float | None
    units: ShownUnits
    materials: Materials | None
    progress: Progress | None
    besides: Sequence[Fault]
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
    besides: Sequence[Fault] = (),
    where: str = "carry ",
) -> Iterator[CarriedDrawer]:
    """As `carry_job`, one drawer after the other, for those who keep none; refused before the first."""
    asked = Asked(Words(units), tilt_deg, sag_limit, materials)
    drawers = [one for one in fitted.drawers if only in (None, one.id)]
    faults = [*besides, *_unknown(fitted, only, where)]
    faults += asking_faults(positions, sag_limit, tilt_deg, where)
    faults += load_faults(drawers, off_centre, where)
    if faults:
        raise InputError(faults)
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


def _unknown(fitted: FittedJob, only: str | None, where: str) -> Iterator[Fault]:
    known = [one.id for one in fitted.drawers]
    if only is not None and only not in known:
        says = f'is no drawer of this job: the nearest is "{nearest(only, known)}"'
        yield Fault(f"{where}drawer", show_value(only), says, nearest(only, known))


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
