"""Plan: a level section through the box, seen from above, front at the bottom.

The bottom is left out of sight, so that the members under it show. Axes [mm]: x to the right from the
middle of the opening, y the depth into the cabinet.
"""

from __future__ import annotations

from drawerwright.drawing.geometry import Bounds, Placement
from drawerwright.drawing.primitives import Circle, Lines, line, polygon, rectangle
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.plan_box import box_in_plan
from drawerwright.drawing.views.plan_dimensions import plan_dimensions
from drawerwright.drawing.views.section import FALLING, RISING, cut, member_from_above
from drawerwright.drawing.views.standing import Standing, standing, upright
from drawerwright.drawing.views.stops import longer_in_plan, stop_in_plan
from drawerwright.drawing.wording import shown
from drawerwright.model.fitted import FittedDrawer

_MIRRORED = Placement(mirrored=True)


def plan(fitted: FittedDrawer, units: Units = "mm", *, why_not_longer: bool = True) -> Scene:
    """The drawer in its cabinet from above; the bare opening and what stopped it where nothing fits.

    `why_not_longer`: with the next longer slide where the cabinet's depth stopped it.
    """
    stand = standing(fitted)
    drawn: list[Primitive] = []
    if stand.parts is not None:
        drawn += _slides(stand)
    drawn += _cabinet(stand)
    if stand.integral:
        drawn += _front(stand)  # the box's sides may be let into it
    if stand.parts is not None:
        drawn += box_in_plan(stand, units)
        drawn += _brackets_and_bores(stand)
        if why_not_longer:
            drawn += longer_in_plan(stand, units)
    if stand.has_front and not stand.integral:
        drawn += _front(stand)
    low = stand.front_faces[0] if stand.has_front else 0.0
    drawn.append(line((0.0, low - 24.0), (0.0, stand.back_end + 14.0), "centre"))
    drawn += stop_in_plan(stand, units)
    drawn += plan_dimensions(stand)
    return in_units(Scene("plan", f"Plan, drawer {fitted.id}", _alt(fitted, units), tuple(drawn)), units)


def _alt(fitted: FittedDrawer, units: Units) -> str:
    width, depth = shown(fitted.opening.width, units), shown(fitted.opening.depth, units)
    opening = f"Plan of an opening {width} wide, {depth} deep"
    if fitted.box is None:
        return f"{opening}: no slide fits, the box is not drawn"
    box = fitted.box
    return (
        f"{opening}, with a box {shown(box.outside_width, units, down=True)} wide outside, "
        f"{shown(box.inside_width, units, down=True)} inside, {shown(box.length, units)} long, "
        f"{shown(box.side_gap, units)} clear on each side"
    )


def _front(stand: Standing) -> list[Primitive]:
    near, far = stand.front_faces
    left, right = stand.front_edges
    return cut(Bounds(left, near, right, far), FALLING)


def _both(left: list[Primitive]) -> list[Primitive]:
    """Parts at the left, and their mirror at the right."""
    return left + [each.placed(_MIRRORED) for each in left]


def _cabinet(stand: Standing) -> list[Primitive]:
    """Sides, back, and the face frame's stiles with the sides let into them."""
    drawn: list[Primitive] = []
    if stand.frame_thickness:
        thick = stand.frame_thickness
        drawn += cut(Bounds(stand.outer_left, 0.0, stand.clear_left, thick), FALLING)
        drawn += cut(Bounds(stand.clear_right, 0.0, stand.outer_right, thick), RISING)
    edge, end = stand.side_edge, stand.back_end
    drawn += cut(Bounds(stand.outer_left, edge, stand.inner_left, end), RISING)
    drawn += cut(Bounds(stand.inner_right, edge, stand.outer_right, end), FALLING)
    drawn += cut(Bounds(stand.inner_left, stand.depth, stand.inner_right, end), RISING)
    lost = stand.fitted.drawer.lost
    for taken, x in ((lost.left, -stand.half), (lost.right, stand.half)):
        if taken:
            drawn.append(line((x, 0.0), (x, stand.depth), "hidden"))
    if stand.parts is not None:
        mounting = stand.parts.mounting
        start, stop = mounting.front_end, mounting.front_end + mounting.member
        for packing, x, inward, angle in (
            (mounting.packing_left, stand.inner_left, 1.0, FALLING),
            (mounting.packing_right, stand.inner_right, -1.0, RISING),
        ):
            if packing:
                drawn += cut(upright(x, max(start, stand.side_edge), x + inward * packing, stop), angle)
    return drawn


