"""What a sheet was asked for: fields, the dimension unfolded, how far it is drawn out; its addresses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final, Literal, TypeAlias
from urllib.parse import urlencode

from drawerwright.drawing.shown import Shown
from drawerwright.units import BareUnit, ShownUnits
from drawerwright.web.sheet.fields import NAMES, without_own_units
from drawerwright.web.sheet.units import in_other_units, pairs_in_other_units

Arrangement: TypeAlias = Literal["wide", "mid", "small"]
ARRANGEMENTS: Final[tuple[Arrangement, ...]] = ("wide", "mid", "small")
OWN_KEYS: Final = frozenset({"show", "out", "fragment", "for", "to"})
"""Keys of an address that are the page's, not the drawer's."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question to a sheet at `path`; `texts` are those of its fields, `besides` other keys of the drawer.

    `show`: quantity of the dimension unfolded. `out`: how far the drawer is drawn out [mm], None: not told.
    `based_on`: the stored revision that `texts` change, which every address with changes carries, so that
    they are never saved over what somebody else saved meanwhile; None where nothing is stored.
    """

    path: str
    texts: Mapping[str, str]
    units: ShownUnits = "mm"
    show: str = ""
    out: float | None = None
    besides: tuple[tuple[str, str], ...] = ()
    keep_units: bool = False
    based_on: int | None = None

    @property
    def shown(self) -> Shown:
        """How lengths are shown."""
        return Shown(self.units)

    def pairs(self, **changes: str) -> list[tuple[str, str]]:
        """Keys and values of the address, with `changes` by name; blank ones are left out.

        Of what is stored a blank field is told: it was cleared.
        """
        told: dict[str, str] = {
            "units": self.units if self.units != "mm" or self.keep_units else "",
            "out": f"{self.out:g}" if self.out is not None else "",
            "show": self.show,
            "based_on": str(self.based_on) if self.based_on is not None and self.texts else "",
        }
        told.update(changes)
        fields = [*self.texts.items(), *self.besides, *told.items()]
        cleared = self.texts if self.based_on is not None else ()
        return [(name, text) for name, text in fields if text.strip() or name in cleared]

    def address(self, **changes: str) -> str:
        """This sheet's address, with `changes`."""
        query = _query(tuple(self.pairs(**changes)))
        return f"{self.path}?{query}" if query else self.path

    def with_texts(self, texts: Mapping[str, str], units: ShownUnits | None = None) -> Asked:
        """The same question with other fields."""
        return replace(self, texts=dict(texts), units=units or self.units)


@lru_cache(maxsize=64)
def _query(pairs: tuple[tuple[str, str], ...]) -> str:
    """Pairs as an address has them, kept: a page asks for the same ones several times."""
    return urlencode(pairs)


def in_units(asked: Asked, bare: BareUnit, wanted: str | None) -> str | None:
    """The address of the same sheet in other units, its fields converted; None where none are wanted."""
    units: BareUnit
    if wanted == "mm":
        units = "mm"
    elif wanted == "in":
        units = "in"
    else:
        return None
    texts = without_own_units(in_other_units(asked.texts, bare, units), units)
    besides = pairs_in_other_units(asked.besides, bare, units)
    other = replace(asked, texts=texts, units=units, besides=besides)
    return replace(other, keep_units=asked.based_on is not None).address()


def length_told(text: str | None) -> float | None:
    """A length of the address [mm] that only draws: None where it is none."""
    try:
        value = float(text or "")
    except ValueError:
        return None
    return value if 0.0 <= value <= 5000.0 else None


def besides_of(pairs: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """Keys of an address that are neither a field's nor the page's own: they are kept as they are."""
    known = NAMES | OWN_KEYS | {"units"}
    return tuple((key, text) for key, text in pairs if key not in known and text.strip())
