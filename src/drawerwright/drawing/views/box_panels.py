"""The panels of the box at true size: back, sides, subfront, bottom, and the front, as a shop makes them.

Axes [mm]. Back and subfront: x from the middle, y from the panel's own lower edge; the back is seen from
behind, the subfront from inside the box. Sides: x from the front end, y from the lower edge, seen from
inside the box. Bottom: x from the middle, y from its front edge, seen from above.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import HATCH_SPACING_CLOSE, LineClass
from drawerwright.drawing.primitives import Hole, line, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Primitive, Scene, mirror
from drawerwright.drawing.views.cabinet_side import Hand
from drawerwright.drawing.views.standing import needed_parts, part_size, standing
from drawerwright.drawing.wording import shown_length
from drawerwright.model.fitted import FittedDrawer

OUTLINE: Final = "outline"
NOTCH: Final = "notch"


def box_back(fitted: FittedDrawer) -> Scene:
    """The box back seen from behind: outline, notches, hook bores and the groove on its other face.

    Notch and bore stay where the slide is: they are measured from the seat of the box's inside face,
    half of (opening width less the family's deduction) from the middle, not from the face as made.

    Raises:
        ValueError: the drawer does not fit.
    """
    parts = needed_parts(fitted)
    box, rear = parts.box, parts.slide.family.rear
    stand = standing(fitted)
    length, height, _ = part_size(fitted, "back", (box.inside_width, box.height, box.back))
    half, lifted = length / 2, box.height - height
    drawn: list[Primitive] = [rectangle(Bounds(-half, 0.0, half, height), "outline", "wood", OUTLINE)]
    drawn += _width_and_height(-half, half, height, "back_length", "back_height")
    says = []
    if stand.concealed:
        bore_x, bore_y = stand.seat - rear.bore_in, box.bottom_recess + rear.bore_up - lifted
        drawn += _hook_bores(bore_x, bore_y, half, rear.bore, rear.bore_depth)
        says.append(
            f"hook bores Ø {shown_length(rear.bore)}, {shown_length(rear.bore_depth)} deep, "
            f"{shown_length(half - bore_x, 2)} from each end and {shown_length(bore_y, 2)} up"
        )
        notch_height = rear.notch_height - lifted
        if notch_height > 0:
            outer = min(half, box.inside_width / 2)
            inner = stand.seat - rear.notch_width
            drawn += _notches(inner, outer, half, notch_height)
            says.append(
                f"notches {shown_length(outer - inner, 2)} wide, {shown_length(notch_height, 2)} high"
            )
    if fitted.drawer.box.bottom == "groove-4":
        drawn += _groove(
            -half, half, box.bottom_recess, box.bottom, box.groove_depth, "hidden", "inside face"
        )
    return Scene(
        "box-back",
        f"Box back, drawer {fitted.id}",
        f"Box back {shown_length(length)} by {shown_length(height)} seen from behind" + _listed(says),
        tuple(drawn),
    )


def _hook_bores(x: float, y: float, half: float, diameter: float, depth: float) -> list[Primitive]:
    drawn: list[Primitive] = []
    reach = diameter / 2 + 4.0
    for side in (-1.0, 1.0):
        centre = (side * x, y)
        drawn.append(Hole(centre, diameter, depth, "hook bore"))
        drawn.append(line((centre[0] - reach, y), (centre[0] + reach, y), "centre", "bore centres not cut"))
        drawn.append(line((centre[0], y - reach), (centre[0], y + reach), "centre", "bore centres not cut"))
    note = f"2 × Ø {shown_length(diameter)}, {shown_length(depth)} deep"
    drawn.append(Leader((x, y), (-4.0, 8.0), -2.0, note, dot=False))
    drawn.append(
        Dimension(
            "hook_bore_in",
            half - x,
            (-half, y),
            (-x, y),
            "horizontal",
            0.0,
            -row_offset(1),
            label_side="start",
        )
    )
    drawn.append(Dimension("hook_bore_apart", 2 * x, (-x, y), (x, y), "horizontal", 0.0, -row_offset(1)))
    drawn.append(Dimension("hook_bore_up", y, (-half, 0.0), (-x, y), "vertical", -half, -column_offset(0)))
    return drawn


def _notches(inner: float, outer: float, half: float, height: float) -> list[Primitive]:
    """Both notches in the lower corners; the wood that goes is hatched."""
    drawn: list[Primitive] = []
    for side in (-1.0, 1.0):
        a, b = sorted((side * inner, side * outer))
        away = Bounds(a, 0.0, b, height)
        drawn.append(rectangle(away, "outline", "paper", NOTCH))
        drawn.append(Hatch(away.corners, 45.0 if side < 0 else 135.0, HATCH_SPACING_CLOSE))
    width = outer - inner
    drawn.append(
        Dimension("notch_width", width, (inner, 0.0), (outer, 0.0), "horizontal", 0.0, -row_offset(0))
    )
    drawn.append(
        Dimension(
            "notch_height",
            height,
            (half, 0.0),
            (inner, height),
            "vertical",
            half,
            column_offset(0),
            label_side="start",
        )
    )
    return drawn


def box_side(fitted: FittedDrawer, hand: Hand) -> Scene:
    """A box side seen from inside the box: outline and groove; the right-hand one is the mirror.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    length, height, _ = part_size(fitted, "side", (box.length, box.height, box.side))
    drawn: list[Primitive] = [rectangle(Bounds(0.0, 0.0, length, height), "outline", "wood", OUTLINE)]
    drawn += _width_and_height(0.0, length, height, "side_length", "box_height")
    if fitted.drawer.box.bottom != "under":
        drawn += _groove(0.0, length, box.bottom_recess, box.bottom, box.groove_depth, "edge", "this face")
        drawn.append(_recess(0.0, box.bottom_recess))
    left = Scene(
        "box-side-left",
        f"Left box side, drawer {fitted.id}",
        f"Left box side {shown_length(length)} by {shown_length(height)}, from inside, front at the left",
        tuple(drawn),
    )
    if hand == "left":
        return left
    there = mirror(left)
    return replace(
        there,
        name="box-side-right",
        title=there.title.replace("Left", "Right"),
        alt=there.alt.replace("Left", "Right").replace("front at the left", "front at the right"),
    )


def subfront(fitted: FittedDrawer) -> Scene:
    """The box's own front, seen from inside the box: outline and groove.

    Raises:
        ValueError: the drawer does not fit, or its front is the box's own, so no subfront is made.
    """
    box = needed_parts(fitted).box
    if fitted.drawer.box.front == "integral":
        raise ValueError(f"drawer {fitted.id} has an integral front: no subfront is made")
    length, height, _ = part_size(fitted, "subfront", (box.inside_width, box.height, box.subfront))
    half = length / 2
    drawn: list[Primitive] = [rectangle(Bounds(-half, 0.0, half, height), "outline", "wood", OUTLINE)]
    drawn += _width_and_height(-half, half, height, "subfront_length", "subfront_height")
    if fitted.drawer.box.bottom != "under":
        drawn += _groove(-half, half, box.bottom_recess, box.bottom, box.groove_depth, "edge", "this face")
        drawn.append(_recess(-half, box.bottom_recess))
    return Scene(
        "subfront",
        f"Subfront, drawer {fitted.id}",
        f"Subfront {shown_length(length)} by {shown_length(height)} seen from inside the box",
        tuple(drawn),
    )


def bottom(fitted: FittedDrawer) -> Scene:
    """The bottom panel, seen from above: its outline.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    along, across, _ = part_size(
        fitted, "bottom", (box.length - box.subfront - box.back, box.inside_width, box.bottom)
    )
    return _plain_panel(fitted, "bottom", "Bottom", across, along, "bottom_width", "bottom_length")


def front_panel(fitted: FittedDrawer) -> Scene:
    """The applied front, seen from the front: its outline.

    Raises:
        ValueError: the drawer does not fit, or has no front.
    """
    needed_parts(fitted)
    front = fitted.front
    if front is None or front.style == "none":
        raise ValueError(f"drawer {fitted.id} has no front")
    return _plain_panel(fitted, "front", "Front", front.width, front.height, "front_width", "front_height")


def _plain_panel(
    fitted: FittedDrawer, name: str, word: str, width: float, height: float, across: str, up: str
) -> Scene:
    outline = rectangle(Bounds(-width / 2, 0.0, width / 2, height), "outline", "wood", OUTLINE)
    return Scene(
        f"{name}-panel",
        f"{word}, drawer {fitted.id}",
        f"{word} {shown_length(width)} by {shown_length(height)}",
        (outline, *_width_and_height(-width / 2, width / 2, height, across, up)),
    )


def _width_and_height(left: float, right: float, height: float, across: str, up: str) -> list[Primitive]:
    """Dimensions over the top and at the right."""
    return [
        Dimension(across, right - left, (left, height), (right, height), "horizontal", height, row_offset(0)),
        Dimension(up, height, (right, 0.0), (right, height), "vertical", right, column_offset(1)),
    ]


def _groove(
    left: float, right: float, low: float, width: float, depth: float, pen: LineClass, face: str
) -> list[Primitive]:
    """A groove from end to end; its layer says which face, how wide and how deep."""
    layer = f"groove {width:g} mm wide deep {depth:g} {face}"
    lies = Bounds(left, low, right, low + width)
    note = f"groove {shown_length(width)} wide, {shown_length(depth)} deep"
    tip = (left + (right - left) * 0.4, low + width / 2)
    return [
        rectangle(lies, pen, layer=layer),
        Leader(tip, (3.0, 8.0), 2.0, note, "in the other face" if pen == "hidden" else "", dot=False),
    ]


def _recess(left: float, recess: float) -> Dimension:
    return Dimension(
        "bottom_recess",
        recess,
        (left, 0.0),
        (left, recess),
        "vertical",
        left,
        -column_offset(0),
        label_side="end",
    )


def _listed(says: list[str]) -> str:
    return ": " + "; ".join(says) if says else ""
