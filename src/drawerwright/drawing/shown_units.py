"""Dimensions written in inches, or in both: the geometry stays in mm."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from drawerwright.drawing.scene import Dimension, Primitive, RunningDimension, Scene
from drawerwright.drawing.shown import Shown, Units, shown_in
from drawerwright.drawing.wording import is_slight, shown, shown_length

WIDER: Final = 1.65
"""How much further apart upright dimensions stand beside inches. Own choice."""
_ROOM_FOR_SECOND = 2.0


LIMITED: Final = frozenset(
    {
        "box_height", "box_length", "outside_width", "back_length", "back_height", "subfront_length",
        "subfront_height", "side_length", "side_height", "bottom_width", "bottom_length", "front_width",
        "front_height",
    }
)  # fmt: skip
"""Sizes of boxes and parts: inches are rounded down, as on the lists, so that nothing comes out too large."""


def in_units(scene: Scene, units: Units) -> Scene:
    """The scene with its dimensions written in the units asked for; what is written already stays.

    Upright dimensions stand further apart then, for inches run wider, and have them under the mm.
    """
    own = shown_in(units)
    if not own.with_inches:
        return scene
    return replace(scene, primitives=tuple(_written(each, own) for each in scene.primitives))


def _written(primitive: Primitive, units: Shown) -> Primitive:
    if isinstance(primitive, RunningDimension) and primitive.texts is None:
        return _running(primitive, units)
    if not isinstance(primitive, Dimension):
        return primitive
    upright = primitive.direction == "vertical"
    offset = primitive.offset * (WIDER if upright else 1.0)
    if primitive.text is not None:
        return replace(primitive, offset=offset)
    value, down = primitive.value, primitive.quantity in LIMITED
    if units.both and upright and not is_slight(value):
        under = f"({shown(value, replace(units, units='in'), down=down)})"
        return replace(primitive, offset=offset, text=shown_length(value), second=under)
    return replace(primitive, offset=offset, text=shown(value, units, down=down))


def _running(running: RunningDimension, units: Shown) -> RunningDimension:
    inches = tuple(shown(value, replace(units, units="in")) for value in running.values)
    if units.in_inches:
        return replace(running, texts=inches)
    metric = tuple(shown_length(value) for value in running.values)
    return replace(
        running,
        texts=metric,
        seconds=tuple(f"({text})" for text in inches),
        offset=running.offset + math.copysign(_ROOM_FOR_SECOND, running.offset),
    )
