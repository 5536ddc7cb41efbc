"""The views of a drawer on a page: drawn once at true size, then set at the scale a page has room for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from markupsafe import Markup, escape

from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.dimensioning import column_offset, lay_out_dimension, lay_out_running
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import Bounds, Placement, Point, joined
from drawerwright.drawing.primitives import Lines, Text
from drawerwright.drawing.scene import (
    Dimension,
    Leader,
    Primitive,
    RunningDimension,
    Scene,
    quantities,
    scale_to_paper,
)
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.svg_pieces import write_svg_pieces
from drawerwright.drawing.views.front import front
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.drawing.views.standing import Standing, standing
from drawerwright.drawing.views.stops import longer_end
from drawerwright.model.fitted import FittedDrawer
from drawerwright.web.sheet.notes import Place, ViewName

FEW: Final[Mapping[ViewName, frozenset[str]]] = {
    "plan": frozenset({"opening_width", "outside_width", "inside_width", "box_length", "opening_depth"}),
    "side": frozenset({"clearance_under", "box_height", "clearance_over", "opening_height", "first_hole"}),
    "front": frozenset({"front_width", "front_height", "opening_width", "opening_height"}),
}
"""The dimensions that a small screen has room for."""
NOT_WORKED: Final = frozenset({"shelf_hole", "extension"})
"""What is drawn and not worked out: a place on the member, and how far it is drawn out."""
_CLEAR = 1.0
_HERE: Final = "\ue000"
"""Stands in kept drawings for the address of the page: no address and no lettering has it."""


@dataclass(frozen=True, slots=True)
class DrawnViews:
    """A drawer's three views at true size [mm], and where everything of it stands."""

    fitted: FittedDrawer
    stand: Standing
    scenes: Mapping[ViewName, Scene]


def draw_views(fitted: FittedDrawer, shown: Shown) -> DrawnViews:
    """Plan, side and front at true size. What a note in the margin says is not written on the plan again."""
    scenes: dict[ViewName, Scene] = {
        "plan": _without(plan(fitted, shown), _is_longer),
        "side": side_section(fitted, shown),
        "front": front(fitted, shown),
    }
    return DrawnViews(fitted, standing(fitted), scenes)


def _without(scene: Scene, unwanted: Callable[[Primitive], bool]) -> Scene:
    return replace(scene, primitives=tuple(each for each in scene.primitives if not unwanted(each)))


def _is_longer(primitive: Primitive) -> bool:
    return isinstance(primitive, Leader) and primitive.tone == "accent"


class SetView:
    """A view at a scale, its lettering apart, in its own axes.

    `room` is all that is drawn of it [mm on paper]. What it is as SVG is written once: the same view comes
    again at most edits.
    """

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.room = extent(scene)
        self._written: dict[tuple[str, str, bool], str] = {}

    def written(self, name: str, unfolded: str, address: str) -> Markup:
        """The view as what stands inside an SVG, ids beginning with a name, its dimensions as links.

        An element a line, so that a script can tell which of them an edit changed. `address` is that of the
        page with nothing unfolded, `unfolded` the quantity that is; where it is blank, links lead nowhere
        yet: the script that puts the view into a page makes them whole.
        """
        key = (name, unfolded, bool(address))
        if key not in self._written:
            links = {
                quantity: _link_to(quantity, unfolded) if address else ""
                for quantity in quantities(self.scene)
                if quantity not in NOT_WORKED
            }
            scene = replace(self.scene, name=name)
            self._written[key] = "\n".join(write_svg_pieces(scene, links=links, unfolded=unfolded))
        text = self._written[key]
        if not address:
            return Markup(text)
        told = str(escape(address))
        if "?" not in address:
            text = text.replace(f"{_HERE}&amp;", f"{told}?")
        return Markup(text.replace(_HERE, told))


def _link_to(quantity: str, unfolded: str) -> str:
    """What a dimension leads to: its working, or, where that is open, the sheet without it."""
    return _HERE if quantity == unfolded else f"{_HERE}&show={quantity}"


@dataclass(frozen=True, slots=True)
class View:
    """A set view put down with its own (0, 0) at `origin` [mm on paper]."""

    name: ViewName
    set: SetView
    origin: Point = (0.0, 0.0)

    @property
    def scale(self) -> float:
        """Paper mm for one mm of the drawer."""
        return self.set.scene.scale

    @property
    def room(self) -> Bounds:
        """All that is drawn of it, where it stands [mm on paper]."""
        (dx, dy), room = self.origin, self.set.room
        return Bounds(room.left + dx, room.bottom + dy, room.right + dx, room.top + dy)

    @property
    def scene(self) -> Scene:
        """What is drawn, where it stands."""
        dx, dy = self.origin
        return self.set.scene.placed(Placement(dx=dx, dy=dy))


