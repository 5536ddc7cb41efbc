"""A scene brought down to plain primitives, grouped where they belong to one dimension or note."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from drawerwright.drawing.dimensioning import lay_out_dimension, lay_out_leader, lay_out_running
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.hatching import hatch_lines
from drawerwright.drawing.pens import PENS
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Primitive, RunningDimension, Scene


@dataclass(frozen=True, slots=True)
class Drawn:
    """Plain primitives that belong together; `quantity` and `value` [mm] where they show one."""

    items: tuple[Plain, ...]
    quantity: str = ""
    value: float | None = None


def drawn(scene: Scene) -> Iterator[Drawn]:
    """The scene's primitives in order, dimensions and notes laid out, hatching clipped."""
    for each in scene.primitives:
        group = drawn_of(each)
        if group.items:
            yield group


def drawn_of(primitive: Primitive) -> Drawn:
    """One primitive of a scene brought down; without items where nothing of it is to be seen."""
    if isinstance(primitive, Dimension):
        return Drawn(lay_out_dimension(primitive), primitive.quantity, primitive.value)
    if isinstance(primitive, RunningDimension):
        return Drawn(lay_out_running(primitive), primitive.quantity)
    if isinstance(primitive, Leader):
        return Drawn(lay_out_leader(primitive), primitive.quantity, primitive.value)
    if isinstance(primitive, Hatch):
        segments = hatch_lines(primitive.outline, primitive.angle_deg, primitive.spacing)
        return Drawn((Lines(segments, "hatch", primitive.layer),) if segments else ())
    return Drawn((primitive,))


def extent(scene: Scene) -> Bounds:
    """The rectangle everything drawn takes, lettering and half the line weights with it [mm on paper].

    Hatching lies inside outlines that are drawn, so it is passed over unless nothing else is there.
    """
    bare = replace(scene, primitives=tuple(each for each in scene.primitives if not isinstance(each, Hatch)))
    found = [_edges(item) for group in drawn(bare) for item in group.items]
    if not found:
        return scene.bounds
    left, bottom, right, top = zip(*found, strict=True)
    return Bounds(min(left), min(bottom), max(right), max(top))


def _edges(item: Plain) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of what a primitive takes [mm on paper]."""
    if isinstance(item, Text):
        box = item.extent
        return box.left, box.bottom, box.right, box.top
    if isinstance(item, Circle):
        (x, y), r = item.centre, item.radius
        return x - r - 0.1, y - r - 0.1, x + r + 0.1, y + r + 0.1
    if isinstance(item, Polyline | Lines | Arc | Hole | Slot):
        by = PENS[item.line].weight / 2
        points = item.points
        across, up = [x for x, _ in points], [y for _, y in points]
        return min(across) - by, min(up) - by, max(across) + by, max(up) + by
    raise TypeError(f"not a plain primitive: {type(item).__name__}")
