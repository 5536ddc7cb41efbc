"""Values in the words and units that a person asked for; marks and words for each verdict."""

from __future__ import annotations

from typing import Final

from drawerwright.model.fitted import State, Verdict
from drawerwright.model.job import Drawer
from drawerwright.units import ShownUnits, format_length, format_mass

MARKS: Final[dict[State, str]] = {"ok": "✓", "watch": "△", "stop": "✗"}
STATE_STYLES: Final[dict[State, str]] = {"ok": "green", "watch": "yellow", "stop": "bold red"}
VERDICT_MARKS: Final[dict[Verdict, str]] = {"fits": "✓", "fits-with-care": "△", "does-not-fit": "✗"}
VERDICT_STYLES: Final[dict[Verdict, str]] = {
    "fits": "green",
    "fits-with-care": "yellow",
    "does-not-fit": "bold red",
}
NOTHING: Final = "–"


def named(drawer: Drawer) -> str:
    """A drawer's id, and how many of it are built where that is more than one."""
    return f"{drawer.id} ×{drawer.quantity}" if drawer.quantity > 1 else drawer.id


def length(mm: float, units: ShownUnits) -> str:
    """A length [mm]; in both units one stands above the other."""
    if units == "both":
        return f"{format_length(mm, 'mm')}\n{format_length(mm, 'in')}"
    return format_length(mm, units)


def sizes(values: tuple[float, ...], units: ShownUnits) -> str:
    """Sizes [mm] of one thing parted by ×, the unit once at the end; in both units on two lines."""
    if units == "both":
        return f"{sizes(values, 'mm')}\n{sizes(values, 'in')}"
    unit = f" {units}"
    return " × ".join(format_length(value, units).removesuffix(unit) for value in values) + unit


def margin(value: float, unit: str, units: ShownUnits) -> str:
    """A margin with its unit. Under 1 mm it is told in mm: 1/32 in would show most of them as 0."""
    if unit == "mm":
        small = abs(value) < 1
        text = format_length(value, "mm" if small else units, decimals=2 if small else 1)
    elif unit == "kg":
        text = format_mass(value, units)
    else:
        text = f"{value:.3g} {unit}".strip()
    return text.replace("-", "−")


def count(number: int, one: str, many: str) -> str:
    """A number with its noun or verb."""
    return f"{number} {one if number == 1 else many}"
