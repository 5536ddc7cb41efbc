"""Side section: upright, through the left slide, seen towards the left; the front is at the left.

Axes [mm]: x is the depth into the cabinet, y up from the opening's bottom edge.
"""

from __future__ import annotations

from drawerwright.drawing.dimensioning import column_offset
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import HATCH_SPACING_CLOSE
from drawerwright.drawing.primitives import Circle, Lines, Polyline, line, polygon, rectangle
from drawerwright.drawing.scene import Dimension, LabelSide, Leader, Primitive, RunningDimension, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.bottom_screws import screw_places
from drawerwright.drawing.views.joints import End
from drawerwright.drawing.views.section import FALLING, RISING, broken_top, cut
from drawerwright.drawing.views.standing import CABINET_BOARD, FRAME_RAIL, Standing, standing
from drawerwright.drawing.views.stops import longer_in_side, stop_in_height
from drawerwright.drawing.wording import listed, on_grid, shown
from drawerwright.model.fitted import FittedDrawer

ABOVE = 18.0
_HOLE = 2.6
_SLIGHT = 0.05


def side_section(fitted: FittedDrawer, units: Units = "mm", *, why_not_longer: bool = True) -> Scene:
    """The drawer in its cabinet from the side; the bare opening and what stopped it where nothing fits.

    `why_not_longer`: with the next longer slide where the cabinet's depth stopped it.
    """
    stand = standing(fitted)
    drawn: list[Primitive] = [*_cabinet_beyond(stand)]
    if stand.integral:
        drawn += _front(stand)  # the bottom runs in its groove
    if stand.parts is not None:
        drawn += _member(stand)
        drawn += _box(stand)
        if why_not_longer:
            drawn += longer_in_side(stand)
    drawn += _cabinet_cut(stand)
    if stand.has_front and not stand.integral:
        drawn += _front(stand)
    drawn += stop_in_height(stand, 0.0, stand.depth, units)
    drawn += _heights(stand)
    drawn += _depths(stand, units)
    return in_units(
        Scene("side", f"Side section, drawer {fitted.id}", _alt(fitted, units), tuple(drawn)), units
    )


def _front(stand: Standing) -> list[Primitive]:
    near, far = stand.front_faces
    low, high = stand.front_heights
    return cut(Bounds(near, low, far, high), FALLING, HATCH_SPACING_CLOSE)


def _alt(fitted: FittedDrawer, units: Units) -> str:
    opening = (
        f"Side section of an opening {shown(fitted.opening.height, units)} high and "
        f"{shown(fitted.opening.depth, units)} deep"
    )
    if fitted.box is None or fitted.mounting is None:
        return f"{opening}: no slide fits, the box is not drawn"
    says = f"{opening}, with a box {shown(fitted.box.height, units, down=True)} high"
    if fitted.mounting.screw_line is not None:
        says += f", screws {on_grid(fitted.mounting.screw_line, units)} above the cabinet floor"
    if fitted.mounting.holes:
        says += " at " + listed(fitted.mounting.holes, units) + " from the front"
    return says


def _bottom(stand: Standing) -> float:
    """Where the drawn cabinet ends below: the floor's underside, or a little under the opening."""
    return stand.cabinet_floor - CABINET_BOARD if stand.cabinet_floor is not None else -ABOVE


def _cabinet_beyond(stand: Standing) -> list[Primitive]:
    """The cabinet side beyond the section, and the opening's edges as chain lines."""
    height = stand.fitted.opening.height
    top, floor = height + ABOVE, stand.cabinet_floor
    low = floor if floor is not None else _bottom(stand)
    corners = ((stand.side_edge, low), (stand.side_edge, top), (stand.depth, top), (stand.depth, low))
    drawn: list[Primitive] = [Polyline(corners, "edge")]
    if floor is None:
        drawn.append(line((stand.side_edge, low), (stand.depth, low), "fine"))
    levels = [height] if floor == 0 else [0.0, height]
    left = stand.front_faces[0] - 14.0 if stand.has_front else -14.0
    drawn.append(Lines(tuple(((left, y), (stand.back_end + 14.0, y)) for y in levels), "centre"))
    return drawn


