"""Published loads that a drawer's contents may be set to."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final

from drawerwright.catalogue.shipped import shipped_values
from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest
from drawerwright.units import KG_PER_POUND, MM_PER_INCH, show_value

_METRES_PER_FOOT: Final = MM_PER_INCH * 12 / 1000


@dataclass(frozen=True, slots=True)
class ContentsPreset:
    """A load per area of drawer bottom [kg/m²] or per volume of drawer [kg/m³]; the other one is 0."""

    id: str
    title: str
    per_area: float
    per_volume: float
    source: str

    def mass(self, *, inside_length: float, inside_width: float, inside_height: float) -> float:
        """What a box of these inside sizes [mm] then holds [kg]."""
        area = inside_length * inside_width / 1e6
        return area * self.per_area + area * inside_height / 1e3 * self.per_volume


@cache
def contents_presets() -> tuple[ContentsPreset, ...]:
    """All presets, in the order of their data file."""
    return tuple(
        ContentsPreset(
            id=entry["id"],
            title=entry["title"],
            per_area=_metric(entry.get("pounds_per_square_foot", 0), 2),
            per_volume=_metric(entry.get("pounds_per_cubic_foot", 0), 3),
            source=entry["source"],
        )
        for entry in shipped_values("contents.toml")["preset"]
    )


def _metric(pounds: float, power: int) -> float:
    """Pounds per square or cubic foot in kg per square or cubic metre."""
    return float(Fraction(repr(pounds)) * KG_PER_POUND / _METRES_PER_FOOT**power)


def contents_preset_ids() -> tuple[str, ...]:
    """Ids of all presets, in order."""
    return tuple(preset.id for preset in contents_presets())


def contents_preset(id: str, *, where: str = "contents.preset") -> ContentsPreset:  # noqa: A002
    """The preset with that id. Raises InputError naming the nearest when there is none."""
    for preset in contents_presets():
        if preset.id == id:
            return preset
    known = contents_preset_ids()
    says = f"is not a known preset: {', '.join(known)}"
    raise InputError([Fault(where, show_value(id), says, f'"{nearest(id, known)}"')])
