"""Cabinet sides, seen from inside the cabinet, as they are bored for the cabinet members.

Axes [mm]: x is the depth from the front edge of the side (to the right on the left-hand side, to the
left on the right-hand one, as each is seen), y the height above the cabinet floor. The right-hand side is
the left-hand one mirrored; nothing is written twice.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal, TypeAlias

from drawerwright.drawing.dimensioning import column_offset
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import NOTE_SIZE
from drawerwright.drawing.primitives import Hole, Lines, Polyline, Slot, Text, line, rectangle
from drawerwright.drawing.scene import Dimension, Leader, Primitive, RunningDimension, Scene, mirror
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.standing import Standing, needed_parts, standing
from drawerwright.drawing.wording import bored, listed, on_grid
from drawerwright.model.fitted import FittedDrawer, Mounting

Hand: TypeAlias = Literal["left", "right"]

ROW_HOLE: Final = 5.0
"""Diameter of a row hole [mm]. Common practice of the 32 mm system, no source."""
ROW_HOLE_DEPTH: Final = 13.0
"""Depth of a row hole [mm]; a shop that bores through does so. Common practice, no source."""
SLOT_LENGTH: Final = 9.0
"""Length in which the members' slots are drawn [mm]. Invented: families tell only their middles."""
ABOVE: Final = 40.0
"""How much of the side is drawn above the opening [mm]."""


def cabinet_side(fitted: FittedDrawer, hand: Hand, units: Units = "mm") -> Scene:
    """One cabinet side with the row holes, slots and screw line of one drawer's slide.

    Only the holes are to be bored. The edges of the side lie on a layer of their own that says so, for
    nobody measured how high the side is.

    Raises:
        ValueError: the drawer does not fit.
    """
    left = in_units(_left_side(fitted, units), units)
    return left if hand == "left" else right_from(left)


def right_from(left: Scene) -> Scene:
    """The right-hand side from the left-hand one."""
    there = mirror(left)
    return replace(
        there,
        name=there.name.replace("left", "right"),
        title=there.title.replace("Left", "Right"),
        alt=there.alt.replace("Left", "Right"),
    )


def _left_side(fitted: FittedDrawer, units: Units) -> Scene:
    stand = standing(fitted)
    parts = needed_parts(fitted)
    mounting, opening = parts.mounting, fitted.opening
    length = stand.depth - stand.side_edge
    top = opening.floor + opening.height + ABOVE
    drawn: list[Primitive] = [*side_edges(length, top), *opening_lines(fitted, length), *member_lines(stand)]
    if mounting.screw_line is not None and mounting.holes_from_side_edge:
        drawn += _bored(fitted, units)
    if mounting.rear_bracket_height is not None:
        drawn += _rear_bracket_line(mounting.rear_bracket_height, length)
    places = listed(mounting.holes_from_side_edge, units)
    if places and mounting.screw_line is not None:
        height = on_grid(mounting.screw_line, units)
        says = f"row holes at {places} from its front edge, {height} above the floor"
    else:
        says = f"nothing is bored for a {mounting_words(fitted)}"
    return Scene(
        "cabinet-side-left",
        f"Left cabinet side, drawer {fitted.id}",
        f"Left cabinet side seen from inside the cabinet: {says}",
        tuple(drawn),
    )


def mounting_words(fitted: FittedDrawer) -> str:
    """How the slide is mounted, in words."""
    slide = needed_parts(fitted).slide
    return {
        "side": "slide on the cabinet side",
        "packed": "slide on packing",
        "rear-bracket": "slide on face frame and rear bracket",
        "shelf": "slide on a shelf",
    }[slide.mount]


