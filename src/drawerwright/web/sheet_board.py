"""The wide sheet: plan, front and side at one standard scale, lined up, with notes in its margins.

One piece of paper of a fixed size, as it is printed. All in mm on paper, x to the right, y up from its
lower left corner. The front stands under the plan on one middle line, the side section beside the front on
one floor line; the drawn-out picture takes the white beside the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, NOTE_SIZE, SHEET_UNIT
from drawerwright.drawing.primitives import Circle, Text
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.sheet import STANDARD_SCALES
from drawerwright.web.sheet_columns import SetNote, Wanted, set_column
from drawerwright.web.sheet_notes import Note, Place
from drawerwright.web.sheet_views import DrawnViews, View, anchor_of, moved, view_at

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
_HEAD: Final = EDGE * 0.65
_FOOT: Final = EDGE * 0.6
_PICTURE: Final = Bounds(0.0, 0.0, 58.0, 34.0)
"""Least room for the drawn-out picture. Own choice."""


@dataclass(frozen=True, slots=True)
class Board:
    """The sheet composed. `scene` has views and captions; `picture` is the drawn-out view's room.

    `also` are notes that have no dimension or found no room.
    """

    scene: Scene
    views: tuple[View, ...]
    notes: tuple[SetNote, ...]
    also: tuple[Note, ...]
    picture: Bounds


@dataclass(frozen=True, slots=True)
class _Places:
    """Where views stand: the plan's and front's middle, their two floors, and the side's front edge."""

    middle: float
    plan_floor: float
    floor: float
    side: float


def compose_board(views: DrawnViews, notes: Sequence[Note]) -> Board:
    """The largest standard scale at which everything finds its place.

    Raises:
        ValueError: the drawer is too large for the smallest standard scale.
    """
    for times in STANDARD_SCALES:
        if not _may_fit(views, times):
            continue
        scaled = [view_at(views, name, 1.0 / times, beside=True) for name in ("plan", "front", "side")]
        places = _places(*scaled)
        if places is not None:
            return _set_down(views, scaled, places, notes)
    raise ValueError(f"drawer {views.fitted.id} is too large for the sheet")


def _may_fit(views: DrawnViews, times: float) -> bool:
    """Whether the geometry alone leaves room for its dimensions, by a first look."""
    above, below, beside = (views.scenes[name].bounds for name in ("plan", "front", "side"))
    wide = max(above.width, below.width) / times + _NOTE_LEFT + _NOTE_RIGHT + _PICTURE.width
    lower = below.width / times + beside.width / times + _NOTE_LEFT + _NOTE_SIDE
    high = (above.height + max(below.height, beside.height)) / times
    return wide + 24.0 <= WIDTH and lower + 28.0 <= WIDTH and high + 22.0 <= HEIGHT


def _places(above: View, below: View, beside: View) -> _Places | None:
    """Where the views go at their scale; None where they do not fit together."""
    middle = EDGE + _NOTE_LEFT + _CHANNEL + max(-above.room.left, -below.room.left)
    right = middle + above.room.right + _CHANNEL + _NOTE_RIGHT + _BETWEEN
    side = middle + below.room.right + _BETWEEN - beside.room.left
    notes = side + beside.room.right + _CHANNEL / 2 + _NOTE_SIDE
    spare_x = min(WIDTH - EDGE - right - _PICTURE.width, WIDTH - EDGE - notes)
    floor = _FOOT + max(-below.room.bottom, -beside.room.bottom)
    plan_floor = floor + below.room.top + _UNDER - above.room.bottom
    spare_y = HEIGHT - _HEAD - plan_floor - above.room.top
    picture = HEIGHT - EDGE - (floor + beside.room.top + 2 * _CAPTION) - _PICTURE.height - 20.0
    if spare_x < 0 or spare_y < 0 or picture < 0:
        return None
    low = spare_y / 4
    return _Places(middle + spare_x / 4, plan_floor + 2.5 * low, floor + low, side + spare_x / 2)


