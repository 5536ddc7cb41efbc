"""Sizing: from readings and the slide family's data, what is cut and where it is mounted.

Shapes are the caller's; all lengths [mm]. Depths are counted into the cabinet, heights above its floor.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import Q, equation
from drawerwright.equations.rules import largest_kept, up_to_row
from drawerwright.equations.sources import FAMILY, GEOMETRY, PRACTICE, PRACTICE_FAMILY

CLOSED = ("overlay", "none")
ON_SIDES = ("side", "packed", "rear-bracket")


@equation("mm", source=GEOMETRY)
def opening_width(measured_width: Q, lost_left: Q, lost_right: Q) -> Q:
    """Opening width that the drawer has: the smallest reading less what hinges and door edges take."""
    return measured_width - lost_left - lost_right


@equation("mm", source=PRACTICE_FAMILY)
def seat_width(opening_width: Q, inside_width_deduction: Q) -> Q:
    """Distance between the seats of the box's inside faces."""
    return opening_width - inside_width_deduction


@equation("mm", source=PRACTICE_FAMILY, sized="inside", carriage="concealed")
def inside_width__inside(seat_width: Q) -> Q:
    """Inside width of the box: its inside faces stand on their seats."""
    return seat_width


@equation("mm", source=GEOMETRY, sized="outside", carriage="concealed")
def inside_width__outside(outside_width: Q, side_thickness: Q) -> Q:
    """Inside width of a box that is sized by its outside."""
    return outside_width - 2 * side_thickness


@equation("mm", source=GEOMETRY, sized=("inside", "outside"), carriage="side-mounted")
def inside_width__side_mounted(outside_width: Q, side_thickness: Q) -> Q:
    """Inside width of a box that carries the slides on its outside."""
    return outside_width - 2 * side_thickness


@equation("mm", source=GEOMETRY, sized="existing")
def inside_width__existing(existing_inside_width: Q) -> Q:
    """Inside width of the box as it is."""
    return existing_inside_width


@equation("mm", source=GEOMETRY, sized="inside", carriage="concealed")
def outside_width__inside(inside_width: Q, side_thickness: Q) -> Q:
    """Outside width of the box."""
    return inside_width + 2 * side_thickness


@equation("mm", source=PRACTICE_FAMILY, sized="outside", carriage="concealed")
def outside_width__outside(seat_width: Q, design_side: Q) -> Q:
    """Outside width as for a side of the family's design thickness."""
    return seat_width + 2 * design_side


@equation("mm", source=PRACTICE_FAMILY, sized=("inside", "outside"), carriage="side-mounted")
def outside_width__side_mounted(seat_width: Q, design_side: Q) -> Q:
    """Outside width that leaves the slides their room on both sides."""
    return seat_width + 2 * design_side


@equation("mm", source=GEOMETRY, sized="existing")
def outside_width__existing(existing_outside_width: Q) -> Q:
    """Outside width of the box as it is."""
    return existing_outside_width


@equation("mm", source=GEOMETRY)
def side_gap(opening_width: Q, outside_width: Q) -> Q:
    """Gap between box and opening, each side."""
    return (opening_width - outside_width) / 2


@equation("mm", source=FAMILY, style=CLOSED)
def front_end__overlay(member_overlay: Q) -> Q:
    """Depth of the member's front end."""
    return member_overlay


@equation("mm", source=PRACTICE_FAMILY, style="inset")
def front_end__inset(front_thickness: Q, member_inset: Q) -> Q:
    """Depth of the member's front end behind an inset front."""
    return front_thickness + member_inset


@equation("mm", source=PRACTICE_FAMILY)
def first_hole(front_end: Q, setback: Q, member_overlay: Q) -> Q:
    """Depth of the first row hole, a fixed place on the member."""
    return front_end + setback - member_overlay


@equation("mm", source=GEOMETRY, construction="frameless")
def side_edge_depth__frameless(opening_floor: Q) -> Q:
    """Depth of the cabinet side's front edge: it is where depths are counted from."""
    return 0 * opening_floor


@equation("mm", source=GEOMETRY, construction="face-frame")
def side_edge_depth__face_frame(frame_thickness: Q, frame_lap: Q) -> Q:
    """Depth of the cabinet side's front edge behind the face of the frame."""
    return frame_thickness - frame_lap


