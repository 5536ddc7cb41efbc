"""One drawer judged: everything that is found of it put together, and its checks in order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from drawerwright.carry.bottom import bottom_checks, bottom_of
from drawerwright.carry.capacities import (
    Capacity,
    evidence,
    load_check,
    load_of_unfitted,
    mounting,
    rating,
    roller_force,
    strength,
)
from drawerwright.carry.carried import CarriedDrawer, Slide
from drawerwright.carry.closing import closing_of
from drawerwright.carry.fixings import fixing_check, fixings_of
from drawerwright.carry.loose_shelf import loose_shelf_of
from drawerwright.carry.racking import racking_check, racking_of
from drawerwright.carry.rollers import force_check, rail_check, rollers_of
from drawerwright.carry.sagging import sag_check
from drawerwright.carry.sections import strength_check, stresses_of
from drawerwright.carry.sides import Hand, Sides, sides_check, slides_apart
from drawerwright.carry.slamming import slam_of
from drawerwright.carry.slide_data import SlideData
from drawerwright.carry.stock import stock_of
from drawerwright.carry.telescope import Drawn
from drawerwright.carry.tipping import Tipping
from drawerwright.carry.words import Words
from drawerwright.catalogue.materials import Materials
from drawerwright.model.fitted import Check, FittedDrawer

Uneven: TypeAlias = tuple[float, dict[Hand, float], Drawn, Drawn]
"""Offset of the load [mm], the shares of both slides, and both drawn out, left first."""


@dataclass(frozen=True, slots=True)
class Asked:
    """How the study was asked: words, tilt [°], a limit for the sag [mm], the materials of the job."""

    words: Words
    tilt_deg: float
    sag_limit: float | None
    materials: Materials | None


def carried_drawer(one: FittedDrawer, slide: Slide, tipping: Tipping | None, asked: Asked) -> CarriedDrawer:
    """A drawer that fits, its slide drawn out."""
    assert one.mass is not None
    moving, words, roller = one.mass.moving, asked.words, slide.chosen.family.roller
    carries = None if roller is None else roller.carries
    capacities = (
        rating(slide.chosen, one.mass, words),
        *evidence(slide.chosen, words),
        *strength(slide.stresses, moving, words),
        *roller_force(slide.rollers, carries, moving, words),
        *mounting(slide.fixings, moving, words),
    )
    checks = (
        load_check(moving, capacities, words),
        *_slide_checks(slide, asked),
        *(() if tipping is None else tipping.checks),
    )
    return CarriedDrawer(one, moving, capacities, slide, tipping, checks)


def unfitted_drawer(
    one: FittedDrawer, nearest: Slide | None, tipping: Tipping | None, asked: Asked
) -> CarriedDrawer:
    """A drawer that fits nothing: its load, where the slide that came nearest tells it, and that slide."""
    known = load_of_unfitted(one, asked.words)
    load: float | None = None
    capacities: tuple[Capacity, ...] = ()
    checks: tuple[Check, ...] = ()
    if known is not None:
        load, capacities = known[0], (known[1],)
        checks = (load_check(load, capacities, asked.words),)
    if tipping is not None:
        checks = (*checks, *tipping.checks)
    return CarriedDrawer(one, load, capacities, None, tipping, checks, nearest)


def slide_of(one: FittedDrawer, data: SlideData, drawn: Drawn, uneven: Uneven | None, asked: Asked) -> Slide:
    """Everything that is found of a drawer's slide, drawn out.

    What may fail is looked at on the slide that gets more of the load.
    """
    chosen, box, mass = one.slide, one.box, one.mass
    assert chosen is not None
    assert box is not None
    assert mass is not None
    family = chosen.family
    stock = stock_of(one.drawer, "bottom", asked.materials)
    sides, loaded = None, drawn
    if uneven is not None:
        off_centre, shares, left, right = uneven
        sides = Sides(off_centre, slides_apart(box, family), shares, {"left": left, "right": right})
        loaded = sides.drawn[sides.most]
    return Slide(
        chosen=chosen,
        data=data,
        drawn=drawn,
        rollers=rollers_of(data, loaded, family.roller),
        stresses=stresses_of(family, loaded),
        racking=racking_of(data, box, family, stabiliser=one.drawer.stabiliser),
        bottom=None if stock is None else bottom_of(box, family, mass.contents, stock),
        fixings=fixings_of(one, chosen, data, loaded, asked.materials),
        slam=slam_of(data, drawn, box, mass.moving),
        sides=sides,
        closing=closing_of(
            mass.moving,
            family.soft_close,
            travel=data.travel,
            tilt_deg=asked.tilt_deg,
            units=asked.words.units,
        ),
        shelf=loose_shelf_of(one),
    )


def _slide_checks(slide: Slide, asked: Asked) -> Iterator[Check]:
    """Every check that something is known for, in the order in which they are told."""
    words, family, rollers = asked.words, slide.chosen.family, slide.rollers
    if rollers is not None:
        yield rail_check(rollers, slide.data, words)
    if slide.stresses:
        yield strength_check(slide.stresses, words)
    if rollers is not None and family.roller is not None and family.roller.carries is not None:
        yield force_check(rollers, family.roller.carries, words)
    limit = asked.sag_limit if asked.sag_limit is not None else family.sag_limit
    if limit is not None and slide.data.has_sag:
        yield sag_check(slide.most_loaded, limit, words)
    if slide.sides is not None:
        yield sides_check(slide.sides, words)
    if slide.racking is not None:
        yield racking_check(slide.racking, words)
    if slide.bottom is not None:
        yield from bottom_checks(slide.bottom, words)
    for fixing in slide.fixings:
        yield fixing_check(fixing, words)
    if slide.closing is not None:
        yield from slide.closing.checks
