"""Cabinets of a stored job that stand free, for every page of their drawers: do they tip, what would do.

Where nothing stands free nothing is worked out, and nothing of the balance is brought in.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Final

from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.standing_free import balances_by_cabinet
from drawerwright.units import ShownUnits
from drawerwright.web.fitting import answer_values
from drawerwright.web.schedule.answers import cabinet_of, units_of

if TYPE_CHECKING:
    from drawerwright.carry.balance_told import BalanceTold

_FAST: Final = frozenset({"", "false", "no", "none"})
"""What is typed of a cabinet that does not stand free; whatever else is typed is looked at closer."""


def balances_of_drawers(drawers: Iterable[FittedDrawer | None], units: ShownUnits) -> tuple[BalanceTold, ...]:
    """The balances of the cabinets that these drawers stand in; all drawers of each are among them."""
    return tuple(balances_by_cabinet([one for one in drawers if one is not None], units).values())


def balances_of_values(values: Mapping[str, Any], families: Sequence[SlideFamily]) -> tuple[BalanceTold, ...]:
    """The balances of a whole job's cabinets that stand free: their drawers alone are answered."""
    free = {
        str(one.get("id", "")).strip()
        for one in values.get("cabinet") or ()
        if isinstance(one, Mapping) and str(one.get("freestanding") or "").strip().lower() not in _FAST
    }
    if not free:
        return ()
    default = cabinet_of(values.get("defaults") or {})
    drawers = [one for one in values.get("drawer", ()) if (cabinet_of(one) or default) in free]
    answer = answer_values({**values, "drawer": drawers}, families)
    return balances_of_drawers((one.fitted for one in answer.drawers), units_of(values))
