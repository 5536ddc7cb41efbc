"""Dimensions and notes laid out: lines, closed arrows and lettering from what is to be said.

Everything here is in mm on paper: a scene is scaled first and laid out after.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from drawerwright.drawing.fonts import CAP_HEIGHT, text_width
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.pens import (
    ARROW_LENGTH,
    ARROW_WIDTH,
    COLUMN_FIRST,
    COLUMN_STEP,
    DOT_RADIUS,
    EXTENSION_BEYOND,
    EXTENSION_GAP,
    LETTERING_CLEAR,
    OUTSIDE_TAIL,
    ROW_FIRST,
    ROW_STEP,
    Fill,
    LineClass,
    Tone,
)
from drawerwright.drawing.primitives import Circle, Lines, Plain, Polyline, Text, polygon
from drawerwright.drawing.scene import Dimension, Leader, RunningDimension
from drawerwright.drawing.wording import plain_text, shown_length, shown_size

_LEAST_SHAFT = 1.0
_LAID_OUT = 4096
"""How many dimensions are kept as laid out: clearing, measuring and writing a drawing ask for each again."""
_SECOND_LINE = 1.12
"""From line to line of a number in two lines, in its size. Own choice."""


def label_of(dimension: Dimension) -> str:
    """What a dimension's number says."""
    return (
        plain_text(dimension.text)
        if dimension.text is not None
        else shown_size(dimension.quantity, dimension.value)
    )


@lru_cache(maxsize=_LAID_OUT)
def lay_out_dimension(dimension: Dimension) -> tuple[Plain, ...]:
    """Extension lines, dimension line broken for its number, closed arrows and the number."""
    start, end = _feet(dimension)
    length = math.dist(start, end)
    if length == 0:
        ux, uy = (0.0, 1.0) if dimension.direction == "vertical" else (1.0, 0.0)
    else:
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    label = (label_of(dimension), plain_text(dimension.second))
    across = _lettering_along(label, dimension.size, ux, uy)
    pen: LineClass = "accent-note" if dimension.tone == "accent" else "dimension"
    room_for_number = length >= across + 2 * LETTERING_CLEAR
    inside = length >= across + 2 * LETTERING_CLEAR + 2 * (ARROW_LENGTH + _LEAST_SHAFT)
    segments = list(_extensions(dimension, start, end)) if dimension.extension else []
    at = _along(start, ux, uy, length / 2)
    if inside:
        gap = across / 2 + LETTERING_CLEAR
        segments.append((start, _along(start, ux, uy, length / 2 - gap)))
        segments.append((_along(start, ux, uy, length / 2 + gap), end))
        arrows = (_arrow(start, -ux, -uy, dimension.tone), _arrow(end, ux, uy, dimension.tone))
    else:
        tail = ARROW_LENGTH + OUTSIDE_TAIL
        segments.append((_along(start, ux, uy, -tail), start))
        segments.append((end, _along(end, ux, uy, tail)))
        arrows = (_arrow(start, ux, uy, dimension.tone), _arrow(end, -ux, -uy, dimension.tone))
        if not room_for_number:
            segments.append((start, end))
            away = tail + LETTERING_CLEAR * 0.6 + across / 2
            last = dimension.label_side == "end"
            at = _along(end, ux, uy, away) if last else _along(start, ux, uy, -away)
    lines = Lines(tuple(segments), pen)
    return (lines, *arrows, *_number(label, at, dimension.size, dimension.tone))


def _feet(dimension: Dimension) -> tuple[Point, Point]:
    """The two ends of the dimension line, start below or left of end where the direction is fixed."""
    start, end = dimension.start, dimension.end
    if dimension.direction == "horizontal":
        y = dimension.base + dimension.offset
        first, last = sorted((start[0], end[0]))
        return (first, y), (last, y)
    if dimension.direction == "vertical":
        x = dimension.base + dimension.offset
        first, last = sorted((start[1], end[1]))
        return (x, first), (x, last)
    length = math.dist(start, end)
    if length == 0:
        return start, end
    nx, ny = -(end[1] - start[1]) / length, (end[0] - start[0]) / length
    return _along(start, nx, ny, dimension.offset), _along(end, nx, ny, dimension.offset)


