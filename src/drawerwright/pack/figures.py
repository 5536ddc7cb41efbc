"""Numbers and words as the shop reads them on sheets and lists."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from drawerwright.drawing.wording import shown_length
from drawerwright.model.fitted import BoxSizes, Mount, Part, State, Verdict
from drawerwright.pack.shown import Shown
from drawerwright.units import HARDLY, KG_PER_POUND, MM_PER_INCH, format_length, format_mass

EIGHTH: Final = float(MM_PER_INCH) / 8
"""1/8 in [mm]: lengths below it are told in mm."""
NOUGHT: Final = 0.05
"""Lengths below this are shown as 0 [mm]: half of the tenth that papers show."""
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
    """A length [mm] as on drawings: to a tenth, below 100 mm to a hundredth; a true minus sign."""
    return shown_length(value)


def thickness_text(value: float) -> str:
    """A board's thickness [mm] to a hundredth: a tenth would make 6.35 of a quarter inch a thinner board."""
    return shown_length(value, 2)


def wide_enough(value: float) -> str:
    """A width that a board has to enter [mm]: to a hundredth, never narrower than the board."""
    return shown_length(math.ceil(value * 100 - HARDLY) / 100, 2)


def inches(value: float, shown: Shown) -> str:
    """A length [mm] in inches to the nearest fraction shown, without the unit, a true minus sign."""
    return _signed(format_length(value, "in", denominator=shown.parts))


def inches_down(value: float, shown: Shown) -> str:
    """As `inches`, but never more than the length is: for sizes and margins that have an upper limit."""
    return _signed(format_length(value, "in", denominator=shown.parts, inches_down=True))


def _signed(text: str) -> str:
    return text.removesuffix(" in").replace("-", "−")


def length_text(value: float, shown: Shown) -> str:
    """A length [mm]: bare in mm, with its unit in inches, inches in brackets where both are wanted.

    Inches tell no length under 1/8 in: a fraction says nothing about a gap or an adjuster.
    """
    if not shown.with_inches or 0 < abs(value) < EIGHTH:
        return hardware_text(value, shown)
    if shown.in_inches:
        return f"{inches(value, shown)} in"
    return f"{millimetres(value)} ({inches(value, shown)} in)"


def hardware_text(value: float, shown: Shown) -> str:
    """A length that belongs to the hardware [mm], always in mm: fractions of an inch mean another bit."""
    return f"{millimetres(value)} mm" if shown.in_inches else millimetres(value)


def lengths_text(values: Iterable[float], shown: Shown) -> str:
    """Several lengths [mm], parted by commas; the inches of all follow together."""
    told = tuple(values)
    if not told:
        return ""
    metric = ", ".join(millimetres(value) for value in told)
    imperial = ", ".join(inches(value, shown) for value in told)
    if not shown.with_inches:
        return metric
    return f"{imperial} in" if shown.in_inches else f"{metric} ({imperial} in)"


def box_text(box: BoxSizes, shown: Shown) -> str:
    """Width × height × length of a box in one unit; inches never more than it may be."""
    sizes = (box.outside_width, box.height, box.length)
    return " × ".join(inches_down(size, shown) if shown.in_inches else millimetres(size) for size in sizes)


def part_inches(part: Part, shown: Shown) -> tuple[str, str, str]:
    """Length and width of a part, rounded down, and its thickness, rounded to the nearest [in]."""
    return inches_down(part.length, shown), inches_down(part.width, shown), inches(part.thickness, shown)


def part_text(part: Part, shown: Shown) -> str:
    """Length × width × thickness of a part in one unit: inches where they stand alone, else mm."""
    if shown.in_inches:
        return " × ".join(part_inches(part, shown))
    return " × ".join((millimetres(part.length), millimetres(part.width), thickness_text(part.thickness)))


def mass_unit(shown: Shown) -> str:
    """The unit that masses are shown in: lb where lengths are in inches alone."""
    return "lb" if shown.in_inches else "kg"


def mass_text(value: float, shown: Shown) -> str:
    """A mass [kg] in the sheet's unit, to one decimal, without the unit."""
    if shown.in_inches:
        return format_mass(value, "in").removesuffix(" lb").replace("-", "−")
    return f"{value:.1f}".replace("-", "−")


def margin_text(margin: float, unit: str, shown: Shown) -> str:
    """A check's margin with its unit, never shown larger than it is: lengths and masses are rounded down."""
    if unit == "mm":
        if shown.in_inches and abs(margin) >= EIGHTH:
            return f"{inches_down(margin, shown)} in"
        return f"{_tenths_down(margin):.1f} mm".replace("-", "−")
    if unit == "kg":
        in_unit = margin / float(KG_PER_POUND) if shown.in_inches else margin
        return f"{_tenths_down(in_unit):.1f} {mass_unit(shown)}".replace("-", "−")
    return f"{margin:.2g} {unit}".strip().replace("-", "−")


def _tenths_down(value: float) -> float:
    return math.floor(value * 10 + float(HARDLY)) / 10 + 0.0


def change_text(by: float, unit: str, shown: Shown) -> str:
    """What an input has to change by at least, with its sign: rounded away from 0, so that it is enough."""
    enough = margin_text(-abs(by), unit, shown).removeprefix("−")
    return f"−{enough}" if by < 0 else f"+{enough}"


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else many}"
