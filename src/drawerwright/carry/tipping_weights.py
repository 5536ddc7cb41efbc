"""What pulls a cabinet that stands free to either side of its front feet: weights and where they act.

Lengths mm, masses kg, moments N m, angles in radians. `at` is how far ahead of the front feet (positive
overturns), `height` above the room's floor, both with the drawer shut and the cabinet level.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.catalogue.contents import contents_preset
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY
from drawerwright.model.cabinet import Cabinet, CabinetSize
from drawerwright.model.fitted import BoxSizes, ChosenSlide, FittedDrawer, FrontSizes, Masses

FILL: Final = "clothing-fill"
"""The published fill of stability tests of clothing storage units, 8.5 lb/ft³; its source is kept with it."""
UNDER_OBSTRUCTION: Final = 25.4 / 8
"""How far under the lowest obstruction a drawer's volume ends [mm]: 1/8 in (CPSC business guidance, read)."""
_MM_A_METRE: Final = 1000.0
_CUBIC_MM_A_LITRE: Final = 1e6


@dataclass(frozen=True, slots=True)
class Weight:
    """One mass [kg] and its place [mm]; `drawer` is whose it is, "" for the cabinet's own."""

    name: str
    drawer: str
    mass: float
    at: float
    height: float

    def moment(self, tilt: float, out: float = 0.0) -> float:
        """Overturning moment [N m], drawn out by `out` [mm], the cabinet tilted forward by `tilt` [rad]."""
        lever = (self.at + out) * math.cos(tilt) + self.height * math.sin(tilt)
        return STANDARD_GRAVITY * self.mass * lever / _MM_A_METRE


@dataclass(frozen=True, slots=True)
class TippingDrawer:
    """A drawer of the balance [mm, kg].

    `own` is box, front and metal, `contents` what it holds as told, `filled` the published fill. `reach` is
    how far it comes out, `front_at` its front's face shut, `hang_height` the edge that a child hangs on,
    `litres` its volume, `box` and `front` its outlines seen from the side: (rear, front, bottom, top).
    """

    id: str
    own: tuple[Weight, ...]
    contents: Weight
    filled: Weight
    reach: float
    front_at: float
    hang_height: float
    litres: float
    box: tuple[float, float, float, float]
    front: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class _Fitted:
    """What of a fitted drawer is there when a slide was found."""

    fitted: FittedDrawer
    slide: ChosenSlide
    box: BoxSizes
    mass: Masses
    front: FrontSizes | None


def carcass(cabinet: Cabinet, size: CabinetSize, mass: float) -> Weight:
    """The cabinet without its drawers; its middle is taken as its centre of gravity (own assumption)."""
    return Weight(f"cabinet {cabinet.id}", "", mass, cabinet.feet - size.depth / 2, size.height / 2)


def floor_height(cabinet: Cabinet, size: CabinetSize, drawers: Sequence[FittedDrawer]) -> float:
    """Height of the cabinet floor above the room's [mm]: as told, else as high as its size leaves room.

    The higher, the more a lean brings the weights forward: so what is not told is taken on the safe side.
    """
    if cabinet.floor_height is not None:
        return cabinet.floor_height
    tops = [one.opening.floor + one.opening.height for one in drawers]
    return max(size.height - max(tops, default=size.height), 0.0)


def tipping_drawers(
    cabinet: Cabinet, drawers: Sequence[FittedDrawer], raised: float
) -> Iterator[TippingDrawer]:
    """The drawers that a slide was found for, on a cabinet floor `raised` [mm] above the room's."""
    for one in drawers:
        if one.slide is not None and one.box is not None and one.mass is not None:
            yield _drawer(_Fitted(one, one.slide, one.box, one.mass, one.front), cabinet.feet, raised)


def _drawer(one: _Fitted, feet: float, raised: float) -> TippingDrawer:
    box, mass, family = one.box, one.mass, one.slide.family
    low, face = raised + box.lower_edge, feet - box.front_depth
    middle = face - box.length / 2
    box_outline = (face - box.length, face, low, low + box.height)
    front_outline = _front_outline(one, feet, raised, box_outline)
    inside = box.lower_edge + box.bottom_recess + box.bottom
    inside_height = max(box.height - box.bottom_recess - box.bottom, 0.0)
    inside_length = max(box.length - box.subfront - box.back, 0.0)
    filled = contents_preset(FILL).mass(
        inside_length=inside_length, inside_width=box.inside_width, inside_height=inside_height
    )
    # EN 14749 puts the centre of gravity of what a drawer holds in the middle of its usable volume (read).
    held_at = face - (box.subfront + box.length - box.back) / 2
    held_height = raised + inside + inside_height / 2
    opening = one.fitted.opening
    clear = opening.floor + opening.height - inside - UNDER_OBSTRUCTION
    own = (
        Weight("box and slides", one.fitted.id, mass.box + mass.hardware, middle, low + box.height / 2),
        Weight(
            "front",
            one.fitted.id,
            mass.front,
            (front_outline[0] + front_outline[1]) / 2,
            (front_outline[2] + front_outline[3]) / 2,
        ),
    )
    return TippingDrawer(
        id=one.fitted.id,
        own=tuple(weight for weight in own if weight.mass > 0.0),
        contents=Weight("contents", one.fitted.id, mass.contents, held_at, held_height),
        filled=Weight("contents", one.fitted.id, filled, held_at, held_height),
        reach=family.travel_of(one.slide.length),
        front_at=front_outline[1],
        hang_height=front_outline[3],
        litres=max(clear, 0.0) * box.inside_width * inside_length / _CUBIC_MM_A_LITRE,
        box=box_outline,
        front=front_outline,
    )


def _front_outline(
    one: _Fitted, feet: float, raised: float, box: tuple[float, float, float, float]
) -> tuple[float, float, float, float]:
    """The applied front from the side; without one the box's own front takes its place."""
    front = one.front
    if front is None or front.style == "none":
        return (box[1] - one.box.subfront, box[1], box[2], box[3])
    ahead = front.stands_out if front.style == "inset" else front.stands_out + front.thickness
    face = feet + ahead
    low = raised + one.fitted.opening.floor - front.bottom
    return (face - front.thickness, face, low, low + front.height)
