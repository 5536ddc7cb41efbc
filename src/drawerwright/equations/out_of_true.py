"""Openings out of true: lean by heights and diagonals, packing of the members' rear. Margins [mm]."""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Cure, Q, equation
from drawerwright.equations.rules import diagonal_of, mean_diagonal, out_of_square_deg, side_beside
from drawerwright.equations.sources import FAMILY, GEOMETRY, PRACTICE, PRACTICE_FAMILY, TOOL

READINGS_OFF = 2
MOST_PACKED = 10
ON_SIDES = ("side", "packed")


@equation("mm", source=PRACTICE, hands=True)
def wider_back(taper: Q) -> Q:
    """Half of what the opening is wider at the back: packing of a member's rear end."""
    return np.maximum(taper, 0) / 2


@equation("mm", source=PRACTICE)
def wider_front(taper: Q) -> Q:
    """Half of what the opening is wider at the front: packing of each member's front end."""
    return np.maximum(-taper, 0) / 2


@equation("mm", source=PRACTICE, hands=True, rear="packed", mount=ON_SIDES)
def rear_packing__packed(wider_back: Q) -> Q:
    """Packing under the rear end of the member, beside any packing along all of it."""
    return wider_back


@equation("mm", source=PRACTICE, hands=True, rear="packed", mount=("rear-bracket", "shelf"))
def rear_packing__set_in(wider_back: Q) -> Q:
    """Brackets and shelf screws are set in by as much instead: nothing is packed."""
    return 0 * wider_back


@equation("mm", source=PRACTICE, hands=True, rear="as-is")
def rear_packing__as_is(wider_back: Q) -> Q:
    """The shop does not pack the rear of the members."""
    return 0 * wider_back


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    readings="labelled",
    rear="as-is",
    check=CheckRule(
        "opening-taper",
        says="At slide height the back is {taper:wider|narrower} than the front; the pair runs between "
        "{band_low} and {band_high}.",
        cures=(
            Cure(
                "taper",
                1,
                "Pack the rear of each member by {wider_back_left} (and tell the drawer so: rear packed), or "
                "plane the front where it stands in.",
            ),
            Cure(
                "taper",
                -1,
                "Pack the front of each member by {wider_front}, or plane the back where it stands in.",
            ),
        ),
    ),
)
def taper_margin__labelled(taper: Q, band_low: Q, band_high: Q) -> Q:
    """How far the taper stays inside the band."""
    return np.minimum(taper - band_low, band_high - taper)


@equation(
    "mm",
    source=TOOL,
    readings="labelled",
    rear="packed",
    check=CheckRule(
        "opening-taper",
        says="At slide height the back is {taper:wider|narrower} than the front: the rear of the left member "
        "is packed or set in by {wider_back_left}, of the right one by {wider_back_right}.",
        cures=(
            Cure("taper", 1, "At the rear up to 10 a side are packed: measure again, or plane the front."),
            Cure(
                "taper",
                -1,
                "Only a wider back is packed at the rear: pack the front of each member by {wider_front}, or "
                "measure again.",
            ),
        ),
    ),
)
def taper_margin__rear_packed(taper: Q, band_low: Q) -> Q:
    """How far the taper is from more than packing makes up, or from a narrower back than the pair runs in."""
    return np.minimum(taper - band_low, 2 * MOST_PACKED - taper)


@equation("mm", source=FAMILY)
def height_adjusters(adjust_height_low: Q, adjust_height_high: Q) -> Q:
    """What the height adjusters make up between left and right."""
    return adjust_height_high - adjust_height_low


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    heights="labelled",
    check=CheckRule(
        "opening-lean",
        says="On the right the opening is {height_lean:higher|lower} than on the left; the height adjusters "
        "make up {height_adjusters}.",
        cure="Set both members off one level line, not off the floor of the opening; plane or scribe the "
        "front to the edge that runs off.",
        only_watches=True,
    ),
)
def lean_margin(height_adjusters: Q, height_lean: Q) -> Q:
    """What is left of the height adjusters when they stand against the lean of the opening."""
    return height_adjusters - np.abs(height_lean)


