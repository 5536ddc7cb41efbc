"""Back and subfront of the box at true size, with what their corners and the bottom want of them.

Axes [mm]: x from the middle, y from the piece's own lower edge. The back is seen from behind, the subfront
from inside the box; both are alike left and right but for the subfront's screw holes.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import HATCH_SPACING_CLOSE, LineClass
from drawerwright.drawing.primitives import Hole, Lines, line, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.bottom_screws import EDGE_PILOT, EDGE_PILOT_DEPTH, screw_places
from drawerwright.drawing.views.cut_outs import cut_out_in_back
from drawerwright.drawing.views.fixing import FIXING_HOLE
from drawerwright.drawing.views.grooves import cross_groove, draw_groove
from drawerwright.drawing.views.joints import (
    End,
    corner,
    dowel_depths,
    dowel_diameter,
    dowel_heights,
    screw_heights,
    tails,
)
from drawerwright.drawing.views.panel_marks import (
    NOTCH,
    banding,
    cross_lines,
    end_bores,
    outline,
    overall,
    row_of_heights,
    side_word,
)
from drawerwright.drawing.views.rear_cuts import RearCuts, rear_cuts
from drawerwright.drawing.views.standing import needed_parts, part_size
from drawerwright.drawing.wording import bored, hardware, shown, size_words, thick
from drawerwright.model.fitted import FittedDrawer

END_PILOT: Final = 2.5
"""Pilot hole in end grain for a butt joint's screw [mm]. Common practice, no source."""
END_PILOT_DEPTH: Final = 25.0
"""Depth of that pilot hole [mm]. Common practice, no source."""
_PAST_SCREWS = 18.0


