"""A drawer invented to show a slide family: an opening that its middle length just goes into."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any, Final

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily, SlideLength
from drawerwright.model.fitted import FittedDrawer

WIDTH: Final = 600.0
HEIGHT: Final = 180.0
"""Width and height of the example's opening [mm]: invented."""
STEP: Final = 10.0
"""The example's depth is a multiple of it [mm]: invented."""
FRONT: Final = {"style": "overlay", "thickness": 19}
"""The example's front [mm]: invented."""


def middle_length(family: SlideFamily) -> SlideLength:
    """The length in the middle of the family, the shorter of two."""
    by_size = sorted(family.lengths, key=lambda one: one.nominal)
    return by_size[(len(by_size) - 1) // 2]


def example_drawer(family: SlideFamily) -> dict[str, Any]:
    """Keys of the drawer that shows the family."""
    length = middle_length(family)
    least = family.front_overlay + length.member + family.clearance.rear
    depth = math.ceil(least / STEP) * STEP
    return {
        "id": family.id,
        "opening": {"width": WIDTH, "height": HEIGHT, "depth": depth},
        "side": family.design_side,
        "subfront": family.design_subfront,
        "front": FRONT,
        "slide": f"{family.id}/{length.nominal:g}",
    }


@lru_cache(maxsize=64)
def example_of(family: SlideFamily) -> FittedDrawer:
    """The example drawer fitted on the family; where it does not fit, its answer says why."""
    job = job_from_mapping({"drawer": [example_drawer(family)]})
    return fit_job(job, [family]).drawers[0]
