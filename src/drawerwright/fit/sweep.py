"""One drawer as wished, in very many openings: which slide is chosen in each.

For a catalogue's limits, a range of openings, or a million samples: margins and choice alone, no words.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import Q
from drawerwright.fit.choose import choose
from drawerwright.fit.columns import front_overlaps
from drawerwright.fit.drawer_values import NO_ERRORS, drawer_values, stack
from drawerwright.fit.situation import mounts_to_try
from drawerwright.fit.slide_rows import slide_rows
from drawerwright.fit.trial import run_trial
from drawerwright.model.family import SlideFamily, SlideLength
from drawerwright.model.fitted import Mount
from drawerwright.model.job import Cabinet, Drawer

_ROWS = 8192


@dataclass(frozen=True, slots=True)
class Sweep:
    """What was chosen in each opening: `chosen` (n,) indexes `candidates`, -1 where nothing fits."""

    chosen: NDArray[np.intp]
    candidates: tuple[tuple[SlideFamily, SlideLength, Mount], ...]


def sweep_openings(
    drawer: Drawer,
    families: Sequence[SlideFamily],
    *,
    width: NDArray[np.float64],
    height: NDArray[np.float64],
    depth: NDArray[np.float64],
    cabinet: Cabinet | None = None,
) -> Sweep:
    """Fit a drawer in openings (n,) [mm]; its own opening is not used. One reading of each size is assumed.

    Raises ValueError where the arrays are not of one length.
    """
    if not (width.shape == height.shape == depth.shape == (len(width),)):
        raise ValueError(f"widths, heights and depths differ: {width.shape}, {height.shape}, {depth.shape}")
    one = drawer_values(drawer, cabinet, front_overlaps([drawer])[drawer.id])
    situation = {**one.situation, "readings": "one", "heights": "plain", "diagonals": "not-told"}
    groups, mounts = slide_rows(families), mounts_to_try(drawer)
    wished: dict[str, Q] = {**NO_ERRORS, **stack([one]), "taper": np.zeros((1, 1))}
    starts = np.cumsum([0, *(len(group.candidates) for group in groups)])
    chosen = np.full(len(width), -1, dtype=np.intp)
    for first in range(0, len(width), _ROWS):
        open_ = np.arange(first, min(first + _ROWS, len(width)))
        for turn, mount in enumerate(mounts):
            if not open_.size:
                break
            drawers = {**wished, **_openings(width[open_], height[open_], depth[open_])}
            trials = [run_trial(situation, mount, group, drawers, answer=False) for group in groups]
            choice = choose(trials)
            found = choice.trial >= 0
            column = starts[choice.trial] + choice.column + turn * starts[-1]
            chosen[open_[found]] = column[found]
            open_ = open_[~found]
    candidates = [(*item, mount) for mount in mounts for group in groups for item in group.candidates]
    return Sweep(chosen, tuple(candidates))


def _openings(width: Q, height: Q, depth: Q) -> dict[str, Q]:
    across = width[:, None]
    up = height[:, None]
    return {
        "measured_width": across,
        "widest_width": across,
        "narrowest_at_slide": across,
        "widest_at_slide": across,
        "opening_height": up,
        "tallest_height": up,
        "opening_depth": depth[:, None],
        "deepest_depth": depth[:, None],
    }