def box_back(fitted: FittedDrawer, units: Units = "mm") -> Scene:
    """The box back seen from behind: outline, notches, hook bores; joints and groove of its other face.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    length, height, _ = part_size(fitted, "back", (box.inside_width, box.height, box.back))
    half = length / 2
    area = Bounds(-half, 0.0, half, height)
    drawn: list[Primitive] = [outline(area), *banding(fitted, "back", area, units)]
    drawn += overall(-half, half, 0.0, height, "back_length", "back_height")
    drawn += cut_out_in_back(fitted, half, height)
    cuts = rear_cuts(fitted)
    says = []
    if cuts is not None:
        drawn += _hook_bores(cuts, units)
        says.append(
            f"hook bores Ø {bored(cuts.bore, units)}, {bored(cuts.bore_depth, units)} deep, "
            f"{shown(half - cuts.bore_x, units)} from each end and {shown(cuts.bore_y, units)} up"
        )
        if cuts.notch_height > 0:
            drawn += _notches(cuts)
            wide = shown(cuts.notch_outer - cuts.notch_inner, units)
            says.append(f"notches {wide} wide, {shown(cuts.notch_height, units)} high")
    drawn += _groove(fitted, "back", half, units)
    drawn += _joints(fitted, "back", half, units)
    drawn += _bottom_screws(fitted, "back", half)
    return in_units(
        Scene(
            "box-back",
            f"Box back, drawer {fitted.id}",
            f"Box back {size_words('back', length, height, units)} seen from behind" + _listed(says),
            tuple(drawn),
        ),
        units,
    )


def subfront(fitted: FittedDrawer, units: Units = "mm") -> Scene:
    """The box's own front, seen from inside the box: outline, joints, groove, screw holes of the front.

    Raises:
        ValueError: the drawer does not fit, or its front is the box's own, so no subfront is made.
    """
    box = needed_parts(fitted).box
    if fitted.drawer.box.front == "integral":
        raise ValueError(f"drawer {fitted.id} has an integral front: no subfront is made")
    length, height, _ = part_size(fitted, "subfront", (box.inside_width, box.height, box.subfront))
    half = length / 2
    area = Bounds(-half, 0.0, half, height)
    drawn: list[Primitive] = [outline(area), *banding(fitted, "subfront", area, units)]
    drawn += overall(-half, half, 0.0, height, "subfront_length", "subfront_height")
    drawn += _groove(fitted, "front", half, units)
    drawn += _joints(fitted, "front", half, units)
    drawn += _bottom_screws(fitted, "front", half)
    drawn += _fixing_holes(fitted, half, box.height - height, units)
    drawn.append(side_word((0.0, height), "seen from inside the box", (0.0, -4.0)))
    return in_units(
        Scene(
            "subfront",
            f"Subfront, drawer {fitted.id}",
            f"Subfront {size_words('subfront', length, height, units)} seen from inside the box",
            tuple(drawn),
        ),
        units,
    )


def _listed(says: list[str]) -> str:
    return ": " + "; ".join(says) if says else ""


def _hook_bores(cuts: RearCuts, units: Units) -> list[Primitive]:
    drawn: list[Primitive] = []
    half, x, y = cuts.half, cuts.bore_x, cuts.bore_y
    for side in (-1.0, 1.0):
        centre = (side * x, y)
        drawn.append(Hole(centre, cuts.bore, cuts.bore_depth, "hook bore"))
        drawn += cross_lines(centre, cuts.bore / 2 + 4.0)
    note = f"2 × Ø {bored(cuts.bore, units)}, {bored(cuts.bore_depth, units)} deep"
    drawn.append(Leader((x, y), (-4.0, 8.0), -2.0, note, dot=False))
    ends = ((-half, y), (-x, y))
    below = -row_offset(1)
    drawn += [
        Dimension("hook_bore_in", half - x, *ends, "horizontal", 0.0, below, label_side="start"),
        Dimension("hook_bore_apart", 2 * x, (-x, y), (x, y), "horizontal", 0.0, below),
        Dimension("hook_bore_up", y, (-half, 0.0), (-x, y), "vertical", -half, -column_offset(0)),
    ]
    return drawn


def _notches(cuts: RearCuts) -> list[Primitive]:
    """Both notches in the lower corners; the wood that goes is hatched."""
    drawn: list[Primitive] = []
    inner, outer, height = cuts.notch_inner, cuts.notch_outer, cuts.notch_height
    for side in (-1.0, 1.0):
        a, b = sorted((side * inner, side * outer))
        away = Bounds(a, 0.0, b, height)
        drawn.append(rectangle(away, "outline", "paper", NOTCH))
        drawn.append(Hatch(away.corners, 45.0 if side < 0 else 135.0, HATCH_SPACING_CLOSE))
    ends = ((inner, 0.0), (outer, 0.0))
    drawn.append(Dimension("notch_width", outer - inner, *ends, "horizontal", 0.0, -row_offset(0)))
    up = ((cuts.half, 0.0), (inner, height))
    drawn.append(
        Dimension("notch_height", height, *up, "vertical", cuts.half, column_offset(0), label_side="start")
    )
    return drawn


def _groove(fitted: FittedDrawer, end: End, half: float, units: Units) -> list[Primitive]:
    """The bottom's groove; on the back it is in the other face."""
    lies = cross_groove(fitted, end)
    if lies is None:
        return []
    low, box = corner(fitted, end).low, needed_parts(fitted).box
    own = Bounds(lies.left, lies.bottom - low, lies.right, lies.top - low)
    pen: LineClass = "hidden" if end == "back" else "edge"
    face = "inside face" if end == "back" else "this face"
    drawn = draw_groove(own, box.groove_depth, pen, face, units, (-half, half))
    if end == "front":
        ends = ((-half, 0.0), (-half, own.bottom))
        drawn.append(Dimension("bottom_recess", own.bottom, *ends, "vertical", -half, -column_offset(0)))
    return drawn


def _joints(fitted: FittedDrawer, end: End, half: float, units: Units) -> list[Primitive]:
    """Bores in both ends, or sockets for the sides' tails; a rabbet is in the sides alone."""
    at = corner(fitted, end)
    if at.joint == "dowel":
        heights = dowel_heights(fitted, end)
        _, deep = dowel_depths(fitted, needed_parts(fitted).box.side)
        what, diameter, quantity = "dowel bores in the end grain", dowel_diameter(fitted), "dowel"
    elif at.joint == "butt" and fitted.drawer.existing_box is None:
        heights, deep = screw_heights(fitted, end), END_PILOT_DEPTH
        what, diameter, quantity = "pilot holes in the end grain", END_PILOT, "screw"
    else:
        return _sockets(fitted, end, half, units) if at.joint == "dovetail" else []
    own = tuple(y - at.low for y in heights)
    drawn: list[Primitive] = []
    for way in (-1.0, 1.0):
        drawn += end_bores(way * half, -way, own, diameter, deep, what)
    if own:
        drawn += row_of_heights(own, -half, 0.0, -half, -column_offset(1), f"{quantity}_{end}", units)
        note = f"{len(own)} × Ø {bored(diameter, units)}, {bored(deep, units)} deep"
        aside = _PAST_SCREWS if end == "front" else 5.0
        second = "in both ends, middle of the thickness"
        drawn.append(Leader((-half + deep, own[-1]), (aside, -4.0), 2.0, note, second, dot=False))
    return drawn


