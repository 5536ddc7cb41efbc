"""Checks of how the members are mounted and the front comes home. Margins [mm] unless said."""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Cure, Q, equation
from drawerwright.equations.rules import places_between
from drawerwright.equations.sources import FAMILY, GEOMETRY, PRACTICE, PRACTICE_FAMILY, TOOL

FRAMED = "face-frame"
FOUR_READINGS = 2
ON_SIDES = ("side", "packed")
LEAST_HOLES = 2
"""Screws that keep a member from turning on the cabinet side. Common practice, no source."""
_FEW_HOLES = (
    "The family tells {holes_in_side} row holes or slots of this length that meet the cabinet side; 2 are "
    "wanted, for a member turns about one: mark them through the member itself, and tell them in the family."
)


@equation("", source=GEOMETRY, mount=ON_SIDES)
def holes_in_side(
    row_holes: Q, first_hole: Q, side_edge_depth: Q, front_end: Q, member: Q, opening_depth: Q
) -> Q:
    """Row holes and slots that stand on the member and before the cabinet side, behind its front edge."""
    return places_between(
        row_holes, first_hole, side_edge_depth, np.minimum(front_end + member, opening_depth)
    )


@equation("", source=PRACTICE, mount=ON_SIDES)
def held_by_holes(holes_in_side: Q) -> Q:
    """Row holes and slots over the two that a member wants.

    It only watches: a member has holes whether its family tells them or not, and no size of the drawer hangs
    on them. But without them nothing can be bored before the slides are there, and that must be said.
    """
    return holes_in_side - LEAST_HOLES


@equation(
    "mm",
    source=PRACTICE,
    construction="frameless",
    mount=("side", "packed"),
    check=CheckRule(
        "mount",
        says="The members stand on the cabinet sides; packing {packing_left} left, {packing_right} right.",
        care="held_by_holes",
        care_says=_FEW_HOLES,
    ),
)
def mount_margin__frameless(packing_left: Q, packing_right: Q) -> Q:
    """Nothing stands between cabinet side and member."""
    return 0 * (packing_left + packing_right)


@equation(
    "mm",
    source=PRACTICE,
    construction=FRAMED,
    mount="side",
    check=CheckRule(
        "mount",
        says="The frame stands in by {overhang_left} and {overhang_right}: the members would hang in the "
        "air.",
        cure="Rear brackets, or packing as thick as the frame stands in.",
    ),
)
def mount_margin__framed_side(overhang_left: Q, overhang_right: Q) -> Q:
    """How far the frame keeps the members off the cabinet side, as a lack."""
    return -np.maximum(overhang_left, overhang_right)


@equation(
    "mm",
    source=PRACTICE,
    construction=FRAMED,
    mount="packed",
    check=CheckRule(
        "mount",
        says="Packing of {packing_left} left and {packing_right} right carries the members.",
        care="held_by_holes",
        care_says=_FEW_HOLES,
    ),
)
def mount_margin__framed_packed(packing_left: Q, packing_right: Q) -> Q:
    """Packing makes up what the frame stands in."""
    return 0 * (packing_left + packing_right)


@equation(
    "",
    source=FAMILY,
    construction=FRAMED,
    mount="rear-bracket",
    check=CheckRule(
        "mount",
        says="The members hang between the face frame and rear brackets on the cabinet back.",
        cure="This length takes no rear bracket: packing, a shelf, or another length.",
    ),
)
def mount_margin__rear_bracket(takes_rear_bracket: Q) -> Q:
    """1 where the member takes a rear bracket, -1 where not."""
    return 2 * takes_rear_bracket - 1


@equation(
    "",
    source=PRACTICE,
    construction="frameless",
    mount="rear-bracket",
    check=CheckRule(
        "mount",
        says="Rear brackets want a face frame for the members' front screws; this cabinet has none.",
        cure="Screw the members to the cabinet sides.",
    ),
)
def mount_margin__no_frame(takes_rear_bracket: Q) -> Q:
    """-1: there is no frame."""
    return 0 * takes_rear_bracket - 1


@equation(
    "",
    source=PRACTICE,
    mount="shelf",
    check=CheckRule("mount", says="The members stand on a shelf."),
)
def mount_margin__shelf(shelf_hole_count: Q) -> Q:
    """0: a shelf is always there to try; its holes and its fixing have checks of their own."""
    return 0 * shelf_hole_count


