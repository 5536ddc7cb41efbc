"""What a drawer meets on its way straight out: which thing, after how much of its travel, and how deep.

The sheet says by how much the way is too narrow; this says of what and where, from the same values.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import cos, inf, radians, sin

import numpy as np
from numpy.typing import NDArray

from drawerwright.model.fitted import Meeting, WayOut
from drawerwright.model.job import Drawer
from drawerwright.units import ShownUnits, format_length

HANDS = ("left", "right")
_ROUND_OFF = 1e-6
_OF_EACH = 5


@dataclass(frozen=True, slots=True)
class _Body:
    """What sweeps out [mm]: heights above the opening's bottom, depths, clear distance to each edge."""

    name: str
    foot: float
    top: float
    face: float
    rear: float
    clear: Mapping[str, float]


def is_told(drawer: Drawer) -> bool:
    """Whether anything is told of what stands beside the way out."""
    return drawer.door is not None or bool(drawer.in_the_way)


def door_values(drawer: Drawer) -> dict[str, float]:
    """The open door as the plane of its inner face, for the side of its hinges; the other side has none.

    A leaf that is hung on the opening's edge with the hinge in its outer face stands in by its thickness
    when it is open square: by thickness times the sine of its angle. Geometry.
    """
    values = {f"door_{name}_{hand}": 0.0 for name in ("in", "slope", "reach") for hand in HANDS}
    door = drawer.door
    if door is not None:
        angle = radians(door.opens)
        width = drawer.opening.width.smallest if door.width is None else door.width
        hung = door.thickness * sin(angle)
        values[f"door_in_{door.hinge}"] = hung if door.stands_in is None else door.stands_in
        values[f"door_slope_{door.hinge}"] = max(cos(angle), 0.0) / sin(angle) if door.opens < 90 else 0.0
        values[f"door_reach_{door.hinge}"] = width * sin(angle)
    return values


def stacked_things(drawers: Sequence[Drawer]) -> dict[str, NDArray[np.float64]]:
    """Things in the way by side, (d, 1, k, 5) [mm], padded with nan: stands in, bottom, top, near, far."""
    found = {}
    for hand in HANDS:
        rows = [
            [
                (
                    thing.stands_in,
                    -inf if thing.bottom is None else thing.bottom,
                    inf if thing.top is None else thing.top,
                    *((-inf, inf) if thing.depth is None else thing.depth),
                )
                for thing in drawer.in_the_way
                if thing.side == hand
            ]
            for drawer in drawers
        ]
        table = np.full((len(rows), 1, max(map(len, rows)), _OF_EACH), np.nan)
        for at, row in enumerate(rows):
            if row:
                table[at, 0, : len(row)] = row
        found[f"things_{hand}"] = table
    return found


def way_out_of(drawer: Drawer, values: Mapping[str, float]) -> WayOut | None:
    """What is met on the way out, first met first; None where nothing is told of it."""
    if not is_told(drawer):
        return None
    met = [one for body in _bodies(drawer, values) for one in _met_by(body, drawer, values)]
    met.sort(key=lambda one: (inf if one.after is None else one.after, -one.lacks))
    return WayOut(tuple(met), values["filler_left"], values["filler_right"])


def meeting_words(way_out: WayOut | None, units: ShownUnits) -> dict[str, str]:
    """How the way out is told, for the sentence of its check."""
    if way_out is None:
        return {}

    def shown(length: float) -> str:
        return format_length(length, "mm" if abs(length) < 10 else units, decimals=1)

    hits = [one for one in way_out.meetings if one.after is not None]
    if hits:
        first = hits[0]
        after = "from the start" if first.after == 0 else f"after {shown(first.after or 0.0)}"
        deep = f"its {first.body} {shown(first.lacks)} too wide for it"
        return {"meeting": f"hits the {first.what} on the {first.side} {after}, {deep}"}
    if way_out.meetings:
        nearest = max(way_out.meetings, key=lambda one: one.lacks)
        spare = shown(abs(nearest.lacks))
        return {"meeting": f"passes the {nearest.what} on the {nearest.side} with {spare} to spare"}
    return {"meeting": "meets nothing"}


def _bodies(drawer: Drawer, values: Mapping[str, float]) -> Iterator[_Body]:
    foot, face = values["box_foot"], values["front_depth"]
    clear = {hand: values[f"box_clear_{hand}"] for hand in HANDS}
    yield _Body("box", foot, foot + values["box_height"], face, face + values["box_length"], clear)
    if drawer.front.style != "none":
        foot, face = values["front_foot"], values["front_face_depth"]
        clear = {hand: values[f"front_clear_{hand}"] for hand in HANDS}
        rear = face + values["front_thickness"]
        yield _Body("front", foot, foot + values["front_height"], face, rear, clear)


def _met_by(body: _Body, drawer: Drawer, values: Mapping[str, float]) -> Iterator[Meeting]:
    travel = values["travel"]
    for thing in drawer.in_the_way:
        near, far = (-inf, inf) if thing.depth is None else thing.depth
        bottom = -inf if thing.bottom is None else thing.bottom
        top = inf if thing.top is None else thing.top
        if bottom < body.top and top > body.foot and near < body.rear and far > body.face - travel:
            lacks = thing.stands_in - body.clear[thing.side]
            after = max(body.face - far, 0.0) if lacks > _ROUND_OFF else None
            yield Meeting(thing.what, thing.side, body.name, after, lacks)
    out = travel - body.face
    if drawer.door is not None and out > 0:
        hand = drawer.door.hinge
        stands_in, slope = values[f"door_in_{hand}"], values[f"door_slope_{hand}"]
        lacks = stands_in + slope * min(out, values[f"door_reach_{hand}"]) - body.clear[hand]
        before = (body.clear[hand] - stands_in) / slope if slope > 0 else 0.0
        after = max(body.face + max(before, 0.0), 0.0) if lacks > _ROUND_OFF else None
        yield Meeting("open door", hand, body.name, after, lacks)
