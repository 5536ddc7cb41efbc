"""How far a front's left adjusters may be turned unlike its right ones.

Heights that differ roll a front, depths that differ yaw it. That is for a front that was found so: a square
one is never rolled to come further sideways, whatever that gains elsewhere. So the difference is held between
none and what cures the roll (or yaw) that readings along an edge tell.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from drawerwright.align.front_geometry import Array
from drawerwright.align.stack import Stack
from drawerwright.model.gaps import GapName

ROLLS: Final[tuple[tuple[GapName, GapName], ...]] = (
    ("left_top", "left_bottom"),
    ("right_top", "right_bottom"),
    ("top_left", "top_right"),
    ("bottom_left", "bottom_right"),
)
"""Both ends of each edge: alike where the front is not rolled, however it stands and wide as it may be."""
YAWS: Final[tuple[tuple[GapName, GapName], ...]] = (
    ("out_top_left", "out_top_right"),
    ("out_bottom_left", "out_bottom_right"),
)
"""Corners that stand out alike where the front is not yawed."""

_ROLL: Final = 3
_YAW: Final = 4
_TURNED_WITHIN: Final = 1000.0
"""Spread before any reading [mm at the front's ends], so that of all answers the smallest is taken."""


def unlike_heights(stack: Stack, line: Array | None) -> Array:
    """Right less left height that readings along edges allow, least and most [mm] by front (n, 2).

    `line`: readings wanted (12 n,) [mm], nan where free.
    """
    base = np.array([front.geometry.base for front in stack.fronts])
    rolls, _ = _angles(stack, ROLLS, _ROLL, line)
    return _between(-rolls * base)  # a right end that is raised rolls up


def unlike_depths(stack: Stack, line: Array | None, swung: Array) -> Array:
    """Right less left depth that corners allow, least and most [mm] by front (n, 2).

    `swung` (n,): yaw that moves sideways bring besides [rad], which depth may undo where corners tell it.
    """
    base = np.array([front.geometry.base for front in stack.fronts])
    yaws, read = _angles(stack, YAWS, _YAW, line)
    return _between(np.where(read, yaws + swung, 0.0) * base)  # a right end that is pushed out yaws back


def _between(cure: Array) -> Array:
    return np.column_stack([np.minimum(cure, 0.0), np.maximum(cure, 0.0)])


def _angles(
    stack: Stack, pairs: Sequence[tuple[GapName, GapName]], coordinate: int, line: Array | None
) -> tuple[Array, list[bool]]:
    """Angle of each front as its pairs of readings tell it (n,) [rad], and which fronts have such a pair.

    Where an angle is within what its readings alone are unsure by, it is taken as none.
    """
    count = len(stack.fronts)
    taken = dict(stack.readings)
    rows, off, unsure = [], [], []
    read = [False] * count
    for at in range(count):
        for name, other in pairs:
            one, two = stack.row(at, name), stack.row(at, other)
            if one not in taken or two not in taken:
                continue
            read[at] = True
            if at and one // 12 < at:  # shared with the front below, where it was counted
                continue
            wanted = 0.0
            if line is not None and not np.isnan(line[[one, two]]).any():
                wanted = float(line[one] - line[two])
            rows.append((stack.rows[one] - stack.rows[two])[coordinate : 6 * count : 6])
            off.append(taken[one].value - taken[two].value - wanted)
            unsure.append(np.hypot(taken[one].uncertainty, taken[two].uncertainty))
    if not rows:
        return np.zeros(count), read
    weighed = np.array(rows) / np.array(unsure)[:, None]
    half = np.array([front.geometry.width / 2 for front in stack.fronts])
    information = weighed.T @ weighed + np.diag((half / _TURNED_WITHIN) ** 2)
    solving = np.linalg.solve(information, weighed.T)
    angles = solving @ (np.array(off) / np.array(unsure))
    within = np.sqrt(np.sum(solving**2, axis=1))
    return np.where(np.abs(angles) > within, angles, 0.0), read
