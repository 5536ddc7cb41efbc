"""Where an applied front is screwed on, clear of brackets and handle, and how low and deep it then stands.

The places are the tool's own rule: a shop may keep its own as long as they stay clear. Only the height is set
by hand; the depth is where the members stand, so it is told and never added to their places.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product
from math import dist

from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FrontFixing, FrontSizes, Point
from drawerwright.model.job import Drawer

_BESIDE_BRACKET = 20.0
_LOW_BOX = 80.0
_WIDE_BOX = 700.0
_CLEAR_OF_HANDLE = 15.0
_STEP = 8.0
_TRIES = 8


def front_fixing(
    drawer: Drawer, family: SlideFamily, front: FrontSizes, values: Mapping[str, float]
) -> FrontFixing | None:
    """Fixing of the front from the sheet's values; None where there is none.

    A front that is the box front itself has no fixing but its handle.
    """
    if front.style == "none" or drawer.existing_box is not None:
        return None
    if drawer.box.front == "integral":
        return _handle_alone(drawer, family, front)
    inward, outward = family.adjust.depth
    low_by, stands_out = values["front_low"], values["stands_out"]
    # An overlay front is even where it just stands off the cabinet's edge, an inset one where it is flush.
    back = max(-stands_out, 0.0) if front.style == "overlay" else 0.0 - stands_out
    further_in = back - inward + 0.0
    if front.style == "overlay":
        further_in = min(further_in, stands_out + back)
    # A front that hangs low has the box's screws higher up on its back.
    across, up = _box_in_front(drawer, front, values, low_by)
    handle = _handle(drawer, front)
    holes = _holes(family, values, [(x - across, y - up) for x, y in handle])
    return FrontFixing(
        holes=holes,
        holes_in_front=tuple((x + across, y + up) for x, y in holes),
        handle=handle,
        handle_bore=drawer.front.handle.bore if drawer.front.handle is not None else 0.0,
        longest_screw=values["longest_front_screw"],
        low_by=low_by,
        deep_by=max(back, 0.0),
        room_up=values["lifts_after"],
        room_down=values["lowers_after"],
        room_out=max(outward - back, 0.0),
        room_in=max(further_in, 0.0),
    )


def _handle_alone(drawer: Drawer, family: SlideFamily, front: FrontSizes) -> FrontFixing | None:
    if drawer.front.handle is None:
        return None
    (down, up), (inward, outward) = family.adjust.height, family.adjust.depth
    return FrontFixing(
        (), (), _handle(drawer, front), drawer.front.handle.bore, 0.0, 0.0, 0.0, up, -down, outward, -inward
    )


def _box_in_front(drawer: Drawer, front: FrontSizes, values: Mapping[str, float], low_by: float) -> Point:
    """Middle of the box and its lower edge, from the front's middle and above its lower edge."""
    across = (drawer.lost.left - drawer.lost.right) / 2 - (front.right - front.left) / 2
    return across, values["lower_edge"] - values["opening_floor"] + front.bottom + low_by


def _handle(drawer: Drawer, front: FrontSizes) -> tuple[Point, ...]:
    handle = drawer.front.handle
    if handle is None:
        return ()
    height = front.height / 2 if handle.up is None else handle.up
    half = handle.spacing / 2
    return ((0.0, height),) if half == 0 else ((-half, height), (half, height))


def _holes(family: SlideFamily, values: Mapping[str, float], handle: Sequence[Point]) -> tuple[Point, ...]:
    """Screws in two columns beside the brackets, a third in the middle of a wide box, rows by its height."""
    half = values["inside_width"] / 2
    bracket = max((place[0] for place in family.bracket_holes), default=0.0) + _BESIDE_BRACKET
    outer = max(half - bracket, half / 3)
    floor = values["bottom_recess"] + values["bottom_thickness"]
    clear = values["box_height"] - floor
    shares = (0.25, 0.75) if clear >= _LOW_BOX else (0.5,)
    rows = [floor + share * clear for share in shares]
    for shift in _shifts():
        column = outer + shift
        columns = [-column, column] + ([0.0] if 2 * half > _WIDE_BOX else [])
        places = sorted(product(columns, rows))
        if 0 < column < half - _STEP and _is_clear(places, handle):
            return tuple(places)
    return tuple(place for place in sorted(product((-outer, outer), rows)) if _is_clear([place], handle))


def _shifts() -> list[float]:
    return [turn * _STEP * sign for turn in range(_TRIES) for sign in (-1, 1)]


def _is_clear(places: Sequence[Point], handle: Sequence[Point]) -> bool:
    return all(dist(place, boring) >= _CLEAR_OF_HANDLE for place in places for boring in handle)