def _cabinet_cut(stand: Standing) -> list[Primitive]:
    """Cabinet floor, back and the rails of a face frame, cut."""
    height, floor = stand.fitted.opening.height, stand.cabinet_floor
    low, top = _bottom(stand), height + ABOVE
    drawn: list[Primitive] = []
    if floor is not None:
        drawn += cut(Bounds(stand.side_edge, low, stand.depth, floor), RISING, HATCH_SPACING_CLOSE)
    drawn += cut(Bounds(stand.depth, low, stand.back_end, top), FALLING, HATCH_SPACING_CLOSE)
    if stand.frame_thickness:
        thick = stand.frame_thickness
        under = min(low, -FRAME_RAIL) if floor is None else min(low, -2.0)
        drawn += cut(Bounds(0.0, under, thick, 0.0), FALLING, HATCH_SPACING_CLOSE)
        drawn += cut(broken_top(0.0, thick, height, height + FRAME_RAIL), FALLING, HATCH_SPACING_CLOSE)
    return drawn


def _member(stand: Standing) -> list[Primitive]:
    """The members in elevation with their row holes, and the rear bracket."""
    assert stand.parts is not None
    mounting, box = stand.parts.mounting, stand.parts.box
    low, high = stand.member_heights
    start, end = mounting.front_end, mounting.front_end + mounting.member
    drawn: list[Primitive] = []
    if mounting.reach is not None:
        drawn.append(rectangle(Bounds(end - 12.0, low, stand.depth, high), "edge", "metal"))
    if not stand.concealed:
        drawn.append(rectangle(Bounds(start, low, end, high), "hidden"))
    else:
        drawn.append(rectangle(Bounds(start, low, end, high), "edge", "metal"))
        tall = high - low
        ribs = tuple(((start + 2.0, low + tall * k), (end - 2.0, low + tall * k)) for k in (0.35, 0.78))
        drawn.append(Lines(ribs, "fine"))
        face = stand.body_front + box.subfront
        bracket = ((face, high), (face, high - 11.0), (face + 30.0, high - 11.0), (face + 38.0, high))
        drawn.append(polygon(bracket, "edge", "paper"))
    if mounting.screw_line is not None and mounting.holes:
        y = mounting.screw_line - stand.fitted.opening.floor
        drawn += [Circle((x, y), _HOLE, "dimension", fill="ink") for x in mounting.holes]
        drawn += [Circle((x, y), _HOLE * 0.9, "fine", fill="paper") for x in mounting.slots]
    if mounting.rear_bracket_height is not None:
        y = mounting.rear_bracket_height - stand.fitted.opening.floor
        drawn.append(line((end - 30.0, y), (stand.back_end + 8.0, y), "centre"))
    for x in mounting.shelf_holes:
        drawn.append(line((x, low - 5.0), (x, high), "centre"))
    return drawn


def _box(stand: Standing) -> list[Primitive]:
    """The box cut along its length: subfront, bottom, back at the notch; its far side beyond."""
    assert stand.parts is not None
    box, rear = stand.parts.box, stand.parts.slide.family.rear
    near, far, low = stand.body_front, stand.box_rear, stand.lower_edge
    top, under = low + box.height, low + box.bottom_recess
    kind = stand.fitted.drawer.box.bottom
    inside_near, inside_far = near + box.subfront, far - box.back
    drawn: list[Primitive] = [
        Lines((((near, low), (far, low)), ((near, top), (far, top)), ((far, low), (far, top))), "edge")
    ]
    front_low = under + box.bottom if kind == "under" else low
    if box.subfront > 0:
        drawn += cut(Bounds(near, front_low, inside_near, top), RISING, HATCH_SPACING_CLOSE)
    back_low = low if kind == "groove-4" else under + box.bottom
    if stand.concealed:
        back_low = max(back_low, low + rear.notch_height)
    drawn += cut(Bounds(inside_far, back_low, far, top), RISING, HATCH_SPACING_CLOSE)
    from_ = near if kind == "under" else inside_near - box.groove_depth
    to = inside_far + box.groove_depth if kind == "groove-4" else far
    drawn += cut(Bounds(from_, under, to, under + box.bottom), FALLING, HATCH_SPACING_CLOSE)
    for end, x in _ends(near + box.subfront / 2, far - box.back / 2):
        if screw_places(stand.fitted, end):
            drawn.append(line((x, under - 5.0), (x, under + box.bottom + 24.0), "centre"))
    if stand.concealed:
        y, radius = under + rear.bore_up, rear.bore / 2
        tip = far - rear.bore_depth
        mouth: tuple[Point, ...] = ((far, y + radius), (tip, y + radius))
        corners = (*mouth, (tip - radius * 0.6, y), (tip, y - radius), (far, y - radius))
        drawn.append(polygon(corners, "edge", "paper"))
        drawn.append(line((tip - 8.0, y), (far + 12.0, y), "centre"))
    return drawn


