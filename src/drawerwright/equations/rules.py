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


def _phrase(function: Any, words: str) -> None:
    function.phrase = words


_phrase(up_to_row, "up from {0} to the rows that begin at {1} and are {2} apart")
_phrase(largest_kept, "the tallest kept height up to {0}")
