"""A million openings against seven lengths, written by hand in numpy: what the sheet is measured against.

Every margin of the side mount for this drawer, spacers and the order of choice, in chunks of the same size.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from drawerwright.catalogue.boards import box_board, front_board
from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Drawer

_ROWS = 8192
_SLACK = -1e-6


def choose_by_hand(
    drawer: Drawer,
    family: SlideFamily,
    width: NDArray[np.float64],
    height: NDArray[np.float64],
    depth: NDArray[np.float64],
) -> NDArray[np.intp]:
    """Chosen length (n,) by its place in the family, -1 where none fits on the cabinet sides."""
    chosen = np.empty(len(width), dtype=np.intp)
    for start in range(0, len(width), _ROWS):
        rows = slice(start, start + _ROWS)
        chosen[rows] = _chunk(drawer, family, width[rows, None], height[rows, None], depth[rows, None])
    return chosen


def _chunk(
    drawer: Drawer,
    family: SlideFamily,
    width: NDArray[np.float64],
    height: NDArray[np.float64],
    depth: NDArray[np.float64],
) -> NDArray[np.intp]:
    t, bottom, groove, front = drawer.side, drawer.box.bottom_thickness, drawer.box.groove_depth, drawer.front
    length = np.array([[one.box for one in family.lengths]])
    member = np.array([[one.member for one in family.lengths]])
    clearance, rear, recess = family.clearance, family.rear, family.bottom_recess
    inside = width - family.inside_width_deduction
    outside = inside + 2 * t
    off_side = (inside - (width - family.inside_width_deduction)) / 2
    off_along = np.full_like(width, family.design_subfront - t)
    low, high = family.width_band
    side_reach, along_reach = family.latch_tolerance.side, family.latch_tolerance.along
    side = off_side - _spacers(
        off_side, -min(side_reach, high / 2), min(side_reach, -low / 2), family.spacers
    )
    along = off_along - _spacers(off_along, -along_reach, along_reach, family.spacers)
    least = recess + max(bottom, rear.bore_up + rear.bore / 2)
    limit = height - clearance.under - clearance.over
    box_height = np.maximum(limit, least)
    inside_length = length - 2 * t
    volume = 2 * length * box_height * t + inside * box_height * 2 * t
    volume = volume + (inside_length + 2 * groove) * (inside + 2 * groove) * bottom
    overlay = front.overlay
    front_width = width + overlay.left + overlay.right
    front_height = height + overlay.top + overlay.bottom
    front_volume = front_width * front_height * front.thickness
    moving = volume * box_board().density / 1e9 + front_volume * front_board().density / 1e9
    moving = moving + (family.hardware_mass or 0.0) + drawer.contents.mass
    needed = family.front_overlay + np.maximum(member + clearance.rear, length - family.box_ahead)
    running = width - family.inside_width_deduction - (inside - 2 * (off_side - side))
    stopped = depth - needed < _SLACK
    stopped |= (width - outside) / 2 - family.min_gap < _SLACK
    stopped |= family.latch_tolerance.side - np.abs(side) < _SLACK
    stopped |= family.latch_tolerance.along - np.abs(along) < _SLACK
    room = np.minimum(inside - 2 * rear.notch_width, inside_length)
    stopped |= np.minimum(np.minimum(running - low, high - running), room) < _SLACK
    stopped |= limit - box_height < _SLACK
    stopped |= family.capacity - moving < _SLACK
    stopped |= np.minimum(rear.bore_up - rear.bore / 2 - bottom, t - rear.bore_depth) < _SLACK
    stopped |= box_height - recess - rear.bore_up - rear.bore / 2 < _SLACK
    stopped |= np.minimum(front.gap, np.minimum(front_width, front_height)) < _SLACK
    notch = box_height - np.maximum(rear.notch_height, recess + bottom) - rear.notch_height
    racks = family.width_to_length - outside / length
    reach = family.box_ahead - family.front_overlay + family.adjust.depth[1]
    assert np.isfinite(racks).all()
    assert np.isfinite(notch).all()
    assert np.isfinite(reach)
    order = np.argsort(-length[0], kind="stable")
    open_ = ~stopped[:, order]
    place = open_.argmax(axis=1)
    return np.where(open_[np.arange(len(open_)), place], order[place], -1)


def _spacers(
    off: NDArray[np.float64], low: float, high: float, kinds: tuple[float, ...]
) -> NDArray[np.float64]:
    """Thickness of the stack: the fewest pieces that serve, then the nearest; else the nearest."""
    stacks = [(0, 0.0), *((1, one) for one in kinds), *((2, a + b) for a in kinds for b in kinds if a <= b)]
    sums = np.array([thickness for _, thickness in stacks])
    pieces = np.array([count for count, _ in stacks])
    left = off[..., None] - sums
    away = np.abs(left)
    serves = (left >= low - 1e-6) & (left <= high + 1e-6)
    cost = np.where(serves, pieces * 1e5 + away, 1e7 + away * 1e5 + pieces)
    best: NDArray[np.float64] = sums[cost.argmin(axis=-1)]
    return best