@equation("mm", source=GEOMETRY, length="slide")
def box_length__slide(carried_length: Q) -> Q:
    """Length of the box: the slide's."""
    return carried_length


@equation("mm", source=GEOMETRY, length="existing")
def box_length__existing(existing_length: Q) -> Q:
    """Length of the box as it is."""
    return existing_length


@equation("mm", source=FAMILY)
def front_depth(front_end: Q, box_ahead: Q) -> Q:
    """Depth of the subfront's outer face (negative: ahead of the cabinet's edge)."""
    return front_end - box_ahead


@equation("mm", source=PRACTICE_FAMILY, mount=ON_SIDES)
def bare_lower_edge__on_sides(opening_floor: Q, clearance_under: Q) -> Q:
    """Lower edge of the box above the cabinet floor, before it is moved to a row of holes."""
    return opening_floor + clearance_under


@equation("mm", source=FAMILY, mount="shelf")
def bare_lower_edge__shelf(opening_floor: Q, on_shelf: Q) -> Q:
    """Lower edge of the box above the cabinet floor, the member standing on a shelf."""
    return opening_floor + on_shelf


@equation("mm", source=PRACTICE, mount="side", rows="grid")
def moved_up__grid(bare_lower_edge: Q, screw_line_up: Q, first_row: Q, row_pitch: Q) -> Q:
    """How far the box is moved up to bring the screw line onto a row of holes."""
    return up_to_row(bare_lower_edge + screw_line_up, first_row, row_pitch)


@equation("mm", source=PRACTICE, mount="side", rows="free")
def moved_up__free(opening_floor: Q) -> Q:
    """No row of holes is told: the box stays where its clearance puts it."""
    return 0 * opening_floor


@equation("mm", source=PRACTICE, mount=("packed", "rear-bracket", "shelf"))
def moved_up__off_rows(opening_floor: Q) -> Q:
    """Packing, brackets and shelves take screws at any height."""
    return 0 * opening_floor


@equation("mm", source=GEOMETRY)
def lower_edge(bare_lower_edge: Q, moved_up: Q) -> Q:
    """Lower edge of the box above the cabinet floor."""
    return bare_lower_edge + moved_up


@equation("mm", source=FAMILY)
def screw_line(lower_edge: Q, screw_line_up: Q) -> Q:
    """Height of the member's screws above the cabinet floor."""
    return lower_edge + screw_line_up


@equation("mm", source=FAMILY, mount="rear-bracket")
def rear_bracket_height(lower_edge: Q, rear_bracket_up: Q) -> Q:
    """Height of the rear brackets above the cabinet floor."""
    return lower_edge + rear_bracket_up


@equation("mm", source=PRACTICE_FAMILY)
def box_height_limit(opening_floor: Q, opening_height: Q, clearance_over: Q, lower_edge: Q) -> Q:
    """Greatest height of the box under the opening's top edge."""
    return opening_floor + opening_height - clearance_over - lower_edge


@equation("mm", source=GEOMETRY)
def least_box_height(bottom_recess: Q, bottom_thickness: Q, bore_up: Q, bore: Q) -> Q:
    """Least height of a box that still holds its bottom and the hook bores."""
    return bottom_recess + np.maximum(bottom_thickness, bore_up + bore / 2)


@equation("mm", source=PRACTICE_FAMILY, height="any")
def box_height__any(box_height_limit: Q, least_box_height: Q) -> Q:
    """Height of the box: all that the opening gives."""
    return np.maximum(box_height_limit, least_box_height)


@equation("mm", source=PRACTICE, height="kept")
def box_height__kept(box_height_limit: Q, kept_heights: Q) -> Q:
    """Height of the box: the tallest that the shop keeps under the limit."""
    return largest_kept(box_height_limit, kept_heights)


@equation("mm", source=GEOMETRY, height="told")
def box_height__told(told_box_height: Q) -> Q:
    """Height of the box as told."""
    return told_box_height


@equation("mm", source=GEOMETRY, height="existing")
def box_height__existing(existing_height: Q) -> Q:
    """Height of the box as it is."""
    return existing_height


