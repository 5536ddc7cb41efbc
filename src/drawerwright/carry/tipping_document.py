"""A balance as JSON: N m, kg, mm, N, degrees, rounded to 1e-6."""

from __future__ import annotations

from typing import Any, Final

from drawerwright.carry.tipping import Tipping
from drawerwright.carry.tipping_cases import TippingCase
from drawerwright.carry.tipping_facts import BLOCK, CHILD, FROM_MEMORY, LABORATORY, PULL

_DECIMALS: Final = 6


def tipping_document(tipping: Tipping) -> dict[str, Any]:
    """The worst case under its own drawers first, then every case, the scope, and what was taken."""
    return {
        **_case(tipping.worst),
        "cabinet": tipping.cabinet.id,
        "interlock": tipping.interlock,
        "block": {"height": BLOCK, "lean": _n(tipping.lean_deg), "source": LABORATORY},
        "child": {"mass": CHILD, "source": LABORATORY},
        "pull": {
            "force": PULL,
            "height": _n(tipping.pull_at),
            "source": FROM_MEMORY,
        },
        "cases": [_case(one) for one in tipping.cases],
        "scope": {
            "numbers_met": tipping.scope.numbers_met,
            "height": _n(tipping.scope.height),
            "mass": _n(tipping.scope.mass),
            "litres": _n(tipping.scope.litres),
            "says": tipping.scope.says,
            "source": tipping.scope.source,
        },
        "missing": list(tipping.missing),
        "notes": list(tipping.notes),
        "cautions": list(tipping.cautions),
    }


def _case(one: TippingCase) -> dict[str, Any]:
    return {
        "load": one.load,
        "stance": one.stance,
        "open": list(one.open),
        "restoring": _n(one.restoring),
        "overturning": _n(one.overturning),
        "margin": _n(one.margin),
        "child_on": one.child_on or None,
        "child_open": list(one.child_open),
        "child_margin": _n(one.child_margin),
        "may_hang": _n(one.may_hang),
        "pull_margin": _n(one.pull_margin),
    }


def _n(value: float | None) -> float | None:
    return None if value is None else round(value, _DECIMALS) + 0.0
