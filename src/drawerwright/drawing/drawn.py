"""A scene brought down to plain primitives, grouped where they belong to one dimension or note."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from drawerwright.drawing.dimensioning import lay_out_dimension, lay_out_leader, lay_out_running
from drawerwright.drawing.geometry import Bounds, bounds_of, joined
from drawerwright.drawing.hatching import hatch_lines
from drawerwright.drawing.pens import PENS
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.scene import Dimension, Hatch, Leader, RunningDimension, Scene


@dataclass(frozen=True, slots=True)
class Drawn:
    """Plain primitives that belong together; `quantity` and `value` [mm] where they show one."""

    items: tuple[Plain, ...]
    quantity: str = ""
    value: float | None = None


def drawn(scene: Scene) -> Iterator[Drawn]:
    """The scene's primitives in order, dimensions and notes laid out, hatching clipped."""
    for each in scene.primitives:
        if isinstance(each, Dimension):
            yield Drawn(lay_out_dimension(each), each.quantity, each.value)
        elif isinstance(each, RunningDimension):
            yield Drawn(lay_out_running(each), each.quantity)
        elif isinstance(each, Leader):
            yield Drawn(lay_out_leader(each), each.quantity, each.value)
        elif isinstance(each, Hatch):
            segments = hatch_lines(each.outline, each.angle_deg, each.spacing)
            if segments:
                yield Drawn((Lines(segments, "hatch", each.layer),))
        else:
            yield Drawn((each,))


def extent(scene: Scene) -> Bounds:
    """The rectangle everything drawn takes, lettering and half the line weights with it [mm on paper].

    Hatching lies inside outlines that are drawn, so it is passed over unless nothing else is there.
    """
    bare = replace(scene, primitives=tuple(each for each in scene.primitives if not isinstance(each, Hatch)))
    found = [_extent(item) for group in drawn(bare) for item in group.items]
    return joined(found) if found else scene.bounds


def _extent(item: Plain) -> Bounds:
    if isinstance(item, Text):
        return item.extent
    if isinstance(item, Circle):
        x, y = item.centre
        return Bounds(x - item.radius, y - item.radius, x + item.radius, y + item.radius).grown(0.1)
    if isinstance(item, Polyline | Lines | Arc | Hole | Slot):
        return bounds_of(item.points).grown(PENS[item.line].weight / 2)
    raise TypeError(f"not a plain primitive: {type(item).__name__}")
