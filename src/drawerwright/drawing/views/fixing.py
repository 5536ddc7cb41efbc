"""The back of an applied front: where its screws, the handle and the box stand on it.

Axes [mm]: x from the front's middle as seen from behind (mirrored to how it is seen closed), y above its
lower edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.geometry import Point
from drawerwright.drawing.views.standing import needed_parts, part_size, standing
from drawerwright.model.fitted import FittedDrawer, FrontSizes

FIXING_HOLE: Final = 5.0
"""Hole through the subfront for a 4 mm screw, with play [mm]. Common practice, no source."""
PILOT: Final = 2.5
"""Pilot hole for a 4 mm screw in the back of the front [mm]. Common practice, no source."""


_DEEPEST_PILOT = 12.0
_LEFT_UNDER_PILOT = 4.0


def pilot_depth(front_thickness: float) -> float:
    """Depth of a pilot hole in the front's back [mm]: 4 stay under the face. Common practice, no source."""
    return min(_DEEPEST_PILOT, front_thickness - _LEFT_UNDER_PILOT)


def box_on_front(fitted: FittedDrawer, front: FrontSizes) -> Point:
    """Middle and lower edge of the box on the back of the front, seen from behind [mm].

    Where the front is screwed on, it stands where the screws put it.
    """
    if fitted.fixing is not None and fitted.fixing.holes:
        (x_box, y_box), (x_front, y_front) = fitted.fixing.holes[0], fitted.fixing.holes_in_front[0]
        return (x_box - x_front, y_front - y_box)
    stand = standing(fitted)
    left, right = stand.front_edges
    return ((left + right) / 2, stand.lower_edge + front.bottom)


def handle_places(fitted: FittedDrawer) -> tuple[Point, ...]:
    """Handle borings seen from behind [mm], left to right; none where no handle is told."""
    if fitted.fixing is not None:
        return tuple(sorted((-x, y) for x, y in fitted.fixing.handle))
    handle, front = fitted.drawer.front.handle, fitted.front
    if handle is None or front is None:
        return ()
    up = front.height / 2 if handle.up is None else handle.up
    half = handle.spacing / 2
    return ((-half, up), (half, up)) if half else ((0.0, up),)


@dataclass(frozen=True, slots=True)
class BackOfFront:
    """Half the front's width, its height, and what stands on its back [mm], seen from behind.

    `inside_left` and `inside_right`: inside faces of the box sides; `box_low` and `box_high`: edges of the
    subfront; `floor`: upper face of the bottom.
    """

    half: float
    height: float
    screws: tuple[Point, ...]
    handle: tuple[Point, ...]
    handle_bore: float
    inside_left: float
    inside_right: float
    box_low: float
    box_high: float
    floor: float
    longest_screw: float
    low_by: float


def back_of_front(fitted: FittedDrawer) -> BackOfFront:
    """What stands on the back of a drawer's front.

    Raises:
        ValueError: the drawer does not fit, or has no front that is screwed on.
    """
    box = needed_parts(fitted).box
    front, fixing = fitted.front, fitted.fixing
    if front is None or fixing is None or not fixing.holes:
        raise ValueError(f"drawer {fitted.id} has no front that is screwed on")
    _, height, _ = part_size(fitted, "subfront", (box.inside_width, box.height, box.subfront))
    middle, low = box_on_front(fitted, front)
    return BackOfFront(
        half=front.width / 2,
        height=front.height,
        screws=tuple((-x, y) for x, y in fixing.holes_in_front),
        handle=tuple((-x, y) for x, y in fixing.handle),
        handle_bore=fixing.handle_bore,
        inside_left=middle - box.inside_width / 2,
        inside_right=middle + box.inside_width / 2,
        box_low=low + box.height - height,
        box_high=low + box.height,
        floor=low + box.bottom_recess + box.bottom,
        longest_screw=fixing.longest_screw,
        low_by=fixing.low_by,
    )
