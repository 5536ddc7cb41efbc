"""Dimensions of the plan: rows of widths above the cabinet back, columns of depths at both sides."""

from __future__ import annotations

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.scene import Dimension, LabelSide, Primitive
from drawerwright.drawing.views.standing import Standing
from drawerwright.drawing.views.stops import longer_end


def plan_dimensions(stand: Standing) -> list[Primitive]:
    """All dimensions of the plan, in the plan's axes."""
    return [*_widths(stand), *_depths(stand)]


def _widths(stand: Standing) -> list[Primitive]:
    """Rows of widths above the cabinet back, and the inside width across the box."""
    opening = stand.fitted.opening
    top = max(stand.back_end, longer_end(stand) or 0.0)
    half, row = stand.half, 0
    drawn: list[Primitive] = []
    parts = stand.parts
    if parts is not None and parts.mounting.rear_bracket_left is not None:
        right = parts.mounting.rear_bracket_right or 0.0
        for name, value, edge, way in (
            ("rear_bracket_left", parts.mounting.rear_bracket_left, stand.inner_left, 1.0),
            ("rear_bracket_right", right, stand.inner_right, -1.0),
        ):
            points = ((edge, stand.back_end), (edge + way * value, stand.back_end))
            drawn.append(_row(name, value, *points, top, row))
        row += 1
    if parts is not None:
        box = parts.box
        outer, y = box.outside_width / 2, stand.box_rear
        chain: tuple[tuple[str, float, Point, Point, LabelSide], ...] = (
            ("side_gap", box.side_gap, (-half, stand.back_end), (-outer, y), "start"),
            ("outside_width", box.outside_width, (-outer, y), (outer, y), "end"),
            ("side_gap", box.side_gap, (outer, y), (half, stand.back_end), "end"),
        )
        for name, value, start, end, side in chain:
            own_lines = name == "outside_width"
            drawn.append(_row(name, value, start, end, top, row, side, extension=own_lines))
        row += 1
        across = stand.body_front + (stand.box_rear - stand.body_front) * 0.76
        inner = box.inside_width / 2
        drawn.append(
            Dimension(
                "inside_width",
                box.inside_width,
                (-inner, across),
                (inner, across),
                "horizontal",
                across,
                extension=False,
            )
        )
    back = stand.back_end
    drawn.append(_row("opening_width", opening.width, (-half, back), (half, back), top, row))
    frame: tuple[tuple[str, float, float, float, LabelSide], ...] = (
        ("overhang_left", stand.overhangs[0], stand.inner_left, stand.clear_left, "start"),
        ("overhang_right", stand.overhangs[1], stand.clear_right, stand.inner_right, "end"),
    )
    for name, value, a, b, side in frame:
        if value:
            drawn.append(_row(name, value, (a, back), (b, back), top, row, side))
    return drawn + _lost(stand, top, row + 1)


def _lost(stand: Standing, top: float, row: int) -> list[Primitive]:
    """Where hinges or door edges take width: the width measured, and what they take of it."""
    lost, back, half = stand.fitted.drawer.lost, stand.back_end, stand.half
    if not lost.left and not lost.right:
        return []
    ends = ((stand.clear_left, back), (stand.clear_right, back))
    drawn: list[Primitive] = []
    taken: tuple[tuple[str, float, Point, Point, LabelSide], ...] = (
        ("lost_left", lost.left, ends[0], (-half, back), "start"),
        ("lost_right", lost.right, (half, back), ends[1], "end"),
    )
    beside_frame = (stand.overhangs[0], stand.overhangs[1])
    for (name, value, start, end, side), overhang in zip(taken, beside_frame, strict=True):
        if value and not overhang:
            drawn.append(_row(name, value, start, end, top, row - 1, side))
    drawn.append(_row("measured_width", 2 * half + lost.left + lost.right, *ends, top, row))
    return drawn


def _row(
    name: str,
    value: float,
    start: Point,
    end: Point,
    top: float,
    row: int,
    side: LabelSide = "end",
    *,
    extension: bool = True,
) -> Dimension:
    offset = row_offset(row)
    return Dimension(name, value, start, end, "horizontal", top, offset, label_side=side, extension=extension)


def _depths(stand: Standing) -> list[Primitive]:
    """Depths at the right, and at the left how far front and member stand from the front edge."""
    opening = stand.fitted.opening
    right, left = stand.outer_right, stand.outer_left
    drawn: list[Primitive] = []
    if stand.has_front:
        right, left = max(right, stand.front_edges[1]), min(left, stand.front_edges[0])
    edge_right, edge_left = stand.outer_right, stand.outer_left
    if stand.parts is not None:
        box, end = stand.parts.box, stand.parts.mounting.front_end
        x = box.outside_width / 2
        ends = ((x, stand.parts.box.front_depth), (x, stand.box_rear))
        drawn.append(Dimension("box_length", box.length, *ends, "vertical", right, column_offset(0)))
        drawn.append(
            Dimension(
                "front_end", end, (edge_left, 0.0), (-stand.half, end), "vertical", left, -column_offset(0)
            )
        )
    front = stand.fitted.front
    if front is not None and stand.has_front:
        near, far = stand.front_faces
        x = stand.front_edges[1]
        drawn.append(
            Dimension(
                "front_thickness",
                front.thickness,
                (x, near),
                (x, far),
                "vertical",
                right,
                column_offset(0),
                label_side="start",
            )
        )
        if abs(front.stands_out) >= 0.05:
            face = far if front.style == "overlay" else near
            drawn.append(
                Dimension(
                    "stands_out",
                    front.stands_out,
                    (stand.front_edges[0], face),
                    (edge_left, 0.0),
                    "vertical",
                    left,
                    -column_offset(0),
                    label_side="start",
                )
            )
    drawn.append(
        Dimension(
            "opening_depth",
            opening.depth,
            (edge_right, 0.0),
            (edge_right, stand.depth),
            "vertical",
            right,
            column_offset(1 if stand.parts is not None else 0),
        )
    )
    return drawn
