"""The quantities that an answer starts from: readings, the drawer as wished, and the slide family's data."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Given:
    """A quantity brought from outside: its unit, what it is, and where it comes from."""

    name: str
    unit: str
    title: str
    origin: str


_READING = "your reading"
_WISH = "the drawer as you want it"
FAMILY_DATA = "the slide family's data"
_BOARD = "the board's data"
CHOSEN = "chosen by the tool"
_ERROR = "error of making or measuring, 0 unless a study samples it"

_TABLE: dict[str, list[tuple[str, str, str]]] = {
    _READING: [
        ("measured_width", "mm", "smallest reading of the opening's width"),
        ("widest_width", "mm", "largest reading of the opening's width"),
        ("narrowest_at_slide", "mm", "smallest width reading at slide height"),
        ("widest_at_slide", "mm", "largest width reading at slide height"),
        ("taper", "mm", "how much wider the opening is at the back than at the front, at slide height"),
        ("lost_left", "mm", "width lost to hinge or door edge, left"),
        ("lost_right", "mm", "width lost to hinge or door edge, right"),
        ("opening_height", "mm", "smallest reading of the opening's height"),
        ("tallest_height", "mm", "largest reading of the opening's height"),
        ("opening_depth", "mm", "smallest depth to the first thing behind"),
        ("deepest_depth", "mm", "largest depth reading"),
        ("opening_floor", "mm", "bottom edge of the opening above the cabinet floor"),
        ("side_thickness", "mm", "thickness of the box sides as measured"),
        ("subfront_thickness", "mm", "thickness of the box front behind the applied front"),
        ("back_thickness", "mm", "thickness of the box back"),
        ("overhang_left", "mm", "how far the frame stands in from the left cabinet side"),
        ("overhang_right", "mm", "how far the frame stands in from the right cabinet side"),
        ("frame_thickness", "mm", "thickness of the face frame"),
        ("frame_lap", "mm", "how far the cabinet side is let into the frame"),
        ("cabinet_inside_width", "mm", "inside width of the cabinet"),
        ("first_row", "mm", "lowest row hole above the cabinet floor"),
        ("row_pitch", "mm", "distance from row hole to row hole"),
        ("shelf_fixed", "", "1: the shelf is screwed or locked down, 0: not told, -1: loose"),
        ("height_lean", "mm", "how much higher the opening is on the right than on the left"),
        ("diagonal_to_right", "mm", "diagonal of the opening that rises to the right"),
        ("diagonal_to_left", "mm", "diagonal of the opening that rises to the left"),
        ("things_left", "mm", "what stands in from the left: how far, its bottom, top and two depths, each"),
        (
            "things_right",
            "mm",
            "what stands in from the right: how far, its bottom, top and two depths, each",
        ),
        ("door_in_left", "mm", "how far a door that hinges left stands in at the opening's edge"),
        ("door_in_right", "mm", "how far a door that hinges right stands in at the opening's edge"),
        ("door_slope_left", "", "how much farther in it stands for each mm before the edge"),
        ("door_slope_right", "", "how much farther in it stands for each mm before the edge"),
        ("door_reach_left", "mm", "how far its open leaf reaches before the edge"),
        ("door_reach_right", "mm", "how far its open leaf reaches before the edge"),
        ("existing_inside_width", "mm", "inside width of the box as it is"),
        ("existing_outside_width", "mm", "outside width of the box as it is"),
        ("existing_length", "mm", "length of the box as it is"),
        ("existing_height", "mm", "height of the box as it is"),
        ("existing_unmeasured", "", "sizes of the box as it is that are not told: width, length, height"),
        ("existing_bottom_recess", "mm", "underside of its bottom above its lower edge"),
        ("existing_bore_in", "mm", "its hook bores from the inside faces of its sides"),
        ("existing_bore_up", "mm", "its hook bores above its bottom's underside"),
        ("existing_notch_width", "mm", "width of the notches in its back"),
        ("existing_notch_height", "mm", "height of the notches in its back"),
        ("row_below_top", "mm", "top of the opening below in the cabinet"),
        ("row_above_floor", "mm", "bottom of the opening above in the cabinet"),
    ],
    _WISH: [
        ("front_thickness", "mm", "thickness of the front"),
        ("overlay_left", "mm", "how far the front covers the left edge"),
        ("overlay_right", "mm", "how far the front covers the right edge"),
        ("overlay_top", "mm", "how far the front covers the top edge (half a gap inside it: negative)"),
        ("overlay_bottom", "mm", "how far the front covers the bottom edge (half a gap inside it: negative)"),
        ("front_gap", "mm", "gap beside the front"),
        ("bottom_thickness", "mm", "thickness of the box bottom"),
        ("groove_depth", "mm", "depth of the groove for the bottom"),
        ("joint_depth", "mm", "how deep the corner joint is let in"),
        ("bracket_screw", "mm", "length of the locking bracket's screws"),
        ("front_screw", "mm", "length of the screws that fix the front"),
        ("told_box_height", "mm", "box height as told"),
        ("kept_heights", "mm", "box heights that the shop keeps"),
        ("cut_out_width", "mm", "clear width of the cut-out for pipes"),
        ("cut_out_depth", "mm", "clear depth of the cut-out for pipes, from the back of the box"),
        ("cut_out_from_left", "mm", "cut-out from the inside of the box's left side"),
        ("contents_told", "kg", "contents as told"),
        ("contents_per_area", "kg/m²", "contents on the drawer bottom"),
        ("contents_per_volume", "kg/m³", "contents in the drawer's volume"),
    ],
    FAMILY_DATA: [
        ("inside_width_deduction", "mm", "inside-width deduction"),
        ("design_side", "mm", "side thickness that an outside-sized box assumes"),
        ("design_subfront", "mm", "subfront thickness that the locking bracket assumes"),
        ("least_side_gap", "mm", "least gap between box and opening, each side"),
        ("latch_tolerance_side", "mm", "how far the bracket may sit off its seat sideways"),
        ("latch_tolerance_along", "mm", "how far the bracket may sit off its seat lengthways"),
        ("band_low", "mm", "least difference of opening and box that the pair still runs in"),
        ("band_high", "mm", "greatest difference of opening and box that the pair still runs in"),
        ("clearance_under", "mm", "clearance under the box"),
        ("clearance_over", "mm", "clearance over the box"),
        ("rear_clearance", "mm", "clearance behind the member"),
        ("member_overlay", "mm", "depth of the member's front end behind an overlay front or none"),
        ("member_inset", "mm", "depth of the member's front end behind the back of an inset front"),
        ("box_ahead", "mm", "how far the subfront's face stands ahead of the member's front end"),
        ("setback", "mm", "depth of the first row hole when the front overlays"),
        ("screw_line_up", "mm", "screw line above the lower edge of the box"),
        ("rear_bracket_up", "mm", "rear bracket above the lower edge of the box"),
        ("on_shelf", "mm", "lower edge of the box above a shelf"),
        ("bottom_recess", "mm", "underside of the bottom above the lower edge of the sides"),
        ("bore", "mm", "diameter of the hook bore"),
        ("bore_depth", "mm", "depth of the hook bore"),
        ("notch_width", "mm", "width of the notch in the back for the member"),
        ("notch_height", "mm", "height of the notch in the back for the member"),
        ("bracket_angle", "°", "angle of the locking bracket's pilot holes from the face"),
        ("bore_in", "mm", "hook bore in from the seat of the box's inside face"),
        ("bore_up", "mm", "hook bore above the bottom's underside"),
        ("bracket_centre", "mm", "rear bracket's centre inside the frame's inside edge"),
        (
            "reach_low",
            "mm",
            "least distance from the member to the cabinet back that the rear bracket bridges",
        ),
        (
            "reach_high",
            "mm",
            "greatest distance from the member to the cabinet back that the rear bracket bridges",
        ),
        ("front_fix", "mm", "member's front screw behind its front end"),
        ("adjust_depth_high", "mm", "how far the depth adjuster can stand the box out"),
        ("adjust_depth_low", "mm", "how far the depth adjuster can draw the box in (negative)"),
        ("adjust_height_high", "mm", "how far the height adjusters can lift the front"),
        ("adjust_height_low", "mm", "how far the height adjusters can lower the front (negative)"),
        ("width_to_length", "", "box width to length beyond which a drawer racks"),
        ("capacity", "kg", "capacity of the pair"),
        ("counts_moving", "", "1: the capacity is of the moving mass, 0: of the contents"),
        ("member", "mm", "cabinet member, end to end"),
        ("carried_length", "mm", "box length that the slide carries"),
        ("travel", "mm", "how far the drawer comes out"),
        ("row_holes", "mm", "row holes and slots of the member, counted from the first row hole"),
        ("shelf_hole_count", "", "holes for screwing the member to a shelf"),
        ("takes_rear_bracket", "", "1: the member takes the rear bracket, 0: not"),
        ("hardware_mass", "kg", "metal that moves with the box"),
    ],
    _BOARD: [
        ("side_density", "kg/m³", "density of the box sides"),
        ("subfront_density", "kg/m³", "density of the subfront"),
        ("back_density", "kg/m³", "density of the box back"),
        ("bottom_density", "kg/m³", "density of the box bottom"),
        ("front_density", "kg/m³", "density of the front stock"),
        ("shelf_density", "kg/m³", "density of a shelf, taken to be of particleboard"),
    ],
    CHOSEN: [
        ("side_spacers", "mm", "spacers between bracket and box side"),
        ("subfront_spacers", "mm", "spacers between bracket and subfront"),
    ],
    _ERROR: [
        ("error_opening_width", "mm", "true opening less reading"),
        ("error_opening_depth", "mm", "true depth less reading"),
        ("error_opening_height", "mm", "true height less reading"),
        ("error_inside_width", "mm", "inside width made less inside width cut for"),
        ("error_side", "mm", "side thickness less reading"),
        ("error_subfront", "mm", "subfront thickness less reading"),
        ("error_member_depth", "mm", "member mounted too far in"),
        ("error_box_height", "mm", "box height made less box height cut for"),
        ("error_bracket_side_left", "mm", "left bracket screwed too far outboard"),
        ("error_bracket_side_right", "mm", "right bracket screwed too far outboard"),
        ("error_bracket_along_left", "mm", "left bracket screwed too far back from the front"),
        ("error_bracket_along_right", "mm", "right bracket screwed too far back from the front"),
        ("error_bore_up", "mm", "hook bore made too high"),
    ],
}

GIVEN: dict[str, Given] = {
    name: Given(name, unit, title, origin) for origin, rows in _TABLE.items() for name, unit, title in rows
}
ERRORS: tuple[str, ...] = tuple(item.name for item in GIVEN.values() if item.origin == _ERROR)
"""Quantities that are 0 in a fit and sampled where a study asks for the chance."""
