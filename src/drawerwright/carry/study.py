"""The study of a whole job: every slide drawn out at once, then each drawer judged."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import fields
from typing import Final

from drawerwright.carry.carried import CarriedDrawer, CarriedJob
from drawerwright.carry.load import load_check, load_of_unfitted, rating
from drawerwright.carry.slide_data import SlideData, slide_data, together
from drawerwright.carry.telescope import Drawn, draw_out, positions_of
from drawerwright.carry.words import Words
from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import Check, FittedDrawer, FittedJob
from drawerwright.model.spelling import nearest
from drawerwright.units import ShownUnits, show_value

Progress = Callable[[int, int], None]

POSITIONS: Final = 41
LEAST_POSITIONS: Final = 2
MOST_POSITIONS: Final = 10_001


def carry_job(
    fitted: FittedJob,
    *,
    only: str | None = None,
    tilt_deg: float = 0.0,
    positions: int = POSITIONS,
    units: ShownUnits = "mm",
    progress: Progress | None = None,
    where: str = "carry",
) -> CarriedJob:
    """What each drawer of a fitted job carries, over its whole travel.

    `only`: the id of one drawer. `tilt_deg`: how far the cabinet leans forward, so that closing goes uphill
    [°]; negative, it leans back. `positions`: how many extensions, from closed to fully out. `units` of the
    sentences; results are in mm, kg and N. `where`: place that faults are told at. Raises InputError where no
    drawer has that id, or where the number of positions is none that can be used.
    """
    drawers = _wanted(fitted, only, where)
    if not LEAST_POSITIONS <= positions <= MOST_POSITIONS:
        says = f"is not a number of positions from {LEAST_POSITIONS} to {MOST_POSITIONS}"
        raise InputError([Fault(f"{where} positions", str(positions), says, str(POSITIONS))])
    data = [_data_of(one) for one in drawers]
    rows = _drawn_out([one for one in data if one is not None], positions)
    words = Words(units)
    carried: list[CarriedDrawer] = []
    place = 0
    for one, known in zip(drawers, data, strict=True):
        if known is None:
            carried.append(_carried_unfitted(one, words))
        else:
            carried.append(_carried(one, known, rows[place], words))
            place += 1
        if progress is not None:
            progress(len(carried), len(drawers))
    return CarriedJob(fitted.title, tuple(carried))


def carry_drawer(
    one: FittedDrawer,
    *,
    tilt_deg: float = 0.0,
    positions: int = POSITIONS,
    units: ShownUnits = "mm",
) -> CarriedDrawer:
    """One drawer alone; as `carry_job`."""
    job = FittedJob("", (one,))
    return carry_job(job, tilt_deg=tilt_deg, positions=positions, units=units).drawers[0]


def _wanted(fitted: FittedJob, only: str | None, where: str) -> Sequence[FittedDrawer]:
    if only is None:
        return fitted.drawers
    found = [one for one in fitted.drawers if one.id == only]
    if not found:
        known = [one.id for one in fitted.drawers]
        says = f'is no drawer of this job: the nearest is "{nearest(only, known)}"'
        raise InputError([Fault(f"{where} drawer", show_value(only), says, nearest(only, known))])
    return found


def _data_of(one: FittedDrawer) -> SlideData | None:
    if one.slide is None or one.mounting is None or one.mass is None:
        return None
    return slide_data(one.slide, one.mounting, one.mass)


def _drawn_out(data: Sequence[SlideData], positions: int) -> list[Drawn]:
    """Every slide drawn out, each as arrays over its positions."""
    if not data:
        return []
    slides = together(data)
    drawn = draw_out(slides, positions_of(slides.travel, positions))
    names = [field.name for field in fields(Drawn)]
    return [Drawn(*(getattr(drawn, name)[row] for name in names)) for row in range(len(data))]


def _carried(one: FittedDrawer, data: SlideData, drawn: Drawn, words: Words) -> CarriedDrawer:
    assert one.slide is not None
    assert one.mass is not None
    capacities = (rating(one.slide, one.mass, words),)
    checks: list[Check] = [load_check(one.mass.moving, capacities, words)]
    return CarriedDrawer(
        fitted=one,
        slide=one.slide,
        load=one.mass.moving,
        capacities=capacities,
        data=data,
        drawn=drawn,
        missing=data.missing,
        checks=tuple(checks),
    )


def _carried_unfitted(one: FittedDrawer, words: Words) -> CarriedDrawer:
    known = load_of_unfitted(one)
    load = None if known is None else known[0]
    capacities = () if known is None else (known[1],)
    checks = () if load is None else (load_check(load, capacities, words),)
    return CarriedDrawer(
        fitted=one,
        slide=None,
        load=load,
        capacities=capacities,
        data=None,
        drawn=None,
        missing=(),
        checks=checks,
    )
