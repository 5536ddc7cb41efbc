"""Species of wood by how they move across the grain."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, Literal, TypeAlias

from drawerwright.catalogue.shipped import shipped_values
from drawerwright.errors import ReadingError
from drawerwright.model.spelling import nearest
from drawerwright.units import show_value

_FILE: Final = "wood-species.toml"
Cut: TypeAlias = Literal["flat", "quarter"]


@dataclass(frozen=True, slots=True)
class WoodSpecies:
    """One species: change a percent of moisture, shrinkage from green to dry [%], radial and tangential."""

    id: str
    also: tuple[str, ...]
    radial: float
    tangential: float
    shrink_radial: float
    shrink_tangential: float
    source: str

    def coefficient(self, cut: Cut) -> float:
        """Change of a board's width a percent of moisture: flat-sawn tangentially, quarter-sawn radially."""
        return self.tangential if cut == "flat" else self.radial

    def shrinkage(self, cut: Cut) -> float:
        """Shrinkage of a board's width from green to dry [%]."""
        return self.shrink_tangential if cut == "flat" else self.shrink_radial


@cache
def wood_species() -> tuple[WoodSpecies, ...]:
    """All species shipped, in the order of their file."""
    entries = shipped_values(_FILE)["species"]
    return tuple(WoodSpecies(**{**one, "also": tuple(one["also"])}) for one in entries)


def species_named(name: str) -> WoodSpecies:
    """The species of that name or by-name.

    Raises ReadingError naming the nearest, or all that a name such as "oak" may mean.
    """
    by_name = {word.casefold(): one for one in wood_species() for word in (one.id, *one.also)}
    found = by_name.get(name.strip().casefold())
    if found is None:
        word = name.strip().casefold()
        kinds = [one.id for one in wood_species() if word and word == one.id.split()[-1]]
        if len(kinds) > 1:
            says = f"may be {' or '.join(kinds)}, which move differently"
            raise ReadingError(show_value(name), says, kinds[0])
        says = "is no species with a known movement: " + ", ".join(one.id for one in wood_species())
        raise ReadingError(show_value(name), says, nearest(name, by_name))
    return found