def _ends(front: float, back: float) -> tuple[tuple[End, float], tuple[End, float]]:
    return ("front", front), ("back", back)


def _heights(stand: Standing) -> list[Primitive]:
    """Clearances and box height in a chain at the right, the opening's height beyond; the recess inside."""
    opening, right = stand.fitted.opening, stand.back_end
    height = opening.height
    drawn: list[Primitive] = []
    if stand.parts is not None:
        box, low = stand.parts.box, stand.lower_edge
        rear, top = stand.box_rear, low + box.height
        chain: tuple[tuple[str, float, Point, Point, LabelSide], ...] = (
            ("clearance_under", low, (right, 0.0), (rear, low), "start"),
            ("box_height", box.height, (rear, low), (rear, top), "end"),
            ("clearance_over", height - top, (rear, top), (right, height), "end"),
        )
        for name, value, start, end, side in chain:
            if value >= _SLIGHT:
                drawn.append(
                    Dimension(
                        name,
                        value,
                        start,
                        end,
                        "vertical",
                        right,
                        column_offset(0),
                        label_side=side,
                        extension=name == "box_height",
                    )
                )
        x = stand.body_front + (rear - stand.body_front) * 0.84
        recess = ((x, low), (x, low + box.bottom_recess))
        if box.bottom_recess >= _SLIGHT:
            drawn.append(
                Dimension("bottom_recess", box.bottom_recess, *recess, "vertical", x, extension=False)
            )
    column = 1 if stand.parts is not None else 0
    ends = ((right, 0.0), (right, height))
    drawn.append(Dimension("opening_height", height, *ends, "vertical", right, column_offset(column)))
    return drawn


def _depths(stand: Standing, units: Units) -> list[Primitive]:
    """Row holes as running distances from the front, under the floor; the screw line as a note."""
    low = _bottom(stand)
    if stand.parts is None:
        ends = ((0.0, low), (stand.depth, low))
        return [Dimension("opening_depth", stand.fitted.opening.depth, *ends, "horizontal", low, -6.0)]
    mounting, box = stand.parts.mounting, stand.parts.box
    drawn: list[Primitive] = []
    if mounting.screw_line is not None and mounting.holes:
        y = mounting.screw_line - stand.fitted.opening.floor
        marks = tuple((x, y) for x in mounting.holes)
        drawn.append(RunningDimension("first_hole", (0.0, low), marks, mounting.holes, low, -8.0))
        inside = stand.lower_edge + box.bottom_recess + box.bottom
        drawn.append(
            Leader(
                marks[0],
                (4.0, 5.0),
                2.0,
                f"screw line {on_grid(mounting.screw_line, units)}",
                quantity="screw_line",
                value=mounting.screw_line,
                dot=False,
                bend=(marks[0][0], inside),
            )
        )
    elif mounting.reach is not None:
        end = mounting.front_end + mounting.member
        ends = ((end, low), (stand.depth, low))
        drawn.append(
            Dimension(
                "member", mounting.member, (mounting.front_end, low), (end, low), "horizontal", low, -6.0
            )
        )
        drawn.append(Dimension("reach", mounting.reach, *ends, "horizontal", low, -6.0))
    elif mounting.shelf_holes:
        marks = tuple((x, stand.member_heights[0]) for x in mounting.shelf_holes)
        drawn.append(RunningDimension("shelf_hole", (0.0, low), marks, mounting.shelf_holes, low, -8.0))
    return drawn
