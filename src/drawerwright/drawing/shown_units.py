"""Dimensions written in inches, or in both: the geometry stays in mm."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from drawerwright.drawing.scene import Dimension, Primitive, RunningDimension, Scene
from drawerwright.drawing.shown import Shown, Units, shown_in
from drawerwright.drawing.wording import THICKNESSES, hardware, shown, shown_length, thick
from drawerwright.model.cut_sizes import rounds_down
from drawerwright.units import is_slight

WIDER: Final = 1.65
"""How much further apart upright dimensions stand beside inches. Own choice."""
_ROOM_FOR_SECOND = 2.0
_ON_GRID: Final = frozenset({"screw_line"})


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
    value, down = primitive.value, rounds_down(primitive.quantity)
    if primitive.quantity in THICKNESSES:
        return replace(primitive, offset=offset, text=thick(value, units))
    if primitive.quantity in _ON_GRID and units.in_inches:
        under = "" if is_slight(value) else f"({shown(value, units)})"
        return replace(primitive, offset=offset, text=hardware(value, units), second=under)
    if units.both and upright and not is_slight(value):
        under = f"({shown(value, replace(units, units='in'), down=down)})"
        return replace(primitive, offset=offset, text=shown_length(value), second=under)
    return replace(primitive, offset=offset, text=shown(value, units, down=down))


def _running(running: RunningDimension, units: Shown) -> RunningDimension:
    """Places of row holes, which are bored in mm: inches alone stand under them as well."""
    inches = tuple(shown(value, replace(units, units="in")) for value in running.values)
    metric = tuple(hardware(value, "in" if units.in_inches else "mm") for value in running.values)
    return replace(
        running,
        texts=metric,
        seconds=tuple(f"({text})" for text in inches),
        offset=running.offset + math.copysign(_ROOM_FOR_SECOND, running.offset),
    )
