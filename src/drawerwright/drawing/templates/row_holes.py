"""Template for the row holes of a cabinet side: laid on its inside face, front edge and floor as datums.

Axes [mm]: x is the depth from the front edge of the side (to the right for a left-hand side, mirrored for
a right-hand one, as each is seen from inside), y the height above the cabinet floor.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.geometry import Bounds, Placement
from drawerwright.drawing.primitives import Slot, line
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.drawing.templates.marks import (
    CROSS_LAYER,
    datum,
    datum_words,
    drawer_words,
    label,
    marked_hole,
    title_block,
)
from drawerwright.drawing.views.cabinet_side import ROW_HOLE, ROW_HOLE_DEPTH, SLOT_LENGTH, Hand
from drawerwright.drawing.views.standing import FittedParts, needed_parts
from drawerwright.drawing.wording import bored, listed, on_grid, shown
from drawerwright.model.fitted import FittedDrawer

FLOOR_ON_PAPER: Final = 110.0
"""A screw line higher than this above the floor is set out from a pencil line instead [mm]. Own choice."""
_BELOW_THE_LINE = 40.0
_BEYOND = 18.0
_OVER = 20.0
_WORDS_EVERY = 130.0


def row_holes(
    fitted: FittedDrawer, hand: Hand, ids: Sequence[str] | None = None, units: Units = "mm"
) -> Scene:
    """Holes and slots of one cabinet member at true size.

    High above the floor the lower datum is a pencil line at a round height, which the paper names.

    Raises:
        ValueError: the drawer does not fit, or nothing is screwed to the cabinet side.
    """
    parts = needed_parts(fitted)
    mounting = parts.mounting
    if mounting.screw_line is None or not mounting.holes_from_side_edge:
        raise ValueError(f"drawer {fitted.id} has no row holes: nothing is screwed to the cabinet side")
    y = mounting.screw_line
    foot = _foot(y, units)
    area = Bounds(
        0.0, foot, max(*mounting.holes_from_side_edge, *mounting.slots_from_side_edge) + _BEYOND, y + _OVER
    )
    lower, second = _lower_datum(foot, units)
    frame = fitted.drawer.frame_in_use
    lap = frame.lap if frame is not None else 0.0
    drawn: list[Primitive] = [
        datum((0.0, foot), (0.0, area.top)),
        datum((0.0, foot), (area.right, foot)),
        line((0.0, y), (area.right, y), "centre", "screw line"),
        datum_words((lap, area.top), "front edge of the cabinet side", (2.0, -3.4)),
        *_lower_words(area, lower),
        *_holes(parts, y, units),
        *_frame(fitted, area),
    ]
    placed = [each.placed(Placement(mirrored=hand == "right")) for each in drawn]
    left = 0.0 if hand == "left" else -area.right
    placed += title_block(
        left, left + area.right, area.top + 4.0, hand, "Row holes", _says(fitted, hand, ids, units)
    )
    places = listed(mounting.holes_from_side_edge, units)
    return Scene(
        f"row-holes-{hand}",
        f"Row holes, {hand.upper()}, {drawer_words(fitted, ids)}",
        f"Template at true size for the {hand} cabinet side, seen from inside the cabinet: row holes at "
        f"{places} from its front edge, {on_grid(y - foot, units)} above {second}",
        tuple(placed),
    )


def _foot(screw_line: float, units: Units) -> float:
    """Height of the paper's lower datum above the cabinet floor."""
    if screw_line <= FLOOR_ON_PAPER:
        return 0.0
    step = 12.7 if shown_in(units).in_inches else 10.0
    return math.floor((screw_line - _BELOW_THE_LINE) / step) * step


def _lower_datum(foot: float, units: Units) -> tuple[str, str]:
    """Words of the lower datum: on the paper, and in a sentence."""
    if foot == 0.0:
        return "floor of the cabinet", "the floor of the cabinet"
    height = shown(foot, units)
    return f"pencil line {height} above the floor of the cabinet", f"a line {height} above the cabinet floor"


def _lower_words(area: Bounds, words: str) -> list[Primitive]:
    """The lower datum's name, again and again, so that every page says it."""
    count = max(int(area.width // _WORDS_EVERY), 1)
    places = [area.right - k * _WORDS_EVERY for k in range(count)]
    return [datum_words((x, area.bottom), words, (0.0, 1.8), "end") for x in places]


def _holes(parts: FittedParts, y: float, units: Units) -> list[Primitive]:
    """Holes and slots with their distances from the front edge."""
    mounting = parts.mounting
    drawn: list[Primitive] = []
    for x in mounting.holes_from_side_edge:
        drawn += marked_hole((x, y), ROW_HOLE, ROW_HOLE_DEPTH, "row holes")
        drawn.append(label((x, y), on_grid(x, units), (0.0, 8.0)))
    half = (SLOT_LENGTH - ROW_HOLE) / 2
    for x in mounting.slots_from_side_edge:
        drawn.append(Slot((x - half, y), (x + half, y), ROW_HOLE, "hidden", "slots"))
        drawn.append(line((x, y - 6.5), (x, y + 6.5), "dimension", CROSS_LAYER))
        drawn.append(label((x, y), f"slot {on_grid(x, units)}", (0.0, -10.4)))
    return drawn


def _frame(fitted: FittedDrawer, area: Bounds) -> list[Primitive]:
    """Back of a face frame: it hides the front edge of the side."""
    frame = fitted.drawer.frame_in_use
    if frame is None:
        return []
    return [line((frame.lap, area.bottom), (frame.lap, area.top), "hidden", "back of the face frame")]


def _says(fitted: FittedDrawer, hand: Hand, ids: Sequence[str] | None, units: Units) -> list[str]:
    """What the template is for and how it is used, in short sentences."""
    parts = needed_parts(fitted)
    slide = parts.slide
    says = [
        drawer_words(fitted, ids),
        f"seen from inside the cabinet; {hand} member of {slide.family.id} / {shown(slide.length.nominal)}",
    ]
    if fitted.drawer.frame_in_use is not None:
        says.append("dashed: back of the face frame; cut there and lay the paper on the packing")
    elif slide.mount == "packed":
        says.append("lay the paper on the packing")
    if parts.mounting.slots:
        says.append("first screws into the slots; front set, one into a round hole locks it")
    says.append(f"Ø {bored(ROW_HOLE, units)}, {bored(ROW_HOLE_DEPTH, units)} deep")
    return says
