"""The balance of each cabinet that stands free in a few words, for whatever shows drawers that stand in one.

A balance is cheap; nothing of the study of what drawers carry is needed for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.carry.tipping import Tipping, tipping_of
from drawerwright.carry.words import figure_down
from drawerwright.model.fitted import FittedDrawer, State
from drawerwright.units import ShownUnits

BALANCE_WORDS: Final[dict[State, str]] = {"ok": "Stands", "watch": "Stands, with care", "stop": "Tips"}
"""What a balance comes to, in a word."""
DEFERS: Final = "Local codes and the maker's own instructions come first; no standard is said to be met."


@dataclass(frozen=True, slots=True)
class BalanceTold:
    """One cabinet's balance: state and word, margin with its unit, what was found, what would do.

    `margin` is never shown larger than it is; negative, so much is lacking. `says` has the cure in it.
    """

    cabinet: str
    state: State
    word: str
    margin: str
    says: str
    cure: str
    defers: str = DEFERS

    @property
    def short(self) -> str:
        """What would do and what goes before it, where another paper has the whole."""
        lead = "" if self.state == "ok" else f"{self.cure} "
        return f"{lead}Anchor it to the wall whatever this says. {self.defers}"


def balances_of(drawers: Sequence[FittedDrawer], units: ShownUnits = "mm") -> tuple[Tipping, ...]:
    """The balance of each cabinet that stands free, in the order of the drawers, which are all of the job."""
    together: dict[str, list[FittedDrawer]] = {}
    for one in drawers:
        if one.cabinet is not None and one.cabinet.freestanding:
            together.setdefault(one.cabinet.id, []).append(one)
    found = (tipping_of(own[0].cabinet, own, units=units) for own in together.values() if own[0].cabinet)
    return tuple(tipping for tipping in found if tipping is not None)


def balance_told(tipping: Tipping) -> BalanceTold:
    """A balance in a few words."""
    (check,) = tipping.checks
    margin = f"{figure_down(check.margin)} {check.unit}"
    return BalanceTold(
        tipping.cabinet.id, check.state, BALANCE_WORDS[check.state], margin, check.says, check.cure
    )


def balances_told(drawers: Sequence[FittedDrawer], units: ShownUnits = "mm") -> tuple[BalanceTold, ...]:
    """The balances of all cabinets of these drawers that stand free, in a few words."""
    return tuple(balance_told(tipping) for tipping in balances_of(drawers, units))
