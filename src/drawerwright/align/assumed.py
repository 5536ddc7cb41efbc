"""Gaps around an inset front that nobody measured: taken as designed, and never closed by a move.

An inset front stands in its opening: raised further than the gap above it, it runs into the rail, whether
anybody measured that gap or not.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.front_geometry import Array
from drawerwright.align.pose import Found
from drawerwright.align.stack import Stack
from drawerwright.model.gaps import GAP_NAMES, GapName

KEPT_SHARE: Final = 0.5
"""What stays of an unmeasured gap after a move, as a share of the designed one. Own choice, no source."""
RUBS_BELOW: Final = 0.5
"""A gap that is left narrower, or under half the designed one, may rub [mm]. Own choice, no source."""

_EDGES: Final = GAP_NAMES[:8]
_SHIFTS: Final = (0, 1)
"""x and y among a front's coordinates."""


def is_inset(stack: Stack, at: int) -> bool:
    """Whether the front at that place stands in its opening."""
    front = stack.fronts[at].fitted.front
    return front is not None and front.style == "inset"


def unmeasured(stack: Stack, at: int) -> tuple[GapName, ...]:
    """Gaps beside the edges of the front at that place that nobody measured."""
    taken = {row for row, _ in stack.readings}
    return tuple(name for name in _EDGES if stack.row(at, name) not in taken)


def kept_open(
    stack: Stack, found: Found, columns: NDArray[np.intp], step: Array, shift: Array
) -> tuple[Array, Array]:
    """Limits of turns by gaps that nobody measured: rows (c, k) [mm per mark] and their least (c,) [mm].

    Such a gap is taken as designed, and wider where the gap across it tells that the front stands off; a move
    leaves at least half of the designed one. `shift` (12 n,): what readings have moved by already [mm].
    """
    count = len(stack.fronts)
    rows = sorted({stack.row(at, name) for at in range(count) if is_inset(stack, at)
                   for name in unmeasured(stack, at)})  # fmt: skip
    turning = stack.turning[rows][:, columns] * step[columns]
    shifted = np.zeros(7 * count + 1, dtype=np.bool_)
    shifted[[6 * at + by for at in range(count) for by in _SHIFTS]] = True
    moved = stack.rows[rows] @ np.where(shifted, found.state * found.scale, 0.0)
    stands = stack.design[rows] + np.maximum(moved, 0.0) + shift[rows]
    least = np.minimum(KEPT_SHARE * stack.design[rows] - stands, 0.0)
    moves = turning.any(axis=1)
    return turning[moves], least[moves]


def rubs(stack: Stack, at: int, name: GapName, left: float) -> bool:
    """Whether a gap of that front [mm] is left so narrow that it may rub."""
    return left < min(RUBS_BELOW, stack.fronts[at].designed(name) / 2)
