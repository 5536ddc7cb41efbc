"""The balance of one load and one stance: level, or on a block under the rear that stands for carpet.

Moments in N m about the front feet; lengths mm, masses kg, angles rad.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from drawerwright.carry.tipping_facts import CHILD, PULL
from drawerwright.carry.tipping_sets import LOADS, Choice, Load, choices, may_hang, worst_set
from drawerwright.carry.tipping_weights import TippingDrawer, Weight

Stance = Literal["level", "block"]

STANCES: Final[tuple[Stance, ...]] = ("level", "block")
_MM_A_METRE: Final = 1000.0


@dataclass(frozen=True, slots=True)
class TippingCase:
    """One load and one stance: open drawers by id, moments about the front feet [N m].

    `margin` is restoring less overturning. `child_margin`: with the test mass on the front of `child_on`, the
    drawers that are open then in `child_open`; None without a drawer. `may_hang` [kg] on the worst front,
    None where any mass may; `pull_margin`: with the horizontal pull in place of the child.
    """

    load: Load
    stance: Stance
    open: tuple[str, ...]
    restoring: float
    overturning: float
    margin: float
    child_on: str
    child_open: tuple[str, ...]
    child_margin: float | None
    may_hang: float | None
    pull_margin: float


def loads_of(drawers: Sequence[TippingDrawer]) -> tuple[Load, ...]:
    """Loads that differ: with nothing told in any drawer, "told" and "adverse" are "empty"."""
    if not drawers:
        return ("empty",)
    if all(one.contents.mass == 0.0 for one in drawers):
        return ("empty", "filled")
    return LOADS


def tipping_case(
    weight: Weight,
    drawers: Sequence[TippingDrawer],
    load: Load,
    stance: Stance,
    tilt: float,
    pull_at: float,
    *,
    interlock: bool,
) -> TippingCase:
    """The worst allowed set under one load, the cabinet leaning forward by `tilt` [rad].

    `pull_at`: height of the pull [mm].
    """
    rest, sides = weight.moment(tilt), choices(drawers, load, tilt)
    own = worst_set(rest, sides, interlock=interlock)
    child = worst_set(rest, sides, interlock=interlock, hanging=CHILD) if drawers else None
    restoring, overturning = _sides_of_balance(weight, sides, own.open, load, tilt)
    pull = PULL * pull_at / _MM_A_METRE * math.cos(tilt)
    return TippingCase(
        load=load,
        stance=stance,
        open=own.open,
        restoring=restoring,
        overturning=overturning,
        margin=-own.moment,
        child_on="" if child is None else child.hangs_on,
        child_open=() if child is None else child.open,
        child_margin=None if child is None else -child.moment,
        may_hang=may_hang(rest, sides, interlock=interlock),
        pull_margin=-own.moment - pull,
    )


def weights_of(
    weight: Weight, sides: Sequence[Choice], open_: Sequence[str], load: Load
) -> list[tuple[Weight, float]]:
    """Every weight of a case, with how far it is drawn out [mm]."""
    found = [(weight, 0.0)]
    for one in sides:
        drawn = one.drawer.id in open_
        out, side = (one.drawer.reach, one.drawn) if drawn else (0.0, one.shut)
        found += [(own, out) for own in one.drawer.own]
        if side.contents > 0.0:
            found.append((one.drawer.filled if load == "filled" else one.drawer.contents, out))
    return found


def _sides_of_balance(
    weight: Weight, sides: Sequence[Choice], open_: Sequence[str], load: Load, tilt: float
) -> tuple[float, float]:
    """Restoring and overturning moment [N m], both positive."""
    moments = [each.moment(tilt, out) for each, out in weights_of(weight, sides, open_, load)]
    return -sum(min(one, 0.0) for one in moments), sum(max(one, 0.0) for one in moments)
