"""Template for the pilot holes of a locking bracket: the corner behind the subfront, seen from below.

The box lies upside down with its front towards you: the drawer's left hand is then at the right. Axes
[mm] of the left-hand template: the corner of both inside faces is (0, 0), the box lies to the left of the
side's face (x below 0) and beyond the subfront's (y above 0). The right-hand one is the mirror.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.geometry import Bounds, Placement
from drawerwright.drawing.primitives import rectangle
from drawerwright.drawing.scene import Dimension, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.templates.marks import (
    datum,
    datum_words,
    drawer_words,
    marked_hole,
    title_block,
    wood_beyond,
)
from drawerwright.drawing.views.cabinet_side import Hand
from drawerwright.drawing.views.standing import FittedParts, needed_parts, standing
from drawerwright.drawing.wording import bored, hardware, shown
from drawerwright.model.fitted import FittedDrawer

PILOT: Final = 2.5
"""Diameter of a pilot hole for the brackets' screws [mm]. Common practice, no source."""
_BEYOND = 32.0
"""Room past the last hole for the words in the subfront's wood, clear of its line down [mm]."""
_WOOD = 8.0
_WIDE = 150.0


def locking_bracket(
    fitted: FittedDrawer, hand: Hand, ids: Sequence[str] | None = None, units: Units = "mm"
) -> Scene:
    """Pilot holes of one bracket at true size, spacers counted in.

    Raises:
        ValueError: the drawer does not fit, or its slides run beside the box and want no bracket.
    """
    parts = needed_parts(fitted)
    if not standing(fitted).concealed:
        raise ValueError(f"drawer {fitted.id} has no locking brackets: its slides run beside the box")
    places = bracket_places(parts)
    if not places:
        raise ValueError(f"drawer {fitted.id}: family {parts.slide.family.id} tells no bracket holes")
    far_in = max(x for x, _ in places) + _BEYOND
    far_back = max(y for _, y in places) + _BEYOND
    says_front = "back of the front" if parts.box.subfront == 0 else "inner face of the subfront"
    drawn: list[Primitive] = [
        wood_beyond(Bounds(0.0, -_WOOD, _WOOD, far_back), 45.0),
        wood_beyond(Bounds(-far_in, -_WOOD, 0.0, 0.0), 135.0),
        datum((0.0, 0.0), (0.0, far_back)),
        datum((-far_in, 0.0), (0.0, 0.0)),
        datum_words((0.0, far_back), f"inside face of the {hand} box side", (-2.0, -3.2), "end"),
        datum_words((-far_in, 0.0), says_front, (0.6, -4.6)),  # in the wood: spacers lie on the other side
        *_spacers(parts, far_in, far_back, units),
        *_holes(places, far_in, units),
    ]
    placed = [each.placed(Placement(mirrored=hand == "right")) for each in drawn]
    edges = (-far_in, _WOOD) if hand == "left" else (-_WOOD, far_in)
    placed += title_block(
        edges[0], edges[0] + _WIDE, far_back + 5.0, hand, "Locking bracket", _says(fitted, ids, units)
    )
    told = "; ".join(f"{shown(x, units)} and {shown(y, units)}" for x, y in places)
    return Scene(
        f"locking-bracket-{hand}",
        f"Locking bracket, {hand.upper()}, {drawer_words(fitted, ids)}",
        f"Template at true size for the {hand} locking bracket, box upside down, front towards you: pilot "
        f"holes in from the side's inside face and back from the {says_front} at {told}",
        tuple(placed),
    )


def bracket_places(parts: FittedParts) -> tuple[tuple[float, float], ...]:
    """Pilot holes [mm]: in from the side's inside face, back from the subfront's inner face, past spacers."""
    slide = parts.slide
    aside, back = sum(slide.side_spacers), sum(slide.subfront_spacers)
    return tuple((x + aside, y + back) for x, y in slide.family.bracket_holes)


def _spacers(parts: FittedParts, far_in: float, far_back: float, units: Units) -> list[Primitive]:
    """Spacers against the wood, each a strip with its thickness."""
    slide = parts.slide
    drawn: list[Primitive] = []
    x = y = 0.0
    for thick in slide.side_spacers:
        drawn.append(rectangle(Bounds(-x - thick, 0.0, -x, far_back - 6.0), "edge", layer="spacers"))
        x += thick
    for thick in slide.subfront_spacers:
        drawn.append(rectangle(Bounds(-far_in, y, 0.0, y + thick), "edge", layer="spacers"))
        y += thick
    return drawn


def _holes(places: Sequence[tuple[float, float]], far_in: float, units: Units) -> list[Primitive]:
    """Pilot holes, each distance written once: across under the corner, up at the open end."""
    drawn: list[Primitive] = []
    for x, y in places:
        drawn += marked_hole((-x, y), PILOT, None, "pilot holes for the locking bracket")
    for row, x in enumerate(sorted({x for x, _ in places})):
        y = min(up for across, up in places if across == x)
        drawn.append(
            Dimension(
                "bracket_hole_in", x, (0.0, 0.0), (-x, y), "horizontal", -_WOOD, -4.0 - 5.0 * row,
                text=shown(x, units), label_side="start",
            )
        )  # fmt: skip
    for column, y in enumerate(sorted({y for _, y in places})):
        x = max(across for across, up in places if up == y)
        drawn.append(
            Dimension(
                "bracket_hole_back", y, (-far_in, 0.0), (-x, y), "vertical", -far_in, -8.0 - 10.0 * column,
                text=shown(y, units),
            )
        )  # fmt: skip
    return drawn


def _says(fitted: FittedDrawer, ids: Sequence[str] | None, units: Units) -> list[str]:
    """What the template is for, its angle, and the spacers that are counted in."""
    slide = needed_parts(fitted).slide
    says = [
        drawer_words(fitted, ids),
        "box upside down, its front towards you",
        f"pilot holes Ø {bored(PILOT, units)} at {slide.family.bracket_angle:g}° from the face",
    ]
    for words, spacers in (("side", slide.side_spacers), ("subfront", slide.subfront_spacers)):
        if spacers:
            thick = " + ".join(hardware(each, units) for each in spacers)
            says.append(f"spacer {thick} against the {words}, counted in")
    return says
