"""A drawer's sheet: plan, front and side at one standard scale, lined up as a draughtsman lines them up.

The front stands under the plan on the same middle line, the side section beside the front on the same
floor line. On low paper they may stand one over the other beside the plan instead.
Axes of the sheet are mm of paper from its lower left corner.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeAlias

from drawerwright.drawing.clearing import clear_lettering, room_at_least, room_of_geometry
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Circle, Text
from drawerwright.drawing.scene import Primitive, Scene, scale_to_paper, translate
from drawerwright.drawing.shown import Units
from drawerwright.drawing.views.front import front
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.drawing.views.standing import standing
from drawerwright.model.fitted import FittedDrawer

STANDARD_SCALES: Final = (
    1.0,
    2.0,
    2.5,
    3.0,
    4.0,
    5.0,
    6.0,
    7.0,
    8.0,
    10.0,
    12.5,
    15.0,
    20.0,
    25.0,
    30.0,
    40.0,
    50.0,
)
"""How many times smaller than life. 1, 2, 5, 10, 20 and 50: ISO 5455; those between: common practice."""
WORTH_TURNING: Final = 1.25
"""How much larger the drawing must become before the views leave their lines. Own choice."""
_BETWEEN: Final = 5.0
_EDGE: Final = 1.0
_CAPTION: Final = 6.5


@dataclass(frozen=True, slots=True)
class _View:
    """A view at the sheet's scale and the room it takes [mm on paper], caption left out."""

    scene: Scene
    room: Bounds


_Views: TypeAlias = tuple[_View, _View, _View]
_Rooms: TypeAlias = tuple[Bounds, Bounds, Bounds]
_Places: TypeAlias = tuple[Point, Point, Point]
_Arrangement: TypeAlias = Callable[[_Rooms, float, float], _Places | None]
"""Where the views stand that take these rooms; None where they find none, nor would any that take more."""


def drawer_sheet(
    fitted: FittedDrawer,
    width_mm: float,
    height_mm: float,
    *,
    may_turn: bool = False,
    units: Units = "mm",
) -> Scene:
    """Plan, front and side on a paper area of the given size, as large as a standard scale allows.

    Lined up, the upper right of the paper stays free beside the plan. With `may_turn` front and side may
    leave their lines and take that room, where the drawing becomes much larger for it. `units` says how
    lengths are written. The scene's `scale` says which was taken: 1/7 for 1 : 7. Its page is (0, 0) to
    (width_mm, height_mm).

    Raises:
        ValueError: the paper is too small for the smallest standard scale.
    """
    scenes = (plan(fitted, units), front(fitted, units), side_section(fitted, units))
    bare = (room_of_geometry(scenes[0]), room_of_geometry(scenes[1]), room_of_geometry(scenes[2]))
    wanted: list[_Arrangement] = [_lined_up, _turned] if may_turn else [_lined_up]
    found: dict[_Arrangement, tuple[float, tuple[Primitive, ...]]] = {}
    for times in STANDARD_SCALES:
        rooms = (bare[0].scaled(1 / times), bare[1].scaled(1 / times), bare[2].scaled(1 / times))
        if not any(arrange(rooms, width_mm, height_mm) for arrange in wanted):
            continue  # the bare geometry is too large already
        rooms = (
            room_at_least(scenes[0], rooms[0], 1 / times),
            room_at_least(scenes[1], rooms[1], 1 / times),
            room_at_least(scenes[2], rooms[2], 1 / times),
        )
        if not any(arrange(rooms, width_mm, height_mm) for arrange in wanted):
            continue  # its dimensions leave it too large, however the lettering is cleared
        views = (_view(scenes[0], times), _view(scenes[1], times), _view(scenes[2], times))
        rooms = (views[0].room, views[1].room, views[2].room)
        for arrange in tuple(wanted):
            places = arrange(rooms, width_mm, height_mm)
            if places is not None:
                found[arrange] = (times, _set_down(views, places, fitted))
                wanted.remove(arrange)
        if _lined_up in found:
            break
    if not found:
        raise ValueError(f"a sheet of {width_mm:g} × {height_mm:g} mm is too small for drawer {fitted.id}")
    times, primitives = found.get(_lined_up) or found[_turned]
    if _turned in found and times >= WORTH_TURNING * found[_turned][0]:
        times, primitives = found[_turned]
    alt = "; ".join(scene.alt for scene in scenes)
    page = Bounds(0.0, 0.0, width_mm, height_mm)
    return Scene("sheet", f"Drawer {fitted.id}, {scale_words(1 / times)}", alt, primitives, 1 / times, page)


