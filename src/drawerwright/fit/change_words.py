"""A change put into numbers and words, both rounded away from where the drawer is: they must be enough."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor

from drawerwright.fit.lever import Lever
from drawerwright.fit.spacers import ROUND_OFF
from drawerwright.model.fitted import Change
from drawerwright.units import KG_PER_POUND, MM_PER_INCH, ShownUnits, format_length, format_mass

_GRAIN = 1e4
_HAIR = 1e-3
_DECIMALS = (1, 2, 3, 4)
_IN_AN_INCH = 32
_INCHES = (_IN_AN_INCH, 64)
"""Parts of an inch that a shop's rule shows; common practice, no source."""
_INCH = float(MM_PER_INCH)
_POUND = float(KG_PER_POUND)


def change_of(
    lever: Lever, by: float, units: ShownUnits, *, closes: bool, cures: Callable[[float], bool]
) -> Change:
    """The change by the least step [mm or kg] that a lever has to go; `closes`: readings have to close.

    `cures` tells of a step, with its sign, whether the drawer fits then: what is said is as round as that
    allows, for a step that is rounded up may be too long.
    """
    sign = 1 if by > 0 else -1
    least = ceil(abs(by) * _GRAIN - _HAIR) / _GRAIN
    says = lever.closes if closes and lever.closes is not None else lever.says
    if lever.starts_at is None:
        said = says[sign].format(by=_amount(least, lever.unit, units, lambda step: cures(sign * step)))
        return Change(lever.key, sign * least, lever.unit, said, lever.readings)
    limit = round(lever.starts_at + sign * least, 6)
    said = says[sign].format(limit=_limit_words(limit, sign, lever.keeps, units))
    return Change(lever.key, sign * least, lever.unit, said, lever.readings, limit=limit)


def _amount(least: float, unit: str, units: ShownUnits, cures: Callable[[float], bool]) -> str:
    steps = ((_onwards(least, 10.0**-decimals, 1), decimals) for decimals in _DECIMALS)
    told, decimals = next((one for one in steps if cures(one[0])), (least, _DECIMALS[-1]))
    if unit == "kg":
        metric, other = format_mass(told, "mm", decimals=decimals), _pounds(least, cures)
    else:
        metric, other = format_length(told, "mm", decimals=decimals), _fraction(least, cures)
    if units == "mm" or not other:
        return metric
    return other if units == "in" else f"{metric} ({other})"


def _fraction(least: float, cures: Callable[[float], bool]) -> str:
    """A step [mm] in parts of an inch; empty where none that a rule shows is near enough."""
    steps = ((_onwards(least, _INCH / parts, 1), parts) for parts in _INCHES)
    found = next((one for one in steps if cures(one[0])), None)
    return "" if found is None else format_length(found[0], "in", denominator=found[1])


def _pounds(least: float, cures: Callable[[float], bool]) -> str:
    """A step [kg] in pounds; empty where no decimal that is told is near enough."""
    steps = ((_onwards(least, _POUND * 10.0**-decimals, 1), decimals) for decimals in _DECIMALS)
    found = next((one for one in steps if cures(one[0])), None)
    return "" if found is None else format_mass(found[0], "in", decimals=found[1])


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
