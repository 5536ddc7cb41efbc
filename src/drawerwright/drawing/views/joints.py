"""Corner joints of the box: where dowels, screws and tails sit, the same numbers for both parts of a corner.

Heights [mm] are above the lower edge of the box sides. A corner's cross piece is the subfront or the front
itself at the front end, the back at the rear end. Depths follow from the cut list, so that drawing and cut
list cannot part. Spacing rules: common practice, no source, unless a line says otherwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.drawing.views.standing import needed_parts, part_size, standing
from drawerwright.model.fitted import FittedDrawer

End: TypeAlias = Literal["front", "back"]
Joint: TypeAlias = Literal["butt", "rabbet", "dowel", "dovetail"]

DOWEL: Final = 8.0
"""Diameter of a dowel [mm]: half a 16 mm board. Common practice, no source."""
THIN_DOWEL: Final = 6.0
"""Diameter of a dowel in boards under 14 [mm]. Common practice, no source."""
_THIN_BOARD = 14.0
DOWEL_LENGTH: Final = 30.0
"""Length of a dowel [mm]; both bores together are 2 longer, for glue. Common practice, no source."""
_GLUE_ROOM = 2.0
_DEEPEST_IN_FACE = 12.0
_LEFT_UNDER_BORE = 4.0
SCREW_HOLE: Final = 4.0
"""Hole through a box side for a butt joint's screw [mm]. Common practice, no source."""
FROM_EDGE: Final = 20.0
"""Least distance of a dowel or screw from the edges of the cross piece [mm]. Common practice, no source."""
DOWEL_PITCH: Final = 32.0
"""Greatest distance between dowels [mm]. Common practice, no source."""
SCREW_PITCH: Final = 64.0
"""Greatest distance between screws of a butt joint [mm]. Common practice, no source."""
_CLEAR = 3.0
TAIL_PITCH: Final = 25.0
"""Distance from tail to tail that is aimed at [mm]. Common practice, no source."""
TAIL_SLOPE: Final = 1.0 / 7.0
"""Slope of a tail's flanks: between 1 : 6 in softwood and 1 : 8 in hardwood. Common practice, no source."""
_TAIL_SHARE = 0.62
_LEAST_ROOT = 5.0


@dataclass(frozen=True, slots=True)
class Tail:
    """One tail [mm]: lower and upper height at its wide end, and at its root where it leaves the side."""

    low: float
    high: float
    root_low: float
    root_high: float


@dataclass(frozen=True, slots=True)
class Corner:
    """One end of the box [mm].

    `thickness` of the cross piece (0: the front itself takes the sides, or they butt on it), its lower and
    upper edge, how deep the joint is let in, and `inside_at`: from the side's end to the inside of the box.
    """

    end: End
    joint: Joint
    thickness: float
    low: float
    high: float
    depth: float
    inside_at: float


def corner(fitted: FittedDrawer, end: End) -> Corner:
    """The joint at one end of the box, both hands alike.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    integral = end == "front" and fitted.drawer.box.front == "integral"
    name = "subfront" if end == "front" else "back"
    thickness = 0.0 if integral else box.subfront if end == "front" else box.back
    _, height, _ = part_size(fitted, name, (box.inside_width, box.height, thickness))
    if integral:
        height = box.height
    depth = joint_depth(fitted)
    joint: Joint = fitted.drawer.box.joint
    if fitted.drawer.existing_box is not None or (joint == "rabbet" and integral):
        joint = "butt"  # the sides of such a box end on the back of the front
    if joint in ("butt", "dowel"):
        depth = 0.0
    inside_at = depth if joint == "dovetail" else thickness
    return Corner(end, joint, thickness, box.height - height, box.height, depth, inside_at)


def joint_depth(fitted: FittedDrawer) -> float:
    """How deep the corners are let in [mm]: what of the cut list's lengths lies outside the inside."""
    box = needed_parts(fitted).box
    if fitted.drawer.existing_box is not None:
        return 0.0
    if fitted.drawer.box.joint == "rabbet":
        return (part_size(fitted, "back", (box.inside_width, 0.0, 0.0))[0] - box.inside_width) / 2
    if fitted.drawer.box.joint == "dovetail":
        stand = standing(fitted)
        inside = stand.box_rear - stand.body_front - box.subfront - box.back
        return (part_size(fitted, "side", (inside, 0.0, 0.0))[0] - inside) / 2
    return 0.0


