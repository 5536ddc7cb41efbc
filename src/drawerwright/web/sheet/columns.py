"""Notes set down in a column: each as near to its dimension as its neighbours let it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.pens import NOTE_SIZE
from drawerwright.web.sheet.notes import LONGER, SEVERITY, Note

LINE: Final = NOTE_SIZE * 1.26
"""From line to line of a note [mm on paper]."""
BETWEEN: Final = 2.4
"""White between two notes of a column [mm on paper]."""
_HEAD: Final = LINE + 1.0
_SPARE: Final = 0.97
"""How much of a line is counted on: a browser breaks lines a little sooner."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A note, where its line begins, and the level it would like to stand at [mm on paper, up]."""

    note: Note
    anchor: Point | None
    dot: bool
    level: float


@dataclass(frozen=True, slots=True)
class SetNote:
    """A note in its place [mm on paper, up from the foot of the board]: `top` is its rule."""

    note: Note
    left: float
    top: float
    width: float
    height: float
    line: tuple[Point, ...] = ()
    dot: bool = False


def note_height(note: Note, width: float) -> float:
    """How high a note of a width runs [mm on paper]."""
    return _HEAD + LINE * lines_of(note.name, note.says, width)


def lines_of(name: str, says: str, width: float, size: float = NOTE_SIZE) -> int:
    """Into how many lines words break that begin with a name in bold."""
    space = text_width(" ", size, "regular")
    count, at = 1, 0.0
    for weight, words in (("semibold", name), ("regular", says)):
        for word in words.split():
            run = text_width(word, size, "semibold" if weight == "semibold" else "regular")
            if at and at + space + run > width * _SPARE:
                count, at = count + 1, run
            else:
                at += run + (space if at else 0.0)
    return count


def set_column(
    wanted: Sequence[Wanted], left: float, width: float, low: float, high: float
) -> tuple[list[SetNote], list[Note]]:
    """Notes in one column between two levels [mm on paper], and those that found no room.

    They stand in the order of their dimensions, so that their lines do not cross. Where room is short, what
    fits goes first, and the next longer slide before what wants care.
    """
    kept = sorted(wanted, key=lambda one: -one.level)
    left_over: list[Note] = []
    heights = {id(one): note_height(one.note, width) for one in kept}
    while kept and sum(heights[id(one)] for one in kept) + BETWEEN * (len(kept) - 1) > high - low:
        least = max(range(len(kept)), key=lambda i: (_goes_first(kept[i].note), i))
        left_over.append(kept.pop(least).note)
    tops: list[float] = []
    ceiling = high
    for one in kept:
        tops.append(min(one.level, ceiling))
        ceiling = tops[-1] - heights[id(one)] - BETWEEN
    floor = low
    for i in range(len(kept) - 1, -1, -1):
        tops[i] = max(tops[i], floor + heights[id(kept[i])])
        floor = tops[i] + BETWEEN
    placed = [
        SetNote(one.note, left, top, width, heights[id(one)], dot=one.dot)
        for one, top in zip(kept, tops, strict=True)
    ]
    return placed, left_over


def _goes_first(note: Note) -> int:
    return 1 if note.id == LONGER else SEVERITY[note.state]
