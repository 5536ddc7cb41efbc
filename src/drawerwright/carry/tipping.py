"""Can a cabinet that stands free tip: the balance about its front feet, its drawers open in the worst set.

Statics of a rigid cabinet on a rigid floor, formulas engineering and not a standard's: it tips where weights
ahead of the front feet turn more than those behind. It is looked at level and on a block under its rear,
which stands for carpet. Results in N m, kg, mm, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from drawerwright.carry.tipping_cases import STANCES, TippingCase, loads_of, tipping_case
from drawerwright.carry.tipping_checks import tipping_check
from drawerwright.carry.tipping_facts import BLOCK, BLOCK_DEPTH, CAUTIONS, PULL_HEIGHT
from drawerwright.carry.tipping_scope import Scope, scope_of
from drawerwright.carry.tipping_weights import (
    TippingDrawer,
    Weight,
    carcass,
    floor_height,
    tipping_drawers,
)
from drawerwright.carry.words import Words
from drawerwright.errors import Fault, InputError
from drawerwright.model.cabinet import Cabinet
from drawerwright.model.fitted import Check, FittedDrawer
from drawerwright.units import ShownUnits


@dataclass(frozen=True, slots=True)
class Tipping:
    """The balance of one free-standing cabinet.

    `worst` is the case of least margin under its own drawers and what they were told to hold; `cases` are
    all, among them those with the published fill. `lean_deg`: how far the block leans it. `pull_at`: height
    of the pull [mm]. `missing`: what is not known of it; `notes`: what was taken for granted.
    """

    cabinet: Cabinet
    weight: Weight
    drawers: tuple[TippingDrawer, ...]
    raised: float
    interlock: bool | None
    lean_deg: float
    pull_at: float
    cases: tuple[TippingCase, ...]
    worst: TippingCase
    scope: Scope
    missing: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS
    checks: tuple[Check, ...] = ()


def tipping_of(
    cabinet: Cabinet, drawers: Sequence[FittedDrawer], *, units: ShownUnits = "mm"
) -> Tipping | None:
    """The balance of a cabinet with its drawers; None where it does not stand free.

    Of `drawers` those that name this cabinet are taken. `units` of the sentences. Raises InputError where a
    free-standing cabinet lacks its size or its mass.
    """
    if not cabinet.freestanding:
        return None
    size, mass = cabinet.size, cabinet.mass
    if size is None or mass is None:
        lacks = [key for key, value in (("size", size), ("mass", mass)) if value is None]
        says = "is missing: nothing is guessed of a cabinet that stands free"
        raise InputError([Fault(f"cabinet {cabinet.id} {key}", "", says, _EXAMPLES[key]) for key in lacks])
    own = [one for one in drawers if one.drawer.cabinet == cabinet.id]
    words = Words(units)
    raised = floor_height(cabinet, size, own)
    weight, found = carcass(cabinet, size, mass), tuple(tipping_drawers(cabinet, own, raised))
    lean = math.atan2(BLOCK, size.depth - cabinet.feet - BLOCK_DEPTH) if size.depth > BLOCK_DEPTH else 0.0
    pull_at = min(size.height, PULL_HEIGHT)
    interlocked = cabinet.interlock is True
    cases = tuple(
        tipping_case(weight, found, load, stance, tilt, pull_at, interlock=interlocked)
        for load in loads_of(found)
        for stance, tilt in zip(STANCES, (0.0, lean), strict=True)
    )
    tipping = Tipping(
        cabinet=cabinet,
        weight=weight,
        drawers=found,
        raised=raised,
        interlock=cabinet.interlock,
        lean_deg=math.degrees(lean),
        pull_at=pull_at,
        cases=cases,
        worst=min((one for one in cases if one.load != "filled"), key=lambda one: round(one.margin, 9)),
        scope=scope_of(size, mass, found, words),
        missing=tuple(
            f"drawer {one.id}: no slide fits, so its mass is left out" for one in own if one.slide is None
        ),
        notes=_notes(cabinet, own, raised, words),
    )
    return replace(tipping, checks=(tipping_check(tipping, words),))


_EXAMPLES: Final = {"size": "size = { width = 800, height = 900, depth = 500 }", "mass": 'mass = "45 kg"'}


def _notes(cabinet: Cabinet, drawers: Sequence[FittedDrawer], raised: float, words: Words) -> tuple[str, ...]:
    notes = ["The mass told is the cabinet's without its drawers, its centre of gravity in its middle."]
    if cabinet.feet == 0.0:
        notes.append("The front feet stand under the cabinet's front edge.")
    else:
        notes.append(f"The front feet stand {words.length(cabinet.feet)} behind the cabinet's front edge.")
    if cabinet.floor_height is None:
        notes.append(
            f"Its floor is taken {words.length(raised)} above the room's: as high as its size leaves room."
        )
    if cabinet.interlock is None:
        notes.append("No interlock was told: every set of drawers may stand open.")
    if any(one.drawer.quantity > 1 for one in drawers):
        notes.append("Several drawers alike are taken to stand in as many cabinets alike.")
    return tuple(notes)
