"""The one further reading of a front that would make its moves surest."""

from __future__ import annotations

from typing import Final

import numpy as np

from drawerwright.align.aligned import NextReading
from drawerwright.align.front_geometry import Array
from drawerwright.align.pose import Found
from drawerwright.align.stack import Stack
from drawerwright.align.words import small_length
from drawerwright.model.gaps import GAP_NAMES, SURE_WITHIN, GapName
from drawerwright.units import ShownUnits

WORTH_IT: Final = 0.05
"""A reading that makes the moves surer by less is not asked for [mm]. Own choice, no source."""


def next_reading(stack: Stack, found: Found, at: int, units: ShownUnits = "mm") -> NextReading | None:
    """The missing reading of the front at that place that helps most; None where none is worth it.

    What is compared is the root mean square of the standard uncertainties of its moves [mm].
    """
    front = stack.fronts[at]
    movable = front.adjusters.high > front.adjusters.low
    taken = {row for row, _ in stack.readings}
    missing = [(name, stack.row(at, name)) for name in GAP_NAMES if stack.row(at, name) not in taken]
    if not missing or not np.any(movable):
        return None
    needed = np.linalg.pinv(front.geometry.pose_changes[:, movable], rcond=1e-9)
    part = slice(6 * at, 6 * at + 6)
    needed = needed * found.scale[part]
    moves = needed @ found.covariance[part]
    before = float(np.sum(moves[:, part] * needed))
    best: tuple[float, GapName] | None = None
    for name, row in missing:
        gain = _gain(moves, found, stack.rows[row] * found.scale)
        if best is None or gain > best[0] + 1e-12:
            best = gain, name
    if best is None:
        return None
    count = int(np.sum(movable))
    spread, left = (before / count) ** 0.5, (max(before - best[0], 0.0) / count) ** 0.5
    if spread - left < WORTH_IT:
        return None
    says = (
        f"measure {reading_words(best[1])} next: the moves are then sure within "
        f"{small_length(left, units, decimals=1)}, now {small_length(spread, units, decimals=1)}"
    )
    return NextReading(front.id, best[1], spread, left, says)


def _gain(moves: Array, found: Found, row: Array) -> float:
    """By how much a reading lessens the summed variance of the moves [mm²]."""
    told = moves @ row
    return float(told @ told / (SURE_WITHIN**2 + row @ found.covariance @ row))


def reading_words(name: GapName) -> str:
    """A reading in words: "the left gap at the top", "how far the top left corner stands out"."""
    first, _, rest = name.partition("_")
    if first == "out":
        return f"how far the {rest.replace('_', ' ')} corner stands out"
    return f"the {first} gap at the {rest}"
