"""The drawer in its cabinet in isometric, drawn out as far as told, without hidden lines.

Lengths along the three axes are true at the scene's scale, and the axes 120 degrees apart on paper: isometric
axonometry as in ISO 5456-3 (from memory). The cabinet is cut level above the drawer.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final, Literal, TypeAlias

import numpy as np

from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.half_spaces import Array
from drawerwright.drawing.hidden_lines import Direction, Picture, SeenLine
from drawerwright.drawing.pens import NOTE_SIZE, LineClass
from drawerwright.drawing.primitives import Lines, Text, polygon
from drawerwright.drawing.scene import Dimension, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.solids import Solid, block
from drawerwright.drawing.views.box_solids import box_solids, front_solid
from drawerwright.drawing.views.cabinet_solids import cabinet_bottom, cabinet_solids, cut_level, cut_outline
from drawerwright.drawing.views.slide_solids import FLANGE, slide_solids
from drawerwright.drawing.views.standing import Standing, standing
from drawerwright.drawing.views.stops import nearest_miss, stop_words
from drawerwright.drawing.wording import shown
from drawerwright.model.fitted import FittedDrawer

SeenFrom: TypeAlias = Literal["right", "left"]

_ACROSS: Final = math.cos(math.radians(30.0))
SEEN_FROM: Final[dict[SeenFrom, Direction]] = {
    "right": Direction((_ACROSS, -0.5), (0.0, 1.0), (-_ACROSS, -0.5), (1.0, 1.0, 1.0)),
    "left": Direction((_ACROSS, 0.5), (0.0, 1.0), (_ACROSS, -0.5), (-1.0, 1.0, 1.0)),
}
"""Isometric views from above, before the drawer: from its right-hand side or its left-hand side."""
_DIMENSION_ASIDE = 70.0
_BEYOND = 14.0
_ROUND = 16
_SCREW_HEAD = 3.5
_MISSED_ASIDE, _MISSED_WIDTH, _MISSED_HEIGHT = 5.0, 32.0, 24.0


def travel_of(fitted: FittedDrawer) -> float:
    """How far the drawer comes out [mm]; 0 where nothing fits."""
    return 0.0 if fitted.slide is None else fitted.slide.family.travel_of(fitted.slide.length)


def isometric(
    fitted: FittedDrawer,
    extension_mm: float,
    *,
    units: Units = "mm",
    seen_from: SeenFrom = "right",
) -> Scene:
    """The drawer drawn out by `extension_mm`; the bare opening and what stopped it where nothing fits.

    Raises:
        ValueError: the drawer does not come out that far, or is pushed in.
    """
    travel = travel_of(fitted)
    if not 0.0 <= extension_mm <= travel:
        raise ValueError(f"drawer {fitted.id} is drawn out by 0 to {travel:g} mm, not by {extension_mm:g}")
    stand, view = standing(fitted), SEEN_FROM[seen_from]
    picture = Picture(solids_drawn_out(stand, extension_mm), view)
    level = cut_level(stand)
    cut = tuple(view.point(x, level, z) for x, z in cut_outline(stand))
    sides = tuple(zip(cut, (*cut[1:], cut[0]), strict=True))
    drawn: list[Primitive] = [polygon(cut, "outline", "wood")]
    drawn += lines_by_pen(picture.lines(sides))
    drawn += _screws(stand, picture, view, seen_from)
    drawn += _handle_bores(stand, picture, view, extension_mm)
    drawn += _what_stopped(stand, view, units)
    if extension_mm > 0:
        drawn += _drawn_out(stand, view, extension_mm, seen_from)
    scene = Scene(
        "isometric", f"Drawn out, drawer {fitted.id}", _alt(fitted, extension_mm, units), tuple(drawn)
    )
    return in_units(scene, units)


def _alt(fitted: FittedDrawer, extension: float, units: Units) -> str:
    if fitted.box is None:
        return "The cabinet in isometric, cut level above the opening: no slide fits, the drawer is not drawn"
    out = f"drawn out by {shown(extension, units)} of {shown(travel_of(fitted), units)}"
    return (
        f"The drawer in its cabinet in isometric, {out if extension else 'closed'}; the cabinet is cut level"
    )


def solids_drawn_out(stand: Standing, extension: float) -> list[Solid]:
    """Cabinet, slides, box and front, each where it stands at that extension."""
    solids = [*cabinet_solids(stand)]
    if stand.parts is None:
        return solids
    slides = slide_solids(stand)
    solids += slides.cabinet
    solids += (each.moved(z=extension / 2) for each in slides.intermediate)
    moving = [*slides.drawer, *front_solid(stand)]
    # A box without a front is what the eye looks for: then it is the box that gets an outline.
    group = "" if stand.has_front else "box"
    for part in box_solids(stand, grooved=False).values():
        moving += (replace(each, group=group) for each in part)
    return solids + [each.moved(z=extension) for each in moving]


def lines_by_pen(lines: tuple[SeenLine, ...]) -> list[Primitive]:
    """Edges in the thin line, outlines in the heavy one over them."""
    pens: tuple[LineClass, LineClass] = ("edge", "outline")
    found = [
        tuple((each.start, each.end) for each in lines if each.outline == heavy) for heavy in (False, True)
    ]
    return [Lines(segments, pen) for segments, pen in zip(found, pens, strict=True) if segments]


def _ring(centre: tuple[float, float, float], radius: float, normal: int) -> Array:
    """Corners (n, 3) of a circle in space around an axis (0 for x, 1 for y, 2 for z)."""
    turn = np.linspace(0.0, 2.0 * math.pi, _ROUND, endpoint=False)
    flat = np.column_stack((np.cos(turn), np.sin(turn))) * radius
    return np.asarray(np.insert(flat, normal, 0.0, axis=1) + np.array(centre))


def _screws(stand: Standing, picture: Picture, view: Direction, seen_from: SeenFrom) -> list[Primitive]:
    """The cabinet member's screws in the flange that is in sight, as far as box and front leave them so."""
    if stand.parts is None or not stand.concealed or stand.parts.mounting.screw_line is None:
        return []
    x = stand.half - FLANGE if seen_from == "left" else -stand.half + FLANGE
    y = stand.lower_edge + stand.parts.slide.family.heights.screw_line
    drawn: list[Primitive] = []
    for depth in stand.parts.mounting.holes:
        ring = _ring((x, y, -depth), _SCREW_HEAD, 0)
        if picture.seen(ring).all():
            drawn.append(polygon(_on_paper(ring, view), "fine", "ink"))
    return drawn


