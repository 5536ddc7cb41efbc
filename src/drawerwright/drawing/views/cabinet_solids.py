"""The cabinet around a drawer as solids: sides, back, floor, face frame, packing and rear brackets.

Axes as in the public contract [mm]: x to the right from the middle of the opening, y up from its bottom edge,
z out of the cabinet. It is cut level above the drawer, so that nothing stands higher than the cut.
"""

from __future__ import annotations

from typing import Final

from drawerwright.drawing.solids import Solid, block
from drawerwright.drawing.views.standing import CABINET_BOARD, FRAME_RAIL, Standing

CABINET: Final = "cabinet"
"""The group whose outline is drawn around the cabinet."""
BELOW: Final = 18.0
"""How far the cabinet is drawn below an opening whose floor is out of sight [mm]."""
PACKING_ABOVE: Final = 14.0
"""How far packing stands above the screw line as drawn [mm]. Invented: it is as high as the shop makes it."""
_BRACKET_HALF = 11.0
_LEAST = 0.05


def cut_level(stand: Standing) -> float:
    """Height of the cut through the cabinet [mm]: the opening's top, or the top of what stands higher."""
    tops = [stand.fitted.opening.height]
    if stand.has_front:
        tops.append(stand.front_heights[1])
    if stand.parts is not None:
        tops.append(stand.lower_edge + stand.parts.box.height)
    return max(tops)


def cabinet_bottom(stand: Standing) -> float:
    """Lowest height at which the cabinet is drawn [mm]."""
    floor = floor_level(stand)
    lowest = floor - CABINET_BOARD if floor is not None else -BELOW
    if stand.frame_thickness and floor is None:
        return min(lowest, -FRAME_RAIL)
    return lowest


def floor_level(stand: Standing) -> float | None:
    """Height of what lies under the drawer [mm]: the cabinet's floor, or the slides' shelf; None: nothing."""
    on_shelf = stand.parts is not None and stand.parts.slide.mount == "shelf"
    return 0.0 if on_shelf and stand.cabinet_floor is None else stand.cabinet_floor


def cut_outline(stand: Standing) -> tuple[tuple[float, float], ...]:
    """The cut through sides, back and stiles as one polygon: x and z [mm], counter-clockwise from above."""
    left, right, back, end = stand.outer_left, stand.outer_right, -stand.depth, -stand.back_end
    inner_left, inner_right = stand.inner_left, stand.inner_right
    thick = stand.frame_thickness
    inside_right: tuple[tuple[float, float], ...] = ((inner_right, 0.0),)
    inside_left: tuple[tuple[float, float], ...] = ((inner_left, 0.0),)
    if thick:
        inside_right = ((inner_right, -thick), (stand.clear_right, -thick), (stand.clear_right, 0.0))
        inside_left = ((stand.clear_left, 0.0), (stand.clear_left, -thick), (inner_left, -thick))
    # Without an overhang the stile ends where the side does, and two of its corners would fall together.
    outline = (
        (left, 0.0),
        *inside_left,
        (inner_left, back),
        (inner_right, back),
        *inside_right,
        (right, 0.0),
        (right, end),
        (left, end),
    )
    return tuple(corner for k, corner in enumerate(outline) if corner != outline[k - 1])


def cabinet_solids(stand: Standing) -> tuple[Solid, ...]:
    """The cabinet's boards up to the cut, with what is fixed in it for the slides."""
    low, top, floor = cabinet_bottom(stand), cut_level(stand), floor_level(stand)
    thick, end = stand.frame_thickness, -stand.back_end
    inside = (stand.inner_left, stand.inner_right)
    # A side that is let into the frame is drawn from the frame's rear face: solids must not overlap.
    solids = [
        block("cabinet side", (stand.outer_left, inside[0]), (low, top), (-thick, end), CABINET),
        block("cabinet side", (inside[1], stand.outer_right), (low, top), (-thick, end), CABINET),
        block("cabinet back", inside, (low, top), (-stand.depth, end), CABINET),
    ]
    if floor is not None:
        solids.append(
            block("cabinet floor", inside, (floor - CABINET_BOARD, floor), (-thick, -stand.depth), CABINET)
        )
    if thick:
        stiles = ((stand.outer_left, stand.clear_left), (stand.clear_right, stand.outer_right))
        solids += [block("stile", x, (low, top), (-thick, 0.0), CABINET) for x in stiles]
        rail = low if floor is not None else max(low, -FRAME_RAIL)
        clear = (stand.clear_left, stand.clear_right)
        solids.append(block("rail", clear, (rail, 0.0), (-thick, 0.0), CABINET))
    return (*solids, *_packing(stand), *_rear_brackets(stand))


def _packing(stand: Standing) -> list[Solid]:
    """Packing between cabinet sides and members."""
    if stand.parts is None:
        return []
    mounting = stand.parts.mounting
    start = max(mounting.front_end, stand.frame_thickness)
    stop = mounting.front_end + mounting.member
    line = stand.lower_edge + stand.parts.slide.family.heights.screw_line
    heights = (stand.member_heights[0], line + PACKING_ABOVE)
    return [
        block("packing", (x, x + inward), heights, (-start, -stop))
        for x, inward in (
            (stand.inner_left, mounting.packing_left),
            (stand.inner_right, -mounting.packing_right),
        )
        if abs(inward) > _LEAST and stop > start
    ]


def _rear_brackets(stand: Standing) -> list[Solid]:
    """Rear brackets between the members and the cabinet back."""
    if stand.parts is None:
        return []
    mounting = stand.parts.mounting
    end = mounting.front_end + mounting.member
    left, right = mounting.rear_bracket_left, mounting.rear_bracket_right
    if left is None or right is None or stand.depth - end < _LEAST:
        return []
    return [
        block(
            "rear bracket", (x - _BRACKET_HALF, x + _BRACKET_HALF), stand.member_heights, (-end, -stand.depth)
        )
        for x in (stand.inner_left + left, stand.inner_right - right)
    ]
