"""Views drawn for the screen: at a standard scale, under a name of their own, lettering large beside them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.sheet import STANDARD_SCALES

LARGE_LETTERING: Final = 85.0
"""Most that a thing measures on paper [mm] so that its lettering is read on a phone. Own choice."""


def times_smaller(largest: float, most: float) -> float:
    """How many times smaller a thing of that size [mm] is drawn to measure at most `most` [mm] on paper."""
    return next((one for one in STANDARD_SCALES if largest / one <= most), STANDARD_SCALES[-1])


def on_paper(scene: Scene, name: str, most: float = LARGE_LETTERING) -> Scene:
    """A view at the largest standard scale at which the thing measures at most `most` [mm] on paper.

    `name`: no two drawings of a page may share one, for their dimensions are named by it.
    """
    times = times_smaller(max(scene.bounds.width, scene.bounds.height), most)
    return replace(clear_lettering(scale_to_paper(scene, 1 / times)), name=name)
