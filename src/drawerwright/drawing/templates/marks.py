"""What paper templates share: crosses at holes, datum edges with their words, the hand, the heading."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Anchor, Hole, Lines, Text, line
from drawerwright.drawing.scene import Hatch, Primitive
from drawerwright.drawing.views.cabinet_side import Hand
from drawerwright.model.fitted import FittedDrawer

DATUM_LAYER: Final = "datum edges"
CROSS_LAYER: Final = "centres of holes"
HAND_SIZE: Final = 13.0
"""Lettering of LEFT and RIGHT [mm]: to be read across the bench. Own choice."""
_CROSS_BEYOND = 4.0
_NAMED = 8
_HEAVY = "heavy lines lie on the edges of the work"
_LONG_PAPER = 240.0
_MEASURE = 120.0


def marked_hole(centre: Point, diameter: float, depth: float | None, operation: str) -> list[Primitive]:
    """A hole with a cross through its centre that reaches beyond its edge, to be pricked through."""
    (x, y), arm = centre, diameter / 2 + _CROSS_BEYOND
    cross = (((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm)))
    return [Hole(centre, diameter, depth, operation), Lines(cross, "dimension", CROSS_LAYER)]


def label(at: Point, words: str, shift: Point, anchor: Anchor = "middle") -> Text:
    """A number or word beside a hole."""
    return Text(at, words, NOTE_SIZE, anchor, "semibold", shift=shift, backed=True)


def datum(start: Point, end: Point) -> Primitive:
    """An edge of the work that the paper is laid to."""
    return line(start, end, "cut", DATUM_LAYER)


def datum_words(at: Point, words: str, shift: Point, anchor: Anchor = "start") -> Text:
    """What edge a datum is."""
    return Text(at, words, NOTE_SIZE, anchor, "medium", shift=shift, backed=True)


def wood_beyond(area: Bounds, angle_deg: float) -> Hatch:
    """Wood on the other side of a datum edge, so that it is seen which side the paper lies on."""
    return Hatch(area.corners, angle_deg, 2.2)


def title_block(
    left: float, right: float, foot: float, hand: Hand | None, title: str, says: Sequence[str]
) -> list[Primitive]:
    """The hand large, beside it the title and short lines; on a long paper the hand again at its other end.

    Everything stands on `foot` between `left` and `right` [mm].
    """
    drawn: list[Primitive] = []
    x = left + 3.0
    if hand is not None:
        word = Text((x, foot), hand.upper(), HAND_SIZE, weight="semibold")
        drawn.append(word)
        x = word.extent.right + 5.0
        if right - left > _LONG_PAPER:
            drawn.append(Text((right - 3.0, foot), hand.upper(), HAND_SIZE, "end", "semibold"))
    width = max(min(right - x, _MEASURE), 60.0)
    lines = [line for words in (*says, _HEAVY) for line in wrapped(words, width)]
    step = NOTE_SIZE * 1.45
    for row, words in enumerate(reversed(lines)):
        drawn.append(Text((x, foot + row * step), words, NOTE_SIZE, tone="mid"))
    head = (x, foot + len(lines) * step + 0.5)
    drawn.append(Text(head, title, CAPTION_SIZE * 1.3, weight="semibold"))
    return drawn


def drawer_words(fitted: FittedDrawer, ids: Sequence[str] | None) -> str:
    """The drawers that a template is for; many are told by the first ones and their number."""
    named = tuple(ids) if ids else (fitted.id,)
    if len(named) == 1:
        return f"drawer {named[0]}"
    if len(named) <= _NAMED:
        return "drawers " + ", ".join(named)
    return "drawers " + ", ".join(named[:_NAMED]) + f" and {len(named) - _NAMED} more"


def wrapped(words: str, width: float, size: float = NOTE_SIZE) -> list[str]:
    """Lettering broken between words so that no line runs wider than `width` [mm]."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
