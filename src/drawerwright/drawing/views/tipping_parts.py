"""What stands in the balance of a cabinet: floor, block, cabinet, drawers, the child's test mass, the pull.

Axes [mm]: x counts from the front feet into the cabinet, y up from the room's floor; the front is at the
left. On the block everything leans by its true angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drawerwright.carry.tipping import Tipping
from drawerwright.carry.tipping_cases import TippingCase
from drawerwright.carry.tipping_checks import block_words
from drawerwright.carry.tipping_facts import BLOCK, BLOCK_DEPTH, PULL
from drawerwright.carry.tipping_weights import TippingDrawer
from drawerwright.carry.words import Words
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import HATCH_SPACING_CLOSE, NOTE_SIZE
from drawerwright.drawing.primitives import Lines, Text, line, polygon
from drawerwright.drawing.scene import Hatch, Leader, Primitive
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.drawing.views.section import FALLING, RISING, cut
from drawerwright.model.cabinet import CabinetSize

FLOOR: Final = 26.0
"""How thick the floor is drawn [mm of the cabinet]. Own choice."""
ARROW: Final = 150.0
"""Length of the longest arrow of a weight [mm of the cabinet]. Own choice."""
UPRIGHT: Final = 90.0
"""Direction of the hatching of the child's test mass, in the picture and in the bars [degrees]."""
PULL_NOTE: Final = f"pull {PULL:g} N, not in the balance"
PULL_SOURCE: Final = "from memory, for comparison"
_HEAD: Final = (18.0, 9.0)
_PART: Final = (114.0, 102.0)
"""Height and thickness of half the test mass [mm]: ASTM F2057-23 as a test laboratory gives it, read."""
_STRAP: Final = 20.0
_SLIGHT: Final = 0.5


@dataclass(frozen=True, slots=True)
class Balance:
    """What is drawn: a case, the drawers open in it, and whether the child's mass hangs."""

    tipping: Tipping
    case: TippingCase
    open: tuple[str, ...]
    hangs_on: TippingDrawer | None

    @property
    def size(self) -> CabinetSize:
        """Outside size of the cabinet; one that stands free has it."""
        size = self.tipping.cabinet.size
        assert size is not None
        return size

    @property
    def rear(self) -> float:
        """The cabinet's back, from the front feet [mm]."""
        return self.size.depth - self.tipping.cabinet.feet

    @property
    def reach(self) -> float:
        """How far anything stands out before the feet [mm]."""
        out = max((one.front_at + self.out(one) for one in self.tipping.drawers), default=0.0)
        return max(out + (_PART[1] if self.hangs_on is not None else 0.0), self.tipping.cabinet.feet)

    @property
    def lean(self) -> float:
        """How far the cabinet leans forward [rad]."""
        return math.radians(self.tipping.lean_deg) if self.case.stance == "block" else 0.0

    def place(self, at: float, height: float) -> Point:
        """A place `at` mm ahead of the feet and `height` above the floor, as it stands when it leans."""
        c, s = math.cos(self.lean), math.sin(self.lean)
        return (-(at * c + height * s), height * c - at * s)

    def outline(self, rear: float, front: float, low: float, high: float) -> tuple[Point, ...]:
        """A rectangle's corners as they stand."""
        return tuple(self.place(at, h) for at, h in ((front, low), (rear, low), (rear, high), (front, high)))

    def out(self, drawer: TippingDrawer) -> float:
        """How far a drawer is drawn out [mm]."""
        return drawer.reach if drawer.id in self.open else 0.0


def shapes(view: Balance, units: Units = "mm", *, named: bool = True) -> list[Primitive]:
    """All that has a body, from back to front, and the pull; `named`: with what block and pull are."""
    drawn = [*_floor(view, units, named=named), *_cabinet(view)]
    for drawer in view.tipping.drawers:
        drawn += _drawer(view, drawer)
    return [*drawn, *_child(view), *_pull(view, named=named), *_pivot()]