@equation(
    "",
    source=FAMILY,
    mount="shelf",
    check=CheckRule(
        "shelf-holes",
        says="{shelf_hole_count} holes through the bottom of the member.",
        cure="This length cannot be screwed to a shelf: a length with holes for it, or mount on the sides.",
        watch_below=1,
    ),
)
def shelf_holes_margin(shelf_hole_count: Q) -> Q:
    """Shelf holes over the first."""
    return shelf_hole_count - 1


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    mount="rear-bracket",
    check=CheckRule(
        "rear-bracket",
        says="The cabinet back is {reach} behind the member; the bracket reaches {reach_low} to "
        "{reach_high}.",
        cures=(
            Cure("reach_over", 1, "A longer slide, or a block of {reach_over} on the cabinet back."),
            Cure("reach_lacks", 1, "A shorter slide: the brackets want {reach_lacks} more behind it."),
        ),
    ),
)
def rear_reach_margin(reach: Q, deepest_depth: Q, front_end: Q, member: Q, reach_low: Q, reach_high: Q) -> Q:
    """How far the cabinet back stays inside the bracket's reach, at the smallest and the largest depth."""
    return np.minimum(reach - reach_low, reach_high - (deepest_depth - front_end - member))


@equation("mm", source=PRACTICE_FAMILY, mount="rear-bracket")
def reach_over(deepest_depth: Q, front_end: Q, member: Q, reach_high: Q) -> Q:
    """How much farther behind the member the cabinet back stands than the bracket reaches."""
    return deepest_depth - front_end - member - reach_high


@equation("mm", source=PRACTICE_FAMILY, mount="rear-bracket")
def reach_lacks(reach: Q, reach_low: Q) -> Q:
    """How much nearer behind the member the cabinet back stands than the bracket reaches."""
    return reach_low - reach


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    construction=FRAMED,
    mount="rear-bracket",
    check=CheckRule(
        "frame-grip",
        says="The member's front screw is {front_fix} behind its front end at {front_end}; the frame is "
        "{frame_thickness} thick.",
        cure="Glue and screw a block behind the stile to take the screw.",
        only_watches=True,
    ),
)
def frame_grip_margin(frame_thickness: Q, front_end: Q, front_fix: Q) -> Q:
    """Frame behind the member's front screw."""
    return frame_thickness - front_end - front_fix


@equation(
    "mm",
    source=TOOL,
    construction=FRAMED,
    cabinet="told",
    check=CheckRule(
        "frame-sum",
        says="Opening {measured_width} and overhangs {overhang_left} and {overhang_right} against the "
        "cabinet's inside width {cabinet_inside_width}.",
        cure="Measure again: the opening and both overhangs must close on the cabinet's inside width.",
    ),
)
def frame_sum_margin(cabinet_inside_width: Q, measured_width: Q, overhang_left: Q, overhang_right: Q) -> Q:
    """How well the sum closes, within what four tape readings may be off together."""
    return FOUR_READINGS - np.abs(cabinet_inside_width - measured_width - overhang_left - overhang_right)


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    style="overlay",
    front="applied",
    check=CheckRule(
        "front-reach",
        says="The front stands {stands_out:off|inside} the cabinet's edge; the depth adjuster gives "
        "{adjust_depth_high}.",
        cure="Mount the members further out, or rebate the back of the front where it meets the cabinet.",
        only_watches=True,
    ),
)
def front_reach_margin__overlay(stands_out: Q, adjust_depth_high: Q) -> Q:
    """How far the front can be brought clear of the cabinet's edge."""
    return stands_out + adjust_depth_high


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    style="inset",
    front="applied",
    check=CheckRule(
        "front-reach",
        says="The front's face stands {stands_out:out of|inside} the cabinet's; the depth adjuster moves it "
        "from {adjust_depth_low} to {adjust_depth_high}.",
        cures=(
            Cure("stands_out", 1, "Mount the members further in by what is missing."),
            Cure("stands_out", -1, "Mount the members further out by what is missing."),
        ),
        only_watches=True,
    ),
)
def front_reach_margin__inset(stands_out: Q, adjust_depth_low: Q, adjust_depth_high: Q) -> Q:
    """Range of the depth adjuster left round the flush place."""
    return np.minimum(stands_out + adjust_depth_high, -stands_out - adjust_depth_low)


_INTEGRAL_REACH = CheckRule(
    "front-reach",
    says="With the brackets on its back, the front stands {stands_out:out|in}; the depth adjuster moves it "
    "from {adjust_depth_low} to {adjust_depth_high}.",
    cure="Stand each bracket on a block of {design_subfront} behind the front and leave the sides at the "
    "slide's full length, or take an applied front.",
    only_watches=True,
)


@equation("mm", source=GEOMETRY, style="overlay", front="integral", check=_INTEGRAL_REACH)
def front_reach_margin__overlay_integral(stands_out: Q, adjust_depth_high: Q) -> Q:
    """How far an integral overlay front can be brought clear of the cabinet's edge."""
    return stands_out + adjust_depth_high


@equation("mm", source=GEOMETRY, style="inset", front="integral", check=_INTEGRAL_REACH)
def front_reach_margin__inset_integral(stands_out: Q, adjust_depth_low: Q, adjust_depth_high: Q) -> Q:
    """Range of the depth adjuster left round the flush place of an integral inset front."""
    return np.minimum(stands_out + adjust_depth_high, -stands_out - adjust_depth_low)
