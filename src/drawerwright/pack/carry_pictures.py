"""The drawings of what a drawer carries: diagrams over the travel, and the chart of its closing."""

from __future__ import annotations

import math
from functools import lru_cache, partial
from typing import Any, Final, Protocol

import numpy as np

from drawerwright.carry.carried import CarriedDrawer
from drawerwright.carry.closing_chart import MASSES, ClosingChart, closing_chart
from drawerwright.carry.closing_checks import SOFT
from drawerwright.carry.words import Words
from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.carried import force_diagram, sag_diagram
from drawerwright.drawing.views.closing_chart import closing_chart as chart_view
from drawerwright.model.family import SoftClose
from drawerwright.pack.carry_unknown import unknown_name
from drawerwright.pack.picture_scale import Picture
from drawerwright.pack.shown import Shown

EDGE: Final = 0.6
"""White around a drawing [mm], so that no line is cut at the edge of its room."""
LEAST: Final = (40.0, 20.0)
"""Least width and height of a drawing's field [mm]. Own choice."""
CLOSE: Final = 1.0
"""A drawing that leaves less of its room than this [mm] fills it."""
TRIES: Final = 5
GUESS: Final = 0.68
"""What lettering around a field leaves of a room, before it was tried. Own choice."""
CELLS: Final = 49
"""Masses along the chart. Own choice."""
BEYOND: Final = 1.25
"""A drawer heavier than the usual chart stands at this share of the chart's greatest mass. Own choice."""


class Drawing(Protocol):
    """A drawing in a field of a told width and height on paper [mm]."""

    def __call__(self, *, size: tuple[float, float]) -> Scene:
        """The drawing, its field of that width and height [mm]."""


def filling(draw: Drawing, width: float, height: float) -> Picture:
    """A drawing whose field takes what its lettering leaves of the room of `width` × `height` [mm].

    Where even the least field is too large for it, that one is taken.
    """
    size = width * GUESS, height * GUESS
    for _ in range(TRIES):
        scene = clear_lettering(draw(size=size))
        room = extent(scene).grown(EDGE)
        picture = Picture(scene, room)
        wider, higher = width - room.width, height - room.height
        if 0.0 <= wider < CLOSE and 0.0 <= higher < CLOSE:
            break
        size = max(size[0] + wider - CLOSE / 2, LEAST[0]), max(size[1] + higher - CLOSE / 2, LEAST[1])
    return picture


def diagrams_of(one: CarriedDrawer, width: float, height: float, shown: Shown) -> list[dict[str, Any]]:
    """Sag and roller forces over the travel, each in a room of that size [mm]; or why there is none."""
    slide = one.slide
    if slide is None:
        return [_document(None, "No slide fits this drawer: nothing is drawn out.")]
    lacks = ", ".join(unknown_name(key).lower() for key in one.missing if key != "soft_close")
    sag = partial(sag_diagram, slide, units=shown) if slide.data.has_sag else None
    forces = partial(force_diagram, slide, units=shown) if slide.rollers is not None else None
    return [
        _document(
            None if draw is None else filling(draw, width, height),
            f"{what} over the travel: not known, for the slide family does not tell its {lacks}.",
        )
        for draw, what in ((sag, "Sag of the front"), (forces, "Forces of the roller groups"))
    ]


def chart_of(one: CarriedDrawer, width: float, height: float, shown: Shown) -> dict[str, Any] | None:
    """The chart of closing in a room of that size [mm], this drawer marked in it; or why there is none."""
    slide = one.slide
    if slide is None:
        return None
    closing, unit = slide.closing, slide.chosen.family.soft_close
    if closing is None or unit is None:
        return _document(None, "Closing: not known, for the slide family tells of no closing unit.")
    chart = _chart(unit, slide.data.travel, greatest_mass(closing.moving))
    words = Words(shown.units)
    pushed, soft = words.speed(closing.push), words.speed(SOFT)
    draw = partial(chart_view, chart, closing, units=shown)
    return {
        **_document(filling(draw, width, height), ""),
        "caption": f"Pushed at {pushed} into its unit; soft up to {soft} (own choice)",
    }


def greatest_mass(moving: float) -> float:
    """To which mass the chart goes [kg]: the usual one, or on to tens of kg beyond a heavier drawer."""
    if moving <= MASSES[1]:
        return MASSES[1]
    return math.ceil(moving * BEYOND / 10.0) * 10.0


@lru_cache(maxsize=64)
def _chart(unit: SoftClose, travel: float, greatest: float) -> ClosingChart:
    return closing_chart(unit, travel, np.linspace(MASSES[0], greatest, CELLS).tolist())


def _document(picture: Picture | None, says: str) -> dict[str, Any]:
    return {"drawing": None if picture is None else picture.document(), "says": says}
