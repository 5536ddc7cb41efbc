"""The front at true size, seen from behind, as it lies face down on the bench.

Axes [mm]: x from its middle, so that the drawer's right hand is at the left; y from its lower edge. On an
applied front: pilot places of its screws, handle borings, and where the box will stand. On one that is the
box's own front: what its joints and the bottom want of it.
"""

from __future__ import annotations

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.primitives import Hole, rectangle
from drawerwright.drawing.scene import Dimension, Leader, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.fixing import (
    PILOT,
    back_of_front,
    box_on_front,
    handle_places,
    pilot_depth,
)
from drawerwright.drawing.views.grooves import cross_groove, draw_groove
from drawerwright.drawing.views.joints import corner, dowel_depths, dowel_diameter, dowel_heights, tails
from drawerwright.drawing.views.panel_marks import banding, cross_lines, outline, overall, side_word
from drawerwright.drawing.views.standing import needed_parts
from drawerwright.drawing.wording import bored, hardware, shown, size_words
from drawerwright.model.fitted import FittedDrawer, FrontSizes


def front_panel(fitted: FittedDrawer, units: Units = "mm") -> Scene:
    """The front from its back: outline, banding, pilot holes, handle borings; joints of an integral front.

    Raises:
        ValueError: the drawer does not fit, or has no front.
    """
    needed_parts(fitted)
    front = fitted.front
    if front is None or front.style == "none":
        raise ValueError(f"drawer {fitted.id} has no front")
    half = front.width / 2
    area = Bounds(-half, 0.0, half, front.height)
    drawn: list[Primitive] = [outline(area), *banding(fitted, "front", area, units)]
    drawn += overall(-half, half, 0.0, front.height, "front_width", "front_height")
    says = ""
    if fitted.drawer.existing_box is None:
        drawn += _box_behind(fitted, front)
        if fitted.drawer.box.front == "integral":
            drawn += _box_front(fitted, front, units)
    if fitted.fixing is not None and fitted.fixing.holes:
        drawn += _pilots(fitted, front, units)
        says += f", {len(fitted.fixing.holes)} pilot holes"
    handles = handle_places(fitted)
    if handles:
        drawn += _handle(fitted, front, handles, units)
        says += f", {len(handles)} handle borings"
    drawn.append(side_word((0.0, 0.0), "seen from behind"))
    return in_units(
        Scene(
            "front-panel",
            f"Front, drawer {fitted.id}",
            f"Front {size_words('front', front.width, front.height, units)} seen from behind{says}",
            tuple(drawn),
        ),
        units,
    )


def _box_behind(fitted: FittedDrawer, front: FrontSizes) -> list[Primitive]:
    """Outline of the box where it stands on the front's back."""
    box = needed_parts(fitted).box
    middle, low = box_on_front(fitted, front)
    half = box.outside_width / 2
    lies = Bounds(middle - half, low, middle + half, low + box.height)
    return [rectangle(lies, "hidden", layer="box behind not cut")]


def _pilots(fitted: FittedDrawer, front: FrontSizes, units: Units) -> list[Primitive]:
    """Pilot holes of the screws through the subfront, with their places in rows and columns."""
    back = back_of_front(fitted)
    deep = pilot_depth(front.thickness)
    drawn: list[Primitive] = []
    for place in back.screws:
        drawn.append(Hole(place, PILOT, deep, "pilot holes of the front"))
        drawn += cross_lines(place, PILOT / 2 + 3.0)
    columns, rows = sorted({x for x, _ in back.screws}), sorted({y for _, y in back.screws})
    note = f"{len(back.screws)} × Ø {bored(PILOT, units)}, {bored(deep, units)} deep"
    second = f"screws up to {hardware(back.longest_screw, units)}"
    drawn.append(Leader((columns[-1], rows[-1]), (-5.0, 6.0), -2.0, note, second, dot=False))
    for a, b in zip([-back.half, *columns], columns, strict=False):
        ends = ((a, 0.0 if a == -back.half else rows[0]), (b, rows[0]))
        drawn.append(
            Dimension(
                "pilot_across", b - a, *ends, "horizontal", 0.0, -row_offset(0), label_side="start",
                text=shown(b - a, units),
            )
        )  # fmt: skip
    for a, b in zip([0.0, *rows], rows, strict=False):
        ends = ((back.half, a), (columns[-1], b))
        text = shown(b - a, units)
        drawn.append(Dimension("pilot_up", b - a, *ends, "vertical", back.half, column_offset(0), text=text))
    return drawn


