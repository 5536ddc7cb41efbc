"""Box sides at true size, seen from inside the box: outline, joints at both ends, groove.

Axes [mm]: x from the front end of the side, y from its lower edge. The right-hand side is the left-hand
one mirrored.
"""

from __future__ import annotations

from dataclasses import replace

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.primitives import Hole, line, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Primitive, Scene, mirror
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.cabinet_side import Hand
from drawerwright.drawing.views.grooves import draw_groove, side_groove
from drawerwright.drawing.views.joints import (
    SCREW_HOLE,
    Corner,
    Tail,
    corner,
    dowel_depths,
    dowel_diameter,
    dowel_heights,
    screw_heights,
    tails,
)
from drawerwright.drawing.views.panel_marks import (
    banding,
    cross_lines,
    end_bores,
    outline,
    overall,
    row_of_heights,
    side_word,
)
from drawerwright.drawing.views.standing import needed_parts, part_size, standing
from drawerwright.drawing.wording import bored, shown, size_words, thick
from drawerwright.model.fitted import FittedDrawer

_JOINT_WORDS = {
    "butt": "butt joints, screwed",
    "rabbet": "rabbets at both ends",
    "dowel": "dowelled at both ends",
    "dovetail": "half-blind dovetails at both ends",
}


def box_side(fitted: FittedDrawer, hand: Hand, units: Units = "mm") -> Scene:
    """A box side seen from inside the box: outline, joints and groove; the right-hand one is the mirror.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    length, height, _ = part_size(fitted, "side", (box.length, box.height, box.side))
    area = Bounds(0.0, 0.0, length, height)
    drawn: list[Primitive] = [outline(_corners(fitted, area))]
    drawn += banding(fitted, "side", area, units)
    drawn += overall(0.0, length, 0.0, height, "side_length", "box_height", column=3)
    groove = side_groove(fitted)
    if groove is not None:
        back = corner(fitted, "back")
        wood = length if back.low < groove.top else length - back.inside_at * (back.joint == "dovetail")
        drawn += draw_groove(groove, box.groove_depth, "edge", "this face", units, (0.0, wood))
    drawn.append(_recess(box.bottom_recess))
    for end in (corner(fitted, "front"), corner(fitted, "back")):
        drawn += _joint(fitted, end, length, units)
    drawn += _slide_line(fitted, length)
    at = (corner(fitted, "front").inside_at, height)
    drawn.append(side_word(at, "front end, seen from inside", (1.5, -4.0), "start"))
    left = Scene(
        "box-side-left",
        f"Left box side, drawer {fitted.id}",
        f"Left box side {size_words('side', length, height, units)}, "
        f"{_JOINT_WORDS[fitted.drawer.box.joint]}, from inside, front at the left",
        tuple(drawn),
    )
    if hand == "right":
        there = mirror(left)
        left = replace(
            there,
            name="box-side-right",
            title=there.title.replace("Left", "Right", 1),
            alt=there.alt.replace("Left", "Right", 1).replace("front at the left", "front at the right"),
        )
    return in_units(left, units)


def _recess(recess: float) -> Dimension:
    ends = ((0.0, 0.0), (0.0, recess))
    return Dimension("bottom_recess", recess, *ends, "vertical", 0.0, -column_offset(0))


def _corners(fitted: FittedDrawer, area: Bounds) -> Bounds | tuple[Point, ...]:
    """A rectangle, or one whose ends are cut to tails, counter-clockwise from its lower left."""
    front, back = corner(fitted, "front"), corner(fitted, "back")
    if front.joint != "dovetail":
        return area
    left = _tailed(front, tails(fitted, "front"))
    right = [(area.right - x, y) for x, y in _tailed(back, tails(fitted, "back"))]
    return (*right, *reversed(left))


def _tailed(at: Corner, found: tuple[Tail, ...]) -> list[Point]:
    """The profile of a tailed end from below upwards: x from the tails' ends."""
    shoulder = at.depth
    profile: list[Point] = [(shoulder, 0.0)]
    for tail in found:
        profile += [(shoulder, tail.root_low), (0.0, tail.low), (0.0, tail.high), (shoulder, tail.root_high)]
    return [*profile, (shoulder, at.high)]


def _joint(fitted: FittedDrawer, at: Corner, length: float, units: Units) -> list[Primitive]:
    """What is cut or bored for one corner."""
    if at.joint == "rabbet":
        return _rabbet(fitted, at, length, units)
    if at.joint == "dowel":
        return _dowels(fitted, at, length, units)
    if at.joint == "dovetail":
        return _tail_notes(fitted, at, length, units)
    if fitted.drawer.existing_box is None and at.thickness:
        return _screws(fitted, at, length, units)
    return []


def _from_end(at: Corner, length: float, x: float) -> float:
    """An x measured from the side's end at this corner."""
    return x if at.end == "front" else length - x


