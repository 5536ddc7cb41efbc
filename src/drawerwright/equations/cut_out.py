"""Cut-outs: a U-shaped box goes round pipes; the pieces of its back must still hold notch and hook.

The back is made whole, notched and bored, and then sawn: what is as wide as the cut-out falls out. Two inner
sides and an inner back stand on the bottom round the cut-out; the bottom is cut with it. Lengths [mm].
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.sources import GEOMETRY, PRACTICE_FAMILY, STATICS

CUBIC_METRE = 1e9
SHAPED = ("cut-out", "cut-out-at")


@equation("mm", source=GEOMETRY, shape="cut-out")
def back_piece_left__middle(inside_width: Q, cut_out_width: Q) -> Q:
    """Clear length of the back that stays left of the cut-out, from the inside of the box's side."""
    return (inside_width - cut_out_width) / 2


@equation("mm", source=GEOMETRY, shape="cut-out-at")
def back_piece_left__told(cut_out_from_left: Q) -> Q:
    """Clear length of the back that stays left of the cut-out, as told."""
    return cut_out_from_left + 0


@equation("mm", source=GEOMETRY, shape=SHAPED)
def back_piece_right(inside_width: Q, back_piece_left: Q, cut_out_width: Q) -> Q:
    """Clear length of the back that stays right of the cut-out."""
    return inside_width - back_piece_left - cut_out_width


@equation("mm", source=PRACTICE_FAMILY, shape=SHAPED, carriage="concealed")
def least_back_piece__concealed(notch_width: Q, bore_in: Q, bore: Q) -> Q:
    """Least length of a piece of back: notch and hook bore, and a bore's width of wood beside them."""
    return np.maximum(notch_width, bore_in + bore / 2) + bore


@equation("mm", source=GEOMETRY, shape=SHAPED, carriage="side-mounted")
def least_back_piece__side_mounted(side_thickness: Q) -> Q:
    """Least length of a piece of back without notch or bore: it closes the box beside an inner side."""
    return side_thickness + 0


@equation("mm", source=GEOMETRY, shape=SHAPED)
def before_cut_out(inside_length: Q, cut_out_depth: Q) -> Q:
    """Clear length of the box before the cut-out and its inner back."""
    return inside_length - cut_out_depth


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    shape=SHAPED,
    check=CheckRule(
        "cut-out",
        says="Beside the cut-out {back_piece_left} of the back stay left and {back_piece_right} right, "
        "notch and hook want {least_back_piece}; before it the box is {before_cut_out} long inside.",
        cure="A narrower or shallower cut-out, or one that stands nearer the middle.",
    ),
)
def cut_out_margin(back_piece_left: Q, back_piece_right: Q, least_back_piece: Q, before_cut_out: Q) -> Q:
    """What the smaller piece of the back has over what notch and hook want; a box must be left before it."""
    return np.minimum(np.minimum(back_piece_left, back_piece_right) - least_back_piece, before_cut_out)


@equation("mm", source=GEOMETRY, shape=SHAPED)
def inner_height(box_height: Q, bottom_recess: Q, bottom_thickness: Q) -> Q:
    """Height of the inner sides and the inner back, which stand on the bottom."""
    return box_height - bottom_recess - bottom_thickness


@equation("mm", source=GEOMETRY, shape=SHAPED)
def inner_side_length(cut_out_depth: Q, back_thickness: Q) -> Q:
    """Length of an inner side, from the back's inside to the inner back."""
    return cut_out_depth - back_thickness


@equation("mm", source=GEOMETRY, shape=SHAPED)
def inner_back_length(cut_out_width: Q, side_thickness: Q) -> Q:
    """Length of the inner back, across the ends of both inner sides."""
    return cut_out_width + 2 * side_thickness


@equation("mm", source=GEOMETRY, shape=SHAPED, bottom="groove-4")
def bottom_cut__grooved(cut_out_depth: Q, back_thickness: Q, groove_depth: Q) -> Q:
    """How far the cut-out goes into the bottom from its rear edge, which stands in the back's groove."""
    return cut_out_depth - back_thickness + groove_depth


@equation("mm", source=GEOMETRY, shape=SHAPED, bottom=("groove-3", "under"))
def bottom_cut__to_the_rear(cut_out_depth: Q) -> Q:
    """How far the cut-out goes into a bottom that ends with the back."""
    return cut_out_depth + 0


@equation("kg", source=STATICS, shape=SHAPED)
def inner_mass(
    inner_side_length: Q,
    inner_back_length: Q,
    inner_height: Q,
    side_thickness: Q,
    side_density: Q,
    back_thickness: Q,
    back_density: Q,
) -> Q:
    """Mass of the two inner sides and the inner back."""
    return (
        (
            2 * inner_side_length * side_thickness * side_density
            + inner_back_length * back_thickness * back_density
        )
        / CUBIC_METRE
        * inner_height
    )


@equation("kg", source=STATICS, shape=SHAPED)
def sawn_out_mass(
    cut_out_width: Q,
    back_height: Q,
    back_thickness: Q,
    back_density: Q,
    bottom_cut: Q,
    bottom_thickness: Q,
    bottom_density: Q,
) -> Q:
    """Mass of what is sawn out of back and bottom."""
    return (
        cut_out_width
        * (back_height * back_thickness * back_density + bottom_cut * bottom_thickness * bottom_density)
        / CUBIC_METRE
    )
