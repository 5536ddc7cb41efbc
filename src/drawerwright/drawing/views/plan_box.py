"""The box in plan: sides, front and back as the section cuts them, let into each other at the corners."""

from __future__ import annotations

from drawerwright.drawing.geometry import Bounds, Placement, Point
from drawerwright.drawing.pens import NOTE_SIZE
from drawerwright.drawing.primitives import Text, line, rectangle
from drawerwright.drawing.scene import Primitive
from drawerwright.drawing.shown import Units
from drawerwright.drawing.views.cut_outs import cut_out_of, cut_out_walls
from drawerwright.drawing.views.joints import DOWEL_LENGTH, Corner, corner, dowel_depths, dowel_diameter
from drawerwright.drawing.views.section import FALLING, RISING, cut
from drawerwright.drawing.views.standing import Standing, part_size, upright
from drawerwright.drawing.wording import thick

_MIRRORED = Placement(mirrored=True)


def box_in_plan(stand: Standing, units: Units) -> list[Primitive]:
    """Box sides, subfront and back with their joints, as far as the section meets them."""
    assert stand.parts is not None
    box = stand.parts.box
    ends = (corner(stand.fitted, "front"), corner(stand.fitted, "back"))
    left = _left_side(stand, *ends)
    right = tuple((-x, y) for x, y in reversed(left))
    drawn = cut(left, FALLING) + cut(right, RISING)
    near, rear = stand.body_front, stand.box_rear
    walls = cut_out_walls(stand.fitted, rear)
    for wall, angle_deg in zip(walls, (FALLING, RISING, RISING), strict=False):
        drawn += cut(wall, angle_deg)
    drawn += _cross(stand, ends[1], rear, -1.0)
    if box.subfront > 0:
        drawn += _cross(stand, ends[0], near, 1.0)
    for at, edge, way in ((ends[0], near, 1.0), (ends[1], rear, -1.0)):
        if at.joint == "dowel":
            dowel = _dowel(stand, at, edge, way)
            drawn += dowel + [each.placed(_MIRRORED) for each in dowel]
    return drawn + _words(stand, units)


def _left_side(stand: Standing, front: Corner, back: Corner) -> tuple[Point, ...]:
    """The left side's section: x across, y the depth; less its rabbets, with its tails."""
    assert stand.parts is not None
    box = stand.parts.box
    outer, inner = -box.outside_width / 2, -box.inside_width / 2
    start, end = stand.body_front, stand.box_rear
    if front.joint == "dovetail":
        start += front.thickness - front.depth
    if back.joint == "dovetail":
        end -= back.thickness - back.depth
    corners: list[Point] = [(outer, start)]
    if front.joint == "rabbet":
        shoulder = start + front.thickness
        corners += [(inner - front.depth, start), (inner - front.depth, shoulder), (inner, shoulder)]
    else:
        corners.append((inner, start))
    if back.joint == "rabbet":
        shoulder = end - back.thickness
        corners += [(inner, shoulder), (inner - back.depth, shoulder), (inner - back.depth, end)]
    else:
        corners.append((inner, end))
    return (*corners, (outer, end))


def _cross(stand: Standing, at: Corner, edge: float, inward: float) -> list[Primitive]:
    """Subfront or back between `edge`, its outside face, and the inside; less the sockets of tails."""
    assert stand.parts is not None
    box = stand.parts.box
    name = "subfront" if at.end == "front" else "back"
    half = part_size(stand.fitted, name, (box.inside_width, 0.0, 0.0))[0] / 2
    face = edge + inward * at.thickness
    inner, bed = box.inside_width / 2, face - inward * at.depth
    if at.joint != "dovetail":
        inner, bed = half, face
    away = cut_out_of(stand.fitted) if at.end == "back" else None
    if away is not None:
        left: tuple[Point, ...] = (
            (-half, edge), (away.left, edge), (away.left, face), (-inner, face), (-inner, bed), (-half, bed),
        )  # fmt: skip
        right: tuple[Point, ...] = (
            (half, edge), (away.right, edge), (away.right, face), (inner, face), (inner, bed), (half, bed),
        )  # fmt: skip
        return cut(left, RISING) + cut(right, RISING)
    if at.joint != "dovetail":
        return cut(upright(-half, edge, half, face), RISING)
    corners: tuple[Point, ...] = (
        (-half, edge), (half, edge), (half, bed), (inner, bed),
        (inner, face), (-inner, face), (-inner, bed), (-half, bed),
    )  # fmt: skip
    return cut(corners, RISING)


def _dowel(stand: Standing, at: Corner, edge: float, inward: float) -> list[Primitive]:
    """The left-hand dowel of one end: across the corner, or lengthways into a front that covers the side."""
    assert stand.parts is not None
    box, front = stand.parts.box, stand.fitted.front
    half = dowel_diameter(stand.fitted) / 2
    inner = -box.inside_width / 2
    if at.thickness:
        deep, _ = dowel_depths(stand.fitted, box.side)
        y = edge + inward * at.thickness / 2
        lies = Bounds(inner - deep, y - half, inner - deep + DOWEL_LENGTH, y + half)
        axis = ((lies.left - 3.0, y), (lies.right + 3.0, y))
    else:
        deep, _ = dowel_depths(stand.fitted, front.thickness if front is not None else box.side)
        x = inner - box.side / 2
        lies = Bounds(x - half, edge - deep, x + half, edge - deep + DOWEL_LENGTH)
        axis = ((x, lies.bottom - 3.0), (x, lies.top + 3.0))
    return [rectangle(lies, "edge", "paper"), line(*axis, "centre")]


def _words(stand: Standing, units: Units) -> list[Primitive]:
    """Thickness of back and subfront, beside them."""
    assert stand.parts is not None
    box = stand.parts.box
    near, rear = stand.body_front, stand.box_rear
    inner = box.inside_width / 2
    beside = -inner + min(stand.parts.slide.family.rear.notch_width + 34.0, inner * 0.45)
    at, says = (beside, rear - box.back), f"back {thick(box.back, units)}"
    words: list[Primitive] = [Text(at, says, NOTE_SIZE, tone="fine", shift=(0.0, -3.9))]
    if box.subfront > 0:
        at, says = (beside, near + box.subfront), f"subfront {thick(box.subfront, units)}"
        words.append(Text(at, says, NOTE_SIZE, tone="fine", shift=(0.0, 2.0)))
    return words
