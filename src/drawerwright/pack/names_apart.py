"""Names in a column beside a drawing moved up and down, until none touches another at the paper's scale."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import Final

from drawerwright.drawing.dimensioning import spread_apart
from drawerwright.drawing.fonts import CAP_HEIGHT
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.scene import Leader, Primitive, Scene

CLEAR: Final = 1.7
"""White between two names [mm]. Own choice."""
_LINE: Final = 1.2
"""From one line of a name to the next, as leaders are laid out [of their size]."""


def names_apart(scene: Scene) -> Scene:
    """The scene, already at its paper scale, with the notes of each column of bends apart.

    Notes keep their order and the column that they stand in; their lines still start at the same tips.
    """
    columns: dict[tuple[float, bool], list[tuple[int, Leader, Point]]] = defaultdict(list)
    for place, one in enumerate(scene.primitives):
        if isinstance(one, Leader) and one.bend is not None:
            columns[round(one.bend[0], 3), one.shoulder > 0].append((place, one, one.bend))
    moved: dict[int, Primitive] = {}
    for column in columns.values():
        column.sort(key=lambda each: each[2][1])
        downs = [_down(one) for _, one, _ in column]
        wanted = [bend[1] - down for (_, _, bend), down in zip(column, downs, strict=True)]
        heights = [one.size * CAP_HEIGHT + 2 * down for (_, one, _), down in zip(column, downs, strict=True)]
        for (place, one, bend), down, y in zip(
            column, downs, spread_apart(wanted, heights, CLEAR), strict=True
        ):
            moved[place] = replace(one, bend=(bend[0], y + down))
    primitives = tuple(moved.get(place, one) for place, one in enumerate(scene.primitives))
    return replace(scene, primitives=primitives)


def _down(one: Leader) -> float:
    """How far the middle of a note's lines lies below its line [mm]."""
    return one.size * _LINE / 2 if one.second_line else 0.0