@equation("mm", source=PRACTICE_FAMILY, mount="rear-bracket", rear="as-is", hands=True)
def rear_bracket__as_is(overhang: Q, lost: Q, bracket_centre: Q) -> Q:
    """Centre of the rear bracket from the inside of the cabinet side."""
    return overhang + lost + bracket_centre


@equation("mm", source=PRACTICE_FAMILY, mount="rear-bracket", rear="packed", hands=True)
def rear_bracket__set_in(overhang: Q, lost: Q, bracket_centre: Q, wider_back: Q) -> Q:
    """Centre of the rear bracket from the inside of the cabinet side, set in where the back is wider."""
    return overhang + lost + bracket_centre + wider_back


@equation("mm", source=GEOMETRY, mount="packed", hands=True)
def packing__packed(overhang: Q, lost: Q) -> Q:
    """Packing between cabinet side and member."""
    return overhang + lost


@equation("mm", source=GEOMETRY, mount="side", hands=True)
def packing__side(lost: Q) -> Q:
    """Packing that makes up what hinges and door edges take."""
    return lost


@equation("mm", source=GEOMETRY, mount=("rear-bracket", "shelf"), hands=True)
def packing__none(lost: Q) -> Q:
    """Brackets and shelves need no packing."""
    return 0 * lost


@equation("mm", source=GEOMETRY)
def reach(opening_depth: Q, front_end: Q, member: Q) -> Q:
    """Distance from the member's rear end to the first thing behind."""
    return opening_depth - front_end - member


@equation("mm", source=GEOMETRY, style="overlay")
def front_width__overlay(widest_width: Q, overlay_left: Q, overlay_right: Q) -> Q:
    """Width of the front, from the largest reading."""
    return widest_width + overlay_left + overlay_right


@equation("mm", source=GEOMETRY, style="inset")
def front_width__inset(opening_width: Q, front_gap: Q) -> Q:
    """Width of the front, from the smallest reading."""
    return opening_width - 2 * front_gap


@equation("mm", source=GEOMETRY, style="none")
def front_width__none(measured_width: Q) -> Q:
    """No front is made."""
    return 0 * measured_width


@equation("mm", source=GEOMETRY, style="overlay")
def front_height__overlay(tallest_height: Q, overlay_top: Q, overlay_bottom: Q) -> Q:
    """Height of the front, from the largest reading; inner edges of a column take half the gap."""
    return tallest_height + overlay_top + overlay_bottom


@equation("mm", source=GEOMETRY, style="inset")
def front_height__inset(opening_height: Q, front_gap: Q) -> Q:
    """Height of the front, from the smallest reading."""
    return opening_height - 2 * front_gap


@equation("mm", source=GEOMETRY, style="none")
def front_height__none(opening_height: Q) -> Q:
    """No front is made."""
    return 0 * opening_height


@equation("mm", source=PRACTICE_FAMILY, style="overlay", front="applied")
def stands_out__overlay(box_ahead: Q, member_overlay: Q) -> Q:
    """Gap between the cabinet's edge and the back of the front, drawer closed."""
    return box_ahead - member_overlay


@equation("mm", source=PRACTICE_FAMILY, style="inset", front="applied")
def stands_out__inset(box_ahead: Q, member_inset: Q) -> Q:
    """How far the front's face stands out of the cabinet's (negative: recessed)."""
    return box_ahead - member_inset


@equation("mm", source=GEOMETRY, style="overlay", front="integral")
def stands_out__overlay_integral(box_ahead: Q, member_overlay: Q, design_subfront: Q) -> Q:
    """Gap between cabinet's edge and back of an integral front: brackets stand on its back."""
    return box_ahead - member_overlay - design_subfront


@equation("mm", source=GEOMETRY, style="inset", front="integral")
def stands_out__inset_integral(box_ahead: Q, member_inset: Q, design_subfront: Q) -> Q:
    """How far an integral front's face stands out of the cabinet's: brackets stand on its back."""
    return box_ahead - member_inset - design_subfront


@equation("mm", source=GEOMETRY, style="none")
def stands_out__none(opening_floor: Q) -> Q:
    """No front is made."""
    return 0 * opening_floor
