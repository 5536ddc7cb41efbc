"""The wide sheet: plan, front and side at one standard scale, lined up, with notes in its margins.

One piece of paper of a fixed size, as it is printed. All in mm on paper, x to the right, y up from its
lower left corner. The front stands under the plan on one middle line, the side section beside the front on
one floor line; the drawn-out picture takes the white beside the plan.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, NOTE_SIZE, SHEET_UNIT
from drawerwright.drawing.primitives import Circle, Text
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.sheet import STANDARD_SCALES
from drawerwright.web.sheet.columns import SetNote, Wanted, set_column
from drawerwright.web.sheet.notes import Note, Place, ViewName
from drawerwright.web.sheet.views import DrawnViews, View, anchor_of, letters_of, view_at
from drawerwright.web.sheet.white import crossed

WIDTH: Final = 1572 * SHEET_UNIT
HEIGHT: Final = 784 * SHEET_UNIT
"""Size of the board [mm on paper]: an A4 sheet lying down, less its strips and margins. Own design."""
EDGE: Final = 22 * SHEET_UNIT
_NOTE_LEFT: Final = 170 * SHEET_UNIT
_NOTE_RIGHT: Final = 176 * SHEET_UNIT
_NOTE_SIDE: Final = 150 * SHEET_UNIT
_CHANNEL: Final = 24 * SHEET_UNIT
_CAPTION: Final = 8.6
_BETWEEN: Final = 4.0
_UNDER: Final = 2.2
"""White between plan and front. Own choice."""
_OVER: Final = 0.8
"""How far a line is led over lettering. Own choice."""
_ASIDE: Final = (0.0, 3.0, -3.0, 6.0, -6.0, 9.0, -9.0)
"""How far a line's end is lifted, where a straight one would strike a number [mm on paper]. Own choice."""
_HEAD: Final = EDGE * 0.65
_FOOT: Final = EDGE * 0.6
_UNDER_PICTURE: Final = 20.0
"""Room under the drawn-out picture for its slider and what stands below it."""
_ORDER: Final[tuple[ViewName, ...]] = ("plan", "front", "side")
_AROUND: Final = (
    Bounds(-6.6, -3.4, 15.7, 11.2),
    Bounds(-8.0, -9.8, 6.9, 4.1),
    Bounds(0.0, -9.8, 13.4, 3.5),
)
"""What dimensions of plan, front and side take beyond their geometry [mm on paper]: a first guess."""
_PICTURE: Final = Bounds(0.0, 0.0, 58.0, 34.0)
"""Least room for the drawn-out picture. Own choice."""


@dataclass(frozen=True, slots=True)
class Board:
    """The sheet composed: views where they stand, captions; `picture` is the drawn-out view's room.

    `also` are notes that have no dimension or found no room.
    """

    captions: Scene
    views: tuple[View, ...]
    notes: tuple[SetNote, ...]
    also: tuple[Note, ...]
    picture: Bounds

    @property
    def scene(self) -> Scene:
        """Everything drawn, as one scene."""
        drawn = [each for view in self.views for each in view.scene.primitives]
        return replace(self.captions, primitives=(*drawn, *self.captions.primitives))


@dataclass(frozen=True, slots=True)
class _Places:
    """Where views stand: the plan's and front's middle, their two floors, and the side's front edge."""

    middle: float
    plan_floor: float
    floor: float
    side: float


def compose_board(views: DrawnViews, notes: Sequence[Note]) -> Board:
    """The largest standard scale at which everything finds its place.

    What dimensions take hardly changes with the scale: a first guess of it says where to begin, and each
    trial says it better.

    Raises:
        ValueError: the drawer is too large for the smallest standard scale.
    """
    bare = tuple(views.scenes[name].bounds for name in _ORDER)
    around: tuple[Bounds, ...] = _AROUND
    tried: dict[float, tuple[list[View], _Places | None]] = {}
    while True:
        hopeful = (times for times in STANDARD_SCALES if _is_hopeful(times, bare, around, tried))
        times = next(hopeful, None)
        if times is None:
            raise ValueError(f"drawer {views.fitted.id} is too large for the sheet")
        if times not in tried:
            scaled = [view_at(views, name, 1.0 / times, beside=True) for name in _ORDER]
            tried[times] = (scaled, _places(*(view.room for view in scaled)))
            around = tuple(_beyond(view.room, box, times) for view, box in zip(scaled, bare, strict=True))
            continue
        scaled, places = tried[times]
        assert places is not None
        return _set_down(views, scaled, places, notes)


