"""The poses of a stack's fronts from its readings, and how sure they are: weighted least squares.

What the readings do not tell keeps a spread far above every other, and is then said to be unknown.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.aligned import Pose
from drawerwright.align.front_geometry import POSE, Array
from drawerwright.align.stack import Stack

NOT_TOLD: Final = 300.0
"""Spread before any reading of a coordinate [mm at the front's ends]: as good as none. Own choice."""
UNKNOWN_FROM: Final = 10.0
"""A coordinate less sure than this [mm at the front's ends] is not told by the readings. Own choice."""
SIZE_WITHIN: Final = 1.0
"""How far the gaps on both sides together, halved, may be off as designed [mm]: the spread of what was built
and of an edge that nobody told. Own choice, no source."""


@dataclass(frozen=True)
class Found:
    """The state of a stack as its readings tell it, scaled so that every entry is in mm at the front's ends.

    `state` (m,), `covariance` (m, m), `scale` (m,): true state over scaled one.
    """

    state: Array
    covariance: Array
    scale: Array

    @property
    def spread(self) -> Array:
        """Standard uncertainty of each entry of the scaled state (m,) [mm]."""
        return np.sqrt(np.diag(self.covariance))


def find_state(stack: Stack, before: float = NOT_TOLD) -> Found:
    """The most likely state of a stack; `before`: spread of the poses before any reading [mm]."""
    count = len(stack.fronts)
    scale = scale_of(stack)
    spread = np.full(7 * count + 1, SIZE_WITHIN)
    spread[: 6 * count] = before
    at = [row for row, _ in stack.readings]
    sure = np.array([1.0 / one.uncertainty for _, one in stack.readings])
    off = np.array([one.value for _, one in stack.readings]) - stack.design[at]
    weighed = stack.rows[at] * scale * sure[:, None]
    information = weighed.T @ weighed
    information[np.diag_indices_from(information)] += spread**-2.0
    covariance = np.linalg.inv(information)
    return Found(covariance @ (weighed.T @ (off * sure)), covariance, scale)


def scale_of(stack: Stack) -> Array:
    """Angles are told by what they move at the front's ends [rad per mm]; lengths as they are."""
    scale = np.ones(7 * len(stack.fronts) + 1)
    for at, front in enumerate(stack.fronts):
        half_width, half_height = front.geometry.width / 2, front.geometry.height / 2
        scale[6 * at + 3 : 6 * at + 6] = 1 / half_width, 1 / half_width, 1 / half_height
    return scale


def pose_of(found: Found, at: int) -> tuple[Pose, Pose]:
    """Pose of the front at that place of its stack and its standard uncertainty, in mm and degrees."""
    part = slice(6 * at, 6 * at + 6)
    sure = found.spread[part] < UNKNOWN_FROM
    values, spread = (found.state * found.scale)[part], (found.spread * found.scale)[part]
    return _as_pose(values, sure), _as_pose(spread, sure)


def _as_pose(values: Array, told: NDArray[np.bool_]) -> Pose:
    shown: list[float | None] = []
    for name, value, is_told in zip(POSE, values.tolist(), told.tolist(), strict=True):
        degrees = name in ("roll", "yaw", "pitch")
        shown.append((math.degrees(value) if degrees else value) if is_told else None)
    return Pose(*shown)


def readings_told(stack: Stack, found: Found) -> tuple[Array, NDArray[np.bool_]]:
    """Every reading of the stack (12 n,) [mm], as taken or else as the poses make it, and which are told."""
    rows = stack.rows * found.scale
    values = stack.design + rows @ found.state
    spread = np.sqrt(np.einsum("rs,st,rt->r", rows, found.covariance, rows))
    for row, reading in stack.readings:
        values[row], spread[row] = reading.value, 0.0
    return values, spread < SIZE_WITHIN
