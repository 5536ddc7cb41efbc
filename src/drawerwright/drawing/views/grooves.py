"""Grooves for the bottom: how far each runs, and why it stops where it stops.

A groove runs through to a part's end where that end is covered, or where the bottom passes; else it stops
behind the bottom's edge by half its width, for the round end that a cutter leaves. Common practice, no
source.
"""

from __future__ import annotations

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import LineClass
from drawerwright.drawing.primitives import rectangle
from drawerwright.drawing.scene import Leader, Primitive
from drawerwright.drawing.shown import Units
from drawerwright.drawing.views.joints import End, corner, groove_in_a_tail, tails
from drawerwright.drawing.views.standing import needed_parts, part_size
from drawerwright.drawing.wording import shown, thick
from drawerwright.model.fitted import FittedDrawer

_LEFT_AT_END = 2.0


def side_groove(fitted: FittedDrawer) -> Bounds | None:
    """A side's groove, on its inside face: x from its front end, y from its lower edge [mm]; None without."""
    box = needed_parts(fitted).box
    kind = fitted.drawer.box.bottom
    if kind == "under":
        return None
    length = part_size(fitted, "side", (box.length, 0.0, 0.0))[0]
    front, back = corner(fitted, "front"), corner(fitted, "back")
    beyond = box.groove_depth + box.bottom / 2
    start = 0.0 if _covered(fitted, "front") else max(front.inside_at - beyond, _LEFT_AT_END)
    end = length
    if kind == "groove-4" and not _covered(fitted, "back"):
        end = min(length - back.inside_at + beyond, length - _LEFT_AT_END)
    if back.joint == "dovetail" and back.low >= box.bottom_recess + box.bottom:
        end = length - back.depth  # under the back there are no tails
    return Bounds(start, box.bottom_recess, end, box.bottom_recess + box.bottom)


def cross_groove(fitted: FittedDrawer, end: End) -> Bounds | None:
    """A cross piece's groove, on its inside face: x from the middle, y above the box's lower edge [mm]."""
    box = needed_parts(fitted).box
    kind = fitted.drawer.box.bottom
    if kind == "under" or (kind == "groove-3" and end == "back"):
        return None
    at = corner(fitted, end)
    half = part_size(fitted, "subfront" if end == "front" else "back", (box.inside_width, 0.0, 0.0))[0] / 2
    stopped = box.inside_width / 2 + box.groove_depth + box.bottom / 2
    if at.thickness == 0 or (at.joint == "dovetail" and not groove_in_a_tail(fitted, tails(fitted, end))):
        half = stopped
    return Bounds(-half, box.bottom_recess, half, box.bottom_recess + box.bottom)


def _covered(fitted: FittedDrawer, end: End) -> bool:
    """Whether nobody sees a groove that runs out at this end of a side."""
    at = corner(fitted, end)
    if at.joint == "dovetail":
        return groove_in_a_tail(fitted, tails(fitted, end))
    if at.joint == "rabbet":
        return at.depth >= needed_parts(fitted).box.groove_depth
    return end == "front" and (fitted.drawer.front.style != "none" or at.thickness == 0)


def draw_groove(
    lies: Bounds, depth: float, pen: LineClass, face: str, units: Units, ends: tuple[float, float]
) -> list[Primitive]:
    """A groove with its note; its layer says which face, how wide and how deep. `ends` of the part [mm]."""
    width = lies.height
    layer = f"groove {width:g} mm wide deep {depth:g} {face}"
    stops = [
        where for where, gap in (("left", lies.left - ends[0]), ("right", ends[1] - lies.right)) if gap > 1e-6
    ]
    second = ["in the other face"] if pen == "hidden" else []
    if len(stops) == 1:
        second.append("stopped at one end")
    elif stops:
        second.append("stopped at both ends")
    note = f"groove {thick(width, units)} wide, {shown(depth, units)} deep"
    tip = (lies.left + lies.width * 0.4, (lies.bottom + lies.top) / 2)
    return [
        rectangle(lies, pen, layer=layer),
        Leader(tip, (3.0, 8.0), 2.0, note, ", ".join(second), dot=False),
    ]