def _is_hopeful(
    times: float,
    bare: Sequence[Bounds],
    around: Sequence[Bounds],
    tried: Mapping[float, tuple[list[View], _Places | None]],
) -> bool:
    """Whether a scale was found to do, or has not been tried and may do."""
    if times in tried:
        return tried[times][1] is not None
    return _places(*(_grown(box, by, times) for box, by in zip(bare, around, strict=True))) is not None


def _grown(box: Bounds, by: Bounds, times: float) -> Bounds:
    return Bounds(
        box.left / times + by.left,
        box.bottom / times + by.bottom,
        box.right / times + by.right,
        box.top / times + by.top,
    )


def _beyond(room: Bounds, box: Bounds, times: float) -> Bounds:
    """What a view takes beyond its geometry [mm on paper], edge by edge."""
    return Bounds(
        room.left - box.left / times,
        room.bottom - box.bottom / times,
        room.right - box.right / times,
        room.top - box.top / times,
    )


def _places(above: Bounds, below: Bounds, beside: Bounds) -> _Places | None:
    """Where the views go that take these rooms at their scale; None where they do not fit together."""
    middle = EDGE + _NOTE_LEFT + _CHANNEL + max(-above.left, -below.left)
    right = middle + above.right + _CHANNEL + _NOTE_RIGHT + _BETWEEN
    side = middle + below.right + _BETWEEN - beside.left
    notes = side + beside.right + _CHANNEL / 2 + _NOTE_SIDE
    spare_x = min(WIDTH - EDGE - right - _PICTURE.width, WIDTH - EDGE - notes)
    floor = _FOOT + max(-below.bottom, -beside.bottom)
    plan_floor = floor + below.top + _UNDER - above.bottom
    spare_y = HEIGHT - _HEAD - plan_floor - above.top
    picture = HEIGHT - EDGE - (floor + beside.top + 2 * _CAPTION) - _PICTURE.height - _UNDER_PICTURE
    if picture < 0:  # then it stands beside the side section
        aside = WIDTH - EDGE - notes - _BETWEEN - _PICTURE.width
        spare_x = min(aside, WIDTH - EDGE - right)
    if spare_x < 0 or spare_y < 0:
        return None
    low = spare_y / 4
    return _Places(middle + spare_x / 4, plan_floor + 2.5 * low, floor + low, side + spare_x / 2)


def _set_down(views: DrawnViews, scaled: Sequence[View], places: _Places, notes: Sequence[Note]) -> Board:
    origins: tuple[Point, ...] = (
        (places.middle, places.plan_floor),
        (places.middle, places.floor),
        (places.side, places.floor),
    )
    plan, front, side = (replace(view, origin=origin) for view, origin in zip(scaled, origins, strict=True))
    empty = views.fitted.box is None
    ceiling, divide = HEIGHT - EDGE, side.room.top + _CAPTION + 1.0
    right_column = plan.room.right + _CHANNEL
    through = "through the left slide" if views.stand.concealed else "through the box"
    drawn = caption(1, "Plan", "the opening" if empty else "through the box", EDGE, ceiling)
    side_head = side.room.left
    if plan.room.bottom < divide:
        side_head = max(side_head, plan.room.right + 2.0)
    drawn += caption(2, "Side section", "the opening" if empty else through, side_head, divide - 1.0)
    front_head = min(front.room.top + 2.0, plan.room.bottom + _CAPTION)
    drawn += caption(3, "Front", "the opening" if empty else "closed", EDGE, front_head)
    side_notes = side.room.right + _CHANNEL / 2
    over = Bounds(right_column + _NOTE_RIGHT + _BETWEEN, divide + 3.0, WIDTH - EDGE, ceiling - 1.0)
    aside = Bounds(side_notes + _NOTE_SIDE + _BETWEEN, _FOOT, WIDTH - EDGE, ceiling - 1.0)
    room = aside if aside.left >= over.left and _picture_size(aside) > _picture_size(over) else over
    drawn += caption(4, "Drawn out", "", room.left, ceiling)
    where = {view.name: view for view in (plan, front, side)}
    wanted: dict[str, list[Wanted]] = {}
    also: list[Note] = []
    for note in notes:
        found = None
        if note.place is not None:
            found = anchor_of(where[note.place.view], note.place, views.stand)
        if note.place is not None and found is not None:
            column = _column_of(note.place)
            wanted.setdefault(column, []).append(Wanted(note, found[0], found[1], found[0][1]))
        elif note.state != "ok":
            wanted.setdefault("right", []).append(Wanted(note, None, False, divide))
        else:
            also.append(note)
    columns = (
        ("left", EDGE, _NOTE_LEFT, front_head + 3.0, ceiling - _CAPTION - 2.0),
        ("under", EDGE, _NOTE_LEFT, _FOOT, front_head - _CAPTION - 1.0),
        ("right", right_column, _NOTE_RIGHT, divide + 2.0, ceiling),
        ("side", side_notes, _NOTE_SIDE, _FOOT, divide - _CAPTION),
    )
    letters = letters_of(plan)
    set_notes: list[SetNote] = []
    for key, left, width, low, high in columns:
        asked = wanted.get(key, [])
        placed, left_over = set_column(asked, left, width, low, high)
        anchors = {one.note.id: one.anchor for one in asked}
        for one in placed:
            anchor = anchors[one.note.id]
            on_left = key in ("left", "under")
            set_notes.append(one if anchor is None else _led(one, anchor, letters, on_left=on_left))
        also += left_over
    captions = Scene(
        "sheet",
        f"Drawer {views.fitted.id}",
        "; ".join(view.set.scene.alt for view in (plan, side, front)),
        tuple(drawn),
        plan.scale,
        Bounds(0.0, 0.0, WIDTH, HEIGHT),
    )
    return Board(captions, (plan, front, side), tuple(set_notes), tuple(also), room)


