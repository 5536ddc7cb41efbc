"""Way out: a tray or drawer sweeps straight out past an open door, hinges, handles, appliances. Lengths [mm].

Two bodies sweep: the box and, where there is one, the applied front. Each has a clear distance on either
side to the opening's edge; what stands in from that edge by more is hit. A filler, packing as thick as what
is lacking, moves the drawer clear. An open door is its inner face: a plane that leaves the opening's front
edge at the door's angle.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.rules import standing_farthest_in
from drawerwright.equations.sources import GEOMETRY, PRACTICE

TOLD = "told"
PLAY = 2
FRONTED = ("overlay", "inset")


@equation("mm", source=GEOMETRY, way=TOLD)
def box_foot(lower_edge: Q, opening_floor: Q) -> Q:
    """Lower edge of the box above the opening's bottom."""
    return lower_edge - opening_floor


@equation("mm", source=GEOMETRY, way=TOLD, hands=True)
def box_clear(lost: Q, side_gap: Q) -> Q:
    """From the opening's edge to the box."""
    return lost + side_gap


@equation("mm", source=GEOMETRY, way=TOLD, hands=True)
def box_meets(
    things: Q,
    box_foot: Q,
    box_height: Q,
    front_depth: Q,
    box_length: Q,
    travel: Q,
    door_in: Q,
    door_slope: Q,
    door_reach: Q,
) -> Q:
    """How far the farthest of what the box would meet stands in from the opening's edge."""
    return standing_farthest_in(
        things,
        box_foot,
        box_foot + box_height,
        front_depth,
        front_depth + box_length,
        travel,
        door_in,
        door_slope,
        door_reach,
    )


@equation("mm", source=GEOMETRY, way=TOLD, style="overlay")
def front_foot__overlay(overlay_bottom: Q) -> Q:
    """Lower edge of the front above the opening's bottom."""
    return -overlay_bottom


@equation("mm", source=GEOMETRY, way=TOLD, style="inset")
def front_foot__inset(front_gap: Q) -> Q:
    """Lower edge of an inset front above the opening's bottom."""
    return front_gap + 0


@equation("mm", source=GEOMETRY, way=TOLD, style="overlay")
def front_face_depth__overlay(stands_out: Q, front_thickness: Q) -> Q:
    """Depth of the front's face (negative: before the cabinet)."""
    return -stands_out - front_thickness


@equation("mm", source=GEOMETRY, way=TOLD, style="inset")
def front_face_depth__inset(stands_out: Q) -> Q:
    """Depth of an inset front's face (negative: before the cabinet)."""
    return -stands_out


@equation("mm", source=GEOMETRY, way=TOLD, style="overlay", hands=True)
def front_clear__overlay(overlay: Q) -> Q:
    """From the opening's edge to the front: an overlay front covers the edge."""
    return -overlay


@equation("mm", source=GEOMETRY, way=TOLD, style="inset", hands=True)
def front_clear__inset(lost: Q, front_gap: Q) -> Q:
    """From the opening's edge to an inset front."""
    return lost + front_gap


@equation("mm", source=GEOMETRY, way=TOLD, style=FRONTED, hands=True)
def front_meets(
    things: Q,
    front_foot: Q,
    front_height: Q,
    front_face_depth: Q,
    front_thickness: Q,
    travel: Q,
    door_in: Q,
    door_slope: Q,
    door_reach: Q,
) -> Q:
    """How far the farthest of what the front would meet stands in from the opening's edge."""
    return standing_farthest_in(
        things,
        front_foot,
        front_foot + front_height,
        front_face_depth,
        front_face_depth + front_thickness,
        travel,
        door_in,
        door_slope,
        door_reach,
    )


@equation("mm", source=GEOMETRY, way=TOLD, style="none", hands=True)
def way_lacks__none(box_meets: Q, box_clear: Q) -> Q:
    """By how much the way out is too narrow; negative: that much is left."""
    return box_meets - box_clear


@equation("mm", source=GEOMETRY, way=TOLD, style=FRONTED, hands=True)
def way_lacks__front(box_meets: Q, box_clear: Q, front_meets: Q, front_clear: Q) -> Q:
    """By how much the way out of box or front is too narrow; negative: that much is left."""
    return np.maximum(box_meets - box_clear, front_meets - front_clear)


@equation("mm", source=PRACTICE, way=TOLD, hands=True)
def filler(way_lacks: Q) -> Q:
    """Least filler or packing that clears the way out."""
    return np.maximum(way_lacks, 0)


_SAYS = "Straight out by {travel}, the drawer {meeting}."
_PACKED = CheckRule(
    "way-out",
    says=_SAYS,
    cure="Least fillers that clear: {filler_left} left, {filler_right} right; with 2 more it runs free.",
    watch_below=PLAY,
)
_COVERED = CheckRule(
    "way-out",
    says=_SAYS,
    cure="Least fillers beside the cabinet that clear: {filler_left} left, {filler_right} right; or a front "
    "that covers less.",
    watch_below=PLAY,
)


@equation("mm", source=GEOMETRY, way=TOLD, style=("inset", "none"), check=_PACKED)
def way_out_margin__packed(way_lacks_left: Q, way_lacks_right: Q) -> Q:
    """What is left beside the drawer on its way out."""
    return -np.maximum(way_lacks_left, way_lacks_right)


@equation("mm", source=GEOMETRY, way=TOLD, style="overlay", check=_COVERED)
def way_out_margin__covered(way_lacks_left: Q, way_lacks_right: Q) -> Q:
    """What is left beside the front and its box on their way out."""
    return -np.maximum(way_lacks_left, way_lacks_right)
