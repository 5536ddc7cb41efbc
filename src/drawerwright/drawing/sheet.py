"""A drawer's sheet: plan, front and side at one standard scale, lined up as a draughtsman lines them up.

The front stands under the plan on the same middle line, the side section beside the front on the same
floor line. Axes of the sheet are mm of paper from its lower left corner.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import CAPTION_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Circle, Text
from drawerwright.drawing.scene import Primitive, Scene, scale_to_paper, translate
from drawerwright.drawing.views.front import front
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
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
_BETWEEN: Final = 5.0
_EDGE: Final = 1.0
_CAPTION: Final = 6.5


@dataclass(frozen=True, slots=True)
class _View:
    scene: Scene
    room: Bounds


def drawer_sheet(fitted: FittedDrawer, width_mm: float, height_mm: float) -> Scene:
    """Plan, front and side on a paper area of the given size, as large as a standard scale allows.

    The scene's `scale` says which: 1/7 for 1 : 7. Its page is (0, 0) to (width_mm, height_mm).

    Raises:
        ValueError: the paper is too small for the smallest standard scale.
    """
    views = (plan(fitted), front(fitted), side_section(fitted))
    for times in STANDARD_SCALES:
        placed = _laid_out([_measured(view, 1.0 / times) for view in views], width_mm, height_mm)
        if placed is not None:
            alt = "; ".join(view.alt for view in views)
            page = Bounds(0.0, 0.0, width_mm, height_mm)
            return Scene("sheet", f"Drawer {fitted.id}", alt, placed, 1.0 / times, page)
    raise ValueError(f"a sheet of {width_mm:g} × {height_mm:g} mm is too small for drawer {fitted.id}")


def scale_words(scale: float) -> str:
    """A scale in words: `1 : 7`."""
    return f"1 : {1.0 / scale:g}"


def _measured(view: Scene, scale: float) -> _View:
    scaled = scale_to_paper(view, scale)
    return _View(scaled, extent(scaled))


def _laid_out(views: list[_View], width: float, height: float) -> tuple[Primitive, ...] | None:
    """All primitives set down on the paper with their captions, or None where they have no room.

    Columns share the middle line of plan and front; the lower row shares the floor line, y = 0 of both.
    """
    above, below, beside = views
    left = max(-above.room.left, -below.room.left)
    right = max(above.room.right, below.room.right)
    down = max(-below.room.bottom, -beside.room.bottom)
    lower_up = max(below.room.top, beside.room.top) + _CAPTION
    wide = left + right + _BETWEEN + beside.room.width
    high = down + lower_up + _BETWEEN + above.room.height + _CAPTION
    if wide > width - 2 * _EDGE or high > height - 2 * _EDGE:
        return None
    spare_x, spare_y = width - 2 * _EDGE - wide, height - 2 * _EDGE - high
    middle = _EDGE + spare_x / 3 + left
    floor = _EDGE + spare_y / 3 + down
    plan_y = floor + lower_up + _BETWEEN + spare_y / 3 - above.room.bottom
    beside_x = middle + right + _BETWEEN + spare_x / 3 - beside.room.left
    places = ((above, middle, plan_y), (below, middle, floor), (beside, beside_x, floor))
    names = (("Plan", "through the box"), ("Front", "closed"), ("Side section", "through the left slide"))
    drawn: list[Primitive] = []
    for number, ((view, x, y), words) in enumerate(zip(places, names, strict=True), start=1):
        drawn.extend(translate(view.scene, x, y).primitives)
        drawn.extend(_caption(number, words, x + view.room.left, y + view.room.top + _CAPTION))
    return tuple(drawn)


def _caption(number: int, words: tuple[str, str], left: float, top: float) -> list[Primitive]:
    """A view's number in a ring, its name, and what it shows."""
    ring = 2.3
    centre = (left + ring, top - ring)
    name_at = (left + 2 * ring + 1.6, top - ring)
    name = Text(name_at, words[0], CAPTION_SIZE, weight="semibold", shift=(0.0, -0.35 * CAPTION_SIZE))
    after = (name.extent.right + 1.6, name_at[1])
    return [
        Circle(centre, ring, "leader", on_paper=True),
        Text(centre, str(number), CAPTION_SIZE, "middle", "semibold", shift=(0.0, -0.35 * CAPTION_SIZE)),
        name,
        Text(after, words[1], NOTE_SIZE, tone="fine", shift=(0.0, -0.35 * CAPTION_SIZE)),
    ]
