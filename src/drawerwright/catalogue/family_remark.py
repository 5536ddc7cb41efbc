"""A remark on a slide family: where, what stands there, why it matters in the shop, what would do."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from drawerwright.model.family import SlideFamily
from drawerwright.model.quantities import Record
from drawerwright.units import ShownUnits, format_length, format_mass, show_value

Kind = Literal["defaulted", "missing", "implausible"]

UNITLESS = frozenset({"bracket_angle", "width_to_length"})
"""Keys that hold a number which is no length."""


@dataclass(frozen=True, slots=True)
class Remark:
    """One remark; it stops nothing.

    `where` is the key it speaks of ("length 500 travel"), `value` what stands there (empty: nothing), `says`
    what is the matter, the value included, `why` what it does in the shop, `try_` what would do.
    """

    kind: Kind
    where: str
    value: str
    says: str
    why: str
    try_: str

    def as_json(self) -> dict[str, str]:
        """The remark with the keys `kind`, `where`, `value`, `says`, `why`, `try`."""
        return {
            "kind": self.kind,
            "where": self.where,
            "value": self.value,
            "says": self.says,
            "why": self.why,
            "try": self.try_,
        }


@dataclass(frozen=True, slots=True)
class Figures:
    """Numbers of a family as a remark tells them; inches stand beside millimetres, never alone."""

    units: ShownUnits = "mm"

    def mm(self, value: float) -> str:
        """A length [mm]: "12.7 mm", or "12.7 mm (1/2 in)"."""
        return format_length(value, "mm" if self.units == "mm" else "both", decimals=2)

    def kg(self, value: float) -> str:
        """A mass [kg]: "45 kg", or "45 kg (99.2 lb)"."""
        return format_mass(value, "mm" if self.units == "mm" else "both")

    def places(self, values: tuple[float, ...]) -> str:
        """Several places or the ends of a band [mm]: "[0, 32, 224] mm"."""
        return f"[{', '.join(f'{value:g}' for value in values)}] mm"

    def any(self, key: str, value: Any) -> str:
        """Whatever a key holds."""
        if isinstance(value, Record):
            return "{ " + ", ".join(f"{name} = {self.any(name, one)}" for name, one in value) + " }"
        if isinstance(value, tuple):
            return "[" + ", ".join(self.any("", one).removesuffix(" mm") for one in value) + "] mm"
        if isinstance(value, float):
            return f"{value:g}" if key in UNITLESS else self.mm(value)
        return show_value(value)


Oddity: TypeAlias = tuple[str, str, str, str, str]
"""where, value, says, why, try of an implausible entry."""

Search: TypeAlias = Callable[[SlideFamily, Figures], Iterator[Oddity]]
"""A search for implausible entries of one subject."""
