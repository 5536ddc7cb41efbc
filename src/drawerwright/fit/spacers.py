"""Which spacers bring a locking bracket nearest its seat: the fewest that serve, then the nearest.

Sideways a spacer also brings the pair nearer to the width it runs in, so both are asked of it.
The two faces of a bracket do not speak to each other, so choosing each for itself gives the same as trying
every pair of stacks: the fewest in all are the fewest on each face.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import Q
from drawerwright.fit.slide_rows import SpacerChoices

ROUND_OFF = 1e-6
_PER_SPACER = 1e5
_OUT_OF_REACH = 1e7


@dataclass(frozen=True, slots=True)
class Stacked:
    """The chosen stack for every drawer and slide: its place in the choices, thickness [mm], pieces."""

    place: NDArray[np.intp]
    thickness: Q
    pieces: Q


def choose_spacers(off_seat: Q, low: Q, high: Q, choices: SpacerChoices) -> Stacked:
    """Stacks (d, c) for brackets that stand `off_seat` (d, c) [mm] without any.

    A stack serves where what is left lies between `low` and `high` [mm]; where none serves, the nearest.
    """
    if choices.sums.shape[1] == 1:
        none = np.zeros_like(off_seat)
        return Stacked(none.astype(np.intp), none, none)
    least, most = low - ROUND_OFF, high + ROUND_OFF
    best = place = None
    for at in range(choices.sums.shape[1]):
        counts, left = choices.counts[:, at], off_seat - choices.sums[:, at]
        away, serves = np.abs(left), (left >= least) & (left <= most)
        if at == 0 and serves.all():  # none does: no stack of any serves with fewer
            place = np.zeros(serves.shape, dtype=np.intp)
            break
        cost = np.where(serves, counts * _PER_SPACER + away, _OUT_OF_REACH + away * _PER_SPACER + counts)
        if best is None or place is None:
            best, place = cost, np.zeros(cost.shape, dtype=np.intp)
        else:
            nearer = cost < best
            best, place = np.where(nearer, cost, best), np.where(nearer, at, place)
    assert place is not None
    family = np.zeros(1, dtype=np.intp) if choices.sums.shape[0] == 1 else np.arange(choices.sums.shape[0])
    return Stacked(place, choices.sums[family[None, :], place], choices.counts[family[None, :], place])
