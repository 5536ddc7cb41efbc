"""A change put into numbers and words, both rounded away from where the drawer is: they must be enough."""

from __future__ import annotations

from math import ceil, floor

from drawerwright.fit.lever import Lever
from drawerwright.fit.spacers import ROUND_OFF
from drawerwright.model.fitted import Change
from drawerwright.units import KG_PER_POUND, MM_PER_INCH, ShownUnits, format_length, format_mass

_SHOWN = 10
_GRAIN = 1e4
_HAIR = 1e-3
_DECIMALS = (1, 2, 3, 4)
_IN_AN_INCH = 32
_INCH = float(MM_PER_INCH)


def change_of(lever: Lever, by: float, units: ShownUnits, *, closes: bool) -> Change:
    """The change by the least step [mm or kg] that a lever has to go; `closes`: readings have to close."""
    sign = 1 if by > 0 else -1
    least = ceil(abs(by) * _GRAIN - _HAIR) / _GRAIN
    says = lever.closes if closes and lever.closes is not None else lever.says
    if lever.starts_at is None:
        said = says[sign].format(by=_amount(least, lever.unit, units))
        return Change(lever.key, sign * least, lever.unit, said, lever.readings)
    limit = round(lever.starts_at + sign * least, 6)
    said = says[sign].format(limit=_limit_words(limit, sign, lever.keeps, units))
    return Change(lever.key, sign * least, lever.unit, said, lever.readings, limit=limit)


def _amount(least: float, unit: str, units: ShownUnits) -> str:
    tenth = 1 / _SHOWN
    if unit == "mm":
        metric = format_length(_onwards(least, tenth, 1), "mm")
        other = format_length(_onwards(least, _INCH / _IN_AN_INCH, 1), "in", denominator=_IN_AN_INCH)
    else:
        metric = format_mass(_onwards(least, tenth, 1), "mm")
        other = format_mass(_onwards(least, float(KG_PER_POUND) * tenth, 1), "in")
    return {"mm": metric, "in": other, "both": f"{metric} ({other})"}[units]


def _limit_words(limit: float, sign: int, keeps: float, units: ShownUnits) -> str:
    """A limit, rounded onwards to what people measure by, but not past the readings that it `keeps`."""

    def stays(told: float) -> bool:
        return sign * (told - keeps) <= ROUND_OFF

    rounded = ((_onwards(limit, 10.0**-decimals, sign), decimals) for decimals in _DECIMALS)
    told, decimals = next((one for one in rounded if stays(one[0])), (limit, _DECIMALS[-1]))
    metric = format_length(told, "mm", decimals=decimals)
    inches = _onwards(limit, _INCH / _IN_AN_INCH, sign)
    if units == "mm" or not stays(inches):
        return metric
    other = format_length(inches, "in", denominator=_IN_AN_INCH)
    return other if units == "in" else f"{metric} ({other})"


def _onwards(limit: float, grain: float, sign: int) -> float:
    steps = limit / grain
    return (ceil(steps - ROUND_OFF) if sign > 0 else floor(steps + ROUND_OFF)) * grain