def view_at(
    views: DrawnViews, name: ViewName, scale: float, *, few: bool = False, beside: bool = False
) -> View:
    """A view at a scale, its lettering apart.

    `few`: with the main dimensions alone. `beside`: the side section stands next to it, so that the front
    need not tell the opening's height again.
    """
    return View(name, _set_view(views.scenes[name], name, scale, few, beside and name == "front"))


@lru_cache(maxsize=64)
def _set_view(scene: Scene, name: ViewName, scale: float, few: bool, beside: bool) -> SetView:
    if few:
        scene = _without(scene, lambda each: _is_minor(each, FEW[name]))
    if beside:
        scene = replace(scene, primitives=tuple(_heights_nearer(scene.primitives)))
    return SetView(clear_lettering(scale_to_paper(scene, scale)))


def _is_minor(primitive: Primitive, wanted: frozenset[str]) -> bool:
    if isinstance(primitive, Dimension | RunningDimension | Leader):
        return bool(primitive.quantity) and primitive.quantity not in wanted
    return isinstance(primitive, Text) and primitive.tone == "fine"


def _heights_nearer(primitives: Sequence[Primitive]) -> Iterator[Primitive]:
    """Heights at the right of a front: how far it covers the top edge, nearer than the view alone has it.

    The opening's height is told by the side section, and the same overlay below by its neighbours.
    """
    told = {
        (_kind_of(each.quantity), round(each.value, 1))
        for each in primitives
        if isinstance(each, Dimension) and each.direction == "horizontal"
    }
    for each in primitives:
        upright = isinstance(each, Dimension) and each.direction == "vertical" and each.offset > 0
        if not isinstance(each, Dimension) or not upright:
            yield each
            continue
        low = each.label_side == "start" and (_kind_of(each.quantity), round(each.value, 1)) in told
        if each.quantity != "opening_height" and not low:
            yield replace(each, offset=column_offset(0) * each.offset / abs(each.offset))


def _kind_of(quantity: str) -> str:
    """Overlays of all edges are of one kind."""
    return "overlay" if quantity.startswith("overlay_") else quantity


def letters_of(view: View) -> list[Bounds]:
    """Where the numbers of a view's dimensions stand [mm on paper]."""
    dx, dy = view.origin
    return [
        Bounds(at.left + dx, at.bottom + dy, at.right + dx, at.top + dy)
        for each in view.set.scene.primitives
        if isinstance(each, Dimension)
        for item in lay_out_dimension(each)
        if isinstance(item, Text)
        for at in (item.extent,)
    ]


def anchor_of(view: View, place: Place, stand: Standing) -> tuple[Point, bool] | None:
    """Where a note's line begins on paper [mm], and whether a dot marks it; None where it has no place."""
    dx, dy = view.origin
    if place.spot:
        spot = _spot(place.spot, stand)
        if spot is None:
            return None
        return (dx + spot[0] * view.scale, dy + spot[1] * view.scale), place.spot != "longer"
    for quantity in place.quantities:
        shown = [
            each
            for each in view.set.scene.primitives
            if isinstance(each, Dimension | RunningDimension) and each.quantity == quantity
        ]
        if shown:
            points = [_end_of(each, place.at) for each in shown]
            x, y = min(points) if place.at == "left" else max(points)
            return (x + dx, y + dy), False
    return None


def _end_of(dimension: Dimension | RunningDimension, at: str) -> Point:
    """The end of a dimension nearest to a margin: of its line where that is level, else of its number."""
    laid = (
        lay_out_running(dimension)
        if isinstance(dimension, RunningDimension)
        else lay_out_dimension(dimension)
    )
    letters = joined(item.extent for item in laid if isinstance(item, Text))
    left, right = letters.left - _CLEAR, letters.right + _CLEAR
    middle = (letters.bottom + letters.top) / 2
    if isinstance(dimension, Dimension) and dimension.direction == "horizontal":
        lines = [point[0] for item in laid if isinstance(item, Lines) for point in item.points]
        left, right = min(left, *lines), max(right, *lines)
    return (left, middle) if at == "left" else (right, middle)


def _spot(name: str, stand: Standing) -> Point | None:
    """A point of the plan [mm at true size] that a note speaks of."""
    if name == "longer":
        end = longer_end(stand)
        return None if end is None else (-stand.member_strip[0], end)
    if stand.parts is None or not stand.concealed:
        return None
    slide, box = stand.parts.slide, stand.parts.box
    rear = slide.family.rear
    face = stand.body_front + box.subfront
    inner = -box.inside_width / 2
    if name == "hook":
        return (-stand.seat + rear.bore_in, stand.box_rear - rear.bore_depth / 2)
    if name == "bracket":
        return (inner + sum(slide.side_spacers) + 20.0, face + sum(slide.subfront_spacers) + 24.0)
    return (inner + sum(slide.side_spacers) + 12.0, face + sum(slide.subfront_spacers) + 8.0)
