"""How the seasons are asked: species and sawing of the fronts, air of workshop and house, the limit.

The keys are the options of `drawerwright season` by name, in a body as in an address.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final, TypeVar

from drawerwright.align.air import EXAMPLE as AIR
from drawerwright.align.air import Air, parse_air
from drawerwright.align.seasons import Across, Climate, Seasons, seasons_of
from drawerwright.catalogue.wood_species import Cut, WoodSpecies, species_named, wood_species
from drawerwright.cli.season import DRY, LIMIT, NOW, WET, WORKSHOP
from drawerwright.errors import Fault, ReadingError
from drawerwright.model.fitted import FittedJob
from drawerwright.units import BareUnit, parse_clearance, show_value

Read = TypeVar("Read")

CUTS: Final[tuple[Cut, ...]] = ("flat", "quarter")
WAYS: Final[tuple[Across, ...]] = ("height", "width")
USUAL: Final[Mapping[str, str]] = {
    "cut": CUTS[0],
    "across": WAYS[0],
    "workshop": WORKSHOP,
    "now": NOW,
    "dry": DRY,
    "wet": WET,
    "limit": LIMIT,
}
"""What stands for a key that is not told; the species must be."""
SEASON_KEYS: Final = ("species", *USUAL, "fresh")
AIRS: Final = ("workshop", "now", "dry", "wet")


@dataclass(frozen=True, slots=True)
class SeasonAsked:
    """The question as it was read: `limit` [mm]; `settled`: the wood has the moisture of the house."""

    species: WoodSpecies
    climate: Climate
    cut: Cut
    across: Across
    limit: float
    settled: bool

    def seasons(self, fitted: FittedJob, *, only: str | None = None, where: str = "drawer") -> Seasons:
        """The answer for the fronts of a job, or of the drawer `only`. Raises InputError."""
        return seasons_of(
            fitted,
            self.species,
            self.climate,
            cut=self.cut,
            across=self.across,
            limit=self.limit,
            settled=self.settled,
            only=only,
            where=where,
        )


def read_season(
    told: Mapping[str, Any], unit: BareUnit, faults: list[Fault], *, settled: bool
) -> SeasonAsked | None:
    """The question that these keys ask; None, and faults more, where some of them do not read.

    A bare limit is in `unit`. What is None or an empty text counts as not told.
    """
    values = {key: one for key, one in told.items() if one is not None and one != ""}
    if "species" in values:
        species = _read("species", values["species"], species_named, faults)
    else:
        species = None
        says = "is missing: " + ", ".join(one.id for one in wood_species())
        faults.append(Fault("species", "", says, wood_species()[0].id))
    filled = {**USUAL, **values}
    cut, across = _choice("cut", filled, CUTS, faults), _choice("across", filled, WAYS, faults)
    airs = [_read(key, filled[key], parse_air, faults) for key in AIRS]
    limit = _limit(filled["limit"], unit, faults)
    known: list[Air] = [air for air in airs if air is not None]
    if species is None or cut is None or across is None or limit is None or len(known) < len(airs):
        return None
    return SeasonAsked(species, Climate(*known), cut, across, limit, settled)


def _read(key: str, told: Any, read: Callable[[str], Read], faults: list[Fault]) -> Read | None:
    if not isinstance(told, str):
        example = AIR if key in AIRS else wood_species()[0].id
        faults.append(Fault(key, show_value(told), "is not text", example))
        return None
    try:
        return read(told)
    except ReadingError as error:
        faults.append(error.fault(key))
        return None


def _choice(key: str, told: Mapping[str, Any], allowed: tuple[Read, ...], faults: list[Fault]) -> Read | None:
    found = next((one for one in allowed if one == told[key]), None)
    if found is None:
        says = "is not one of " + ", ".join(f'"{one}"' for one in allowed)
        faults.append(Fault(key, show_value(told[key]), says, f'"{allowed[0]}"'))
    return found


def _limit(told: Any, unit: BareUnit, faults: list[Fault]) -> float | None:
    try:
        return parse_clearance(told, unit)
    except ReadingError as error:
        faults.append(error.fault("limit"))
        return None