def _handle(
    fitted: FittedDrawer, front: FrontSizes, places: tuple[Point, ...], units: Units
) -> list[Primitive]:
    """Handle borings through the front; from its back they are where they are, mirrored."""
    handle = fitted.drawer.front.handle
    bore = handle.bore if handle is not None else 0.0
    half = front.width / 2
    drawn: list[Primitive] = []
    for place in places:
        drawn.append(Hole(place, bore, None, "handle borings"))
        drawn += cross_lines(place, bore / 2 + 3.0)
    (x1, y), (x2, _) = min(places), max(places)
    note = f"{len(places)} × Ø {bored(bore, units)}, through"
    drawn += [
        Leader((x2, y), (4.0, 6.0), 2.0, note, "handle", dot=False),
        Dimension("handle_up", y, (-half, 0.0), (x1, y), "vertical", -half, -column_offset(0)),
        Dimension(
            "handle_in", x1 + half, (-half, 0.0), (x1, y), "horizontal", 0.0, -row_offset(1),
            label_side="start", text=shown(x1 + half, units),
        ),
    ]  # fmt: skip
    if x2 > x1:
        ends = ((x1, y), (x2, y))
        drawn.append(Dimension("handle_spacing", x2 - x1, *ends, "horizontal", 0.0, -row_offset(1)))
    return drawn


def _box_front(fitted: FittedDrawer, front: FrontSizes, units: Units) -> list[Primitive]:
    """Groove and joints in the back of a front that is the box's own."""
    box = needed_parts(fitted).box
    middle, low = box_on_front(fitted, front)
    half = front.width / 2
    drawn: list[Primitive] = []
    groove = cross_groove(fitted, "front")
    if groove is not None:
        lies = Bounds(groove.left + middle, groove.bottom + low, groove.right + middle, groove.top + low)
        drawn += draw_groove(lies, box.groove_depth, "edge", "this face", units, (-half, half))
    at = corner(fitted, "front")
    side_middle = (box.inside_width + box.side) / 2
    if at.joint == "dowel":
        deep, _ = dowel_depths(fitted, front.thickness)
        diameter = dowel_diameter(fitted)
        heights = dowel_heights(fitted, "front")
        for way in (-1.0, 1.0):
            for y in heights:
                place = (middle + way * side_middle, y + low)
                drawn.append(Hole(place, diameter, deep, "dowel bores"))
                drawn += cross_lines(place, diameter / 2 + 3.0)
        if heights:
            tip = (middle - side_middle, heights[-1] + low)
            note = f"2 × {len(heights)} × Ø {bored(diameter, units)}, {bored(deep, units)} deep"
            drawn.append(Leader(tip, (5.0, -4.0), 2.0, note, dot=False))
    elif at.joint == "dovetail":
        layer = f"dovetail sockets deep {at.depth:.4g} this face"
        found = tails(fitted, "front")
        for way in (-1.0, 1.0):
            # The sides slide in from the front's end: each socket runs out there.
            a, b = sorted((middle + way * box.inside_width / 2, way * half))
            for tail in found:
                drawn.append(
                    rectangle(Bounds(a, tail.root_low + low, b, tail.root_high + low), "edge", layer=layer)
                )
        tip = (middle - box.inside_width / 2, found[-1].root_low + low)
        note = f"{len(found)} sockets a corner, {shown(at.depth, units)} deep"
        drawn.append(Leader(tip, (5.0, -4.0), 2.0, note, "run out to the ends", dot=False))
    return drawn
