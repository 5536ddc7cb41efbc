"""The few array rules that equations call where plain arithmetic does not say it.

`phrase` is how the working words the call.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Q = NDArray[np.float64]
_ROUND_OFF = 1e-9


def up_to_row(line: Q, first_row: Q, row_pitch: Q) -> Q:
    """Least distance [mm], 0 or more, that brings a height onto a row of holes."""
    rows = np.maximum(np.ceil((line - first_row) / row_pitch - _ROUND_OFF), 0)
    return np.maximum(first_row + rows * row_pitch - line, 0)


def largest_kept(limit: Q, kept: Q) -> Q:
    """Largest of the kept sizes [mm] not over the limit, the smallest where none is.

    `kept` has one axis more than `limit`, the sizes last, padded with nan.
    """
    under = np.where(kept <= limit[..., None] + _ROUND_OFF, kept, -np.inf)
    largest: Q = np.fmax.reduce(under, axis=-1)
    smallest: Q = np.fmin.reduce(kept, axis=-1)
    return np.where(np.isfinite(largest), largest, smallest)


def places_between(places: Q, first: Q, low: Q, high: Q) -> Q:
    """How many places stand between two depths [mm], counted on from the first.

    `places` have one axis more than the rest, the places last, padded with nan.
    """
    at = first[..., None] + places
    found: Q = ((at > low[..., None]) & (at < high[..., None])).sum(axis=-1, dtype=np.float64)
    return found


def standing_farthest_in(
    things: Q,
    foot: Q,
    top: Q,
    face: Q,
    rear: Q,
    travel: Q,
    door_in: Q,
    door_slope: Q,
    door_reach: Q,
) -> Q:
    """Farthest that anything in the way of a body stands in from the opening's edge [mm], 0 where nothing.

    `things` have two axes more than the rest: the things, and of each how far it stands in, its bottom, top,
    and its two depths; padded with nan. The body reaches from `foot` to `top` above the opening's bottom, and
    from `face` to `rear` counted into the cabinet, less what it is drawn out. A door's inner face stands
    `door_in` at the opening's edge and `door_slope` more for each mm before it, as far as `door_reach`.
    """
    stands_in, bottom, over, near, far = (things[..., index] for index in range(5))
    low, high, first, last = (one[..., None] for one in (foot, top, face - travel, rear))
    met = (bottom < high) & (over > low) & (near < last) & (far > first)
    farthest: Q = np.where(met, stands_in, 0.0).max(axis=-1, initial=0.0)
    out = np.maximum(travel - face, 0)
    door = np.where(out > 0, door_in + door_slope * np.minimum(out, door_reach), 0.0)
    return np.maximum(farthest, door)


def diagonal_of(width: Q, height: Q) -> Q:
    """Diagonal of a rectangle [mm]."""
    return np.hypot(width, height)


def mean_diagonal(first: Q, second: Q) -> Q:
    """Root mean square of two diagonals [mm]: in a parallelogram the one of the rectangle with its sides."""
    return np.sqrt((first * first + second * second) / 2)


def side_beside(diagonal: Q, side: Q) -> Q:
    """The other side of a rectangle [mm] with that diagonal; 0 where the diagonal is shorter."""
    return np.sqrt(np.maximum(diagonal * diagonal - side * side, 0))


def out_of_square_deg(to_right: Q, to_left: Q, width: Q, height: Q) -> Q:
    """Lean of a parallelogram [°], to the right positive.

    The squares of its diagonals differ by four times width times height times the sine of its lean.
    """
    sine = (to_right * to_right - to_left * to_left) / (4 * width * height)
    return np.rad2deg(np.arcsin(np.clip(sine, -0.5, 0.5)))


def _phrase(function: Any, words: str) -> None:
    function.phrase = words


_phrase(up_to_row, "up from {0} to the rows that begin at {1} and are {2} apart")
_phrase(largest_kept, "the tallest kept height up to {0}")
_phrase(places_between, "the places that stand, from {1} on, between {2} and {3}")
_phrase(
    standing_farthest_in,
    "the farthest in of what stands between heights {1} and {2}, on the way from depths {3} and {4} to {5} "
    "farther out; of the door {6}, then {7} for each 1 before the edge, up to {8}",
)
_phrase(diagonal_of, "the diagonal of {0} by {1}")
_phrase(mean_diagonal, "the root mean square of {0} and {1}")
_phrase(side_beside, "the side that makes the diagonal {0} with {1}")
_phrase(out_of_square_deg, "the lean at which the squares of {0} and {1} differ by 4 × {2} × {3} × its sine")
