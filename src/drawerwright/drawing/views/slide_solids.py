"""A pair of slides as solids: three members, simplified, for no family tells their profile.

Axes as in the public contract [mm]; closed. The cabinet member stays, the intermediate one moves half as far
as the drawer, the drawer member moves with it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.solids import Solid, Span, block, joined
from drawerwright.drawing.views.standing import Standing

FLANGE: Final = 1.8
"""Thickness of the cabinet member's flange, which stands against the cabinet side [mm]. Invented."""
FLANGE_ABOVE: Final = 9.0
"""How far the flange stands above the screw line [mm]. Invented."""
_SHARES = (0.0, 0.36, 0.68, 1.0)
_INSET = 4.0
_SHORTER = 12.0


@dataclass(frozen=True, slots=True)
class Slides:
    """The members of both slides, left and right, by how they move."""

    cabinet: tuple[Solid, ...]
    intermediate: tuple[Solid, ...]
    drawer: tuple[Solid, ...]


def slide_solids(stand: Standing) -> Slides:
    """Both slides; none where the drawer does not fit. A three-quarter slide has no intermediate member."""
    if stand.parts is None:
        return Slides((), (), ())
    three = stand.parts.slide.family.extension != "three-quarter"
    members = _under_the_box(stand) if stand.concealed else _beside_the_box(stand)
    return Slides(
        _both(members[0]),
        _both(members[1]) if three else (),
        _both(members[2]),
    )


def _runs(stand: Standing) -> tuple[Span, Span, Span]:
    """Front and rear end of cabinet, intermediate and drawer member, closed: z.

    The upper members begin behind the subfront, which reaches lower than they do.
    """
    assert stand.parts is not None
    mounting = stand.parts.mounting
    rear = -mounting.front_end - mounting.member
    start = -mounting.front_end
    if stand.has_front:
        start = min(start, -stand.front_faces[1])
    behind = start
    if stand.concealed:
        behind = min(start, -stand.body_front - stand.parts.box.subfront)
    return (start, rear), (behind - _SHORTER, rear + _SHORTER), (behind, rear)


def _under_the_box(stand: Standing) -> tuple[tuple[Solid, ...], ...]:
    """Left-hand members one over the other under the bottom of the box, the lowest with a flange."""
    assert stand.parts is not None
    outer, inner = stand.member_strip
    low, high = stand.member_heights
    first, second, third, fourth = (low + (high - low) * share for share in _SHARES)
    second = min(second, stand.lower_edge)
    fixed, shorter, carried = _runs(stand)
    wall = -stand.half
    line = stand.lower_edge + stand.parts.slide.family.heights.screw_line
    flange_top = max(line + FLANGE_ABOVE, second + 1.0)
    cabinet: tuple[Solid, ...] = (block("cabinet member", (wall, inner), (first, second), fixed),)
    if stand.parts.slide.mount != "shelf":
        flange = block("cabinet member", (wall, wall + FLANGE), (second, flange_top), fixed)
        cabinet = joined((*cabinet, flange))
    between = (outer + _INSET, inner - _INSET)
    return (
        cabinet,
        (block("intermediate member", between, (second, third), shorter),),
        (block("drawer member", (outer, inner), (third, fourth), carried),),
    )


def _beside_the_box(stand: Standing) -> tuple[tuple[Solid, ...], ...]:
    """Left-hand members side by side between cabinet side and box; the middle one is lower."""
    outer, inner = stand.member_strip
    low, high = stand.member_heights
    third = (inner - outer) / 3
    fixed, shorter, carried = _runs(stand)
    inset = (low + _INSET, high - _INSET)
    return (
        (block("cabinet member", (outer, outer + third), (low, high), fixed),),
        (block("intermediate member", (outer + third, inner - third), inset, shorter),),
        (block("drawer member", (inner - third, inner), inset, carried),),
    )


def _both(left: tuple[Solid, ...]) -> tuple[Solid, ...]:
    return left + tuple(each.mirrored() for each in left)
