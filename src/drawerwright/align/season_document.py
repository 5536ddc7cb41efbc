"""The public JSON of fronts over the seasons."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any, Final

from drawerwright.align.seasons import SeasonalGap, SeasonedFront, Seasons

SCHEMA: Final = "drawerwright/season/1"
_DECIMALS: Final = 6


def season_document(seasons: Seasons) -> dict[str, Any]:
    """The document `drawerwright/season/1`: lengths mm, temperatures °C, humidities 0..1, moistures %."""
    return {
        "schema": SCHEMA,
        "species": seasons.species.id,
        "cut": seasons.cut,
        "across": seasons.across,
        "limit": _n(seasons.limit),
        "settled": seasons.settled,
        "source": seasons.species.source,
        "moisture": {
            name: {
                "temperature": _n(air["temperature_c"]),
                "humidity": _n(air["humidity"]),
                "moisture": _n(getattr(seasons.moistures, name)),
            }
            for name, air in asdict(seasons.climate).items()
        },
        "moisture_months": [_n(one) for one in seasons.moisture_months],
        "fronts": [_front(one) for one in seasons.fronts],
    }


def _front(one: SeasonedFront) -> dict[str, Any]:
    return {
        "drawer": one.drawer,
        "size": _n(one.size),
        "lacks": _n(one.lacks),
        "shift": _n(one.shift),
        "screw_play": _n(one.screw_play),
        "grown": {"today": _n(one.today), "to_dry": _n(one.to_dry), "to_wet": _n(one.to_wet)},
        "gaps": [_gap(gap) for gap in one.gaps],
    }


def _gap(gap: SeasonalGap) -> dict[str, Any]:
    return {
        "edge": gap.edge,
        "set_today": _n(gap.set_today),
        "smallest": _n(gap.smallest),
        "largest": _n(gap.largest),
        "as_cut": _n(gap.as_cut),
        "months": [_n(one) for one in gap.months],
    }


def _n(value: float) -> float:
    """A number as the document holds it; 0 has no sign."""
    return round(value, _DECIMALS) + 0.0
