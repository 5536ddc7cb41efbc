"""A scene: everything on one drawing, as frozen values in mm, and how it is moved, mirrored and scaled.

Geometry scales with the scene. Lettering, arrows, line weights, hatch spacing and the offsets of
dimensions are paper sizes and stay. A scene at scale 1 is in true millimetres of the workpiece;
`scale_to_paper` turns it into millimetres of paper, and `scale` remembers by how much.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal, Self, TypeAlias

from drawerwright.drawing.geometry import Bounds, Placement, Point, bounds_of
from drawerwright.drawing.pens import DIMENSION_SIZE, HATCH_SPACING, NOTE_SIZE, Tone
from drawerwright.drawing.primitives import Plain

Direction: TypeAlias = Literal["horizontal", "vertical", "aligned"]
LabelSide: TypeAlias = Literal["start", "end"]


@dataclass(frozen=True, slots=True)
class Hatch:
    """Section lines over a polygon [mm]: direction [degrees], spacing on paper [mm]."""

    outline: tuple[Point, ...]
    angle_deg: float = 45.0
    spacing: float = HATCH_SPACING
    layer: str = ""

    @property
    def points(self) -> tuple[Point, ...]:
        """The polygon's corners."""
        return self.outline

    def placed(self, placement: Placement) -> Self:
        """The hatching set down elsewhere, as close as before."""
        return replace(
            self,
            outline=placement.points(self.outline),
            angle_deg=placement.angle(self.angle_deg) % 180.0,
        )


@dataclass(frozen=True, slots=True)
class Dimension:
    """A linear dimension that knows which quantity of the equation sheet it shows.

    `value` is that quantity [mm], never measured off the drawing; `text` overrides how it is written, and
    `second` stands under it, as inches under mm.
    A horizontal dimension's line lies at y = `base` + `offset`, a vertical one's at x = `base` +
    `offset`, an aligned one's at `offset` to the left of the way from start to end (`base` unused);
    `base` is in the drawing and scales, `offset` is on paper. Where the space is narrow the number
    stands outside, at the `label_side`.
    """

    quantity: str
    value: float
    start: Point
    end: Point
    direction: Direction
    base: float = 0.0
    offset: float = 0.0
    text: str | None = None
    label_side: LabelSide = "end"
    size: float = DIMENSION_SIZE
    extension: bool = True
    tone: Tone = "ink"
    second: str = ""

    @property
    def points(self) -> tuple[Point, ...]:
        """The two points measured between."""
        return (self.start, self.end)

    def placed(self, placement: Placement) -> Self:
        """The dimension set down elsewhere; its value stays."""
        offset, base = self.offset, self.base
        if self.direction == "vertical":
            base = placement.x(base)
        elif self.direction == "horizontal":
            base = placement.y(base)
        if placement.mirrored and self.direction in ("vertical", "aligned"):
            offset = -offset
        return replace(
            self,
            start=placement.point(self.start),
            end=placement.point(self.end),
            base=base,
            offset=offset,
        )


@dataclass(frozen=True, slots=True)
class RunningDimension:
    """Several distances along x from one datum, each number on a line of its own to its point.

    The lines start at y = `base` and the numbers stand `offset` [mm on paper] from it, spread apart
    where they would touch. `values` [mm] are shown; `origin` is the datum, shown as 0. `texts` overrides
    how the values are written, and `seconds` stand under them.
    """

    quantity: str
    origin: Point
    marks: tuple[Point, ...]
    values: tuple[float, ...]
    base: float
    offset: float
    size: float = DIMENSION_SIZE
    texts: tuple[str, ...] | None = None
    seconds: tuple[str, ...] | None = None

    def __post_init__(self) -> None:
        if len(self.marks) != len(self.values):
            raise ValueError("a running dimension needs one value for each mark")
        for texts in (self.texts, self.seconds):
            if texts is not None and len(texts) != len(self.values):
                raise ValueError("a running dimension needs one text for each value")

    @property
    def points(self) -> tuple[Point, ...]:
        """The datum and all marks."""
        return (self.origin, *self.marks)

    def placed(self, placement: Placement) -> Self:
        """The dimension set down elsewhere; its values stay."""
        return replace(
            self,
            origin=placement.point(self.origin),
            marks=placement.points(self.marks),
            base=placement.y(self.base),
        )


