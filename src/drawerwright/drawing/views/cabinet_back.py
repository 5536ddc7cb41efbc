"""Cabinet back seen from the front, marked out for rear brackets.

Axes [mm]: x to the right from the middle of the opening, y above the cabinet floor. Nothing is bored:
the brackets' own holes are not told by the families, only their centres.
"""

from __future__ import annotations

from drawerwright.drawing.dimensioning import row_offset
from drawerwright.drawing.primitives import Lines, Polyline, line
from drawerwright.drawing.scene import Dimension, LabelSide, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.standing import needed_parts, standing
from drawerwright.drawing.wording import shown
from drawerwright.model.fitted import FittedDrawer

_ABOVE = 60.0
_ARM = 15.0


def cabinet_back(fitted: FittedDrawer, units: Units = "mm") -> Scene:
    """Centres of both rear brackets, from the insides of the cabinet sides and from the floor.

    Raises:
        ValueError: the drawer does not fit, or is not mounted on rear brackets.
    """
    mounting = needed_parts(fitted).mounting
    left, right, y = mounting.rear_bracket_left, mounting.rear_bracket_right, mounting.rear_bracket_height
    if left is None or right is None or y is None:
        raise ValueError(f"drawer {fitted.id} is not mounted on rear brackets")
    stand = standing(fitted)
    top = y + _ABOVE
    edges = (
        (stand.inner_left, top),
        (stand.inner_left, 0.0),
        (stand.inner_right, 0.0),
        (stand.inner_right, top),
    )
    layer = "cabinet back not cut"
    drawn: list[Primitive] = [Polyline(edges, "outline", layer), line(edges[0], edges[3], "fine", layer)]
    hands: tuple[tuple[str, float, float, float, LabelSide], ...] = (
        ("rear_bracket_left", left, stand.inner_left, stand.inner_left + left, "start"),
        ("rear_bracket_right", right, stand.inner_right, stand.inner_right - right, "end"),
    )
    for name, value, edge, x, side in hands:
        cross = (((x - _ARM, y), (x + _ARM, y)), ((x, y - _ARM), (x, y + _ARM)))
        drawn.append(Lines(cross, "centre", "rear bracket centres not bored"))
        ends = ((edge, 0.0), (x, y))
        drawn.append(Dimension(name, value, *ends, "horizontal", 0.0, -row_offset(0), label_side=side))
    apart = stand.inner_right - right - stand.inner_left - left
    ends = ((stand.inner_left + left, y), (stand.inner_right - right, y))
    drawn.append(Dimension("rear_brackets_apart", apart, *ends, "horizontal", 0.0, -row_offset(1)))
    x = stand.inner_left + left + 30.0
    heights = ((x, 0.0), (stand.inner_left + left, y))
    drawn.append(Dimension("rear_bracket_height", y, *heights, "vertical", x, 0.0))
    made = Scene(
        "cabinet-back",
        f"Cabinet back, drawer {fitted.id}",
        f"Cabinet back from the front: rear brackets {shown(left, units)} from the left side and "
        f"{shown(right, units)} from the right, {shown(y, units)} above the floor",
        tuple(drawn),
    )
    return in_units(made, units)
