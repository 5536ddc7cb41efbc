"""The poses of a stack's fronts from its readings, and how sure they are: weighted least squares.

A hung front stands within some millimetres of its place: with that spread before any reading, one reading a
side tells how far it is off, and what no reading tells keeps its spread and is said to be unknown.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.aligned import Pose
from drawerwright.align.front_geometry import POSE, Array
from drawerwright.align.stack import Stack

SHIFTED_WITHIN: Final = 5.0
"""Spread of x, y and z of a hung front before any reading [mm]. Own choice, no source."""
TURNED_WITHIN: Final = 2.0
"""Spread of roll, yaw and pitch before any reading [mm at the front's ends]. Own choice, no source."""
TOLD_FROM: Final = 0.5
"""A coordinate is told by the readings that leave less than this share of its spread before. Own choice."""
_HARDLY: Final = 100.0
"""Spread before any reading, times this: only settles what readings leave open, the smallest pose of all."""
SIZE_WITHIN: Final = 1.0
"""How far the gaps on both sides together, halved, may be off as designed [mm]: the spread of what was built
and of an edge that nobody told. Own choice, no source."""


@dataclass(frozen=True)
class Found:
    """The state of a stack as its readings tell it, scaled so that every entry is in mm at the front's ends.

    `state` (m,), `covariance` (m, m), `scale` (m,): true state over scaled one; `before` (m,): spread before
    any reading.
    """

    state: Array
    covariance: Array
    scale: Array
    before: Array

    @cached_property
    def spread(self) -> Array:
        """Standard uncertainty of each entry of the scaled state (m,) [mm]."""
        return np.sqrt(np.diag(self.covariance))

    def is_told(self, at: int) -> NDArray[np.bool_]:
        """Which coordinates of the front at that place the readings tell (6,)."""
        part = slice(6 * at, 6 * at + 6)
        return np.asarray(self.spread[part] < TOLD_FROM * self.before[part], dtype=np.bool_)


def spread_before(stack: Stack) -> Array:
    """Spread of a stack's scaled state (m,) before any reading [mm]."""
    one_front = [SHIFTED_WITHIN] * 3 + [TURNED_WITHIN] * 3
    count = len(stack.fronts)
    return np.array(one_front * count + [SIZE_WITHIN] * (count + 1))


def find_state(stack: Stack) -> Found:
    """The most likely state of a stack."""
    scale = scale_of(stack)
    spread = spread_before(stack)
    at = [row for row, _ in stack.readings]
    sure = np.array([1.0 / one.uncertainty for _, one in stack.readings])
    off = np.array([one.value for _, one in stack.readings]) - stack.design[at]
    weighed = stack.rows[at] * scale * sure[:, None]
    information = weighed.T @ weighed
    information[np.diag_indices_from(information)] += spread**-2.0
    covariance = np.linalg.inv(information)
    # What the readings do not tell is 0, and draws nothing from what they do tell: the pose that is said is
    # then the one that is turned away, however few the readings are.
    told = np.sqrt(np.diag(covariance)) < TOLD_FROM * spread
    state = np.zeros(len(spread))
    part = weighed[:, told]
    inner = part.T @ part + np.diag((spread[told] * _HARDLY) ** -2.0)
    state[told] = np.linalg.solve(inner, part.T @ (off * sure))
    return Found(state, covariance, scale, spread)


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
    sure = found.is_told(at)
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
