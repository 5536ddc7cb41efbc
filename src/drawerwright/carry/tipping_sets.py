"""The worst set of open drawers: moments add, so each drawer counts for itself.

Moments in N m about the front feet, overturning positive; lengths mm. With an interlock one drawer at most is
open; without one, any set may be. What hangs on a front hangs on an open drawer.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from drawerwright.carry.tipping_weights import TippingDrawer, Weight
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY

Load = Literal["empty", "told", "adverse", "filled"]

LOADS: Final[tuple[Load, ...]] = ("told", "empty", "adverse", "filled")
_MM_A_METRE: Final = 1000.0
_ROUND_OFF: Final = 1e-9
"""Moments [N m] this close are alike, and the first drawer is told."""


@dataclass(frozen=True, slots=True)
class Side:
    """One drawer shut or drawn out: what it holds then, and its moment [N m]."""

    contents: float
    moment: float


@dataclass(frozen=True, slots=True)
class Choice:
    """A drawer's two states, and the lever [m] by which something hangs on its front when it is open."""

    drawer: TippingDrawer
    shut: Side
    drawn: Side
    lever: float


@dataclass(frozen=True, slots=True)
class Worst:
    """Open drawers by id, the overturning moment [N m], and on which drawer something hangs ("": nothing)."""

    open: tuple[str, ...]
    moment: float
    hangs_on: str = ""


def choices(drawers: Sequence[TippingDrawer], load: Load, tilt: float) -> tuple[Choice, ...]:
    """Every drawer's moments under a load, the cabinet tilted forward by `tilt` [rad].

    "adverse": it holds what it was told to where that overturns, and nothing where that would hold down.
    """
    return tuple(
        Choice(
            one,
            _side(one, load, tilt, 0.0),
            _side(one, load, tilt, one.reach),
            hanging_lever(one, tilt),
        )
        for one in drawers
    )


def hanging_lever(one: TippingDrawer, tilt: float) -> float:
    """Lever [m] of what hangs on the front of the drawer when it is drawn out, ahead of the feet."""
    ahead = one.front_at + one.reach
    return (ahead * math.cos(tilt) + one.hang_height * math.sin(tilt)) / _MM_A_METRE


def _side(one: TippingDrawer, load: Load, tilt: float, out: float) -> Side:
    own = sum(weight.moment(tilt, out) for weight in one.own)
    held: Weight = one.filled if load == "filled" else one.contents
    more = held.moment(tilt, out)
    if load == "empty" or (load == "adverse" and more < 0.0):
        return Side(0.0, own)
    return Side(held.mass, own + more)


def worst_set(rest: float, drawers: Sequence[Choice], *, interlock: bool, hanging: float = 0.0) -> Worst:
    """The allowed set that overturns most. `rest`: moment [N m] of all else; `hanging` [kg] on an open front.

    Nothing hangs where no drawer opens. Exact: whichever drawer it hangs on, the others are open where that
    overturns more (or shut, where an interlock holds them).
    """
    shut = rest + sum(one.shut.moment for one in drawers)
    gains = [one.drawn.moment - one.shut.moment for one in drawers]
    if hanging == 0.0:
        return _without_hanging(shut, drawers, gains, interlock=interlock)
    free = [max(gain, 0.0) for gain in gains]
    best: Worst | None = None
    for place, one in enumerate(drawers):
        others = 0.0 if interlock else sum(free) - free[place]
        moment = shut + others + gains[place] + STANDARD_GRAVITY * hanging * one.lever
        if best is None or moment > best.moment + _ROUND_OFF:
            open_ = [
                other.drawer.id
                for at, other in enumerate(drawers)
                if at == place or (not interlock and gains[at] > 0.0)
            ]
            best = Worst(tuple(open_), moment, one.drawer.id)
    return best if best is not None else Worst((), shut)


def _without_hanging(
    shut: float, drawers: Sequence[Choice], gains: Sequence[float], *, interlock: bool
) -> Worst:
    if not interlock:
        ids = tuple(one.drawer.id for one, gain in zip(drawers, gains, strict=True) if gain > 0.0)
        return Worst(ids, shut + sum(max(gain, 0.0) for gain in gains))
    most = max(gains, default=0.0)
    if most <= 0.0:
        return Worst((), shut)
    place = next(at for at, gain in enumerate(gains) if gain > most - _ROUND_OFF)
    return Worst((drawers[place].drawer.id,), shut + most)


def may_hang(rest: float, drawers: Sequence[Choice], *, interlock: bool) -> float | None:
    """Mass [kg] that may hang on any open front before the cabinet is in balance; None: any mass may.

    0 where it tips by itself. For each front the worst set of the others is the same whatever hangs there.
    """
    least: float | None = None
    shut = rest + sum(one.shut.moment for one in drawers)
    gains = [one.drawn.moment - one.shut.moment for one in drawers]
    free = sum(max(gain, 0.0) for gain in gains)
    for one, gain in zip(drawers, gains, strict=True):
        if one.lever <= 0.0:
            continue
        held = -(shut + gain + (0.0 if interlock else free - max(gain, 0.0)))
        mass = max(held, 0.0) / (STANDARD_GRAVITY * one.lever)
        least = mass if least is None else min(least, mass)
    return least
