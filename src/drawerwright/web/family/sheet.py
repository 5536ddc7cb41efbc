"""A slide family's data sheet in words: every key with what it holds, and its lengths as a table."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeAlias

from drawerwright.catalogue.family_words import KeyWords, family_words, sections_of_family
from drawerwright.model.family import SlideFamily
from drawerwright.model.quantities import Record
from drawerwright.units import ShownUnits, format_length, format_mass, is_slight

NOTHING: Final = "–"
LENGTHS: Final = "Each length"
TABLES: Final = {"profiles": "profile", "evidence": "evidence"}
"""Lists of tables beside the lengths: the model's name of each, and the file's."""
LENGTH_HEADS: Final = (
    "Nominal",
    "Member",
    "Box",
    "Travel",
    "Carries",
    "Row holes",
    "Slots",
    "Shelf holes",
    "Rear bracket",
    "Price",
)
"""Heads of the table of lengths; places of holes are in mm."""

Origin: TypeAlias = Literal["told", "taken", "absent"]
"""Whether a key was told, left to common practice, or holds nothing."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One key on the data sheet: what it holds, in words, and where that is from."""

    words: KeyWords
    value: str
    origin: Origin


def sheet_sections(family: SlideFamily, units: ShownUnits = "mm") -> dict[str, tuple[SheetRow, ...]]:
    """The rows of each subject; lengths, profiles and tests are tables of their own."""
    told = dict(_flat(family))
    sections = {}
    for title, keys in sections_of_family().items():
        if title != LENGTHS:
            sections[title] = tuple(
                _row(words, told.get(words.key), units)
                for words in keys
                if words.key.partition(".")[0] not in TABLES.values()
            )
    return sections


def length_rows(family: SlideFamily, units: ShownUnits = "mm") -> tuple[tuple[str, ...], ...]:
    """A row for each length, under `LENGTH_HEADS`."""
    return tuple(
        (
            f"{one.nominal:g}",
            hardware(one.member, units),
            hardware(one.box, units),
            hardware(family.travel_of(one), units),
            format_mass(family.capacity_at(one), units),
            *(places(found) for found in (one.holes, one.slots, one.shelf_holes)),
            "yes" if one.rear_slot else "no",
            NOTHING if one.price is None else f"{one.price:.2f}",
        )
        for one in family.lengths
    )


def table_rows(family: SlideFamily, units: ShownUnits = "mm") -> tuple[tuple[str, str], ...]:
    """Profiles and tests passed, one line each: its name, and its keys in words."""
    words = family_words()
    rows = []
    for field, key in TABLES.items():
        for number, record in enumerate(getattr(family, field), 1):
            told = [
                (words[name], value)
                for name, (value, origin) in _flat(record, f"{key}.")
                if origin == "told" and name in words
            ]
            says = "; ".join(
                f"{one.label.partition(', ')[2]} {value_text(one, value, units)}" for one, value in told
            )
            rows.append((f"{key.capitalize()} {number}", says))
    return tuple(rows)


def title_of(family: SlideFamily) -> str:
    """What the family is; an invented one says so, in its title or behind it."""
    told = not family.invented or "invented" in family.title.casefold()
    return family.title if told else f"{family.title} (invented)".strip()


def thickest_side(family: SlideFamily, units: ShownUnits = "mm") -> str:
    """The sides that leave the least gap; beside a side-mounted slide any will do."""
    if family.carriage == "side-mounted":
        return "any"
    return hardware(family.inside_width_deduction / 2 - family.min_gap, units)


def hardware(mm: float, units: ShownUnits) -> str:
    """A length of hardware [mm], which is made and bored in mm: inches stand beside it, never alone."""
    return format_length(mm, "mm" if units == "mm" or is_slight(mm) else "both", decimals=3).replace("-", "−")


def places(found: tuple[float, ...]) -> str:
    """Places of holes [mm], bare."""
    return ", ".join(f"{place:g}" for place in found) or NOTHING


def _flat(record: Record, above: str = "") -> Iterator[tuple[str, tuple[Any, Origin]]]:
    """Value and origin of each key that is no table, dotted."""
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        key = f"{above}{field.alias or name}"
        if isinstance(value, Record):
            yield from _flat(value, f"{key}.")
        elif value is not None:
            yield key, (value, "told" if name in record.model_fields_set else "taken")


def _row(words: KeyWords, found: tuple[Any, Origin] | None, units: ShownUnits) -> SheetRow:
    if found is None or found[0] == "":
        return SheetRow(words, NOTHING, "absent")
    return SheetRow(words, value_text(words, found[0], units), found[1])


def value_text(words: KeyWords, value: Any, units: ShownUnits = "mm") -> str:
    """What a key holds, with its unit."""
    texts: Mapping[str, Any] = {
        "truth": lambda: "yes" if value else "no",
        "length": lambda: hardware(value, units),
        "mass": lambda: format_mass(value, units),
        "number": lambda: _number(value, words.unit),
        "lengths": lambda: _unit_once(value, ", ", units) or "none",
        "band": lambda: _unit_once(value, " to ", units),
        "points": lambda: _points(value),
    }
    return str(texts[words.written]()) if words.written in texts else str(value)


def _unit_once(values: tuple[float, ...], between: str, units: ShownUnits) -> str:
    """Several lengths; in mm alone the unit stands once, behind the last."""
    texts = [hardware(one, units) for one in values]
    if units == "mm":
        texts = [text.removesuffix(" mm") for text in texts[:-1]] + texts[-1:]
    return between.join(texts)


def _number(value: float, unit: str) -> str:
    """A number with its unit; a very large one as so many times a power of ten."""
    space = "" if unit in ("", "°") else " "
    text = f"{value:,g}".replace(",", "\u202f")
    if "e" in text:
        digits, _, power = text.partition("e")
        text = f"{digits} × 10{str(int(power)).translate(_RAISED)}"
    return text + space + unit


_RAISED: Final = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def _points(found: tuple[tuple[float, float], ...]) -> str:
    return "; ".join(f"{x:g}, {y:g}" for x, y in found) + " mm"
