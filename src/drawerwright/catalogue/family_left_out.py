"""What a slide family left out: what was taken in its place, and what that means for an answer."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any, Final

from drawerwright.catalogue.family_remark import Figures, Remark
from drawerwright.catalogue.member_oddities import CONCEALED_ONLY
from drawerwright.catalogue.shipped import shipped_values
from drawerwright.model.family import SlideFamily
from drawerwright.model.quantities import Record

_OPTIONAL: Final = frozenset(
    {
        "title", "units", "invented", "source", "rear_bracket", "hardware_mass", "carton", "carriages",
        "carriages_for", "stiffness", "profiles", "roller", "mount_stiffness", "sag_limit",
        "evidence", "soft_close", "lengths", "roller.carries", "roller.count", "tilt", "rear_bracket.screws",
    }
)  # fmt: skip
"""Keys that nothing is taken for, or that have a remark of their own."""


@cache
def left_out_words() -> dict[str, dict[str, str]]:
    """By key, as `clearance.under`: `means` for an answer that it was left out, `measure` how to get it."""
    return {entry["key"]: entry for entry in shipped_values("family-keys.toml")["key"]}


def missing(family: SlideFamily) -> Iterator[Remark]:
    """Optional things that a family does not tell, each with what goes without an answer."""
    concealed = family.carriage == "concealed"
    absent = {
        "source": not family.source,
        "rear_bracket": concealed and family.rear_bracket is None,
        "hardware_mass": family.hardware_mass is None,
        "length holes": not any(length.holes for length in family.lengths),
        "length shelf_holes": concealed and not any(length.shelf_holes for length in family.lengths),
        "length price": any(length.price is None for length in family.lengths),
        "carriages": family.carriages is None,
        "stiffness": family.stiffness is None and not family.profiles,
        "roller": family.roller is None,
        "soft_close": family.soft_close is None,
    }
    words = left_out_words()
    for key, is_absent in absent.items():
        if is_absent:
            told = words[key]
            yield Remark("missing", key, "", told["says"], told["means"], told["measure"])


def defaulted(family: SlideFamily, figures: Figures) -> Iterator[Remark]:
    """Keys that were left to the value of common practice."""
    yield from _defaulted(family, family, figures)
    words = left_out_words()
    for key in ("member", "box"):
        short = [length.nominal for length in family.lengths if key not in length.model_fields_set]
        if short:
            told, where = words[f"length {key}"], f"length {key}"
            which = (
                "" if len(short) == len(family.lengths) else f" in {', '.join(f'{one:g}' for one in short)}"
            )
            says = f"left out{which}: the nominal length is taken"
            yield Remark("defaulted", where, "", says, told["means"], told["measure"])


def _defaulted(family: SlideFamily, record: Record, figures: Figures, above: str = "") -> Iterator[Remark]:
    for key in type(record).model_fields:
        value: Any = getattr(record, key)
        name = f"{above}{key}"
        optional = name in _OPTIONAL and not isinstance(value, Record)
        if optional or (family.carriage == "side-mounted" and name in CONCEALED_ONLY):
            continue
        if key not in record.model_fields_set:
            told = left_out_words()[name]
            shown = figures.any(key, value)
            says = f"left out: {shown} is taken (common practice)"
            yield Remark("defaulted", name, shown, says, told["means"], told["measure"])
        elif isinstance(value, Record):
            yield from _defaulted(family, value, figures, f"{name}.")