def _extensions(dimension: Dimension, start: Point, end: Point) -> list[tuple[Point, Point]]:
    """Extension lines from the measured points to a little beyond the dimension line."""
    found = []
    points = [dimension.start, dimension.end]
    if dimension.direction != "aligned":
        axis = 0 if dimension.direction == "horizontal" else 1
        points.sort(key=lambda point: point[axis])
    for point, foot in zip(points, (start, end), strict=True):
        way = math.dist(point, foot)
        if way <= EXTENSION_GAP:
            continue
        ux, uy = (foot[0] - point[0]) / way, (foot[1] - point[1]) / way
        found.append((_along(point, ux, uy, EXTENSION_GAP), _along(foot, ux, uy, EXTENSION_BEYOND)))
    return found


def _along(point: Point, ux: float, uy: float, by: float) -> Point:
    return (point[0] + ux * by, point[1] + uy * by)


def _lettering_along(label: tuple[str, str], size: float, ux: float, uy: float) -> float:
    """How far horizontal lettering reaches along the dimension line's direction [mm]."""
    width = max(text_width(line, size) for line in label)
    height = CAP_HEIGHT * size + (_SECOND_LINE * size if label[1] else 0.0)
    return abs(ux) * width + abs(uy) * height


def _arrow(tip: Point, ux: float, uy: float, tone: Tone) -> Polyline:
    """A closed arrow head whose tip points along (ux, uy)."""
    back = _along(tip, ux, uy, -ARROW_LENGTH)
    half = ARROW_WIDTH / 2
    return polygon(
        (tip, (back[0] - uy * half, back[1] + ux * half), (back[0] + uy * half, back[1] - ux * half)),
        "dimension",
        "accent" if tone == "accent" else "ink",
    )


def _number(label: tuple[str, str], middle: Point, size: float, tone: Tone) -> list[Text]:
    """A number, and what stands under it, whose capitals together are centred on `middle`."""
    lines = [line for line in label if line]
    step = _SECOND_LINE * size
    foot = middle[1] - CAP_HEIGHT * size / 2 + step * (len(lines) - 1) / 2
    return [
        Text(
            (middle[0], foot - row * step),
            line,
            size,
            "middle",
            "semibold",
            tone,
            backed=True,
            layer="dimensions",
        )
        for row, line in enumerate(lines)
    ]


@lru_cache(maxsize=_LAID_OUT)
def lay_out_running(running: RunningDimension) -> tuple[Plain, ...]:
    """Lines from each point to its number, kinked where the numbers had to be spread apart."""
    points = (running.origin, *running.marks)
    texts = running.texts
    labels = ["0", *(texts if texts is not None else (shown_length(value) for value in running.values))]
    order = sorted(range(len(points)), key=lambda i: points[i][0])
    under = ["", *(plain_text(text) for text in running.seconds or [""] * len(running.values))]
    widths = [max(text_width(line, running.size) for line in (labels[i], under[i])) for i in order]
    wanted = [points[i][0] for i in order]
    places = spread_apart(wanted, widths, LETTERING_CLEAR)
    sign = -1.0 if running.offset < 0 else 1.0
    cap = CAP_HEIGHT * running.size + (_SECOND_LINE * running.size if any(under) else 0.0)
    foot = running.base + running.offset - sign * (cap / 2 + LETTERING_CLEAR * 0.7)
    straight = running.base + (foot - running.base) * 0.3
    bent = running.base + (foot - running.base) * 0.75
    segments: list[tuple[Point, Point]] = []
    numbers: list[Text] = []
    for place, i in zip(places, order, strict=True):
        x, y = points[i]
        corners = [(x, y + sign * EXTENSION_GAP * 0.6), (x, straight), (place, bent), (place, foot)]
        if abs(place - x) < 1e-6:
            corners = [corners[0], corners[3]]
        segments.extend(pairwise(corners))
        number = (labels[i], under[i])
        numbers += _number(number, (place, running.base + running.offset), running.size, "ink")
    return (Lines(tuple(segments), "dimension"), *numbers)