def _rabbet(fitted: FittedDrawer, at: Corner, length: float, units: Units) -> list[Primitive]:
    """The rabbet over the side's whole height: as wide as the cross piece is thick."""
    height = needed_parts(fitted).box.height
    a, b = sorted((_from_end(at, length, 0.0), _from_end(at, length, at.thickness)))
    lies = Bounds(a, 0.0, b, height)
    layer = f"rabbet {at.thickness:g} mm wide deep {at.depth:g} this face"
    inward = 1.0 if at.end == "front" else -1.0
    note = f"rabbet {thick(at.thickness, units)} wide, {shown(at.depth, units)} deep"
    edge = _from_end(at, length, at.thickness)
    return [
        rectangle(lies, "edge", layer=layer),
        Hatch(lies.corners, 45.0 if at.end == "front" else 135.0),
        Leader((edge, height * 0.66), (inward * 4.0, 3.0), inward * 2.0, note, dot=False),
        Dimension(
            "rabbet_width", at.thickness, (a, 0.0), (b, 0.0), "horizontal", 0.0, -row_offset(0),
            label_side="start" if at.end == "front" else "end",
        ),
    ]  # fmt: skip


def _dowels(fitted: FittedDrawer, at: Corner, length: float, units: Units) -> list[Primitive]:
    """Bores in the face under the cross piece's end; in the end grain where the front covers the side."""
    box = needed_parts(fitted).box
    heights = dowel_heights(fitted, at.end)
    diameter = dowel_diameter(fitted)
    if not at.thickness:
        _, deep = dowel_depths(fitted, fitted.front.thickness if fitted.front else box.side)
        return end_bores(0.0, 1.0, heights, diameter, deep, "dowel bores in the end grain")
    deep, _ = dowel_depths(fitted, box.side)
    x = _from_end(at, length, at.thickness / 2)
    return _row(at, x, length, heights, diameter, deep, "dowel bores", "dowel", units)


def _screws(fitted: FittedDrawer, at: Corner, length: float, units: Units) -> list[Primitive]:
    """Holes through the side for the screws of a butt joint."""
    heights = screw_heights(fitted, at.end)
    x = _from_end(at, length, at.thickness / 2)
    return _row(at, x, length, heights, SCREW_HOLE, None, "screw holes of the corner", "screw", units)


def _row(
    at: Corner,
    x: float,
    length: float,
    heights: tuple[float, ...],
    diameter: float,
    depth: float | None,
    operation: str,
    quantity: str,
    units: Units,
) -> list[Primitive]:
    """An upright row of bores near one end, dimensioned outside that end."""
    if not heights:
        return []
    drawn: list[Primitive] = []
    for y in heights:
        drawn.append(Hole((x, y), diameter, depth, operation))
        drawn += cross_lines((x, y), diameter / 2 + 3.0)
    front = at.end == "front"
    base = 0.0 if front else length
    offset = -column_offset(1) if front else column_offset(1)
    drawn += row_of_heights(heights, x, 0.0, base, offset, f"{quantity}_{at.end}", units)
    inset = _from_end(at, length, x)
    drawn.append(
        Dimension(
            f"{quantity}_in", inset, (base, 0.0), (x, heights[0]), "horizontal", 0.0, -row_offset(0),
            label_side="start" if front else "end",
        )
    )  # fmt: skip
    deep = "through" if depth is None else f"{bored(depth, units)} deep"
    inward = 1.0 if front else -1.0
    note = f"{len(heights)} × Ø {bored(diameter, units)}, {deep}"
    drawn.append(Leader((x, heights[-1]), (inward * 6.0, -4.0), inward * 2.0, note, dot=False))
    return drawn


def _tail_notes(fitted: FittedDrawer, at: Corner, length: float, units: Units) -> list[Primitive]:
    """Shoulder line, tail dimensions and a note; the tails themselves are the outline."""
    found = tails(fitted, at.end)
    if not found:
        return []
    front = at.end == "front"
    inward = 1.0 if front else -1.0
    shoulder, end = _from_end(at, length, at.depth), _from_end(at, length, 0.0)
    tail = found[-1]
    pitch = found[1].low - found[0].low if len(found) > 1 else at.high - at.low
    note = f"{len(found)} tails, {shown(tail.high - tail.low, units)} wide, {shown(at.depth, units)} long"
    second = f"{shown(pitch, units)} apart, slope 1 : 7"
    base = 0.0 if front else length
    column = -column_offset(1) if front else column_offset(1)
    above = ((end, tail.high), (shoulder, at.high))
    return [
        line((shoulder, 0.0), (shoulder, at.high), "fine", "shoulder line not cut"),
        Leader((shoulder, at.high * 0.7), (inward * 5.0, 4.0), inward * 2.0, note, second, dot=False),
        Dimension(
            "tail_length", at.depth, *above, "horizontal", at.high, row_offset(1),
            label_side="start" if front else "end", text=shown(at.depth, units),
        ),
        Dimension(
            "first_tail", found[0].low, (base, 0.0), (end, found[0].low), "vertical", base,
            column, label_side="start", text=shown(found[0].low, units),
        ),
        Dimension(
            "tail_width", tail.high - tail.low, (end, found[0].low), (end, found[0].high), "vertical", base,
            column, text=shown(tail.high - tail.low, units),
        ),
    ]  # fmt: skip


def _slide_line(fitted: FittedDrawer, length: float) -> list[Primitive]:
    """Height of the drawer member's screws on the other face, where the slide runs beside the box."""
    parts = needed_parts(fitted)
    if standing(fitted).concealed:
        return []
    y = parts.slide.family.heights.screw_line
    return [
        line((0.0, y), (length, y), "centre", "slide line on the other face not bored"),
        Dimension(
            "screw_line_up", y, (length, 0.0), (length, y), "vertical", length, column_offset(0),
            label_side="start",
        ),
        Leader((length * 0.7, y), (3.0, 6.0), 2.0, "middle of the slide", "on the other face", dot=False),
    ]  # fmt: skip
