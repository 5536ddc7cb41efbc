"""Keeping lettering apart: at small scales numbers and notes move aside, and mere labels give way.

Works on a scene that is at its paper scale, for only there is it known what touches.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drawerwright.drawing.dimensioning import lay_out_dimension
from drawerwright.drawing.drawn import drawn_of
from drawerwright.drawing.geometry import Bounds, Placement, bounds_of
from drawerwright.drawing.pens import COLUMN_STEP, ROW_STEP
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Primitive, RunningDimension, Scene

_TOUCHING = 0.6
_LONGER = (1.0, 1.5, 2.1, 2.8, 3.6)
_STEPS = (2, 3, 4, 5)
_ASIDE = (1, -1, 2, -2, 3, -3)
_LINE = 1.35
_LINES = (1, 2, 3, 4, 5, 6, 8, 10)
_STEEPER = (1.8, 2.6, 3.6, 5.0, -1.0, -1.8, -2.6, -3.6)


def clear_lettering(scene: Scene) -> Scene:
    """The scene with its lettering apart where that can be had.

    Dimensions keep their places before notes, and notes before labels. A narrow dimension's number may
    change sides or its line move out by a step; a note's line grows longer or turns to the other side;
    a label (lettering in the fine tone) that finds no room is left out.
    """
    taken: list[Bounds] = []
    chosen: dict[int, Primitive | None] = {}
    for i, _ in sorted(enumerate(scene.primitives), key=lambda pair: _rank(pair[1])):
        primitive = scene.primitives[i]
        if _rank(primitive) == _NOT_LETTERING:
            chosen[i] = primitive
            continue
        chosen[i] = _first_clear(primitive, taken)
        kept = chosen[i]
        if kept is not None:
            taken.extend(_areas(kept))
    kept_all = (chosen[i] for i in range(len(scene.primitives)))
    return replace(scene, primitives=tuple(each for each in kept_all if each is not None))


def room_of_geometry(scene: Scene) -> Bounds:
    """Room of the lines alone [mm]: whatever becomes of the lettering, they stay.

    Raises:
        ValueError: no line is drawn.
    """
    passed = (Text, Leader, Dimension, RunningDimension, Hatch)
    return bounds_of(
        point for each in scene.primitives if not isinstance(each, passed) for point in each.points
    )


def room_at_least(scene: Scene, geometry: Bounds, scale: float) -> Bounds:
    """Room [mm on paper] that a scene surely takes at `scale`, however its lettering is cleared.

    `geometry` is the room of its lines there. Dimensions beside a view only ever move further out; those
    inside it may go to either side.
    """
    left, bottom, right, top = geometry.left, geometry.bottom, geometry.right, geometry.top
    placement = Placement(scale=scale)
    for each in scene.primitives:
        if not isinstance(each, Dimension) or each.direction == "aligned" or not each.offset:
            continue
        for item in lay_out_dimension(each.placed(placement)):
            around = item.extent if isinstance(item, Text) else bounds_of(item.points)
            if each.direction == "vertical" and each.offset < 0:
                left = min(left, around.left)
            elif each.direction == "vertical":
                right = max(right, around.right)
            elif each.offset < 0:
                bottom = min(bottom, around.bottom)
            else:
                top = max(top, around.top)
    return Bounds(left, bottom, right, top)


_NOT_LETTERING = 9


def _rank(primitive: Primitive) -> int:
    """Who chooses first."""
    if isinstance(primitive, RunningDimension):
        return 0
    if isinstance(primitive, Dimension):
        return 1
    if isinstance(primitive, Text):
        return 2 if primitive.tone != "fine" else 4
    return 3 if isinstance(primitive, Leader) else _NOT_LETTERING


def _first_clear(primitive: Primitive, taken: Sequence[Bounds]) -> Primitive | None:
    """The first way to write it that touches nothing; else as it was, or not at all for a label."""
    for way in _ways(primitive):
        if not any(area.overlaps(other, clear=_TOUCHING) for area in _areas(way) for other in taken):
            return way
    return None if isinstance(primitive, Text) and primitive.tone == "fine" else primitive


def _ways(primitive: Primitive) -> Iterator[Primitive]:
    """How it may be written, the better way first: nearer to where it belongs, and less turned about."""
    yield from _near_ways(primitive)
    yield from _far_ways(primitive)


def _near_ways(primitive: Primitive) -> Iterator[Primitive]:
    yield primitive
    if isinstance(primitive, Dimension):
        other = replace(primitive, label_side="start" if primitive.label_side == "end" else "end")
        yield other
        if primitive.direction != "aligned" and primitive.offset:
            step = ROW_STEP if primitive.direction == "horizontal" else COLUMN_STEP
            outward = step if primitive.offset > 0 else -step
            yield replace(primitive, offset=primitive.offset + outward)
            yield replace(other, offset=primitive.offset + outward)
    elif isinstance(primitive, Leader):
        for longer in _LONGER:
            aside, up = primitive.elbow
            yield replace(primitive, elbow=(aside * longer, up * longer))
            yield replace(primitive, elbow=(-aside * longer, up * longer), shoulder=-primitive.shoulder)


def _far_ways(primitive: Primitive) -> Iterator[Primitive]:
    """Ways for the small papers, where nothing near is free.

    A dimension's line moves out by several steps, or off its place inside a view to either side; words move
    by whole lines away from what they stand over or under; a note's line grows steeper or turns down.
    """
    if isinstance(primitive, Dimension) and primitive.direction != "aligned":
        step = ROW_STEP if primitive.direction == "horizontal" else COLUMN_STEP
        outward = step if primitive.offset >= 0 else -step
        other = replace(primitive, label_side="start" if primitive.label_side == "end" else "end")
        for steps in _STEPS if primitive.offset else _ASIDE:
            for one in (primitive, other):
                yield replace(one, offset=one.offset + steps * outward)
    elif isinstance(primitive, Text) and primitive.tone != "fine":
        away = math.copysign(_LINE * primitive.size, primitive.shift[1])
        for lines in _LINES:
            yield replace(primitive, shift=(primitive.shift[0], primitive.shift[1] + lines * away))
    elif isinstance(primitive, Leader):
        aside, up = primitive.elbow
        for steeper in _STEEPER:
            for longer in _LONGER:
                yield replace(primitive, elbow=(aside * longer, up * steeper))
                turned = replace(primitive, shoulder=-primitive.shoulder)
                yield replace(turned, elbow=(-aside * longer, up * steeper))


def _areas(primitive: Primitive) -> list[Bounds]:
    """The rectangles that a primitive's lettering takes."""
    return [item.extent for item in drawn_of(primitive).items if isinstance(item, Text)]
