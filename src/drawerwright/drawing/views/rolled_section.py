"""A member's rolled section, several times as large: its outline, centroid, axes and figures."""

from __future__ import annotations

import math
from typing import Final

from drawerwright.carry.sections import member_section
from drawerwright.drawing.geometry import Bounds, Point, bounds_of
from drawerwright.drawing.pens import DOT_RADIUS, NOTE_SIZE
from drawerwright.drawing.primitives import Circle, Polyline, Text, line, polygon
from drawerwright.drawing.scene import Dimension, Primitive, Scene, scale_to_paper
from drawerwright.drawing.shown import Units
from drawerwright.drawing.wording import hardware
from drawerwright.equations.mechanics.midlines import elements_of
from drawerwright.equations.mechanics.rolled_sections import SectionProperties, outline_of
from drawerwright.model.family import Profile

LARGEST: Final = 70.0
"""The section's longer side on paper [mm], at most. Own choice."""
SCALES: Final = (10.0, 5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.2, 0.1)
_ARCS: Final = 16
_BEYOND: Final = 0.12
"""How far axes go on beyond the section, as a share of its longer side."""
_TURNED: Final = 0.5
"""Principal axes that are turned by less [°] are not drawn apart from the others."""
_LINE: Final = 4.2


def rolled_section(profile: Profile, *, units: Units = "mm", figures: bool = True) -> Scene:
    """The section at the largest usual scale at which it is no larger than `LARGEST` on paper.

    `figures`: with its properties in lines beside it.
    """
    found = member_section(profile)
    elements = elements_of(profile.points, profile.radii, profile.thickness)
    outline = outline_of(elements, profile.thickness, _ARCS)
    around = bounds_of(outline)
    longer = max(around.width, around.height)
    scale = next((one for one in SCALES if longer * one <= LARGEST), SCALES[-1])
    whole = found.whole
    drawn: list[Primitive] = [polygon(outline, "cut", "metal")]
    drawn.append(Polyline(tuple(profile.points), "centre"))
    drawn += _axes(whole, around)
    drawn.append(Circle((whole.x, whole.y), DOT_RADIUS * 1.4, "cut", fill="ink", on_paper=True))
    drawn += _sizes(around, units)
    if figures:
        drawn += _figures(profile, around, units)
    title = f"Section of the {profile.member} member"
    alt = (
        f"{title}, {hardware(profile.thickness, units)} sheet, {around.width:.1f} by {around.height:.1f} mm, "
        f"area {whole.area:.1f} mm², Ix {whole.ix:.0f} mm⁴, Iy {whole.iy:.0f} mm⁴; centroid and axes marked"
    )
    scene = Scene(f"section-{profile.member}", title, alt, tuple(drawn))
    return scale_to_paper(scene, scale)


def _axes(whole: SectionProperties, around: Bounds) -> list[Primitive]:
    beyond = _BEYOND * max(around.width, around.height)
    drawn: list[Primitive] = [
        line((around.left - beyond, whole.y), (around.right + beyond, whole.y), "centre"),
        line((whole.x, around.bottom - beyond), (whole.x, around.top + beyond), "centre"),
        Text((around.right + beyond, whole.y), "x", NOTE_SIZE, shift=(1.0, -NOTE_SIZE * 0.35)),
        Text((whole.x, around.top + beyond), "y", NOTE_SIZE, "middle", shift=(0.0, 1.0)),
    ]
    if min(abs(whole.angle_deg), abs(abs(whole.angle_deg) - 90.0)) > _TURNED:
        reach = max(around.width, around.height) / 2 + beyond
        for number, angle in (("1", whole.angle_deg), ("2", whole.angle_deg + 90.0)):
            start, end = (_along(whole, angle, side * reach) for side in (-1.0, 1.0))
            drawn.append(line(start, end, "hidden"))
            drawn.append(Text(end, number, NOTE_SIZE, "middle", shift=(0.0, 1.0)))
    return drawn


def _along(whole: SectionProperties, angle_deg: float, by: float) -> Point:
    angle = math.radians(angle_deg)
    return (whole.x + by * math.cos(angle), whole.y + by * math.sin(angle))


def _sizes(around: Bounds, units: Units) -> list[Primitive]:
    return [
        Dimension(
            "section_width", around.width, (around.left, around.bottom), (around.right, around.bottom),
            "horizontal", base=around.bottom, offset=-12.0, text=hardware(around.width, units, 1),
        ),
        Dimension(
            "section_height", around.height, (around.left, around.bottom), (around.left, around.top),
            "vertical", base=around.left, offset=-12.0, text=hardware(around.height, units, 1),
        ),
    ]  # fmt: skip


def _figures(profile: Profile, around: Bounds, units: Units) -> list[Primitive]:
    """The figures in lines beside the section."""
    found = member_section(profile)
    whole, steel = found.whole, profile.steel
    radii = ", ".join(hardware(radius, units) for radius in profile.radii)
    rows = [
        f"sheet {hardware(profile.thickness, units)}, bent on {radii}",
        f"A {whole.area:.2f} mm²",
        f"Ix {whole.ix:.1f} mm⁴, Iy {whole.iy:.1f} mm⁴, Ixy {whole.ixy:.1f} mm⁴",
        f"I1 {whole.larger:.1f} mm⁴, I2 {whole.smaller:.1f} mm⁴, turned {whole.angle_deg:.1f}°",
        f"J {whole.torsion:.2f} mm⁴",
        f"E {steel.modulus:.0f} N/mm², EI {found.bending:.3g} N mm²",
    ]
    if found.yields is not None and found.modulus is not None:
        worked = ", with cold work" if found.cold_worked else ""
        rows.append(f"yields at {found.yields:.0f} N/mm²{worked}; S {found.modulus:.1f} mm³")
    right = around.right
    return [
        Text((right, around.top), row.replace("-", "−"), NOTE_SIZE, shift=(12.0, -_LINE * place - NOTE_SIZE))
        for place, row in enumerate(rows)
    ]
