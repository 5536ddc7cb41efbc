"""Values in the words and units that a person asked for; marks and words for each verdict."""

from __future__ import annotations

import re
from typing import Final

from drawerwright.model.check_names import says_yes_or_no
from drawerwright.model.fitted import State, Verdict
from drawerwright.model.job import Drawer
from drawerwright.units import EIGHTH, ShownUnits, format_length, format_mass, is_slight

MARKS: Final[dict[State, str]] = {"ok": "✓", "watch": "△", "stop": "✗"}
STATE_STYLES: Final[dict[State, str]] = {"ok": "green", "watch": "yellow", "stop": "bold red"}
VERDICT_MARKS: Final[dict[Verdict, str]] = {"fits": "✓", "fits-with-care": "△", "does-not-fit": "✗"}
VERDICT_STYLES: Final[dict[Verdict, str]] = {
    "fits": "green",
    "fits-with-care": "yellow",
    "does-not-fit": "bold red",
}
NOTHING: Final = "–"


_WHEN_LACKING: Final = {"shelf-holes": "none", "shelf-fixed": "loose", "mount": "cannot be"}
"""Checks whose margin tells only that something is there or not, and the word for not."""

_RATIOS: Final = frozenset({"width-to-length"})
"""Checks whose margin is a number without a unit."""


def foot(units: ShownUnits) -> list[str]:
    """What is said once under tables with inches."""
    if units == "mm":
        return []
    told = (
        "Inches are rounded to 1/32 in: widths and heights of boxes and fronts, and margins, down; the length"
        " of boxes, which the slide sets, and all else to the nearest. Hardware, bores and what is under"
        " 1/8 in are told in mm, but for whole sixty-fourths."
    )
    return [told]


def named(drawer: Drawer) -> str:
    """A drawer's id, and how many of it are built where that is more than one."""
    return f"{drawer.id} ×{drawer.quantity}" if drawer.quantity > 1 else drawer.id


def length(mm: float, units: ShownUnits) -> str:
    """A length [mm]; in both units one stands above the other."""
    if units == "both":
        return f"{format_length(mm, 'mm')}\n{format_length(mm, 'in')}"
    return format_length(mm, units)


def box_sizes(width: float, height: float, length: float, units: ShownUnits) -> str:
    """A box outside [mm], as its parts are cut: inches rounded down, but the length, which the slide sets."""
    return _cut((width, height), units, (length,))


def front_sizes(width: float, height: float, units: ShownUnits) -> str:
    """A front [mm], as it is cut: inches rounded down."""
    return _cut((width, height), units)


def _cut(limited: tuple[float, ...], units: ShownUnits, nearest: tuple[float, ...] = ()) -> str:
    if units == "both":
        return f"{_cut(limited, 'mm', nearest)}\n{_cut(limited, 'in', nearest)}"
    told = [format_length(value, units, denominator=32, inches_down=True) for value in limited]
    told += [format_length(value, units) for value in nearest]
    return " × ".join(text.removesuffix(f" {units}") for text in told) + f" {units}"


def sizes(values: tuple[float, ...], units: ShownUnits) -> str:
    """Sizes [mm] of one thing parted by ×, the unit once at the end; in both units on two lines."""
    if units == "both":
        return f"{sizes(values, 'mm')}\n{sizes(values, 'in')}"
    unit = f" {units}"
    return " × ".join(format_length(value, units).removesuffix(unit) for value in values) + unit


def hardware(mm: float, units: ShownUnits) -> str:
    """A length [mm] of hardware, which is made and bored in mm: where inches are read, they stand beside."""
    return fine(mm, "mm" if units == "mm" else "both", decimals=3)


def fine(mm: float, units: ShownUnits, *, decimals: int = 1) -> str:
    """A length [mm] that may be a tolerance: under 1/8 in in mm alone, unless it is just so many 1/64 in."""
    return format_length(mm, "mm" if is_slight(mm) else units, decimals=decimals)


def margin(value: float, unit: str, units: ShownUnits) -> str:
    """A margin with its unit, its inches rounded down as on paper; under 1/8 in in mm alone."""
    if unit == "mm":
        own = "mm" if abs(value) < EIGHTH else units
        text = format_length(value, own, decimals=2 if abs(value) < 1 else 1, inches_down=True)
    elif unit == "kg":
        text = format_mass(value, units)
    else:
        text = f"{value:.3g} {unit}".strip()
    return text.replace("-", "−")


def check_margin(check_id: str, value: float, unit: str, units: ShownUnits) -> str:
    """A check and its margin: "notch −16 mm", "shelf-holes: none"."""
    told = margin_alone(check_id, value, unit, units)
    between = ": " if told in _WHEN_LACKING.values() else " "
    return f"{check_id}{between}{told}" if told else check_id


def margin_alone(check_id: str, value: float, unit: str, units: ShownUnits) -> str:
    """The margin of a check; where it only tells that something is there or not, a word or nothing."""
    if (unit or check_id in _RATIOS) and not says_yes_or_no(check_id, value, unit):
        return margin(value, unit, units)
    return _WHEN_LACKING.get(check_id, "") if value < 0 else ""


def clause(sentence: str) -> str:
    """The first clause of a sentence, in small letters, without the stop."""
    first = re.split(r"[;:,]\s|\.(?:\s|$)", sentence, maxsplit=1)[0].strip()
    return first[:1].lower() + first[1:]


def count(number: int, one: str, many: str) -> str:
    """A number with its noun or verb."""
    return f"{number} {one if number == 1 else many}"
