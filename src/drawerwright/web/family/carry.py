"""A slide family's mechanics on its data sheet: rolled sections and their properties, chart of closing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from markupsafe import Markup

from drawerwright.carry.sections import MEMBERS, SOURCE, MemberSection, member_section
from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import joined
from drawerwright.drawing.scene import scale_to_paper
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.views.rolled_section import rolled_section
from drawerwright.model.family import Profile, SlideFamily
from drawerwright.pack.picture_scale import Picture
from drawerwright.units import ShownUnits
from drawerwright.web.carried.drawn import Chart, chart_of, inside_of, view_of
from drawerwright.web.family.example import middle_length
from drawerwright.web.family.sheet import NOTHING, hardware

EDGE: Final = 1.0
"""White around a section [mm on paper]."""
MOST: Final = 90.0
"""Most that a section's longer side measures on paper with its axes [mm]. Own choice."""
_RAISED: Final = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True, slots=True)
class DrawnSection:
    """The section of one member: what stands inside its SVG, which is `view` large."""

    member: str
    inside: Markup
    view: str
    alt: str


@dataclass(frozen=True, slots=True)
class FamilyCarry:
    """Sections, their properties row by row in the order of the sections, and the chart of closing."""

    sections: tuple[DrawnSection, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    source: str
    chart: Chart | None
    travel: str


def family_carry(family: SlideFamily, units: ShownUnits = "mm") -> FamilyCarry | None:
    """What a family tells of its members' sections and its closing; None where it tells of neither."""
    if not family.profiles and family.soft_close is None:
        return None
    told = sorted(family.profiles, key=lambda profile: MEMBERS.index(profile.member))
    travel = family.travel_of(middle_length(family))
    unit = family.soft_close
    return FamilyCarry(
        _drawn(told, units),
        tuple((name, tuple(of(one, units) for one in told)) for name, of in ROWS) if told else (),
        f"{SOURCE[:1].upper()}{SOURCE[1:]}.",
        None if unit is None else chart_of(unit, travel, Shown(units)),
        hardware(travel, units),
    )


def _drawn(profiles: Sequence[Profile], units: ShownUnits) -> tuple[DrawnSection, ...]:
    """All sections at one scale, each in a room of the same size."""
    scenes = [rolled_section(profile, units=units, figures=False) for profile in profiles]
    scales = sorted({scene.scale for scene in scenes}, reverse=True)
    longest = max((max(one.bounds.width, one.bounds.height) / one.scale for one in scenes), default=0.0)
    scale = next((one for one in scales if longest * one <= MOST), min(scales, default=1.0))
    alike = [clear_lettering(scale_to_paper(scene, scale / scene.scale)) for scene in scenes]
    room = joined(extent(scene) for scene in alike).grown(EDGE) if alike else None
    return tuple(
        DrawnSection(profile.member, inside_of(Picture(scene, room), scene.name), view_of(room), scene.alt)
        for profile, scene in zip(profiles, alike, strict=True)
        if room is not None
    )


Of: TypeAlias = Callable[[Profile, ShownUnits], str]


def _number(pattern: str, unit: str, of: Callable[[MemberSection], float | None]) -> Of:
    """How a property is written, by its format and unit; what is not known is a dash."""

    def told(profile: Profile, _: ShownUnits) -> str:
        value = of(member_section(profile))
        return (
            NOTHING
            if value is None
            else f"{value:{pattern}} {unit}".replace(" °", "°").replace("-", "\u2212")
        )

    return told


def _bending(profile: Profile, _: ShownUnits) -> str:
    digits, power = f"{member_section(profile).bending:.2e}".split("e")
    return f"{digits} × 10{str(int(power)).translate(_RAISED)} N mm²"


def _yields(profile: Profile, _: ShownUnits) -> str:
    found = member_section(profile)
    if found.yields is None:
        return NOTHING
    return f"{found.yields:.0f} N/mm²{', with cold work' if found.cold_worked else ''}"


def _middle(profile: Profile, _: ShownUnits) -> str:
    whole = member_section(profile).whole
    return f"{whole.x:.2f}, {whole.y:.2f} mm".replace("-", "\u2212")


ROWS: Final[tuple[tuple[str, Of], ...]] = (
    ("Sheet", lambda profile, units: hardware(profile.thickness, units)),
    ("Area A", _number(".1f", "mm²", lambda one: one.whole.area)),
    ("Centroid x, y", _middle),
    ("Ix, bending down", _number(".0f", "mm⁴", lambda one: one.whole.ix)),
    ("Iy", _number(".0f", "mm⁴", lambda one: one.whole.iy)),
    ("Ixy", _number(".0f", "mm⁴", lambda one: one.whole.ixy)),
    ("I1, larger principal", _number(".0f", "mm⁴", lambda one: one.whole.larger)),
    ("I2, smaller principal", _number(".0f", "mm⁴", lambda one: one.whole.smaller)),
    ("Turned by", _number(".1f", "°", lambda one: one.whole.angle_deg)),
    ("Torsion J", _number(".1f", "mm⁴", lambda one: one.whole.torsion)),
    ("Stiffness EI about x", _bending),
    ("Modulus that counts S", _number(".0f", "mm³", lambda one: one.modulus)),
    ("Yields at", _yields),
)
"""Properties by name, and how each is written."""