def _slides(stand: Standing) -> list[Primitive]:
    """Members, their flanges along the opening's edges, their screws, and rear brackets."""
    assert stand.parts is not None
    mounting = stand.parts.mounting
    start, end = mounting.front_end, mounting.front_end + mounting.member
    outer, inner = stand.member_strip
    drawn = _both(member_from_above(outer, inner, start, end))
    if stand.concealed:
        drawn += _both([rectangle(Bounds(-stand.half, start, -stand.half + 1.8, end), "edge", "paper")])
    screws = tuple(((-stand.half - 3.0, y), (-stand.half + 7.0, y)) for y in mounting.holes)
    if screws:
        drawn += _both([Lines(screws, "edge")])
    if mounting.rear_bracket_left is not None and mounting.rear_bracket_right is not None:
        for x in (
            stand.inner_left + mounting.rear_bracket_left,
            stand.inner_right - mounting.rear_bracket_right,
        ):
            drawn.append(rectangle(Bounds(x - 11.0, end - 12.0, x + 11.0, stand.depth), "edge", "metal"))
            drawn.append(line((x, end - 20.0), (x, stand.back_end + 6.0), "centre"))
    for y in mounting.shelf_holes:
        middle = (outer + inner) / 2
        drawn += _both([Circle((middle, y), 2.5, "edge", fill="paper")])
    return drawn


def _brackets_and_bores(stand: Standing) -> list[Primitive]:
    """Locking brackets behind the subfront with their spacers; hook bores and notches in the back."""
    assert stand.parts is not None
    if not stand.concealed:
        return []
    slide, box = stand.parts.slide, stand.parts.box
    family, rear = slide.family, slide.family.rear
    left: list[Primitive] = []
    face = stand.body_front + box.subfront
    x, y = -box.inside_width / 2, face
    deep = max((back for _, back in family.bracket_holes), default=25.0) + 13.0
    wide = max((aside for aside, _ in family.bracket_holes), default=28.0) + 14.0
    for spacer in slide.side_spacers:
        left.append(rectangle(Bounds(x, face, x + spacer, face + deep), "edge", "wood"))
        x += spacer
    for spacer in slide.subfront_spacers:
        left.append(rectangle(Bounds(x, y, x + wide, y + spacer), "edge", "wood"))
        y += spacer
    slope = wide * 0.38
    left.append(
        polygon(
            (
                (x, y),
                (x + wide, y),
                (x + wide, y + deep - slope),
                (x + wide - slope, y + deep),
                (x, y + deep),
            ),
            "edge",
            "paper",
        )
    )
    for aside, back in family.bracket_holes:
        left.append(Circle((x + aside, y + back), 1.8, "edge", fill="paper"))
    bore, end, radius = -stand.seat + rear.bore_in, stand.box_rear, rear.bore / 2
    tip = end - rear.bore_depth
    left_wall, right_wall = bore - radius, bore + radius
    corners = (
        (left_wall, end),
        (left_wall, tip),
        (bore, tip - radius * 0.6),
        (right_wall, tip),
        (right_wall, end),
    )
    left.append(polygon(corners, "edge", "paper"))
    left.append(line((bore, tip - 6.0), (bore, end + 10.0), "centre"))
    notch = -stand.seat + rear.notch_width
    left.append(line((notch, end - box.back), (notch, end), "hidden"))
    return _both(left)
