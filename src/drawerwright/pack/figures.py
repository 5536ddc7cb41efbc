"""Numbers and words as the shop reads them on sheets and lists."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from drawerwright.drawing.wording import shown_length
from drawerwright.model.cut_sizes import length_rounds_down
from drawerwright.model.fitted import BoxSizes, Mount, Part, State, Verdict
from drawerwright.pack.shown import Shown
from drawerwright.units import (
    EIGHTH,
    HARDLY,
    KG_PER_POUND,
    MM_PER_INCH,
    finest_parts,
    format_length,
    format_mass,
    is_just_inches,
    is_slight,
)

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
    """A length [mm] as on drawings: to a tenth; a true minus sign."""
    return shown_length(value)


def thickness_text(value: float) -> str:
    """A board's thickness [mm] to a hundredth: a tenth would make 6.35 of a quarter inch a thinner board."""
    return shown_length(value, 2)


def thick_text(value: float, shown: Shown) -> str:
    """A board's thickness [mm]: a name, never rounded to the fraction of another board.

    With its unit: inches where it is just so many 1/64 in, else mm; bare where mm are shown.
    """
    if not shown.with_inches:
        return thickness_text(value)
    if not is_just_inches(value):
        return f"{thickness_text(value)} mm"
    return (
        f"{inches(value, shown)} in"
        if shown.in_inches
        else f"{thickness_text(value)} ({inches(value, shown)} in)"
    )


def thickness_inches(value: float, shown: Shown) -> str:
    """A board's thickness [mm] in inches: the fraction that it is, else to 0.001 in."""
    return inches(value, shown) if is_just_inches(value) else f"{value / float(MM_PER_INCH):.3f}"


def wide_enough(value: float) -> str:
    """A width that a board has to enter [mm]: to a hundredth, never narrower than the board."""
    return shown_length(math.ceil(value * 100 - HARDLY) / 100, 2)


def inches(value: float, shown: Shown) -> str:
    """A length [mm] in inches to the nearest fraction shown, without the unit, a true minus sign.

    To 1/64 in where the length is just so many.
    """
    return _signed(format_length(value, "in", denominator=finest_parts(value, shown.parts)))


def inches_down(value: float, shown: Shown) -> str:
    """As `inches`, but never more than the length is: for sizes and margins that have an upper limit."""
    return _signed(format_length(value, "in", denominator=shown.parts, inches_down=True))


def _signed(text: str) -> str:
    return text.removesuffix(" in").replace("-", "−")


def length_text(value: float, shown: Shown) -> str:
    """A length [mm]: bare in mm, with its unit in inches, inches in brackets where both are wanted.

    A length under 1/8 in stays in mm, unless it is just so many 1/64 in: a rounded fraction says nothing
    about a gap or an adjuster.
    """
    if not shown.with_inches or is_slight(value):
        return hardware_text(value, shown)
    if shown.in_inches:
        return f"{inches(value, shown)} in"
    return f"{millimetres(value)} ({inches(value, shown)} in)"


def hardware_text(value: float, shown: Shown) -> str:
    """A length that belongs to the hardware [mm], always in mm: fractions of an inch mean another bit."""
    return f"{millimetres(value)} mm" if shown.in_inches else millimetres(value)


def longest_text(value: float, shown: Shown) -> str:
    """A length [mm] that nothing may exceed: inches are rounded down."""
    if not shown.with_inches or is_slight(value):
        return hardware_text(value, shown)
    most = f"{inches_down(value, shown)} in"
    return most if shown.in_inches else f"{millimetres(value)} ({most})"


def holes_text(values: Iterable[float], shown: Shown) -> str:
    """Places of row holes [mm], bored in mm beside inches too: `37, 69 mm (1 15/32, 2 23/32 in)`."""
    told = tuple(values)
    if not told:
        return ""
    metric = ", ".join(millimetres(value) for value in told)
    if not shown.with_inches:
        return metric
    imperial = ", ".join(inches(value, shown) for value in told)
    return f"{metric}{' mm' if shown.in_inches else ''} ({imperial} in)"


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
    """Width × height × length of a box in one unit; inches as its parts are cut."""
    sizes = (box.outside_width, box.height, box.length)
    if not shown.in_inches:
        return " × ".join(millimetres(size) for size in sizes)
    # The slide sets the length: one too short latches no better than one too long.
    return " × ".join(
        (*(inches_down(size, shown) for size in sizes[:2]), cut_inches(box.length, "side", shown))
    )


def cut_inches(length: float, part: str, shown: Shown) -> str:
    """Length [mm] of a part by its name as it is cut in inches: rounded down, the sides' to the nearest."""
    if length_rounds_down(part):
        return inches_down(length, shown)
    return inches(length, shown)


def part_inches(part: Part, shown: Shown) -> tuple[str, str, str]:
    """Length and width of a part as they are cut, and its thickness: a fraction of an inch, else in mm."""
    thick = (
        inches(part.thickness, shown) if is_just_inches(part.thickness) else thick_text(part.thickness, shown)
    )
    return cut_inches(part.length, part.part, shown), inches_down(part.width, shown), thick


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
