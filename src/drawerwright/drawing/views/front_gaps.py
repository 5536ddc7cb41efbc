"""A front as it is measured: each reading in a box at its gap, corners that stand out in boxes inside it.

The scene is in millimetres of paper; only the front's proportions are the drawer's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, DIMENSION_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Text, line, rectangle
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.wording import plain_text
from drawerwright.model.gaps import GAP_NAMES, GapName
from drawerwright.units import format_length

WIDTH: Final = 58.0
"""Width of the front on paper [mm]. Own choice."""
LEAST_HEIGHT: Final = 34.0
MOST_HEIGHT: Final = 37.5
BOX: Final = (13.5, 7.0)
"""Size of a box to write a reading in [mm]: a number of two digits by hand. Own choice."""
_AWAY: Final = 3.0
_INSIDE: Final = 4.0
_IN_FROM_END: Final = 4.0


def front_gaps(
    drawer: str, width: float, height: float, gaps: Mapping[GapName, float | None] | None = None
) -> Scene:
    """The front of a drawer, `width` by `height` [mm], with its readings [mm], or empty boxes for them."""
    tall = min(max(WIDTH * height / width, LEAST_HEIGHT), MOST_HEIGHT)
    edge = Bounds(0.0, 0.0, WIDTH, tall)
    drawn: list[Primitive] = [rectangle(edge, "outline")]
    for name in GAP_NAMES:
        drawn += _reading(name, edge, None if gaps is None else gaps.get(name))
    called = plain_text(drawer)
    if text_width(called, CAPTION_SIZE, "semibold") <= WIDTH - 2 * _INSIDE:  # else in the title
        drawn.append(Text(edge.centre, called, CAPTION_SIZE, "middle", weight="semibold", shift=(0.0, 0.6)))
    drawn.append(Text(edge.centre, "seen from the front", NOTE_SIZE, "middle", tone="mid", shift=(0.0, -4.0)))
    return Scene("front-gaps", f"Gaps around {drawer}", _alt(drawer, gaps), tuple(drawn))


def box_of(name: GapName, edge: Bounds) -> Bounds:
    """Where the box of a reading stands, for a front with those edges [mm on paper]."""
    wide, high = BOX
    if name.startswith("out_"):
        left = edge.left + _INSIDE if name.endswith("left") else edge.right - _INSIDE - wide
        low = edge.top - _INSIDE - high if "top" in name else edge.bottom + _INSIDE
        return Bounds(left, low, left + wide, low + high)
    side, _, end = name.partition("_")
    if side in ("left", "right"):
        left = edge.left - _AWAY - wide if side == "left" else edge.right + _AWAY
        low = edge.top - high if end == "top" else edge.bottom
        return Bounds(left, low, left + wide, low + high)
    left = edge.left + _IN_FROM_END if end == "left" else edge.right - _IN_FROM_END - wide
    low = edge.top + _AWAY if side == "top" else edge.bottom - _AWAY - high
    return Bounds(left, low, left + wide, low + high)


def _reading(name: GapName, edge: Bounds, value: float | None) -> Iterator[Primitive]:
    box = box_of(name, edge)
    yield rectangle(box, "fine", "paper")
    yield line(*_pointer(name, box, edge), "fine")
    x, y = box.centre
    if value is not None:
        said = format_length(value, decimals=2).removesuffix(" mm").replace("-", "\u2212")
        yield Text(
            (x, y), said, DIMENSION_SIZE, "middle", weight="semibold", shift=(0.0, -0.36 * DIMENSION_SIZE)
        )
    elif name.startswith("out_"):
        yield Text((x, y), "out", NOTE_SIZE, "middle", tone="fine", shift=(0.0, -0.36 * NOTE_SIZE))


def _pointer(name: GapName, box: Bounds, edge: Bounds) -> tuple[Point, Point]:
    """From a box to the place on the edge, or to the corner, that it is of."""
    if name.startswith("out_"):
        corner = (
            edge.left if name.endswith("left") else edge.right,
            edge.top if "top" in name else edge.bottom,
        )
        near = (
            box.left if name.endswith("left") else box.right,
            box.top if "top" in name else box.bottom,
        )
        return near, corner
    x, y = box.centre
    side = name.partition("_")[0]
    if side in ("left", "right"):
        return (box.right if side == "left" else box.left, y), (
            edge.left if side == "left" else edge.right,
            y,
        )
    return (x, box.bottom if side == "top" else box.top), (x, edge.top if side == "top" else edge.bottom)


def _alt(drawer: str, gaps: Mapping[GapName, float | None] | None) -> str:
    told = ", ".join(
        f"{name.replace('_', ' ')} {gaps[name]:.2f}"
        for name in GAP_NAMES
        if gaps is not None and gaps.get(name) is not None
    )
    if not told:
        return f"Front of {drawer} with an empty box at each of its twelve readings"
    return f"Front of {drawer} with its readings in mm: {told}"