def _floor(view: Balance, units: Units, *, named: bool) -> list[Primitive]:
    left, right = -view.reach - 40.0, view.rear + 40.0
    strip = Bounds(left, -FLOOR, right, 0.0)
    drawn: list[Primitive] = [Hatch(strip.corners, RISING), line((left, 0.0), (right, 0.0), "outline")]
    if view.case.stance == "block":
        rear = view.rear
        drawn += cut(Bounds(rear - BLOCK_DEPTH, 0.0, rear, BLOCK), FALLING, HATCH_SPACING_CLOSE)
        if named:
            drawn.append(Leader((rear - BLOCK_DEPTH / 2, BLOCK / 2), (7.0, -6.0), 2.5, block_note(units)))
    return drawn


def block_note(units: Units) -> str:
    """What the block under the rear is."""
    return f"block {block_words(Words(shown_in(units).units))}, as on carpet"


def _cabinet(view: Balance) -> list[Primitive]:
    front, size = view.tipping.cabinet.feet, view.size
    drawn: list[Primitive] = [
        polygon(view.outline(front - size.depth, front, 0.0, size.height), "outline", "wood")
    ]
    if view.tipping.raised > _SLIGHT:
        ends = view.place(front, view.tipping.raised), view.place(front - size.depth, view.tipping.raised)
        drawn.append(line(*ends, "edge"))
    return drawn


def _drawer(view: Balance, one: TippingDrawer) -> list[Primitive]:
    out = view.out(one)
    rear, front, low, high = one.box
    box = view.outline(rear + out, front + out, low, high)
    drawn: list[Primitive] = [polygon(box, "edge" if out else "hidden", "paper" if out else "none")]
    rear, front, low, high = one.front
    drawn += cut(view.outline(rear + out, front + out, low, high), FALLING, HATCH_SPACING_CLOSE)
    return drawn


def _child(view: Balance) -> list[Primitive]:
    """The test mass in its two halves on a strap, hung over the front."""
    if view.hangs_on is None:
        return []
    rear, front, _, _ = view.hangs_on.front
    out, top = view.hangs_on.reach, view.hangs_on.hang_height
    tall, thick = _PART
    drawn: list[Primitive] = []
    for near in (front, rear - thick):
        part = view.outline(near + out, near + thick + out, top - tall - _STRAP, top - _STRAP)
        drawn += [polygon(part, "cut", "metal"), Hatch(part, UPRIGHT, HATCH_SPACING_CLOSE)]
    strap = [(rear - thick / 2, top - _STRAP), (rear - thick / 2, top), (front + thick / 2, top)]
    ends = [view.place(at + out, height) for at, height in [*strap, (front + thick / 2, top - _STRAP)]]
    drawn.append(Lines(tuple(pairwise(ends)), "outline"))
    return drawn


def _pull(view: Balance, *, named: bool) -> list[Primitive]:
    """The horizontal pull outwards, at its height on the cabinet's front."""
    at = view.place(view.tipping.cabinet.feet, view.tipping.pull_at)
    tip = (at[0] - ARROW * 0.8, at[1])
    drawn: list[Primitive] = [line(at, tip, "leader"), arrow_head(tip, (-1.0, 0.0))]
    if named:
        drawn += [
            Text(at, PULL_NOTE, NOTE_SIZE, shift=(0.6, 4.6), backed=True),
            Text(at, f"({PULL_SOURCE})", NOTE_SIZE, tone="fine", shift=(0.6, 1.4), backed=True),
        ]
    return drawn


def _pivot() -> list[Primitive]:
    """The front feet, which the cabinet would turn about."""
    corners = ((0.0, 0.0), (-FLOOR * 0.8, -FLOOR * 1.5), (FLOOR * 0.8, -FLOOR * 1.5))
    return [polygon(corners, "cut", "ink")]


def arrow_head(tip: Point, way: Point) -> Primitive:
    """An arrow head whose tip points along `way`."""
    long, half = _HEAD
    back = (tip[0] - way[0] * long, tip[1] - way[1] * long)
    side = (-way[1] * half, way[0] * half)
    corners = (tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))
    return polygon(corners, "dimension", "ink")
