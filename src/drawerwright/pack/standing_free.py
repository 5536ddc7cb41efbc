"""Cabinets that stand free, on the papers of their drawers: mark, word, margin, what would do, cautions.

A job in which nothing stands free brings in nothing of the balance.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, TypeAlias

from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.standing_free import free_cabinets
from drawerwright.pack.lettering import for_sheets
from drawerwright.units import ShownUnits

if TYPE_CHECKING:
    from drawerwright.carry.balance_told import BalanceTold

Balances: TypeAlias = Mapping[str, "BalanceTold"]
"""The balances of a job in words, by cabinet."""


def balances_by_cabinet(drawers: Sequence[FittedDrawer], units: ShownUnits) -> Balances:
    """The balance of every cabinet that stands free; `drawers` are all of the job."""
    if not free_cabinets(drawers):
        return {}
    from drawerwright.carry.balance_told import balances_told

    return {one.cabinet: one for one in balances_told(drawers, units)}


def balance_rows(drawers: Iterable[FittedDrawer], balances: Balances) -> list[dict[str, str]]:
    """Of the cabinets that these drawers stand in, each balance in full, for the job sheet."""
    return [
        {
            "cabinet": for_sheets(one.cabinet),
            "state": one.state,
            "word": one.word,
            "margin": one.margin,
            "says": for_sheets(f"{one.says} {one.defers}"),
        }
        for one in _told(drawers, balances)
    ]


def balance_checks(drawers: Iterable[FittedDrawer], balances: Balances) -> list[dict[str, str]]:
    """The same as rows of checks beside a drawing: what would do, for the job sheet has the whole."""
    return [
        {
            "state": one.state,
            "word": one.word.lower(),
            "margin": one.margin,
            "name": for_sheets(f"Cabinet {one.cabinet}"),
            "says": for_sheets(one.short),
        }
        for one in _told(drawers, balances)
    ]


def _told(drawers: Iterable[FittedDrawer], balances: Balances) -> list[BalanceTold]:
    return [balances[name] for name in free_cabinets(drawers) if name in balances]
