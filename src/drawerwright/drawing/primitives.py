"""The plain primitives of a scene: what every writer draws as it is.

Coordinates are mm, x to the right and y up. `layer` names a machining operation in plain words; an
empty one means the drawing itself, and the writers then use the line class.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, Self, TypeAlias

from drawerwright.drawing.fonts import CAP_HEIGHT, DESCENT, Weight, text_width
from drawerwright.drawing.geometry import Bounds, Placement, Point
from drawerwright.drawing.pens import NOTE_SIZE, Fill, LineClass, Tone

Anchor: TypeAlias = Literal["start", "middle", "end"]
_OTHER_ANCHOR: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}


@dataclass(frozen=True, slots=True)
class Lines:
    """Separate straight lines of one class, each from a start to an end point [mm]."""

    segments: tuple[tuple[Point, Point], ...]
    line: LineClass = "edge"
    layer: str = ""

    @property
    def points(self) -> tuple[Point, ...]:
        """Both ends of every line."""
        return tuple(point for segment in self.segments for point in segment)

    def placed(self, placement: Placement) -> Self:
        """The lines set down elsewhere."""
        moved = tuple([(placement.point(a), placement.point(b)) for a, b in self.segments])
        return type(self)(moved, self.line, self.layer)


def line(start: Point, end: Point, pen: LineClass = "edge", layer: str = "") -> Lines:
    """One straight line [mm]."""
    return Lines(((start, end),), pen, layer)


@dataclass(frozen=True, slots=True)
class Polyline:
    """A run of straight lines [mm]; closed, it is a polygon and may carry a wash.

    `line_inside` draws the line inside the edge, so that parts that nearly touch do not run together.
    """

    points: tuple[Point, ...]
    line: LineClass = "edge"
    layer: str = ""
    closed: bool = False
    fill: Fill = "none"
    line_inside: bool = False

    def __post_init__(self) -> None:
        if len(self.points) < (3 if self.closed else 2):
            raise ValueError("a polyline needs two points, a polygon three")

    def placed(self, placement: Placement) -> Self:
        """The polyline set down elsewhere."""
        return type(self)(
            placement.points(self.points), self.line, self.layer, self.closed, self.fill, self.line_inside
        )


def polygon(
    points: tuple[Point, ...], pen: LineClass = "edge", fill: Fill = "none", layer: str = ""
) -> Polyline:
    """A closed polyline [mm]."""
    return Polyline(points, pen, layer, closed=True, fill=fill)


def rectangle(
    bounds: Bounds,
    pen: LineClass = "edge",
    fill: Fill = "none",
    layer: str = "",
    *,
    line_inside: bool = False,
) -> Polyline:
    """An upright rectangle [mm]."""
    return Polyline(bounds.corners, pen, layer, closed=True, fill=fill, line_inside=line_inside)


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle [mm]. `on_paper` radii keep their size when the scene is scaled (dots, ring marks)."""

    centre: Point
    radius: float
    line: LineClass = "edge"
    layer: str = ""
    fill: Fill = "none"
    on_paper: bool = False

    @property
    def points(self) -> tuple[Point, ...]:
        """Lower left and upper right corner of the square around the circle; a paper dot's centre."""
        x, y = self.centre
        r = 0.0 if self.on_paper else self.radius
        return ((x - r, y - r), (x + r, y + r))

    def placed(self, placement: Placement) -> Self:
        """The circle set down elsewhere."""
        radius = self.radius if self.on_paper else self.radius * placement.scale
        return replace(self, centre=placement.point(self.centre), radius=radius)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc [mm], counter-clockwise from `start_deg` to `end_deg` (degrees from the x axis)."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float
    line: LineClass = "edge"
    layer: str = ""

    @property
    def points(self) -> tuple[Point, ...]:
        """Corners of the square around the whole circle (the arc lies inside it)."""
        x, y = self.centre
        return ((x - self.radius, y - self.radius), (x + self.radius, y + self.radius))

    def placed(self, placement: Placement) -> Self:
        """The arc set down elsewhere; a mirrored one runs the other way, so its ends change places."""
        start, end = self.start_deg, self.end_deg
        if placement.mirrored:
            start, end = placement.angle(end), placement.angle(start)
        return replace(
            self,
            centre=placement.point(self.centre),
            radius=self.radius * placement.scale,
            start_deg=start,
            end_deg=end,
        )


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering, always horizontal. `at` is in the drawing, `shift` and `size` on paper [mm].

    The point is the baseline's start, middle or end; `backed` lays paper behind the letters.
    """

    at: Point
    text: str
    size: float = NOTE_SIZE
    anchor: Anchor = "start"
    weight: Weight = "regular"
    tone: Tone = "ink"
    shift: Point = (0.0, 0.0)
    backed: bool = False
    layer: str = ""

    @property
    def points(self) -> tuple[Point, ...]:
        """The point the lettering hangs on."""
        return (self.at,)

    @property
    def foot(self) -> Point:
        """The baseline's anchor point [mm]."""
        return (self.at[0] + self.shift[0], self.at[1] + self.shift[1])

    @property
    def extent(self) -> Bounds:
        """The rectangle the letters take [mm], from descenders to capitals."""
        width = text_width(self.text, self.size, self.weight)
        x, y = self.foot
        left = {"start": x, "middle": x - width / 2, "end": x - width}[self.anchor]
        return Bounds(left, y - DESCENT * self.size, left + width, y + CAP_HEIGHT * self.size)

    def placed(self, placement: Placement) -> Self:
        """The lettering set down elsewhere: same size; mirrored, it hangs from its other end."""
        return type(self)(
            placement.point(self.at),
            self.text,
            self.size,
            _OTHER_ANCHOR[self.anchor] if placement.mirrored else self.anchor,
            self.weight,
            self.tone,
            placement.shift(self.shift),
            self.backed,
            self.layer,
        )


@dataclass(frozen=True, slots=True)
class Hole:
    """A bored hole [mm]: `depth` below the drawn face, None where it goes through; `operation` in words."""

    centre: Point
    diameter: float
    depth: float | None
    operation: str
    line: LineClass = "edge"
    fill: Fill = "none"

    @property
    def points(self) -> tuple[Point, ...]:
        """Lower left and upper right corner of the square around the hole."""
        x, y = self.centre
        r = self.diameter / 2
        return ((x - r, y - r), (x + r, y + r))

    def placed(self, placement: Placement) -> Self:
        """The hole set down elsewhere; its depth is kept, it does not lie in the drawn plane."""
        return replace(self, centre=placement.point(self.centre), diameter=self.diameter * placement.scale)


@dataclass(frozen=True, slots=True)
class Slot:
    """A slot with round ends [mm] between the centres of its two ends, `width` across."""

    start: Point
    end: Point
    width: float
    line: LineClass = "edge"
    layer: str = ""

    @property
    def points(self) -> tuple[Point, ...]:
        """Corners of the rectangle around the slot."""
        r = self.width / 2
        (x1, y1), (x2, y2) = self.start, self.end
        return ((min(x1, x2) - r, min(y1, y2) - r), (max(x1, x2) + r, max(y1, y2) + r))

    def placed(self, placement: Placement) -> Self:
        """The slot set down elsewhere."""
        return replace(
            self,
            start=placement.point(self.start),
            end=placement.point(self.end),
            width=self.width * placement.scale,
        )


Plain: TypeAlias = Lines | Polyline | Circle | Arc | Text | Hole | Slot
