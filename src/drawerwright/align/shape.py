"""What is wrong with fronts and openings themselves, told apart from how the fronts stand.

Poses, sizes and shapes are found together by weighted least squares. A shape has a spread before any reading
(own choices, no source), so that it is named only where the readings call for it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from drawerwright.align.front_geometry import Array
from drawerwright.align.pose import scale_of, spread_before
from drawerwright.align.stack import Stack
from drawerwright.model.gaps import GAP_NAMES

_SHAPE_WITHIN: Final = 1.0
"""Spread of a front's or an opening's shape before any reading [mm]."""

_SHAPES: Final = ("leans", "taper", "twist")
_OUT: Final = np.array([name.startswith("out_") for name in GAP_NAMES])
_TOP: Final = np.array(["top" in name for name in GAP_NAMES])
_LEFT: Final = np.array(["left" in name for name in GAP_NAMES])
_SIDES: Final = np.array([name.startswith(("left", "right")) for name in GAP_NAMES])
_SIDE_LEFT: Final = np.array([name.startswith("left") for name in GAP_NAMES])


@dataclass(frozen=True, slots=True)
class Sized:
    """A size and its standard uncertainty [mm]."""

    value: float
    uncertainty: float

    def is_plain(self, least: float) -> bool:
        """Whether it is at least so much [mm], and twice its uncertainty."""
        return abs(self.value) >= max(least, 2.0 * self.uncertainty)


@dataclass(frozen=True, slots=True)
class Shape:
    """Shapes at one front [mm].

    `wide`: gaps left and right together wider than designed. `leans`: how far its top edge lies right of
    square with its bottom edge, or the cabinet's left of it. `taper`: gaps left and right together wider at
    the top than at the bottom. `twist`: how far its top left corner stands out of the other three's plane.
    """

    wide: Sized
    leans: Sized
    taper: Sized
    twist: Sized


@dataclass(frozen=True, slots=True)
class StackShape:
    """Shapes of a stack: of each front, and of all together.

    `high`: all gaps one over the other together wider than designed; `taper`: these together wider at the
    left than at the right [mm].
    """

    fronts: tuple[Shape, ...]
    high: Sized
    taper: Sized


def find_shapes(stack: Stack) -> StackShape:
    """Shapes of a stack's fronts from its readings."""
    count = len(stack.fronts)
    rows = np.hstack([stack.rows * scale_of(stack), *_shape_rows(count)])
    spread = np.full(rows.shape[1], _SHAPE_WITHIN)
    spread[: 7 * count + 1] = spread_before(stack)
    at = [row for row, _ in stack.readings]
    sure = np.array([1.0 / one.uncertainty for _, one in stack.readings])
    off = np.array([one.value for _, one in stack.readings]) - stack.design[at]
    weighed = rows[at] * sure[:, None]
    information = weighed.T @ weighed
    information[np.diag_indices_from(information)] += spread**-2.0
    covariance = np.linalg.inv(information)
    state = covariance @ (weighed.T @ (off * sure))
    uncertainty = np.sqrt(np.diag(covariance))

    def sized(place: int, times: float = 1.0) -> Sized:
        return Sized(float(state[place]) * times, float(uncertainty[place]) * times)

    first = 7 * count + 1
    fronts = tuple(
        Shape(sized(6 * count + one, 2.0), *(sized(first + kind * count + one) for kind in range(3)))
        for one in range(count)
    )
    return StackShape(fronts, sized(7 * count, count + 1.0), sized(first + 3 * count))


def _shape_rows(count: int) -> list[Array]:
    """Change of every reading with `leans`, `taper` and `twist` of each front and the taper of the stack."""
    half = np.where(_TOP, 0.5, -0.5)
    one_front = {
        "leans": np.where(_SIDES, half * np.where(_SIDE_LEFT, 1.0, -1.0), 0.0),
        "taper": np.where(_SIDES, half / 2, 0.0),
        "twist": np.where(_OUT, np.where(_TOP == _LEFT, 0.25, -0.25), 0.0),
    }
    found: list[Array] = []
    for kind in _SHAPES:
        block = np.zeros((12 * count, count))
        for one in range(count):
            block[12 * one : 12 * one + 12, one] = one_front[kind]
        found.append(block)
    stacked = np.zeros((12 * count, 1))
    for name, by in (("top_left", 0.5), ("top_right", -0.5)):
        stacked[12 * (count - 1) + GAP_NAMES.index(name)] = by
    return [*found, stacked]
