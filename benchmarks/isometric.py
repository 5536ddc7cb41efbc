"""The isometric of a drawer, from the fitted drawer to a scene without hidden lines."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import cycle

from benchmarks.measuring import Figure, seconds
from drawerwright.catalogue.families import load_families
from drawerwright.drawing.views.exploded import exploded
from drawerwright.drawing.views.isometric import isometric
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

GOAL = 10.0
GOAL_APART = 50.0  # own choice: nobody drags it


def figures() -> Iterator[Figure]:
    """All figures of drawings in space: another extension each time, as a slider asks for them."""
    fitted = _drawer()
    extensions = cycle(range(20, 480, 7))
    taken = seconds(lambda: isometric(fitted, float(next(extensions))), times=61)
    yield Figure("isometric of a drawer behind a face frame, drawn out", taken * 1e3, "ms", GOAL)
    taken = seconds(lambda: exploded(fitted), times=31)
    yield Figure("exploded view of a drawer", taken * 1e3, "ms", GOAL_APART)


def _drawer() -> FittedDrawer:
    told = {
        "id": "B",
        "opening": {"width": 562, "height": 168, "depth": 530},
        "construction": "face-frame",
        "frame": {"left": 38, "right": 41, "thickness": 19},
        "front": {"style": "overlay", "overlay": 12},
        "side": 16,
    }
    return fit_job(job_from_mapping({"drawer": [told]}), load_families(None)).drawers[0]
