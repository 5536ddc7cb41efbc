"""Front view: the drawer closed, opening and box behind the front in hidden lines.

Axes [mm]: x to the right from the middle of the opening, y up from its bottom edge.
"""

from __future__ import annotations

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds, Placement
from drawerwright.drawing.pens import LineClass
from drawerwright.drawing.primitives import line, rectangle
from drawerwright.drawing.scene import Dimension, LabelSide, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.standing import FRAME_RAIL, Standing, standing, upright
from drawerwright.drawing.views.stops import stop_in_height
from drawerwright.drawing.wording import shown, size_words
from drawerwright.model.fitted import FittedDrawer

_SLIGHT = 0.05


def front(fitted: FittedDrawer, units: Units = "mm") -> Scene:
    """The closed front with opening and box behind it; the bare opening where nothing fits."""
    stand = standing(fitted)
    covered = stand.has_front and fitted.front is not None and fitted.front.style == "overlay"
    drawn: list[Primitive] = []
    around = _opening(stand)
    if not covered or stand.frame_thickness:
        drawn += _cabinet_edges(stand)
    if stand.has_front and not covered:
        drawn += _closed_front(stand)
    drawn.append(rectangle(around, "hidden" if covered else "outline"))
    if covered:
        drawn += _closed_front(stand)
        drawn.append(rectangle(around, "hidden"))
    if stand.parts is not None:
        drawn += _box_behind(stand, "hidden" if stand.has_front else "edge")
    drawn += stop_in_height(stand, around.left, around.right, units)
    low, high = _reach(stand)
    drawn.append(line((0.0, low - 14.0), (0.0, high + 14.0), "centre"))
    drawn += _widths(stand)
    drawn += _heights(stand)
    return in_units(Scene("front", f"Front, drawer {fitted.id}", _alt(fitted, units), tuple(drawn)), units)


def _alt(fitted: FittedDrawer, units: Units) -> str:
    opening = (
        f"an opening {shown(fitted.opening.width, units)} wide and {shown(fitted.opening.height, units)} high"
    )
    shape = fitted.front
    if shape is None or shape.style == "none":
        return f"Front view of {opening}" + ("" if fitted.box else ": no slide fits, no front is drawn")
    return (
        f"Front view, drawer closed: {shape.style} front "
        f"{size_words('front', shape.width, shape.height, units)} before {opening}"
    )


def _opening(stand: Standing) -> Bounds:
    """The measured opening, in its widest reading where an overlay front is laid out by that."""
    width = stand.widest if stand.has_front else stand.clear_right - stand.clear_left
    middle = stand.clear_middle
    return Bounds(middle - width / 2, 0.0, middle + width / 2, stand.fitted.opening.height)


def _cabinet_edges(stand: Standing) -> list[Primitive]:
    """Front edges of the cabinet or its frame around the opening; open upwards and downwards."""
    rail = FRAME_RAIL if stand.frame_thickness else 16.0
    height = stand.fitted.opening.height
    levels = (-rail * 0.8, height + rail * 0.8)
    edges: list[tuple[float, LineClass]] = [(stand.outer_left, "edge"), (stand.outer_right, "edge")]
    if not stand.frame_thickness:
        edges += [(stand.inner_left, "fine"), (stand.inner_right, "fine")]
    return [line((x, levels[0]), (x, levels[1]), pen) for x, pen in edges]


def _closed_front(stand: Standing) -> list[Primitive]:
    left, right = stand.front_edges
    low, high = stand.front_heights
    return [rectangle(Bounds(left, low, right, high), "outline", "paper", line_inside=True)]


