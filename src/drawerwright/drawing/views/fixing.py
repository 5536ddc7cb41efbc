"""The back of an applied front: where its screws, the handle and the box stand on it.

Axes [mm]: x from the front's middle as seen from behind (mirrored to how it is seen closed), y above its
lower edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.geometry import Point
from drawerwright.drawing.views.standing import needed_parts, part_size
from drawerwright.model.fitted import FittedDrawer

FIXING_HOLE: Final = 5.0
"""Hole through the subfront for a 4 mm screw, with play [mm]. Common practice, no source."""
PILOT: Final = 2.5
"""Pilot hole for a 4 mm screw in the back of the front [mm]. Common practice, no source."""


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
    box_left: float
    box_right: float
    inside_left: float
    inside_right: float
    box_low: float
    box_high: float
    floor: float
    longest_screw: float
    low_by: float
    deep_by: float


def back_of_front(fitted: FittedDrawer) -> BackOfFront:
    """What stands on the back of a drawer's front.

    Raises:
        ValueError: the drawer does not fit, or has no front that is screwed on.
    """
    box = needed_parts(fitted).box
    front, fixing = fitted.front, fitted.fixing
    if front is None or fixing is None or not fixing.holes:
        raise ValueError(f"drawer {fitted.id} has no front that is screwed on")
    length, height, _ = part_size(fitted, "subfront", (box.inside_width, box.height, box.subfront))
    # The box stands where its screws do: the first hole is known both from the box and from the front.
    (x_box, y_box), (x_front, y_front) = fixing.holes[0], fixing.holes_in_front[0]
    middle, low = x_front - x_box, y_front - y_box
    return BackOfFront(
        half=front.width / 2,
        height=front.height,
        screws=tuple((-x, y) for x, y in fixing.holes_in_front),
        handle=tuple((-x, y) for x, y in fixing.handle),
        handle_bore=fixing.handle_bore,
        box_left=-middle - length / 2,
        box_right=-middle + length / 2,
        inside_left=-middle - box.inside_width / 2,
        inside_right=-middle + box.inside_width / 2,
        box_low=low + box.height - height,
        box_high=low + box.height,
        floor=low + box.bottom_recess + box.bottom,
        longest_screw=fixing.longest_screw,
        low_by=fixing.low_by,
        deep_by=fixing.deep_by,
    )
