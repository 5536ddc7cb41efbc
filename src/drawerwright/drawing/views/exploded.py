"""Exploded view: box parts and slide members drawn apart along the axes, each with its name and sizes.

Parts stand as far apart as it takes to see each: in an isometric view a board of height h hides what stands
less than h behind it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import Final

import numpy as np

from drawerwright.drawing.dimensioning import spread_apart
from drawerwright.drawing.geometry import Point, bounds_of
from drawerwright.drawing.half_spaces import Array
from drawerwright.drawing.hidden_lines import Picture
from drawerwright.drawing.primitives import Lines
from drawerwright.drawing.scene import Leader, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.solids import Solid, prism
from drawerwright.drawing.views.box_solids import box_solids, front_solid
from drawerwright.drawing.views.cut_outs import CutOutAcross, cut_out_of
from drawerwright.drawing.views.in_sight import places_in_sight
from drawerwright.drawing.views.isometric import SEEN_FROM, lines_by_pen
from drawerwright.drawing.views.slide_solids import slide_solids
from drawerwright.drawing.views.standing import Standing, needed_parts, standing
from drawerwright.drawing.wording import hardware, part_words
from drawerwright.model.fitted import FittedDrawer, Part

_VIEW = SEEN_FROM["right"]
_LEAST_APART: Final = 90.0
_MEMBERS_APART: Final = 46.0
_MEMBERS_UNDER: Final = 24.0
_LIFTED: Final = 0.7
BRACKET_HEIGHT: Final = 11.0
"""Height in which locking brackets are drawn [mm]. Invented: families tell only their pilot holes."""
_NAMES: Final[dict[str, str]] = {
    "left side": "side",
    "right side": "side",
    "left inner side": "inner side",
    "right inner side": "inner side",
}
_INNER = ("left inner side", "right inner side", "inner back")
_AT_LEFT = ("left side", "subfront", "front")
_ABOVE = (("inner back", -1.0), ("right inner side", 1.0))
_AT_RIGHT = ("back", "bottom", "drawer member", "intermediate member", "cabinet member")
_TRACED_AT = (0.12, 0.88)
_NAME_STEP, _COLUMN_ASIDE, _SHOULDER = 0.075, 0.04, 2.0


@dataclass(frozen=True)
class _Apart:
    """One part where it is drawn, and how far from its place it stands [mm]."""

    name: str
    solids: tuple[Solid, ...]
    by: tuple[float, float, float]

    @cached_property
    def reach(self) -> tuple[Array, Array]:
        """Lowest and highest x, y, z (3,)."""
        points = np.concatenate([end for each in self.solids for end in (each.starts, each.ends)])
        return points.min(axis=0), points.max(axis=0)


def exploded(
    fitted: FittedDrawer, *, units: Units = "mm", sizes: Callable[[Part], str] | None = None
) -> Scene:
    """Box, front, locking brackets and slide members apart, named, with the sizes that are cut.

    `sizes` says how those of a part are written; None: to the nearest of what `units` shows.

    Raises:
        ValueError: the drawer does not fit, so there is nothing to take apart.
    """
    needed_parts(fitted)
    stand = standing(fitted)
    parts = list(_parts_apart(stand))
    picture = Picture([solid for part in parts for solid in part.solids], _VIEW)
    drawn: list[Primitive] = [*lines_by_pen(picture.lines())]
    traces = np.array(list(_traces(parts, cut_out_of(fitted))))
    drawn.append(Lines(picture.stretches(traces[:, 0], traces[:, 1]), "centre"))
    drawn += _names(fitted, parts, picture, units, sizes)
    return Scene("exploded", f"Parts, drawer {fitted.id}", _alt(parts), tuple(drawn))


def _alt(parts: Sequence[_Apart]) -> str:
    names = dict.fromkeys(_NAMES.get(part.name, part.name) for part in parts)
    return f"The drawer taken apart, in isometric: {', '.join(names)}"


def _parts_apart(stand: Standing) -> Iterator[_Apart]:
    """All parts where they are drawn; the bottom stays in its place."""
    assert stand.parts is not None
    box = stand.parts.box
    aside = max(box.height * 1.05, _LEAST_APART)
    front_high = stand.front_heights[1] - stand.front_heights[0] if stand.has_front else 0.0
    before = aside + max(front_high * 0.9, _LEAST_APART)
    ways: Mapping[str, tuple[float, float, float]] = {
        "left side": (-aside, 0.0, 0.0),
        "right side": (aside, 0.0, 0.0),
        "subfront": (0.0, 0.0, aside),
        "back": (0.0, 0.0, -aside),
        "bottom": (0.0, 0.0, 0.0),
        **dict.fromkeys(_INNER, (0.0, aside * _LIFTED, 0.0)),
    }
    for name, solids in box_solids(stand, grooved=True).items():
        yield _moved(name, solids, ways[name])
    yield from (_moved("front", (each,), (0.0, 0.0, before)) for each in front_solid(stand))
    for bracket in _locking_brackets(stand):
        yield _moved("locking bracket", (bracket,), (0.0, 0.0, aside * 0.45))
    slides = slide_solids(stand)
    rows = (
        ("drawer member", slides.drawer),
        ("intermediate member", slides.intermediate),
        ("cabinet member", slides.cabinet),
    )
    for row, (name, members) in enumerate(each for each in rows if each[1]):
        half = len(members) // 2
        for hand, solids in ((-1.0, members[:half]), (1.0, members[half:])):
            if stand.concealed:
                down = _MEMBERS_UNDER + row * _MEMBERS_APART
                yield _moved(name, solids, (hand * 2.0 * aside, -down, 0.0))
            else:
                yield _moved(name, solids, (hand * (2.0 * aside + row * _MEMBERS_APART), 0.0, 0.0))


def _moved(name: str, solids: Sequence[Solid], by: tuple[float, float, float]) -> _Apart:
    """The part moved, with an outline of its own."""
    group = f"{name} {by[0]:g}"
    return _Apart(name, tuple(replace(each.moved(*by), group=group) for each in solids), by)


def _locking_brackets(stand: Standing) -> list[Solid]:
    """The brackets behind the subfront under the bottom, left and right; none on side-mounted slides."""
    assert stand.parts is not None
    if not stand.concealed:
        return []
    holes = stand.parts.slide.family.bracket_holes
    wide = max((aside for aside, _ in holes), default=28.0) + 14.0
    deep = max((back for _, back in holes), default=25.0) + 13.0
    x, z = -stand.parts.box.inside_width / 2, -stand.body_front - stand.parts.box.subfront
    slope = wide * 0.38
    outline = (
        (x, z),
        (x, z - deep),
        (x + wide - slope, z - deep),
        (x + wide, z - deep + slope),
        (x + wide, z),
    )
    top = stand.lower_edge + stand.parts.box.bottom_recess
    left = prism("locking bracket", outline, "y", (top - BRACKET_HEIGHT, top))
    return [left, left.mirrored()]


def _traces(parts: Sequence[_Apart], away: CutOutAcross | None) -> Iterator[tuple[Array, Array]]:
    """Chain lines along which parts go together, each from a face to the face that it meets, two a part."""
    (bottom,) = (part for part in parts if part.name == "bottom")
    subfront = next((part for part in parts if part.name == "subfront"), bottom)
    for part in parts:
        if part.name in ("left side", "right side", "subfront"):
            yield from _between(part, bottom, bottom)
        elif part.name == "back":
            for piece, before in zip(_pieces(part, away), _pieces(bottom, away), strict=True):
                yield from _between(piece, before, before)
        elif part.name in _INNER:
            yield from _between(part, bottom, part)
        elif part.name == "front":
            yield from _between(part, subfront, subfront)
        elif part.name == "drawer member":
            yield from _from_member(part)
    for hand in (-1.0, 1.0):
        stack = [part for part in parts if part.name.endswith("member") and part.by[0] * hand > 0]
        for upper, lower in pairwise(stack):
            yield from _between(upper, lower, upper)


def _pieces(part: _Apart, away: CutOutAcross | None) -> list[_Apart]:
    """What of back or bottom stands left and right of a cut-out; the whole where there is none."""
    if away is None:
        return [part]
    middle = (away.left + away.right) / 2
    left = tuple(each for each in part.solids if each.starts[:, 0].max() < middle)
    right = tuple(each for each in part.solids if each.starts[:, 0].min() > middle)
    return [replace(part, solids=piece) for piece in (left, right)]


def _between(one: _Apart, other: _Apart, lying: _Apart) -> Iterator[tuple[Array, Array]]:
    """Two lines across the gap between two parts, at the places of the part `lying` there."""
    (low, high), (low_2, high_2), (from_, to) = one.reach, other.reach, lying.reach
    gaps = np.maximum(low_2 - high, low - high_2)
    axis = int(np.argmax(gaps))
    start, end = (high, low_2) if low_2[axis] > high[axis] else (low, high_2)
    length = int(np.argmax(np.where(np.arange(3) == axis, -1.0, to - from_)))
    for share in _TRACED_AT:
        at = (from_ + to) / 2
        at[length] = from_[length] + (to[length] - from_[length]) * share
        a, b = at.copy(), at.copy()
        a[axis], b[axis] = start[axis], end[axis]
        yield a, b


def _from_member(member: _Apart) -> Iterator[tuple[Array, Array]]:
    """From a drawer member inwards to where it goes up under the box, and up."""
    low, high = member.reach
    for share in _TRACED_AT:
        at = (low + high) / 2
        at[2] = low[2] + (high[2] - low[2]) * share
        start, under = at.copy(), at.copy()
        start[0] = high[0] if member.by[0] < 0 else low[0]
        under[0] -= member.by[0]
        yield start, under
        yield under, under - np.array((0.0, member.by[1], 0.0))


def _names(
    fitted: FittedDrawer,
    parts: Sequence[_Apart],
    picture: Picture,
    units: Units,
    sizes_of: Callable[[Part], str] | None,
) -> list[Primitive]:
    """Each part's name and sizes once, in a column at the left or at the right, on a line from the part.

    The line starts where the part is seen nearest to its column; names keep the order of their starts.
    """
    corners = np.concatenate([each.starts for part in parts for each in part.solids]) @ _VIEW.paper
    points = bounds_of((x, y) for x, y in corners.tolist())
    step = points.height * _NAME_STEP
    drawn: list[Primitive] = []
    for side, names in ((-1.0, _AT_LEFT), (1.0, _AT_RIGHT)):
        found = []
        of_side = [part for part in parts if part.name in names]
        tips = _tips(of_side, picture, side)
        for name in names:
            seen = [tip for tip, part in zip(tips, of_side, strict=True) if tip and part.name == name]
            if seen:
                found.append((max(seen, key=lambda tip: tip[0] * side), name))
        found.sort(key=lambda each: each[0][1])
        edge = points.left if side < 0 else points.right
        heights = spread_apart([tip[1] for tip, _ in found], [step] * len(found), 0.0)
        for (tip, name), y in zip(found, heights, strict=True):
            title, sizes = _words(fitted, name, units, sizes_of)
            bend = (edge + side * points.width * _COLUMN_ASIDE, y)
            drawn.append(Leader(tip, (0.0, 0.0), side * _SHOULDER, title, sizes, bend=bend))
    for name, side in _ABOVE:
        for above in _tips([part for part in parts if part.name == name], picture, side, upwards=1.0):
            if above is not None:
                title, sizes = _words(fitted, name, units, sizes_of)
                bend = (above[0], points.top + 2.0 * step)
                drawn.append(Leader(above, (0.0, 0.0), side * _SHOULDER, title, sizes, bend=bend))
    for under in _tips([part for part in parts if part.name == "locking bracket"], picture, 1.0):
        if under is not None and under[0] > points.centre[0] - points.width / 4:
            title, sizes = _words(fitted, "locking bracket", units, sizes_of)
            # Below everything: what stands at the left and the right of it would be crossed.
            bend = (under[0], points.bottom - step / 2)
            drawn.append(Leader(under, (0.0, 0.0), _SHOULDER, title, sizes, bend=bend))
    return drawn


def _tips(parts: Sequence[_Apart], picture: Picture, side: float, upwards: float = 0.0) -> list[Point | None]:
    """The place on each part [on paper] nearest to the left (-1) or right (1) that is seen, or None."""
    return places_in_sight([part.solids for part in parts], picture, _VIEW, side, upwards)


def _words(
    fitted: FittedDrawer, name: str, units: Units, sizes_of: Callable[[Part], str] | None
) -> tuple[str, str]:
    """A part's name with its number, and its sizes."""
    parts = needed_parts(fitted)
    cut = {part.part: part for part in fitted.parts}.get(_NAMES.get(name, name))
    if cut is not None:
        title = f"{cut.count} {cut.part}s" if cut.count > 1 else cut.part
        if sizes_of is not None:
            return title, sizes_of(cut)
        return title, part_words(cut.part, cut.length, cut.width, cut.thickness, units)
    if name == "cabinet member":
        return f"2 {name}s", hardware(parts.slide.length.member, units)
    # An existing box has no cut list, and of the other members no family tells a size.
    pairs = name in _NAMES or name not in ("subfront", "back", "bottom", "front", "inner back")
    return (f"2 {_NAMES.get(name, name)}s" if pairs else name), ""