def dowel_diameter(fitted: FittedDrawer) -> float:
    """Diameter of the box's dowels [mm]."""
    box = needed_parts(fitted).box
    thinnest = min(box.side, box.back, box.subfront or box.back)
    return THIN_DOWEL if thinnest < _THIN_BOARD else DOWEL


def dowel_depths(fitted: FittedDrawer, face_thickness: float) -> tuple[float, float]:
    """Depth of a dowel's bore in the face it stands on, and in the end grain it comes from [mm]."""
    in_face = min(_DEEPEST_IN_FACE, face_thickness - _LEFT_UNDER_BORE)
    return in_face, DOWEL_LENGTH + _GLUE_ROOM - in_face


def dowel_heights(fitted: FittedDrawer, end: End) -> tuple[float, ...]:
    """Heights of the dowels at one end, lowest first: clear of groove, notch and hook bore."""
    return _heights(fitted, end, dowel_diameter(fitted), DOWEL_PITCH)


def screw_heights(fitted: FittedDrawer, end: End) -> tuple[float, ...]:
    """Heights of a butt joint's screws at one end, lowest first."""
    return _heights(fitted, end, SCREW_HOLE, SCREW_PITCH)


def _heights(fitted: FittedDrawer, end: End, diameter: float, pitch: float) -> tuple[float, ...]:
    """An even row from the lowest clear place to `FROM_EDGE` under the upper edge.

    In a cross piece too low for that it is one place, in the middle of what is clear; none if nothing is.
    """
    at = corner(fitted, end)
    room = diameter / 2 + _CLEAR
    floor = max((high + room for low, high in _taken(fitted, at)), default=at.low)
    lowest, highest = max(at.low + FROM_EDGE, floor), at.high - FROM_EDGE
    if highest - lowest < diameter:
        middle = (max(floor, at.low + room) + at.high - room) / 2
        return (middle,) if floor + room <= at.high else ()
    steps = max(math.ceil((highest - lowest) / pitch - 1e-9), 1)
    return tuple(lowest + (highest - lowest) * k / steps for k in range(steps + 1))


def _taken(fitted: FittedDrawer, at: Corner) -> list[tuple[float, float]]:
    """Heights where something else is cut at this end."""
    parts = needed_parts(fitted)
    box, rear = parts.box, parts.slide.family.rear
    taken = []
    under = box.bottom_recess
    if at.low < under + box.bottom and fitted.drawer.box.bottom != "under":
        taken.append((under, under + box.bottom))
    if at.end == "back" and standing(fitted).concealed:
        taken.append((0.0, rear.notch_height))
        taken.append((under + rear.bore_up - rear.bore / 2, under + rear.bore_up + rear.bore / 2))
    return taken


def tails(fitted: FittedDrawer, end: End) -> tuple[Tail, ...]:
    """Equal tails of a half-blind dovetail at one end, lowest first; half a pin at both edges.

    Their number follows the height; of the numbers near it, one is taken that lets the bottom's groove run
    out inside a tail, where it is not seen.
    """
    at = corner(fitted, end)
    height = at.high - at.low
    aimed = max(round(height / TAIL_PITCH), 1)
    numbers = sorted(range(max(aimed - 2, 1), aimed + 3), key=lambda n: (abs(n - aimed), n))
    for number in numbers:
        found = _equal_tails(at, number)
        if groove_in_a_tail(fitted, found):
            return found
    return _equal_tails(at, aimed)


def _equal_tails(at: Corner, number: int) -> tuple[Tail, ...]:
    pitch = (at.high - at.low) / number
    wide = _TAIL_SHARE * pitch
    spread = min(at.depth * TAIL_SLOPE, max((wide - _LEAST_ROOT) / 2, 0.0))
    middles = [at.low + (k + 0.5) * pitch for k in range(number)]
    return tuple(
        Tail(y - wide / 2, y + wide / 2, y - wide / 2 + spread, y + wide / 2 - spread) for y in middles
    )


def groove_in_a_tail(fitted: FittedDrawer, found: tuple[Tail, ...]) -> bool:
    """Whether the bottom's groove ends inside one tail; so it does where there is none."""
    box = needed_parts(fitted).box
    if fitted.drawer.box.bottom == "under":
        return True
    low, high = box.bottom_recess, box.bottom_recess + box.bottom
    return any(tail.root_low <= low and high <= tail.root_high for tail in found)
