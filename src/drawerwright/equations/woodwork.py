"""Woodwork: whether notches and screws leave enough wood. Margins [mm].

One stops: without wood at its screws a slide beside the box hangs on nothing. The others only watch.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.sources import GEOMETRY, PRACTICE, TOOL

CONCEALED = "concealed"
UNDER_THE_FACE = 4
OVER_A_SCREW = 8
"""Wood wanted over the screws of a slide beside the box [mm]: twice the diameter of a screw of 4. Common
practice, no source."""


@equation("mm", source=GEOMETRY, carriage=CONCEALED, bottom="groove-4")
def left_over_notch__grooved(back_height: Q, notch_height: Q, bottom_recess: Q, bottom_thickness: Q) -> Q:
    """Wood of the back that is left above the notch and the groove for the bottom."""
    return back_height - np.maximum(notch_height, bottom_recess + bottom_thickness)


@equation("mm", source=GEOMETRY, carriage=CONCEALED, bottom=("groove-3", "under"))
def left_over_notch__on_bottom(back_height: Q, notch_height: Q, bottom_recess: Q, bottom_thickness: Q) -> Q:
    """Wood that is left above the notch of a back that stands on the bottom."""
    return back_height - np.maximum(notch_height - bottom_recess - bottom_thickness, 0)


@equation(
    "mm",
    source=TOOL,
    carriage=CONCEALED,
    check=CheckRule(
        "notch",
        says="Over the notches {left_over_notch} of the back is left; as much as the notch is high, "
        "{notch_height}, is wanted.",
        cure="A higher box, or a back in one piece with a rail over the notches.",
        only_watches=True,
    ),
)
def notch_margin(left_over_notch: Q, notch_height: Q) -> Q:
    """Wood left over the notches beyond what the notch takes."""
    return left_over_notch - notch_height


@equation(
    "mm",
    source=PRACTICE,
    carriage=CONCEALED,
    bracket_screw="told",
    check=CheckRule(
        "bracket-screw",
        says="A bracket screw of {bracket_screw} at {bracket_angle} goes {bracket_screw_depth} into the "
        "{subfront_thickness} subfront.",
        cure="Shorter screws, or they come out of the subfront's face.",
        only_watches=True,
    ),
)
def bracket_screw_margin(subfront_thickness: Q, bracket_screw_depth: Q) -> Q:
    """Wood between the bracket screw's point and the face of the subfront."""
    return subfront_thickness - bracket_screw_depth


@equation("mm", source=GEOMETRY, carriage=CONCEALED, bracket_screw="told")
def bracket_screw_depth(bracket_screw: Q, bracket_angle: Q) -> Q:
    """How deep the slanted bracket screw goes, square to the face."""
    return bracket_screw * np.sin(np.deg2rad(bracket_angle))


@equation("mm", source=PRACTICE, style=("overlay", "inset"), front="applied")
def longest_front_screw(subfront_thickness: Q, front_thickness: Q) -> Q:
    """Longest screw through the subfront that stays 4 under the front's face."""
    return subfront_thickness + front_thickness - UNDER_THE_FACE


@equation(
    "mm",
    source=PRACTICE,
    style=("overlay", "inset"),
    front="applied",
    front_screw="told",
    check=CheckRule(
        "front-screw",
        says="The front is fixed with screws of {front_screw}; {longest_front_screw} is the longest that "
        "stays under its face.",
        cure="Shorter screws, or a washer under the head.",
        only_watches=True,
    ),
)
def front_screw_margin(longest_front_screw: Q, front_screw: Q) -> Q:
    """How much longer the front's screws could be."""
    return longest_front_screw - front_screw


@equation(
    "mm",
    source=PRACTICE,
    carriage="side-mounted",
    check=CheckRule(
        "slide-height",
        says="The slide is screwed to the box side {screw_line_up} above its lower edge; over the screws a "
        "box of {box_height} leaves {wood_over_screws}; 8 mm, twice a screw's diameter, are wanted.",
        cure="A higher box, or slides whose screw line is lower.",
        watch_below=OVER_A_SCREW,
    ),
)
def wood_over_screws(built_box_height: Q, screw_line_up: Q) -> Q:
    """Wood of the box side over the screws of a slide beside it; under twice their diameter it is watched."""
    return built_box_height - screw_line_up