def _set_down(views: DrawnViews, scaled: Sequence[View], places: _Places, notes: Sequence[Note]) -> Board:
    origins: tuple[Point, ...] = (
        (places.middle, places.plan_floor),
        (places.middle, places.floor),
        (places.side, places.floor),
    )
    plan, front, side = (moved(view, *origin) for view, origin in zip(scaled, origins, strict=True))
    empty = views.fitted.box is None
    ceiling, divide = HEIGHT - EDGE, side.room.top + _CAPTION + 1.0
    right_column = plan.room.right + _CHANNEL
    through = "through the left slide" if views.stand.concealed else "through the box"
    drawn: list[Primitive] = [*plan.scene.primitives, *front.scene.primitives, *side.scene.primitives]
    drawn += caption(1, "Plan", "the opening" if empty else "through the box", EDGE, ceiling)
    drawn += caption(2, "Side section", "the opening" if empty else through, side.room.left, divide - 1.0)
    front_head = min(front.room.top + 2.0, plan.room.bottom + _CAPTION)
    drawn += caption(3, "Front", "the opening" if empty else "closed", EDGE, front_head)
    picture_left = right_column + _NOTE_RIGHT + _BETWEEN
    drawn += caption(4, "Drawn out", "", picture_left, ceiling)
    where = {view.name: (view, origin) for view, origin in zip((plan, front, side), origins, strict=True)}
    wanted: dict[str, list[Wanted]] = {}
    also: list[Note] = []
    for note in notes:
        found = None
        if note.place is not None:
            found = anchor_of(*where[note.place.view], note.place, views.stand)
        if note.place is not None and found is not None:
            column = _column_of(note.place)
            wanted.setdefault(column, []).append(Wanted(note, found[0], found[1], found[0][1]))
        elif note.state != "ok":
            wanted.setdefault("right", []).append(Wanted(note, None, False, divide))
        else:
            also.append(note)
    foot = _FOOT
    columns = (
        ("left", EDGE, _NOTE_LEFT, front_head + 3.0, ceiling - _CAPTION - 2.0),
        ("under", EDGE, _NOTE_LEFT, foot, front_head - _CAPTION - 1.0),
        ("right", right_column, _NOTE_RIGHT, divide + 2.0, ceiling),
        ("side", side.room.right + _CHANNEL / 2, _NOTE_SIDE, foot, divide - _CAPTION),
    )
    set_notes: list[SetNote] = []
    for key, left, width, low, high in columns:
        asked = wanted.get(key, [])
        placed, left_over = set_column(asked, left, width, low, high)
        anchors = {one.note.id: one.anchor for one in asked}
        for one in placed:
            anchor = anchors[one.note.id]
            set_notes.append(one if anchor is None else _led(one, anchor, on_left=key in ("left", "under")))
        also += left_over
    room = Bounds(picture_left, divide + 3.0, WIDTH - EDGE, ceiling - 1.0)
    scene = Scene(
        "sheet",
        f"Drawer {views.fitted.id}",
        "; ".join(view.scene.alt for view in (plan, side, front)),
        tuple(drawn),
        plan.scale,
        Bounds(0.0, 0.0, WIDTH, HEIGHT),
    )
    return Board(scene, (plan, front, side), tuple(set_notes), tuple(also), room)


def _column_of(place: Place) -> str:
    """The column that a note stands in: "left" and "right" of the plan, "under" it, or at the "side" view."""
    if place.view == "side":
        return "side"
    return "under" if place.view == "front" else place.at


def _led(note: SetNote, anchor: Point, *, on_left: bool) -> SetNote:
    """The note with its line: level from the rule, then straight to what it speaks of."""
    line: tuple[Point, ...]
    if on_left:
        rule = (note.left + note.width, note.top)
        bend = (min(rule[0] + _CHANNEL * 0.7, max(anchor[0], rule[0])), note.top)
        line = (anchor, bend, rule)
    else:
        rule = (note.left, note.top)
        near = (max(note.left - _CHANNEL * 0.55, anchor[0]), anchor[1])
        line = (anchor, near, (note.left - _CHANNEL * 0.2, note.top), rule)
    return SetNote(note.note, note.left, note.top, note.width, note.height, line, note.dot)


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
