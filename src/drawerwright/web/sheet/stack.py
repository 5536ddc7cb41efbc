"""The same views one below the other, for pages narrower than the sheet: larger lettering, one scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.drawing.geometry import Bounds
from drawerwright.web.sheet.notes import ViewName
from drawerwright.web.sheet.views import DrawnViews, View, view_at

Size: TypeAlias = Literal["mid", "small"]
WIDTHS: Final[Mapping[Size, float]] = {"mid": 118.0, "small": 64.0}
"""Width of a view [mm on paper]: it settles how large lettering is on a page of a given width. Own choice."""
_TALLEST: Final = 1.15
"""How much higher than wide a view may be. Own choice."""
_EDGE: Final = 1.2
ORDER: Final[tuple[ViewName, ...]] = ("plan", "side", "front")


@dataclass(frozen=True, slots=True)
class Stacked:
    """One view, and the paper it stands on [mm], as wide as that of its neighbours."""

    view: View
    page: Bounds


def stack_views(views: DrawnViews, size: Size) -> tuple[Stacked, ...]:
    """Plan, side and front at one scale on a large page, each as large as may be on a small one."""
    width = WIDTHS[size]
    few = size == "small"
    scales = [_fitting(views, name, width, few=few) for name in ORDER]
    if not few:
        scales = [min(scales)] * len(scales)
    stacked = []
    for name, scale in zip(ORDER, scales, strict=True):
        view = view_at(views, name, scale, few=few)
        middle = view.room.centre[0]
        page = Bounds(middle - width / 2, view.room.bottom - _EDGE, middle + width / 2, view.room.top + _EDGE)
        stacked.append(Stacked(view, page))
    return tuple(stacked)


def _fitting(views: DrawnViews, name: ViewName, width: float, *, few: bool) -> float:
    """The scale at which a view fills the width, its dimensions with it: they do not scale, so look twice."""
    bare = views.scenes[name].bounds
    scale = 0.8 * width / bare.width
    for _ in range(2):
        room = view_at(views, name, scale, few=few).room
        across = scale + (width - 2 * _EDGE - room.width) / bare.width
        upright = scale + (width * _TALLEST - room.height) / bare.height
        scale = max(min(across, upright), 0.1 * width / bare.width)
    return scale