def side_edges(length: float, top: float) -> list[Primitive]:
    """Front edge, bottom and back of the side; open at the top, which nobody measured."""
    layer = "cabinet side not cut"
    zigzag = (
        (length, top),
        (length * 0.62, top),
        (length * 0.62 - 4, top - 7),
        (length * 0.62 - 11, top + 7),
        (length * 0.62 - 15, top),
        (0.0, top),
    )
    return [
        Polyline(((0.0, top), (0.0, 0.0), (length, 0.0), (length, top)), "outline", layer),
        Polyline(zigzag, "fine", layer),
        Text((0.0, top), "front edge, seen from inside", NOTE_SIZE, tone="fine", shift=(1.5, -4.0)),
    ]


def opening_lines(fitted: FittedDrawer, length: float) -> list[Primitive]:
    """Bottom and top edge of the opening, as chain lines."""
    floor, height = fitted.opening.floor, fitted.opening.height
    levels = [floor + height] + ([floor] if floor > 0 else [])
    return [line((-6.0, y), (length + 6.0, y), "centre", "opening not cut") for y in levels]


def member_lines(stand: Standing) -> list[Primitive]:
    """The cabinet member where it will lie."""
    parts = needed_parts(stand.fitted)
    low, high = (y + stand.fitted.opening.floor for y in stand.member_heights)
    start = parts.mounting.front_end - stand.side_edge
    lies = Bounds(start, low, start + parts.mounting.member, high)
    return [rectangle(lies, "hidden", layer="slide not cut")]


def _bored(fitted: FittedDrawer, units: Units) -> list[Primitive]:
    """Row holes, slots, the screw line and their dimensions."""
    parts = needed_parts(fitted)
    mounting = parts.mounting
    y = mounting.screw_line or 0.0
    depth: float | None = ROW_HOLE_DEPTH
    operation = "row holes"
    if parts.slide.mount == "packed":
        operation = "row holes in packing"
        depth = (
            ROW_HOLE_DEPTH if min(mounting.packing_left, mounting.packing_right) > ROW_HOLE_DEPTH else None
        )
    holes = mounting.holes_from_side_edge
    first_quantity = "first_hole" if mounting.holes == holes else "first_hole_from_side_edge"
    drawn = row_marks(mounting, y, depth, operation)
    deep = "through" if depth is None else f"{bored(depth, units)} deep"
    note = f"{len(holes)} × Ø {bored(ROW_HOLE, units)}, {deep}"
    second = "slots: when the front is set" if mounting.slots else ""
    marks = tuple((x, y) for x in holes)
    drawn.append(Leader((holes[-1], y), (-4.0, 9.0), -2.0, note, second, dot=False))
    drawn.append(RunningDimension(first_quantity, (0.0, 0.0), marks, holes, 0.0, -9.0))
    drawn.append(Dimension("screw_line", y, (0.0, 0.0), (0.0, y), "vertical", 0.0, -column_offset(0)))
    return drawn


def row_marks(mounting: Mounting, y: float, depth: float | None, operation: str) -> list[Primitive]:
    """The screw line at height y with the slots of the member and the holes to be bored."""
    holes = mounting.holes_from_side_edge
    drawn: list[Primitive] = [line((-4.0, y), (max(holes) + 24.0, y), "centre", "screw line not cut")]
    half = (SLOT_LENGTH - ROW_HOLE) / 2
    drawn += [
        Slot((x - half, y), (x + half, y), ROW_HOLE, "edge", "slots of the slide not bored")
        for x in mounting.slots_from_side_edge
    ]
    for x in holes:
        drawn.append(Hole((x, y), ROW_HOLE, depth, operation))
        drawn.append(Lines((((x, y - 5.0), (x, y + 5.0)),), "fine", "screw line not cut"))
    return drawn


def _rear_bracket_line(height: float, length: float) -> list[Primitive]:
    """Height of the rear bracket's centre, at the rear end of the side."""
    return [
        line((length - 60.0, height), (length + 8.0, height), "centre", "rear bracket centre"),
        Dimension(
            "rear_bracket_height",
            height,
            (length, 0.0),
            (length, height),
            "vertical",
            length,
            column_offset(0),
        ),
    ]