def _picture_size(room: Bounds) -> float:
    """How wide a picture a room holds, which is about three quarters as high as wide [mm on paper]."""
    return min(room.width, (room.height - _UNDER_PICTURE) / 0.75)


def _column_of(place: Place) -> str:
    """The column that a note stands in: "left" and "right" of the plan, "under" it, or at the "side" view."""
    if place.view == "side":
        return "side"
    return "under" if place.view == "front" else place.at


def _led(note: SetNote, anchor: Point, letters: Sequence[Bounds], *, on_left: bool) -> SetNote:
    """The note with its line: level from the rule, then straight to what it speaks of.

    A level line that would run through `letters` is lifted over them.
    """
    line: tuple[Point, ...]
    if on_left:
        rule = (note.left + note.width, note.top)
        middle = min(rule[0] + _CHANNEL * 0.7, max(anchor[0], rule[0]))
        bends = (middle, rule[0], (middle + rule[0]) / 2)
        ways: list[tuple[Point, ...]] = [(anchor, (bend, note.top), rule) for bend in bends]
        ways += [(anchor, (middle, anchor[1] + up), (middle, note.top), rule) for up in _ASIDE]
        line = _freest(ways, letters)
    else:
        rule = (note.left, note.top)
        near = (max(note.left - _CHANNEL * 0.55, anchor[0]), anchor[1])
        line = (anchor, near, (note.left - _CHANNEL * 0.2, note.top), rule)
        way = Bounds(anchor[0] + 0.5, anchor[1], near[0], anchor[1])
        over = max((one.top for one in letters if one.overlaps(way)), default=None)
        if over is not None:
            line = (anchor, (anchor[0], over + _OVER), (near[0], over + _OVER), *line[2:])
    return SetNote(note.note, note.left, note.top, note.width, note.height, line, note.dot)


def _freest(ways: Sequence[tuple[Point, ...]], letters: Sequence[Bounds]) -> tuple[Point, ...]:
    """The first of the lines that strike the fewest numbers."""
    best, fewest = ways[0], math.inf
    for way in ways:
        struck = _struck(way, letters)
        if struck == 0:
            return way
        if struck < fewest:
            best, fewest = way, struck
    return best


def _struck(way: Sequence[Point], letters: Sequence[Bounds]) -> int:
    """How many numbers a line strikes through."""
    return sum(crossed(start, end, letters) for start, end in pairwise(way))


def caption(number: int, name: str, words: str, left: float, top: float) -> list[Primitive]:
    """A view's number in a ring, its name, and under it what it shows."""
    ring = 2.35
    drop = (0.0, -0.35 * CAPTION_SIZE)
    x = left + 2 * ring + 1.8
    drawn: list[Primitive] = [
        Circle((left + ring, top - ring), ring, "leader", on_paper=True),
        Text((left + ring, top - ring), str(number), CAPTION_SIZE, "middle", "semibold", shift=drop),
        Text((x, top - ring), name, CAPTION_SIZE, weight="semibold", shift=drop),
    ]
    if words:
        drawn.append(Text((x, top - ring - 3.6), words, NOTE_SIZE, tone="fine", shift=drop))
    return drawn
