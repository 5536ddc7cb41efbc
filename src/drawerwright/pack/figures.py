"""Numbers and words as the shop reads them on sheets and lists."""

from __future__ import annotations

from typing import Final

from drawerwright.drawing.wording import shown_length
from drawerwright.model.fitted import Mount, State, Verdict
from drawerwright.units import ShownUnits, format_length, format_mass

VERDICT_WORDS: Final[dict[Verdict, str]] = {
    "fits": "Fits",
    "fits-with-care": "Fits with care",
    "does-not-fit": "Does not fit",
}
VERDICT_STATES: Final[dict[Verdict, State]] = {
    "fits": "ok",
    "fits-with-care": "watch",
    "does-not-fit": "stop",
}
STATE_WORDS: Final[dict[State, str]] = {"ok": "fits", "watch": "with care", "stop": "stops"}
MOUNT_WORDS: Final[dict[Mount, str]] = {
    "side": "on the cabinet side",
    "packed": "on packing",
    "rear-bracket": "on rear brackets",
    "shelf": "on a shelf",
}
GRAIN_WORDS: Final[dict[str, str]] = {"none": "", "length": "along", "width": "across"}


def millimetres(value: float) -> str:
    """A length [mm] to a tenth, no trailing zeros, a true minus sign."""
    return shown_length(value)


def inches(value: float) -> str:
    """A length [mm] in inches to a thirty-second, without the unit, a true minus sign."""
    return format_length(value, "in").removesuffix(" in").replace("-", "−")


def length_text(value: float, units: ShownUnits) -> str:
    """A length [mm]: bare in mm, with its unit in inches, inches in brackets where both are wanted."""
    if units == "mm":
        return millimetres(value)
    if units == "in":
        return f"{inches(value)} in"
    return f"{millimetres(value)} ({inches(value)} in)"


def lengths_text(values: tuple[float, ...], units: ShownUnits) -> str:
    """Several lengths [mm], parted by commas; the inches of all follow together."""
    metric = ", ".join(millimetres(value) for value in values)
    imperial = ", ".join(inches(value) for value in values)
    if units == "mm":
        return metric
    return f"{imperial} in" if units == "in" else f"{metric} ({imperial} in)"


def size_text(values: tuple[float, ...], units: ShownUnits) -> str:
    """Sizes [mm] of one thing, parted by ×, in one unit: inches where `units` is `in`, else mm."""
    return " × ".join(inches(value) if units == "in" else millimetres(value) for value in values)


def mass_unit(units: ShownUnits) -> str:
    """The unit that masses are shown in: lb where lengths are in inches alone."""
    return "lb" if units == "in" else "kg"


def mass_text(value: float, units: ShownUnits) -> str:
    """A mass [kg] in the sheet's unit, to one decimal, without the unit."""
    if units == "in":
        return format_mass(value, "in").removesuffix(" lb").replace("-", "−")
    return f"{value:.1f}".replace("-", "−")


def margin_text(margin: float, unit: str, units: ShownUnits) -> str:
    """A check's margin with its unit; lengths to a tenth, as the sheet's units show them."""
    if unit == "mm":
        if units == "in":
            return f"{inches(margin)} in"
        return f"{margin:.1f} mm".replace("-0.0", "0.0").replace("-", "−")
    if unit == "kg":
        return f"{mass_text(margin, units)} {mass_unit(units)}"
    return f"{margin:.2g} {unit}".strip().replace("-", "−")


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else many}"
