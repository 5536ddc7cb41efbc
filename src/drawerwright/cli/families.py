"""One slide family on the console: every number with its unit, then its lengths."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from rich.table import Table

from drawerwright.cli.tables import new_table
from drawerwright.cli.wording import NOTHING, count, hardware
from drawerwright.model.family import SlideFamily
from drawerwright.units import ShownUnits, format_mass

_UNITS: Final = {
    "bracket_angle": "°",
    "width_to_length": "",
    "stiffness.cabinet": " N mm²",
    "stiffness.intermediate": " N mm²",
    "stiffness.drawer": " N mm²",
    "roller.stiffness": " N/mm",
    "roller.carries": " N",
    "roller.count": "",
    "mount_stiffness": " N/mm",
    "soft_close.pull_in": " N",
    "soft_close.spring": " N/mm",
    "soft_close.damping": " N s/mm",
    "soft_close.drag": "",
}
"""Units of the keys that are neither lengths nor masses."""

_MASSES: Final = frozenset({"capacity", "hardware_mass"})
_APART: Final = frozenset({"length", "units"})


def family_table(family: SlideFamily, units: ShownUnits) -> Table:
    """Every key of the family but its lengths, with what it holds."""
    table = new_table(f"{family.id}  {family.title}", ("Key", "Holds"), lines=False)
    for key, text in _rows(family.model_dump(mode="json", by_alias=True), units):
        table.add_row(key, text)
    return table


def lengths_table(family: SlideFamily, units: ShownUnits) -> Table:
    """One row a length: what it carries, where its holes are."""
    heads = (
        "Nominal",
        "Member",
        "Box",
        "Travel",
        "Carries",
        "Row holes",
        "Slots",
        "Shelf holes",
        "Rear slot",
    )
    table = new_table("Lengths, places of holes in mm", heads, lines=False)
    for one in family.lengths:
        table.add_row(
            f"{one.nominal:g}",
            hardware(one.member, units),
            hardware(one.box, units),
            hardware(family.travel_of(one), units),
            format_mass(family.capacity_at(one), units),
            *(_places(places) for places in (one.holes, one.slots, one.shelf_holes)),
            "yes" if one.rear_slot else "no",
        )
    return table


def _rows(values: dict[str, Any], units: ShownUnits, inside: str = "") -> Iterator[tuple[str, str]]:
    for key, value in values.items():
        name = f"{inside}{key}"
        if isinstance(value, dict):
            yield from _rows(value, units, f"{name}.")
        elif name not in _APART and value not in (None, "", []):
            yield name, _text(name, value, units)


def _text(name: str, value: Any, units: ShownUnits) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case str():
            return value
        case [dict(), *_]:
            return count(len(value), "table", "tables")
        case [list(), *_]:
            return "; ".join(_text(name, one, units) for one in value)
        case list():
            return ", ".join(_text(name, one, units) for one in value)
    if name in _MASSES:
        return format_mass(value, units)
    if name in _UNITS:
        return f"{value:g}{_UNITS[name]}"
    return hardware(value, units)


def _places(places: tuple[float, ...]) -> str:
    return " ".join(f"{place:g}" for place in places) or NOTHING