@equation("°", source=GEOMETRY, diagonals="told")
def out_of_square(diagonal_to_right: Q, diagonal_to_left: Q, measured_width: Q, opening_height: Q) -> Q:
    """How far the opening leans to the right, by its diagonals."""
    return out_of_square_deg(diagonal_to_right, diagonal_to_left, measured_width, opening_height)


@equation("mm", source=GEOMETRY, diagonals="told")
def box_lean(box_height: Q, out_of_square: Q) -> Q:
    """How far the opening runs off to the right over the height of the box."""
    return box_height * np.tan(np.deg2rad(out_of_square))


@equation("mm", source=GEOMETRY, diagonals="told", style=("overlay", "none"))
def square_care__covered(side_gap: Q, box_lean: Q) -> Q:
    """Half of the gap over what the opening runs off beside the box; no gap of a front shows it."""
    return side_gap / 2 - np.abs(box_lean)


@equation("mm", source=GEOMETRY, diagonals="told", style="inset")
def square_care__inset(front_gap: Q, front_height: Q, out_of_square: Q) -> Q:
    """Half of the gap beside an inset front over what the opening runs off along it."""
    return front_gap / 2 - np.abs(front_height * np.tan(np.deg2rad(out_of_square)))


@equation(
    "mm",
    source=GEOMETRY,
    diagonals="told",
    check=CheckRule(
        "opening-square",
        says="By its diagonals the opening leans {out_of_square:to the right|to the left}, "
        "{box_lean:to the right|to the left} over the height of the box; beside the box there is {side_gap}.",
        cure="A lower box, or pack the members out where the opening leans away and take its width off.",
        care="square_care",
        care_says="More than half of the gap is gone at one corner: plumb what leans, or plane an inset "
        "front to the opening.",
    ),
)
def square_margin(side_gap: Q, box_lean: Q) -> Q:
    """What is left of the side gap at the upper edge of a box that stands square."""
    return side_gap - np.abs(box_lean)


@equation("mm", source=GEOMETRY, diagonals="told")
def read_diagonal(diagonal_to_right: Q, diagonal_to_left: Q) -> Q:
    """The diagonal that the opening would have if it were square, by its two diagonals."""
    return mean_diagonal(diagonal_to_right, diagonal_to_left)


@equation("mm", source=GEOMETRY, diagonals="told")
def least_diagonal(measured_width: Q, opening_height: Q) -> Q:
    """The diagonal by the smallest width and height."""
    return diagonal_of(measured_width, opening_height)


@equation("mm", source=GEOMETRY, diagonals="told")
def greatest_diagonal(widest_width: Q, tallest_height: Q) -> Q:
    """The diagonal by the largest width and height."""
    return diagonal_of(widest_width, tallest_height)


@equation("mm", source=GEOMETRY, diagonals="told")
def width_by_diagonals(read_diagonal: Q, opening_height: Q) -> Q:
    """The width that would go with the diagonals and the height."""
    return side_beside(read_diagonal, opening_height)


@equation("mm", source=GEOMETRY, diagonals="told")
def height_by_diagonals(read_diagonal: Q, measured_width: Q) -> Q:
    """The height that would go with the diagonals and the width."""
    return side_beside(read_diagonal, measured_width)


@equation(
    "mm",
    source=TOOL,
    diagonals="told",
    check=CheckRule(
        "readings-agree",
        says="The diagonals speak of {read_diagonal} from corner to corner, width and height of "
        "{least_diagonal} to {greatest_diagonal}.",
        cure="They cannot all be right. The diagonals would want a width of {width_by_diagonals} with this "
        "height, or a height of {height_by_diagonals} with this width: measure again first what is farther "
        "off, then both diagonals, into the corners.",
        only_watches=True,
    ),
)
def readings_margin(read_diagonal: Q, least_diagonal: Q, greatest_diagonal: Q) -> Q:
    """How well the diagonals close on width and height, within what tape readings may be off."""
    return READINGS_OFF - np.maximum(
        np.maximum(least_diagonal - read_diagonal, read_diagonal - greatest_diagonal), 0
    )
