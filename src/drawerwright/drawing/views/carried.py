"""What a slide carries over its travel: sag and who contributes it, forces of the roller groups."""

from __future__ import annotations

from typing import Final

from drawerwright.carry.carried import Slide
from drawerwright.carry.words import NEWTONS_A_POUND, Words
from drawerwright.drawing.pens import DOT_RADIUS, NOTE_SIZE, LineClass
from drawerwright.drawing.primitives import Circle, Text
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.drawing.views.diagram import (
    HEIGHT,
    OUT_INCHES,
    OUT_MM,
    WIDTH,
    Axis,
    Curve,
    Field,
    diagram,
    field_of,
)
from drawerwright.units import MM_PER_INCH

_SHARES: Final[tuple[tuple[str, str, LineClass], ...]] = (
    ("members", "members_sag", "hidden"),
    ("rollers", "roller_sag", "edge"),
    ("play", "play_sag", "fine"),
    ("fixings", "mount_sag", "centre"),
)
_GROUPS: Final[tuple[tuple[str, str, LineClass], ...]] = (
    ("lower front", "lower_front", "cut"),
    ("upper front", "upper_front", "edge"),
    ("upper rear", "upper_rear", "fine"),
    ("lower rear", "lower_rear", "hidden"),
)
_UNDER: Final = -12.8
_ROW: Final = 4.2
"""Where words under the axis begin, and how far apart they stand [mm on paper]. Own choice."""
_SLIGHT: Final = 0.005
"""A share that never comes to this much [mm] is left out."""


def sag_diagram(slide: Slide, *, units: Units = "mm", size: tuple[float, float] = (WIDTH, HEIGHT)) -> Scene:
    """Sag of the front over the travel, downwards as it hangs, with the shares that make it up.

    `size`: width and height of the field on paper [mm].

    Raises:
        ValueError: the slide family does not tell what the sag goes by.
    """
    if not slide.data.has_sag:
        raise ValueError(f"the sag is not known: {', '.join(slide.data.missing)} not told")
    words, drawn = Words(shown_in(units).units), slide.drawn
    curves = [Curve(f"front {words.length(float(drawn.sag[-1]), 2)}", drawn.sag.tolist(), "cut")]
    for name, key, pen in _SHARES:
        share = getattr(drawn, key)
        if float(abs(share).max()) >= _SLIGHT:
            curves.append(Curve(f"{name} {words.length(float(share[-1]), 2)}", share.tolist(), pen))
    field = field_of(slide.data.travel, curves, downwards=True, size=size)
    primitives = diagram(
        field,
        drawn.extension.tolist(),
        curves,
        title="Sag of the front, and what makes it up",
        upright=Axis("sag, in", float(MM_PER_INCH)) if words.units == "in" else Axis("sag, mm"),
        across=_out(words),
    )
    told = ", ".join(curve.words for curve in curves)
    alt = f"Diagram of the front's sag from closed to {slide.data.travel:g} mm out; at full out {told}"
    return Scene("sag-diagram", "Sag over the travel", alt, tuple(primitives))


def force_diagram(slide: Slide, *, units: Units = "mm", size: tuple[float, float] = (WIDTH, HEIGHT)) -> Scene:
    """Forces of one slide's roller groups over the travel, up positive, and where rear rollers lift.

    `size`: width and height of the field on paper [mm].

    Raises:
        ValueError: the slide family does not tell where the rollers stand.
    """
    rollers, drawn = slide.rollers, slide.drawn
    if rollers is None:
        raise ValueError("the forces are not known: carriages not told")
    words = Words(shown_in(units).units)
    curves = [
        Curve(f"{name} {words.force(float(getattr(drawn, key)[-1]))}", getattr(drawn, key).tolist(), pen)
        for name, key, pen in _GROUPS
    ]
    field = field_of(slide.data.travel, curves, downwards=False, size=size)
    primitives = diagram(
        field,
        drawn.extension.tolist(),
        curves,
        title="Forces of the roller groups of one slide, up on what they carry",
        upright=Axis("force, lbf", NEWTONS_A_POUND) if words.units == "in" else Axis("force, N"),
        across=_out(words),
    )
    lifts = (("lower", rollers.lifts_lower), ("upper", rollers.lifts_upper))
    for row, (carriage, at) in enumerate((carriage, at) for carriage, at in lifts if at is not None):
        primitives += _lifts(field, f"{carriage} rear lifts beyond {words.length(at, 0)}", at, row)
    told = ", ".join(curve.words for curve in curves)
    alt = f"Diagram of roller forces from closed to {slide.data.travel:g} mm out; at full out {told}"
    return Scene("force-diagram", "Roller forces over the travel", alt, tuple(primitives))


def _out(words: Words) -> Axis:
    return OUT_INCHES if words.units == "in" else OUT_MM


def _lifts(field: Field, told: str, at: float, row: int) -> list[Primitive]:
    """A dot on the line of 0 where a carriage's rear rollers change rails, and its words under the field.

    In the field curves and the line of where the drawer stands would strike them.
    """
    ring = DOT_RADIUS * 1.6
    y = _UNDER - row * _ROW
    return [
        Circle((field.x(at), field.y(0.0)), ring, "cut", fill="paper", on_paper=True),
        Circle((ring, y + NOTE_SIZE * 0.35), ring, "cut", fill="paper", on_paper=True),
        Text((2 * ring + 1.2, y), told, NOTE_SIZE),
    ]