def _handle_bores(stand: Standing, picture: Picture, view: Direction, extension: float) -> list[Primitive]:
    """The borings for the handle in the face of the front."""
    fixing = stand.fitted.fixing
    if fixing is None or not stand.has_front:
        return []
    middle, low = sum(stand.front_edges) / 2, stand.front_heights[0]
    face = extension - stand.front_faces[0]
    rings = [_ring((middle + x, low + y, face), fixing.handle_bore / 2, 2) for x, y in fixing.handle]
    return [polygon(_on_paper(ring, view), "edge", "paper") for ring in rings if picture.seen(ring).all()]


def _on_paper(points: Array, view: Direction) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in points @ view.paper)


def _drawn_out(stand: Standing, view: Direction, extension: float, seen_from: SeenFrom) -> list[Primitive]:
    """How far it is drawn out: along z beside the cabinet, from where the front stood to where it stands."""
    edge = stand.outer_right if seen_from == "right" else stand.outer_left
    aside = math.copysign(_DIMENSION_ASIDE, edge)
    beyond = edge + aside + math.copysign(_BEYOND, edge)
    y = cabinet_bottom(stand)
    start, end = view.point(edge + aside, y, 0.0), view.point(edge + aside, y, extension)
    legs = tuple(
        (view.point(edge + math.copysign(gap, edge), y, z), view.point(beyond, y, z))
        for z, gap in ((0.0, 8.0), (extension, 8.0))
    )
    return [
        Lines(legs, "dimension"),
        Dimension("extension", extension, start, end, "aligned", extension=False),
    ]


def _what_stopped(stand: Standing, view: Direction, units: Units) -> list[Primitive]:
    """What stopped the nearest slide, in words; its members through the back where they are too long."""
    miss = nearest_miss(stand)
    if miss is None:
        return []
    drawn: list[Primitive] = []
    if miss.because == "cabinet-depth":
        for side in (-1.0, 1.0):
            x = (side * (stand.half - _MISSED_ASIDE), side * (stand.half - _MISSED_ASIDE - _MISSED_WIDTH))
            member = block("missed", x, (0.0, _MISSED_HEIGHT), (0.0, miss.margin - stand.depth))
            edges = Picture([member], view).lines()
            drawn.append(Lines(tuple((each.start, each.end) for each in edges), "accent"))
    first, second = stop_words(miss, units)
    room = room_drawn_out(stand.fitted)
    at = ((room.left + room.right) / 2, room.bottom)  # under the cabinet, where no line runs
    drawn.append(Text(at, first, NOTE_SIZE, "middle", "semibold", "accent", (0.0, -4.0)))
    drawn.append(Text(at, second, NOTE_SIZE, "middle", "regular", "accent", (0.0, -7.8)))
    return drawn


def room_drawn_out(fitted: FittedDrawer, *, seen_from: SeenFrom = "right") -> Bounds:
    """The rectangle that the picture takes however far it is drawn out [mm on paper at full scale].

    Lettering is left out: it needs some room beside it at the side of the cabinet that is seen.
    """
    stand, view, travel = standing(fitted), SEEN_FROM[seen_from], travel_of(fitted)
    corners = [
        end @ view.paper
        for extension in dict.fromkeys((0.0, travel))
        for solid in solids_drawn_out(stand, extension)
        for end in (solid.starts, solid.ends)
    ]
    level = cut_level(stand)
    corners.append(np.array([view.point(x, level, z) for x, z in cut_outline(stand)]))
    edge = stand.outer_right if seen_from == "right" else stand.outer_left
    beyond = edge + math.copysign(_DIMENSION_ASIDE + _BEYOND, edge)
    y = cabinet_bottom(stand)
    corners.append(np.array([view.point(beyond, y, z) for z in (0.0, travel)]))
    points = np.concatenate(corners)
    (left, bottom), (right, top) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    return Bounds(left, bottom, right, top)
