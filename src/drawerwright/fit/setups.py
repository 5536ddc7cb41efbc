"""Settings of boring machine and saw that a drawer calls for, on a slide: what a shop sets up once for many.

A setting is counted once for the whole job, however many drawers share it. Counted are

- row holes of a cabinet side, as depths from its front edge; screw holes of a slide on a shelf;
- crosscuts: lengths of sides, subfronts, backs and packing; rips: their widths;
- lengths and widths of bottoms.

Fronts are left out: no slide changes them. Two settings that differ by less than a saw's scale shows are one.
"""

from __future__ import annotations

from typing import TypeAlias

from drawerwright.fit.answer import mounting_of
from drawerwright.fit.open_slides import OpenSlide, PlacedValues
from drawerwright.fit.parts import parts_of
from drawerwright.model.job import Drawer

Setting: TypeAlias = tuple[str, tuple[float, ...]]
"""What is set, and to which measures [mm]."""

BORINGS = ("row holes", "shelf holes")
# A tenth of a millimetre is what the scale of a saw shows; common practice, no source.
_DECIMALS = 1


def settings_of(drawer: Drawer, slide: OpenSlide) -> frozenset[Setting]:
    """All settings that a drawer calls for on a slide."""
    values = PlacedValues(slide.place)
    mounting = mounting_of(slide.place, values)
    bored = zip(BORINGS, (mounting.holes_from_side_edge, mounting.shelf_holes), strict=True)
    found = {(what, _rounded(*holes)) for what, holes in bored if holes}
    for part in parts_of(drawer, values):
        if part.part == "front":
            continue
        along, across = ("bottom", "bottom") if part.grain == "none" else ("crosscut", "rip")
        found |= {(along, _rounded(part.cut_length)), (across, _rounded(part.cut_width))}
    return frozenset(found)


def _rounded(*measures: float) -> tuple[float, ...]:
    return tuple(round(measure, _DECIMALS) for measure in measures)
