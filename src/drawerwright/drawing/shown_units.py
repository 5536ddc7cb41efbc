"""Dimensions written in inches, or in both: the geometry stays in mm."""

from __future__ import annotations

from dataclasses import replace

from drawerwright.drawing.scene import Dimension, Primitive, RunningDimension, Scene
from drawerwright.drawing.wording import shown
from drawerwright.units import ShownUnits


def in_units(scene: Scene, units: ShownUnits) -> Scene:
    """The scene with its dimensions written in the units asked for; what is written already stays."""
    if units == "mm":
        return scene
    return replace(scene, primitives=tuple(_written(each, units) for each in scene.primitives))


def _written(primitive: Primitive, units: ShownUnits) -> Primitive:
    if isinstance(primitive, Dimension) and primitive.text is None:
        return replace(primitive, text=shown(primitive.value, units))
    if isinstance(primitive, RunningDimension) and primitive.texts is None:
        return replace(primitive, texts=tuple(shown(value, units) for value in primitive.values))
    return primitive