def _box_behind(stand: Standing, pen: LineClass) -> list[Primitive]:
    """Outline of the box and of the members below it."""
    assert stand.parts is not None
    box = stand.parts.box
    half, low = box.outside_width / 2, stand.lower_edge
    drawn: list[Primitive] = [rectangle(Bounds(-half, low, half, low + box.height), pen)]
    under, over = stand.member_heights
    if not stand.concealed:
        outer, inner = stand.member_strip
        beside = rectangle(upright(outer, under, inner, over), pen)
        drawn += [beside, beside.placed(Placement(mirrored=True))]
    if stand.concealed and under < low:
        inner = -stand.member_strip[1]
        outer = stand.half - 1.8
        for side in (-1.0, 1.0):
            a, b = sorted((side * outer, side * inner))
            drawn.append(rectangle(Bounds(a, under, b, low), pen))
    return drawn


def _reach(stand: Standing) -> tuple[float, float]:
    low, high = 0.0, stand.fitted.opening.height
    if stand.has_front:
        low, high = min(low, stand.front_heights[0]), max(high, stand.front_heights[1])
    return low, high


def _widths(stand: Standing) -> list[Primitive]:
    """Rows of widths under the view."""
    low, _ = _reach(stand)
    around = _opening(stand)
    shape = stand.fitted.front
    if shape is None or not stand.has_front:
        name, value = "opening_width", stand.fitted.opening.width
        ends = ((-stand.half, 0.0), (stand.half, 0.0))
        return [Dimension(name, value, *ends, "horizontal", low, -row_offset(0))]
    left, right = stand.front_edges
    names = ("overlay_left", "overlay_right") if shape.style == "overlay" else ("front_gap", "front_gap")
    drawn: list[Primitive] = []
    beside: tuple[tuple[str, float, float, float, LabelSide], ...] = (
        (names[0], abs(shape.left), left, around.left, "start"),
        (names[1], abs(shape.right), around.right, right, "end"),
    )
    for name, value, a, b, side in beside:
        if value >= _SLIGHT:
            drawn.append(_across(name, value, a, b, low, 0, side))
    rows = (0, 1) if shape.style == "overlay" else (1, 0)
    drawn.append(_across("widest_width", around.width, around.left, around.right, low, rows[0]))
    drawn.append(_across("front_width", shape.width, left, right, low, rows[1]))
    return drawn


def _across(
    name: str, value: float, a: float, b: float, low: float, row: int, side: LabelSide = "end"
) -> Dimension:
    return Dimension(name, value, (a, low), (b, low), "horizontal", low, -row_offset(row), label_side=side)


def _heights(stand: Standing) -> list[Primitive]:
    """Height of the front at the left; overlays and height of the opening at the right.

    The columns at the right keep clear of the number that stands outside at the end of the lowest row.
    """
    height = stand.fitted.opening.height
    around = _opening(stand)
    shape = stand.fitted.front
    if shape is None or not stand.has_front:
        ends = ((stand.outer_left, 0.0), (stand.outer_left, height))
        return [Dimension("opening_height", height, *ends, "vertical", stand.outer_left, -column_offset(0))]
    left, right = stand.front_edges
    if shape.style == "inset" or stand.frame_thickness:
        left, right = min(left, stand.outer_left), max(right, stand.outer_right)
    low, high = stand.front_heights
    ends = ((stand.front_edges[0], low), (stand.front_edges[0], high))
    drawn: list[Primitive] = [
        Dimension("front_height", shape.height, *ends, "vertical", left, -column_offset(0))
    ]
    names = ("overlay_bottom", "overlay_top") if shape.style == "overlay" else ("front_gap", "front_gap")
    edge = stand.front_edges[1]
    beyond: tuple[tuple[str, float, float, float, LabelSide], ...] = (
        (names[0], shape.bottom, low, 0.0, "start"),
        (names[1], shape.top, height, high, "end"),
    )
    for name, value, a, b, side in beyond:
        if abs(value) >= _SLIGHT:
            points = ((edge, a), (edge, b))
            offset = column_offset(1 if value > 0 else 2)
            drawn.append(Dimension(name, abs(value), *points, "vertical", right, offset, label_side=side))
    ends = ((around.right, 0.0), (around.right, height))
    drawn.append(Dimension("opening_height", height, *ends, "vertical", right, column_offset(1)))
    return drawn
