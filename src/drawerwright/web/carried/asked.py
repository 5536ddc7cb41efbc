"""How the study of carrying is asked in an address: lean, place of the load, limit of the sag."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final, TypedDict

from drawerwright.errors import Fault, ReadingError
from drawerwright.units import BareUnit, parse_offset, parse_size, show_value

OPEN: Final = "carry"
"""Key of an address that opens what a drawer carries on its sheet."""
FIELDS: Final = ("tilt", "off_centre", "sag_limit")
CARRY_KEYS: Final = frozenset({OPEN, *FIELDS})


class Options(TypedDict):
    """Options of `carry.carry_job` that an address may tell [°, mm, mm]."""

    tilt_deg: float
    off_centre: float
    sag_limit: float | None


@dataclass(frozen=True, slots=True)
class CarryQuestion:
    """The question as it was typed (`texts`, by key) and as it was read [°, mm]; `faults` of what was not."""

    texts: Mapping[str, str]
    tilt_deg: float = 0.0
    off_centre: float = 0.0
    sag_limit: float | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def options(self) -> Options:
        """As the study takes it."""
        return {"tilt_deg": self.tilt_deg, "off_centre": self.off_centre, "sag_limit": self.sag_limit}

    def with_faults(self, faults: Iterable[Fault]) -> CarryQuestion:
        """The same, with faults that the study found: they name the options as the command does."""
        found = [replace(one, where=one.where.replace("-", "_")) for one in faults]
        return replace(self, faults=(*self.faults, *found))


def carry_pairs(query: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """The keys of an address that ask what a drawer carries, each once, as they stand."""
    told = {key: text for key, text in query if key in CARRY_KEYS and text.strip()}
    return tuple(told.items())


def read_question(texts: Mapping[str, str], units: BareUnit) -> CarryQuestion:
    """The question of an address; bare lengths are in `units`. What does not read is among its faults."""
    told = {key: texts.get(key, "").strip() for key in FIELDS}
    faults: list[Fault] = []
    tilt, off_centre = 0.0, 0.0
    sag_limit: float | None = None
    if told["tilt"]:
        tilt = _degrees(told["tilt"], faults)
    if told["off_centre"]:
        try:
            off_centre = parse_offset(told["off_centre"], units)
        except ReadingError as error:
            faults.append(error.fault("off_centre"))
    if told["sag_limit"]:
        try:
            sag_limit = parse_size(told["sag_limit"], units)
        except ReadingError as error:
            faults.append(error.fault("sag_limit"))
    return CarryQuestion(told, tilt, off_centre, sag_limit, tuple(faults))


def _degrees(text: str, faults: list[Fault]) -> float:
    bare = text.replace("\u2212", "-").replace(",", ".").rstrip("° ")
    try:
        value = float(bare)
    except ValueError:
        value = math.nan
    if math.isfinite(value):
        return value
    faults.append(Fault("tilt", show_value(text), "is not a number of degrees", "1.5"))
    return 0.0