@dataclass(frozen=True, slots=True)
class Leader:
    """A note on a bent line: from the tip `at` to the elbow, then level by `shoulder` [mm on paper].

    The elbow stands `elbow` [mm on paper] from the tip, or from the point `bend` of the drawing if told.
    """

    at: Point
    elbow: Point
    shoulder: float
    text: str
    second_line: str = ""
    size: float = NOTE_SIZE
    tone: Tone = "ink"
    quantity: str = ""
    value: float | None = None
    dot: bool = True
    bend: Point | None = None

    @property
    def points(self) -> tuple[Point, ...]:
        """The tip, and the point it bends by."""
        return (self.at,) if self.bend is None else (self.at, self.bend)

    def placed(self, placement: Placement) -> Self:
        """The note set down elsewhere, mirrored to the other side but still to be read."""
        return replace(
            self,
            at=placement.point(self.at),
            elbow=placement.shift(self.elbow),
            shoulder=placement.shift((self.shoulder, 0.0))[0],
            bend=None if self.bend is None else placement.point(self.bend),
        )


Primitive: TypeAlias = Plain | Hatch | Dimension | RunningDimension | Leader


@dataclass(frozen=True, slots=True)
class Scene:
    """One drawing: `name` is short and fit for an id, `alt` says in words what is to be seen.

    `scale` is paper mm for one mm of the thing; `page` fixes the paper it stands on, else the
    drawing's own extent is used.

    Raises:
        ValueError: the alternative text is empty.
    """

    name: str
    title: str
    alt: str
    primitives: tuple[Primitive, ...]
    scale: float = 1.0
    page: Bounds | None = None

    def __post_init__(self) -> None:
        if not self.alt.strip():
            raise ValueError(f"the drawing {self.name!r} has no alternative text: say what it shows")

    @property
    def bounds(self) -> Bounds:
        """The rectangle around the geometry [mm], lettering left out."""
        return bounds_of(point for each in self.primitives for point in each.points)

    def placed(self, placement: Placement) -> Scene:
        """The scene set down elsewhere; its page goes with it."""
        page = self.page
        if page is not None:
            low, high = placement.point((page.left, page.bottom)), placement.point((page.right, page.top))
            page = bounds_of((low, high))
        return replace(
            self,
            primitives=tuple([each.placed(placement) for each in self.primitives]),
            scale=self.scale * placement.scale,
            page=page,
        )


def translate(scene: Scene, dx: float, dy: float) -> Scene:
    """The scene moved by (dx, dy) [mm]."""
    return scene.placed(Placement(dx=dx, dy=dy))


def mirror(scene: Scene) -> Scene:
    """The scene mirrored left to right about x = 0: how a right-hand part is got from the left-hand one."""
    return scene.placed(Placement(mirrored=True))


def scale_to_paper(scene: Scene, scale: float) -> Scene:
    """The scene at `scale` (0.2 for 1 : 5): geometry scaled, lettering, arrows and offsets as they were.

    Raises:
        ValueError: the scale is not above zero.
    """
    if not scale > 0:
        raise ValueError(f"a scale is above zero, not {scale}")
    return scene.placed(Placement(scale=scale))


def quantities(scene: Scene) -> tuple[str, ...]:
    """Names of the quantities that the scene's dimensions and notes show, each once, in drawing order."""
    named: Iterable[str] = (
        each.quantity for each in scene.primitives if isinstance(each, Dimension | RunningDimension | Leader)
    )
    return tuple(dict.fromkeys(name for name in named if name))
