"""The balance of cabinets that stand free, for the page of cabinets: drawn, every case, cautions in full."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from markupsafe import Markup

from drawerwright.carry.balance_told import BALANCE_WORDS
from drawerwright.carry.tipping import Tipping, tipping_of
from drawerwright.carry.words import Words
from drawerwright.drawing.shown import MILLIMETRES, Shown
from drawerwright.drawing.views.tipping_balance import balance_names, tipping_balance
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.carry_cabinet import balance_cases, balance_taken
from drawerwright.pack.carry_figures import carry_margin_text
from drawerwright.pack.carry_page import worst_state
from drawerwright.pack.picture_scale import as_large_as_fits
from drawerwright.units import ShownUnits
from drawerwright.web.carried.drawn import inside_of, view_of
from drawerwright.web.carried.section import CheckNote

ROOM: Final = (165.0, 175.0)
"""Most that a balance with its lettering measures on paper [mm]. Own choice."""
SMALL_ROOM: Final = (97.0, 150.0)
"""The same on a phone, lettered as large: some 3.4 pixels a mm on a screen 360 wide. Own choice."""


@dataclass(frozen=True, slots=True)
class DrawnBalance:
    """The picture of a balance: what stands inside its SVG, which is `view` large."""

    inside: Markup
    view: str
    alt: str


@dataclass(frozen=True, slots=True)
class Balance:
    """One cabinet's balance. `drawn` is None where it is too large to be drawn.

    `small`: the same for a phone, where `names` stand under it by their numbers.
    """

    tipping: Tipping
    state: str
    verdict: str
    note: CheckNote
    drawn: DrawnBalance | None
    small: DrawnBalance | None
    names: tuple[tuple[str, str], ...]
    cases: dict[str, Any]
    taken: list[dict[str, str]]
    cautions: tuple[str, ...]


def balance_of(drawers: Sequence[FittedDrawer], units: ShownUnits) -> Balance | None:
    """The balance of the cabinet that these drawers stand in; None where it does not stand free."""
    cabinet = drawers[0].cabinet if drawers else None
    tipping = None if cabinet is None else tipping_of(cabinet, drawers, units=units)
    if tipping is None:
        return None
    shown, words = Shown(units), Words(units)
    check = tipping.checks[0]
    state = worst_state(tipping.checks)
    note = CheckNote(
        check.id,
        check.state,
        carry_margin_text(check, shown),
        "Balance",
        check.says,
        check.working,
        check.source,
    )
    return Balance(
        tipping,
        state,
        BALANCE_WORDS[state],
        note,
        _drawn(tipping, shown, ROOM),
        _drawn(tipping, shown, SMALL_ROOM, numbered=True),
        balance_names(tipping, units=shown),
        balance_cases(tipping, words),
        balance_taken(tipping, words),
        tipping.cautions,
    )


def _drawn(
    tipping: Tipping, shown: Shown, room: tuple[float, float], *, numbered: bool = False
) -> DrawnBalance | None:
    # Two units at every lever would leave the drawing no room: then mm, for the words have the inches.
    units = MILLIMETRES if shown.both else shown
    picture = as_large_as_fits(tipping_balance(tipping, units=units, numbered=numbered), *room)
    if picture is None:
        return None
    name = f"balance-{room[0]:g}-{tipping.cabinet.id}"
    return DrawnBalance(inside_of(picture, name), view_of(picture.room), picture.scene.alt)
