"""The drawer itself as solids: box sides, subfront, back, bottom and front as they are cut, closed.

Axes as in the public contract [mm]: x to the right from the middle of the opening, y up from its bottom edge,
z out of the cabinet. Tails, dowels and bores are left out. Put together, grooves are full and left out too;
taken apart, they are there. Notches, rabbets and a cut-out for pipes, with its walls, always are.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drawerwright.drawing.solids import Solid, Span, block, joined
from drawerwright.drawing.views.cut_outs import CutOutAcross, cut_out_of, cut_out_walls
from drawerwright.drawing.views.standing import Standing, part_size
from drawerwright.model.fitted import BoxSizes

FRONT: Final = "front"
"""The group whose outline is drawn around the front."""
_LEAST = 0.05


@dataclass(frozen=True, slots=True)
class _Box:
    """The box's places [mm]: lower and upper edge, faces of subfront and back outside and inside (z)."""

    sizes: BoxSizes
    low: float
    high: float
    face: float
    inside_front: float
    inside_back: float
    rear: float
    let_in: float

    @property
    def outer(self) -> float:
        """Half the outside width."""
        return self.sizes.outside_width / 2

    @property
    def inner(self) -> float:
        """Half the inside width."""
        return self.sizes.inside_width / 2

    @property
    def under(self) -> float:
        """Height of the bottom's underside."""
        return self.low + self.sizes.bottom_recess

    @property
    def bottom_heights(self) -> Span:
        """Lower and upper face of the bottom."""
        return (self.under, self.under + self.sizes.bottom)


def _box(stand: Standing) -> _Box:
    assert stand.parts is not None
    box, low = stand.parts.box, stand.lower_edge
    face, rear = -stand.body_front, -stand.box_rear
    across = part_size(stand.fitted, "back", (box.inside_width, 0.0, 0.0))[0]
    return _Box(
        sizes=box,
        low=low,
        high=low + box.height,
        face=face,
        inside_front=face - box.subfront,
        inside_back=rear + box.back,
        rear=rear,
        let_in=max((across - box.inside_width) / 2, 0.0),
    )


def front_solid(stand: Standing) -> tuple[Solid, ...]:
    """The front; none where none is made."""
    if not stand.has_front:
        return ()
    near, far = stand.front_faces
    return (block("front", stand.front_edges, stand.front_heights, (-near, -far), FRONT),)


def box_solids(stand: Standing, *, grooved: bool) -> dict[str, tuple[Solid, ...]]:
    """Solids by part: `left side`, `right side`, `subfront`, `back`, `bottom`; `grooved` to be shown apart.

    An integral front leaves no subfront. A cut-out brings `left inner side`, `right inner side` and
    `inner back`; back and bottom go round it.
    """
    left = _left_side(stand, grooved)
    parts = {"left side": left, "right side": tuple(each.mirrored() for each in left)}
    if stand.parts is not None and stand.parts.box.subfront > _LEAST:
        parts["subfront"] = _subfront(stand, grooved)
    parts["back"] = _back(stand, grooved)
    parts["bottom"] = _bottom(stand, grooved)
    return parts | _inner_walls(stand)


def _left_side(stand: Standing, grooved: bool) -> tuple[Solid, ...]:
    """The left side in layers of height: thinner at the groove, its ends rabbeted for cross pieces."""
    box = _box(stand)
    covered = box.let_in > box.sizes.side - _LEAST
    ends = (box.inside_front, box.inside_back) if covered else (box.face, box.rear)
    rabbet = 0.0 if covered else box.let_in
    groove = _groove(stand, grooved)
    solids = []
    for heights in _layers(box, (groove,) if groove else ()):
        face = -box.inner - (box.sizes.groove_depth if heights == groove else 0.0)
        shoulder = -box.inner - rabbet
        if rabbet > _LEAST and face > shoulder:
            solids.append(block("side", (shoulder, face), heights, (box.inside_front, box.inside_back)))
            face = shoulder
        solids.append(block("side", (-box.outer, face), heights, ends))
    return joined(solids)