def spread_apart(wanted: Sequence[float], widths: Sequence[float], clear: float) -> list[float]:
    """Places near `wanted` (ascending) where things of these `widths` stay `clear` apart [mm].

    The squares of the moves are least: neighbours that touch are pooled and stand about their mean.
    """
    shifts = [0.0]
    for left, right in pairwise(widths):
        shifts.append(shifts[-1] + (left + right) / 2 + clear)
    pools: list[tuple[float, int]] = []
    for want, shift in zip(wanted, shifts, strict=False):
        mean, count = want - shift, 1
        while pools and pools[-1][0] > mean:
            before, times = pools.pop()
            mean = (before * times + mean * count) / (times + count)
            count += times
        pools.append((mean, count))
    flat = [mean for mean, count in pools for _ in range(count)]
    return [place + shift for place, shift in zip(flat, shifts, strict=False)]


@lru_cache(maxsize=_LAID_OUT)
def lay_out_leader(leader: Leader) -> tuple[Plain, ...]:
    """The bent line, its dot or none, and one or two short lines of lettering on the shoulder."""
    tip = leader.at
    bend = tip if leader.bend is None else leader.bend
    elbow = (bend[0] + leader.elbow[0], bend[1] + leader.elbow[1])
    rest = (elbow[0] + leader.shoulder, elbow[1])
    pen: LineClass = "accent-note" if leader.tone == "accent" else "leader"
    left = leader.shoulder < 0
    drawn: list[Plain] = [Polyline((tip, elbow, rest), pen)]
    if leader.dot:
        fill: Fill = "accent" if leader.tone == "accent" else "ink"
        drawn.append(Circle(tip, DOT_RADIUS, "dimension", fill=fill, on_paper=True))
    lines = [plain_text(leader.text), plain_text(leader.second_line)]
    x = rest[0] + (-LETTERING_CLEAR if left else LETTERING_CLEAR)
    y = rest[1] - CAP_HEIGHT * leader.size / 2
    for row, words in enumerate(words for words in lines if words):
        weight_tone: Tone = leader.tone if row == 0 or leader.tone == "accent" else "fine"
        drawn.append(
            Text(
                (x, y - row * leader.size * 1.2),
                words,
                leader.size,
                "end" if left else "start",
                "semibold" if row == 0 else "regular",
                weight_tone,
            )
        )
    return tuple(drawn)


def row_offset(row: int) -> float:
    """Offset of the n-th row of horizontal dimensions from the object, 0 nearest [mm on paper]."""
    return ROW_FIRST + row * ROW_STEP


def column_offset(column: int) -> float:
    """Offset of the n-th column of vertical dimensions from the object, 0 nearest [mm on paper]."""
    return COLUMN_FIRST + column * COLUMN_STEP


def stacked(dimensions: Sequence[Dimension], base: float, *, below_or_left: bool = False) -> list[Dimension]:
    """Dimensions of one direction set in rows from `base` outwards so that none crosses another.

    The shortest stands nearest; those whose spans only meet share a row, as in a chain. The order
    given is kept. `base` [mm] is the drawing's edge, `below_or_left` puts the rows on its lesser side.
    """
    axis = 0 if dimensions and dimensions[0].direction == "horizontal" else 1
    spans = [sorted((each.start[axis], each.end[axis])) for each in dimensions]
    rows: list[list[int]] = []
    placed: dict[int, int] = {}
    for i in sorted(range(len(dimensions)), key=lambda i: (spans[i][1] - spans[i][0], i)):
        row = _first_row(i, spans, placed)
        while row < len(rows) and not _free(i, rows[row], spans):
            row += 1
        if row == len(rows):
            rows.append([])
        rows[row].append(i)
        placed[i] = row
    sign = -1.0 if below_or_left else 1.0
    step = row_offset if axis == 0 else column_offset
    return [replace(each, base=base, offset=sign * step(placed[i])) for i, each in enumerate(dimensions)]


def _free(i: int, taken: Sequence[int], spans: Sequence[Sequence[float]]) -> bool:
    return all(spans[i][1] <= spans[j][0] + 1e-9 or spans[j][1] <= spans[i][0] + 1e-9 for j in taken)


def _first_row(i: int, spans: Sequence[Sequence[float]], placed: dict[int, int]) -> int:
    """The first row beyond every placed dimension that lies within this one's span."""
    inner = [row for j, row in placed.items() if spans[j][0] < spans[i][1] and spans[i][0] < spans[j][1]]
    return max(inner) + 1 if inner else 0
