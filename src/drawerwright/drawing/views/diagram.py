"""A diagram over the travel of a drawer: a field, its axes, and curves named at their right ends.

The scene is in millimetres of paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.dimensioning import spread_apart
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import LABEL_SIZE, NOTE_SIZE, LineClass
from drawerwright.drawing.primitives import Lines, Polyline, Text, line, rectangle
from drawerwright.drawing.scene import Primitive
from drawerwright.drawing.views.closing_chart import ticks_between
from drawerwright.units import MM_PER_INCH

WIDTH: Final = 132.0
HEIGHT: Final = 76.0
"""The diagram's field on paper [mm]. Own choice."""
_TICK: Final = 1.6
_APART: Final = 4.2
_ROOM: Final = 0.08
"""Share of the field left free above and below the curves. Own choice."""


@dataclass(frozen=True, slots=True)
class Curve:
    """One curve: its name and value at the end in words, its values (m,), and the pen it is drawn with."""

    words: str
    values: Sequence[float]
    pen: LineClass


@dataclass(frozen=True, slots=True)
class Field:
    """Where extensions [mm] and values stand on paper; `downwards`: larger values lie lower.

    `size`: width and height on paper [mm].
    """

    travel: float
    low: float
    high: float
    downwards: bool
    size: tuple[float, float] = (WIDTH, HEIGHT)

    def x(self, extension: float) -> float:
        """Place of an extension from the left edge [mm]."""
        return self.size[0] * extension / self.travel

    def y(self, value: float) -> float:
        """Place of a value above the lower edge [mm]."""
        share = (value - self.low) / (self.high - self.low)
        return self.size[1] * (1.0 - share if self.downwards else share)


@dataclass(frozen=True, slots=True)
class Axis:
    """What an axis tells: its words with the unit, and what one unit is of the values drawn."""

    words: str
    unit: float = 1.0


OUT_MM: Final = Axis("drawn out, mm")
OUT_INCHES: Final = Axis("drawn out, in", float(MM_PER_INCH))


def field_of(
    travel: float,
    curves: Sequence[Curve],
    *,
    downwards: bool,
    size: tuple[float, float] = (WIDTH, HEIGHT),
) -> Field:
    """A field that holds all the curves and 0, with some room around them."""
    values = [value for curve in curves for value in curve.values]
    low, high = min(*values, 0.0), max(*values, 0.0)
    room = (high - low or 1.0) * _ROOM
    return Field(travel, low - room, high + room, downwards, size)


def diagram(
    field: Field,
    extension: Sequence[float],
    curves: Sequence[Curve],
    *,
    title: str,
    upright: Axis,
    across: Axis = OUT_MM,
) -> list[Primitive]:
    """Field, its axes, the line of 0 and the curves, each named beside its right end."""
    width, height = field.size
    drawn: list[Primitive] = [rectangle(Bounds(0.0, 0.0, width, height), "outline")]
    drawn.append(line((0.0, field.y(0.0)), (width, field.y(0.0)), "centre"))
    drawn += _axes(field, upright, across)
    for curve in curves:
        points: list[Point] = [
            (field.x(at), field.y(value)) for at, value in zip(extension, curve.values, strict=True)
        ]
        drawn.append(Polyline(tuple(points), curve.pen))
    drawn += _names(field, curves)
    drawn.append(Text((0.0, height + 2.4), title, NOTE_SIZE, weight="semibold"))
    return drawn


def _axes(field: Field, upright: Axis, across: Axis) -> Iterator[Primitive]:
    ticks: list[tuple[Point, Point]] = []
    for value in ticks_between(0.0, field.travel / across.unit):
        x = field.x(value * across.unit)
        ticks.append(((x, 0.0), (x, -_TICK)))
        yield Text((x, -_TICK - LABEL_SIZE), f"{value:g}", LABEL_SIZE, "middle")
    for value in ticks_between(field.low / upright.unit, field.high / upright.unit):
        y = field.y(value * upright.unit)
        ticks.append(((0.0, y), (-_TICK, y)))
        told = f"{value:g}".replace("-", "−")
        yield Text((-_TICK - 1.0, y - LABEL_SIZE * 0.35), told, LABEL_SIZE, "end")
    yield Lines(tuple(ticks), "edge")
    yield Text((field.size[0], -8.4), across.words, NOTE_SIZE, "end")
    yield Text((0.0, -8.4), upright.words, NOTE_SIZE)


def _names(field: Field, curves: Sequence[Curve]) -> Iterator[Primitive]:
    """Each curve's words beside the field at the height of its end, spread where they would touch."""
    order = sorted(curves, key=lambda curve: field.y(curve.values[-1]))
    ends = [field.y(curve.values[-1]) for curve in order]
    places = spread_apart(ends, [NOTE_SIZE] * len(ends), _APART - NOTE_SIZE)
    width = field.size[0]
    for curve, end, place in zip(order, ends, places, strict=True):
        yield Polyline(((width, end), (width + 3.0, place), (width + 8.0, place)), curve.pen)
        yield Text((width + 9.5, place - NOTE_SIZE * 0.35), curve.words, NOTE_SIZE)
