"""Template for notches and hook bores of the box back, seen from behind; broken in the middle.

Axes [mm]: x from the middle as seen from behind, so the drawer's right hand is at the left; y above the
lower edge of the box. Each corner is laid to its own end of the back.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Anchor, Text, line, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.templates.breaking import Broken, broken
from drawerwright.drawing.templates.marks import (
    HAND_SIZE,
    datum,
    datum_words,
    drawer_words,
    marked_hole,
    title_block,
)
from drawerwright.drawing.views.rear_cuts import RearCuts, rear_cuts
from drawerwright.drawing.views.standing import needed_parts
from drawerwright.drawing.wording import bored, shown
from drawerwright.model.fitted import FittedDrawer

CUT_AWAY: Final = "notches cut away"
_OVER_BORE = 24.0
_DIMENSION_IN = 9.0
_SLIGHT = 0.05


def box_back(fitted: FittedDrawer, ids: Sequence[str] | None = None, units: Units = "mm") -> Scene:
    """Both lower corners of the back at true size: notch, hook bore, ends, and the outside of the box.

    Raises:
        ValueError: the drawer does not fit, or its slides run beside the box and want no bore.
    """
    box = needed_parts(fitted).box
    cuts = rear_cuts(fitted)
    if cuts is None:
        raise ValueError(f"drawer {fitted.id} has no hook bores: its slides run beside the box")
    outside = max(box.outside_width / 2, cuts.half)
    features = [x * way for x in (cuts.bore_x, cuts.notch_inner) for way in (-1.0, 1.0)]
    lie = broken(-outside, outside, features)
    top = min(cuts.lifted + cuts.bore_y + _OVER_BORE, box.height)
    drawn: list[Primitive] = []
    for way in (-1.0, 1.0):
        drawn += _corner(fitted, cuts, lie, way, top, units)
    for left, right in lie.stretches():
        drawn.append(datum((left, cuts.lifted), (right, cuts.lifted)))
        drawn.append(line((left, top), (right, top), "fine", "broken off"))
    drawn += lie.breaks(0.0, top)
    left, right = lie.edges
    says = [
        drawer_words(fitted, ids),
        "seen from behind; left and right as the drawer is pulled; broken in the middle",
        f"hook bores Ø {bored(cuts.bore, units)}, {bored(cuts.bore_depth, units)} deep; hatched: cut away",
    ]
    drawn += title_block(left, right, top + 23.0, None, "Box back: notches and hook bores", says)
    place = f"{shown(cuts.half - cuts.bore_x, units)} from each end, {shown(cuts.bore_y, units)} up"
    return Scene(
        "template-box-back",
        f"Box back, {drawer_words(fitted, ids)}",
        f"Template at true size for the box back seen from behind, broken in the middle: hook bores {place}",
        tuple(drawn),
    )


def _corner(
    fitted: FittedDrawer, cuts: RearCuts, lie: Broken, way: float, top: float, units: Units
) -> list[Primitive]:
    """One corner; `way` is −1 at the left as seen from behind, where the drawer's right hand is."""
    box = needed_parts(fitted).box
    end, outside = lie.place(way * cuts.half), lie.place(way * max(box.outside_width / 2, cuts.half))
    y = cuts.lifted + cuts.bore_y
    at = (lie.place(way * cuts.bore_x), y)
    drawn: list[Primitive] = [datum((end, cuts.lifted), (end, top))]
    if abs(outside - end) > _SLIGHT:
        drawn.append(datum((outside, 0.0), (outside, top)))
        drawn.append(line((outside, 0.0), (end, 0.0), "outline", "lower edge of the box side"))
        if cuts.lifted > 0:
            drawn.append(line((end, 0.0), (end, cuts.lifted), "outline", "lower edge of the box side"))
    if cuts.notch_height > 0:
        inner, outer = lie.place(way * cuts.notch_inner), lie.place(way * cuts.notch_outer)
        away = Bounds(min(inner, outer), cuts.lifted, max(inner, outer), cuts.lifted + cuts.notch_height)
        drawn.append(rectangle(away, "outline", layer=CUT_AWAY))
        drawn.append(Hatch(away.corners, 45.0 if way < 0 else 135.0, 2.4))
    drawn += marked_hole(at, cuts.bore, cuts.bore_depth, "hook bore")
    inward = -way
    beside = lie.place(way * min(cuts.notch_inner, cuts.bore_x)) + inward * _DIMENSION_IN
    bore_in, up = cuts.half - cuts.bore_x, cuts.bore_y
    drawn += [
        Dimension(
            "hook_bore_in",
            bore_in,
            (end, y),
            at,
            "horizontal",
            y,
            9.0,
            text=shown(bore_in, units),
            label_side="end" if way < 0 else "start",
        ),
        Dimension(
            "hook_bore_up",
            up,
            (at[0], cuts.lifted),
            at,
            "vertical",
            beside,
            text=shown(up, units),
            label_side="end",
        ),
        Text(
            (outside, top + 9.0),
            "RIGHT" if way < 0 else "LEFT",
            HAND_SIZE,
            "start" if way < 0 else "end",
            "semibold",
        ),
    ]
    far = abs(outside - end) > _SLIGHT
    edge_words = "end of the back" if far else "end of the back, outside of the box"
    drawn.append(datum_words((end, top), edge_words, (inward * 2.0, -3.6), "start" if way < 0 else "end"))
    if far:
        anchor: Anchor = "start" if way < 0 else "end"
        drawn.append(datum_words((outside, top), "outside of the box", (0.0, 2.6), anchor))
    return drawn
