"""A drawer that fits nothing, on the slide that came nearest: as if it ran there, to tell forces and sag."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drawerwright.model.fitted import FittedDrawer

HEAVIEST: Final = 1e9
"""Moving mass [kg] beyond which nothing is computed. Own choice."""


def on_nearest(one: FittedDrawer) -> FittedDrawer | None:
    """The drawer with the slide, box and masses that came nearest in their places.

    None where no slide was tried, or the geometry leaves no box, no member or no mass to compute with.
    """
    slide, sizes = one.nearest, one.nearest_sizes
    if slide is None or sizes is None:
        return None
    box, mounting, mass = sizes.box, sizes.mounting, sizes.mass
    lengths = (box.length, box.height, box.inside_width, box.outside_width, mounting.member)
    if not all(length > 0.0 for length in lengths) or not 0.0 < mass.moving <= HEAVIEST:
        return None
    return replace(one, slide=slide, box=box, mounting=mounting, mass=mass)