def scale_words(scale: float) -> str:
    """A scale in words: `1 : 7`."""
    return f"1 : {1.0 / scale:g}"


def _view(scene: Scene, times: float) -> _View:
    scaled = clear_lettering(scale_to_paper(scene, 1.0 / times))
    return _View(scaled, extent(scaled))


def _lined_up(rooms: _Rooms, width: float, height: float) -> _Places | None:
    """Front under plan on one middle line, side beside front on one floor line (y = 0 of both)."""
    above, below, beside = rooms
    left = max(-above.left, -below.left)
    right = max(above.right, below.right)
    down = max(-below.bottom, -beside.bottom)
    lower_up = max(below.top, beside.top) + _CAPTION
    spare_x = width - 2 * _EDGE - left - right - _BETWEEN - beside.width
    spare_y = height - 2 * _EDGE - down - lower_up - _BETWEEN - above.height - _CAPTION
    if spare_x < 0 or spare_y < 0:
        return None
    middle = _EDGE + spare_x / 3 + left
    floor = _EDGE + spare_y / 3 + down
    plan_y = floor + lower_up + _BETWEEN + spare_y / 3 - above.bottom
    beside_x = middle + right + _BETWEEN + spare_x / 3 - beside.left
    return (middle, plan_y), (middle, floor), (beside_x, floor)


def _turned(rooms: _Rooms, width: float, height: float) -> _Places | None:
    """Plan at the left; front over side section at the right."""
    first, upper, lower = rooms
    column = max(upper.width, lower.width)
    spare_x = width - 2 * _EDGE - first.width - _BETWEEN - column
    stack = upper.height + lower.height + 2 * _CAPTION + _BETWEEN
    spare_y = height - 2 * _EDGE - max(first.height + _CAPTION, stack)
    if spare_x < 0 or spare_y < 0:
        return None
    top = height - _EDGE - _CAPTION
    column_left = _EDGE + spare_x * 2 / 3 + first.width + _BETWEEN
    slack = height - 2 * _EDGE - stack
    upper_y = top - upper.top
    lower_y = upper_y + upper.bottom - _BETWEEN - slack / 2 - _CAPTION - lower.top
    return (
        (_EDGE + spare_x / 3 - first.left, top - first.top),
        (column_left - upper.left, upper_y),
        (column_left - lower.left, lower_y),
    )


def _set_down(views: _Views, places: _Places, fitted: FittedDrawer) -> tuple[Primitive, ...]:
    """All primitives at their places on the paper, with the views' captions."""
    empty = fitted.box is None
    names = (
        ("Plan", "the opening" if empty else "through the box"),
        ("Front", "the opening" if empty else "closed"),
        ("Side section", "the opening" if empty else _section_words(fitted)),
    )
    drawn: list[Primitive] = []
    for number, (view, (x, y), words) in enumerate(zip(views, places, names, strict=True), start=1):
        drawn.extend(translate(view.scene, x, y).primitives)
        drawn.extend(_caption(number, words, x + view.room.left, y + view.room.top + _CAPTION))
    return tuple(drawn)


def _section_words(fitted: FittedDrawer) -> str:
    """Where the side section is taken."""
    return "through the left slide" if standing(fitted).concealed else "through the box"


def _caption(number: int, words: tuple[str, str], left: float, top: float) -> list[Primitive]:
    """A view's number in a ring, its name, and what it shows."""
    ring = 2.3
    drop = (0.0, -0.35 * CAPTION_SIZE)
    centre = (left + ring, top - ring)
    name = Text((left + 2 * ring + 1.6, top - ring), words[0], CAPTION_SIZE, weight="semibold", shift=drop)
    after = (name.extent.right + 1.6, top - ring)
    return [
        Circle(centre, ring, "leader", on_paper=True),
        Text(centre, str(number), CAPTION_SIZE, "middle", "semibold", shift=drop),
        name,
        Text(after, words[1], NOTE_SIZE, tone="fine", shift=drop),
    ]
