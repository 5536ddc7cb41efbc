"""Dimensions written in inches, or in both: the geometry stays in mm."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from drawerwright.drawing.scene import Dimension, Primitive, RunningDimension, Scene
from drawerwright.drawing.wording import shown, shown_length
from drawerwright.units import ShownUnits

WIDER: Final = 1.65
"""How much further apart upright dimensions stand beside inches. Own choice."""
_ROOM_FOR_SECOND = 2.0


def in_units(scene: Scene, units: ShownUnits) -> Scene:
    """The scene with its dimensions written in the units asked for; what is written already stays.

    Upright dimensions stand further apart then, for inches run wider, and have them under the mm.
    """
    if units == "mm":
        return scene
    return replace(scene, primitives=tuple(_written(each, units) for each in scene.primitives))


def _written(primitive: Primitive, units: ShownUnits) -> Primitive:
    if isinstance(primitive, RunningDimension) and primitive.texts is None:
        return _running(primitive, units)
    if not isinstance(primitive, Dimension):
        return primitive
    upright = primitive.direction == "vertical"
    offset = primitive.offset * (WIDER if upright else 1.0)
    if primitive.text is not None:
        return replace(primitive, offset=offset)
    if units == "both" and upright:
        under = f"({shown(primitive.value, 'in')})"
        return replace(primitive, offset=offset, text=shown_length(primitive.value), second=under)
    return replace(primitive, offset=offset, text=shown(primitive.value, units))


def _running(running: RunningDimension, units: ShownUnits) -> RunningDimension:
    inches = tuple(shown(value, "in") for value in running.values)
    if units == "in":
        return replace(running, texts=inches)
    metric = tuple(shown_length(value) for value in running.values)
    return replace(
        running,
        texts=metric,
        seconds=tuple(f"({text})" for text in inches),
        offset=running.offset + math.copysign(_ROOM_FOR_SECOND, running.offset),
    )
