"""How lengths are written on drawings and papers: their units, and the finest fraction of an inch."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.units import ShownUnits

Parts: TypeAlias = Literal[32, 64]
"""Into how many parts an inch is divided at most."""


@dataclass(frozen=True, slots=True)
class Shown:
    """Units of lengths; inches are shown to 1/`parts`."""

    units: ShownUnits = "mm"
    parts: Parts = 32

    @property
    def in_inches(self) -> bool:
        """Whether inches stand alone."""
        return self.units == "in"

    @property
    def with_inches(self) -> bool:
        """Whether inches are shown at all."""
        return self.units != "mm"

    @property
    def both(self) -> bool:
        """Whether inches stand beside millimetres."""
        return self.units == "both"


MILLIMETRES: Final = Shown()

Units: TypeAlias = ShownUnits | Shown
"""What a drawing is told: the units alone, for thirty-seconds of an inch, or the finest fraction too."""


def shown_in(units: Units) -> Shown:
    """The units with their fraction of an inch."""
    return units if isinstance(units, Shown) else Shown(units)