def _subfront(stand: Standing, grooved: bool) -> tuple[Solid, ...]:
    box, kind = _box(stand), stand.fitted.drawer.box.bottom
    low = box.bottom_heights[1] if kind == "under" else box.low
    half = part_size(stand.fitted, "subfront", (box.sizes.inside_width, 0.0, 0.0))[0] / 2
    groove = _groove(stand, grooved)
    solids = []
    for heights in _layers(box, (groove,) if groove else (), low):
        inside = box.inside_front + (box.sizes.groove_depth if heights == groove else 0.0)
        solids.append(block("subfront", (-half, half), heights, (box.face, inside)))
    return joined(solids)


def _back(stand: Standing, grooved: bool) -> tuple[Solid, ...]:
    """The back, notched at its lower corners for concealed members."""
    assert stand.parts is not None
    box, kind, rear = _box(stand), stand.fitted.drawer.box.bottom, stand.parts.slide.family.rear
    low = box.low if kind == "groove-4" else box.bottom_heights[1]
    half = part_size(stand.fitted, "back", (box.sizes.inside_width, 0.0, 0.0))[0] / 2
    notch = (box.low, box.low + rear.notch_height) if stand.concealed else (box.low, box.low)
    groove, away = _groove(stand, grooved and kind == "groove-4"), cut_out_of(stand.fitted)
    solids: list[Solid] = []
    for heights in _layers(box, (notch, groove) if groove else (notch,), low):
        middle = sum(heights) / 2
        aside = stand.seat - rear.notch_width if notch[0] < middle < notch[1] else half
        let = box.sizes.groove_depth if groove and groove[0] < middle < groove[1] else 0.0
        depths = (box.inside_back - let, box.rear)
        solids += [block("back", x, heights, depths) for x in _beside(away, aside)]
    return joined(solids)


def _beside(away: CutOutAcross | None, half: float) -> list[Span]:
    """What a cut-out leaves of a piece that reaches `half` to either side: two spans of x, or the whole."""
    spans = [(-half, half)] if away is None else [(-half, away.left), (away.right, half)]
    return [(left, right) for left, right in spans if right - left > _LEAST]


def _bottom(stand: Standing, grooved: bool) -> tuple[Solid, ...]:
    """The bottom, round a cut-out; put together, as far as it is seen between the others."""
    box, kind = _box(stand), stand.fitted.drawer.box.bottom
    let = box.sizes.groove_depth if grooved and kind != "under" else 0.0
    half = box.inner + let
    start = box.face if kind == "under" else box.inside_front + (let if box.sizes.subfront > _LEAST else 0.0)
    end = box.inside_back - let if kind == "groove-4" else box.rear
    away = cut_out_of(stand.fitted)
    if away is None:
        return (block("bottom", (-half, half), box.bottom_heights, (start, end)),)
    before = box.rear + away.depth
    solids = [block("bottom", (-half, half), box.bottom_heights, (start, before))]
    solids += [block("bottom", x, box.bottom_heights, (before, end)) for x in _beside(away, half)]
    return joined(solids)


def _inner_walls(stand: Standing) -> dict[str, tuple[Solid, ...]]:
    """The walls round a cut-out, on the bottom and as high as the box; none where nothing is cut out."""
    box = _box(stand)
    heights = (box.bottom_heights[1], box.high)
    names = ("left inner side", "right inner side", "inner back")
    walls = zip(names, cut_out_walls(stand.fitted, stand.box_rear), strict=False)
    return {name: (block(name, (at.left, at.right), heights, (-at.bottom, -at.top)),) for name, at in walls}


def _groove(stand: Standing, wanted: bool) -> Span | None:
    """Heights of the groove for the bottom; None where there is none to be shown."""
    box = _box(stand)
    shown = wanted and stand.fitted.drawer.box.bottom != "under" and box.sizes.groove_depth > _LEAST
    return box.bottom_heights if shown else None


def _layers(box: _Box, within: Iterable[Span], low: float | None = None) -> list[Span]:
    """Heights from the part's lower to its upper edge, parted where one of the spans begins or ends."""
    from_ = box.low if low is None else low
    places = {from_, box.high, *(place for span in within for place in span)}
    inside = sorted(place for place in places if from_ <= place <= box.high)
    return list(pairwise(inside))
