"""The public JSON of the study: `drawerwright/carry/1`."""

from __future__ import annotations

from typing import Any, Final

from drawerwright.carry.carried import CarriedDrawer, CarriedJob
from drawerwright.carry.telescope import Drawn
from drawerwright.equations.mechanics.beams import Q
from drawerwright.model.fitted import Check

SCHEMA: Final = "drawerwright/carry/1"
_DECIMALS: Final = 6


def carry_document(carried: CarriedJob) -> dict[str, Any]:
    """Lengths and sag in mm, forces in N, masses in kg, moments in N mm, rounded to 1e-6."""
    return {
        "schema": SCHEMA,
        "title": carried.title,
        "drawers": [_drawer(one) for one in carried.drawers],
    }


def _drawer(one: CarriedDrawer) -> dict[str, Any]:
    limit, drawn, data = one.limit, one.drawn, one.data
    has_forces = data is not None and data.has_forces
    has_sag = data is not None and data.has_sag
    return {
        "id": one.id,
        "verdict": one.fitted.verdict,
        "slide": None
        if one.slide is None
        else {
            "family": one.slide.family.id,
            "nominal": number(one.slide.length.nominal),
            "mount": one.slide.mount,
        },
        "load": maybe(one.load),
        "capacity": None if limit is None else number(limit.moving),
        "limited_by": None if limit is None else limit.name,
        "capacities": [
            {
                "name": each.name,
                "moving": number(each.moving),
                "modified": each.modified,
                "says": each.says,
                "source": each.source,
            }
            for each in one.capacities
        ],
        "extension": [] if drawn is None else numbers(drawn.extension),
        "sag": numbers(drawn.sag) if drawn is not None and has_sag else None,
        "reactions": _reactions(drawn) if drawn is not None and has_forces else None,
        "checks": [check_document(check) for check in one.checks],
        "missing": list(one.missing),
    }


def _reactions(drawn: Drawn) -> dict[str, Any]:
    names = ("upper_rear", "upper_front", "lower_rear", "lower_front")
    return {name: numbers(getattr(drawn, name)) for name in names}


def check_document(check: Check) -> dict[str, Any]:
    """A check with the keys of the public contract."""
    return {
        "id": check.id,
        "state": check.state,
        "margin": number(check.margin),
        "unit": check.unit,
        "says": check.says,
        "working": check.working,
        "source": check.source,
    }


def number(value: float) -> float:
    """A number as it is written; never a negative zero."""
    return round(float(value), _DECIMALS) + 0.0


def maybe(value: float | None) -> float | None:
    """The same, where there may be none."""
    return None if value is None else number(value)


def numbers(values: Q) -> list[float]:
    """An array (m,) as it is written."""
    return [round(value, _DECIMALS) + 0.0 for value in values.tolist()]