def _sockets(fitted: FittedDrawer, end: End, half: float, units: Units) -> list[Primitive]:
    """Half-blind sockets in both ends: their mouths on the inside face, and their flanks at full depth."""
    at, box = corner(fitted, end), needed_parts(fitted).box
    pen: LineClass = "hidden" if end == "back" else "edge"
    face = "inside face" if end == "back" else "this face"
    layer = f"dovetail sockets deep {at.depth:.4g} {face}"
    drawn: list[Primitive] = []
    found = tails(fitted, end)
    for way in (-1.0, 1.0):
        a, b = sorted((way * half, way * (half - box.side)))
        for tail in found:
            mouth = Bounds(a, tail.root_low - at.low, b, tail.root_high - at.low)
            drawn.append(rectangle(mouth, pen, layer=layer))
            flanks = tuple(((a, y - at.low), (b, y - at.low)) for y in (tail.low, tail.high))
            drawn.append(Lines(flanks, "hidden", f"dovetail sockets wide {face}"))
    if found:
        tip = (box.side - half, (found[-1].root_low + found[-1].root_high) / 2 - at.low)
        aside = _PAST_SCREWS if end == "front" else 5.0
        note = f"{len(found)} sockets a corner, {shown(at.depth, units)} deep"
        second = "in the other face" if end == "back" else f"{thick(box.side, units)} long"
        drawn.append(Leader(tip, (aside, -4.0), 2.0, note, second, dot=False))
    return drawn


def _bottom_screws(fitted: FittedDrawer, end: End, half: float) -> list[Primitive]:
    """Pilot holes up into the lower edge, where the bottom is screwed from below.

    The back is seen from behind: the drawer's left is at the right.
    """
    layer = f"pilot holes in the lower edge {EDGE_PILOT:g} mm deep {EDGE_PILOT_DEPTH:g}"
    drawn: list[Primitive] = []
    places = [x for x, _ in screw_places(fitted, end)]
    if end == "back":
        places = [0.0 - x for x in reversed(places)]
    for x in places:
        lies = Bounds(x - EDGE_PILOT / 2, 0.0, x + EDGE_PILOT / 2, EDGE_PILOT_DEPTH)
        drawn.append(rectangle(lies, "hidden", layer=layer))
        drawn.append(line((x, -4.0), (x, EDGE_PILOT_DEPTH + 3.0), "centre", "bore centres not cut"))
    return drawn


def _fixing_holes(fitted: FittedDrawer, half: float, lifted: float, units: Units) -> list[Primitive]:
    """Holes for the screws of the front, mirrored: they are told as seen from the front."""
    fixing = fitted.fixing
    if fixing is None or not fixing.holes:
        return []
    drawn: list[Primitive] = []
    places = [(-x, y - lifted) for x, y in fixing.holes]
    for place in places:
        drawn.append(Hole(place, FIXING_HOLE, None, "screw holes of the front"))
        drawn += cross_lines(place, FIXING_HOLE / 2 + 3.0)
    low, high = min(places), max(places)
    rows = sorted({y for _, y in places})
    columns = sorted({x for x, _ in places})
    note = f"{len(places)} × Ø {bored(FIXING_HOLE, units)}, through"
    second = f"screws up to {hardware(fixing.longest_screw, units)}"
    drawn.append(Leader(high, (-5.0, 5.0), -2.0, note, second, dot=False))
    drawn.append(
        Dimension(
            "fixing_in", half + low[0], (-half, 0.0), (low[0], rows[0]), "horizontal", 0.0, -row_offset(0),
            label_side="start", text=shown(half + low[0], units),
        )
    )  # fmt: skip
    for a, b in pairwise(columns):
        ends = ((a, rows[0]), (b, rows[0]))
        text = shown(b - a, units)
        drawn.append(Dimension("fixing_apart", b - a, *ends, "horizontal", 0.0, -row_offset(0), text=text))
    levels = [0.0, *rows]
    for below, above in zip(levels, rows, strict=False):
        ends = ((half, below), (columns[-1], above))
        text = shown(above - below, units)
        drawn.append(
            Dimension("fixing_up", above - below, *ends, "vertical", half, column_offset(0), text=text)
        )
    return drawn
