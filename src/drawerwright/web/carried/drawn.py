"""The drawings of what a drawer carries, as a page moves them with the drawer: what is fixed, what moves.

Lengths are mm on paper; in the page y runs down.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from typing import Any, Final

import numpy as np
from markupsafe import Markup

from drawerwright.carry.carried import Slide
from drawerwright.carry.closing import Closing
from drawerwright.carry.closing_chart import MASSES, ClosingChart, closing_chart
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Polyline
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.svg import write_svg_inside
from drawerwright.drawing.views.bent_slide import BentMember, bent_members
from drawerwright.drawing.views.carried import force_diagram, sag_diagram
from drawerwright.drawing.views.closing_chart import closing_chart as chart_view
from drawerwright.model.family import SoftClose
from drawerwright.pack.carry_pictures import CELLS, filling, greatest_mass
from drawerwright.pack.picture_scale import Picture
from drawerwright.web.carried.positions import Positions

ROOM: Final = (84.0, 66.0)
"""Width and height of one diagram with its lettering: read on a phone, three beside one another on a desk."""
CHART_ROOM: Final = (92.0, 78.0)
BENT_WIDTH: Final = 90.0
"""Of a slide fully drawn out."""
BENT_STEP: Final = 20.0
"""Between the members, which lie within one another, drawn one above the other."""
BENT_DROP: Final = 15.0
"""The largest sag over the travel."""
BENT_TOP: Final = 7.0
BENT_EDGE: Final = 2.0
BENT_PLACES: Final = 11
NAMES: Final = ("cabinet member", "intermediate member", "drawer member")
_DECIMALS: Final = 2


@dataclass(frozen=True, slots=True)
class Diagram:
    """A diagram over the travel and its curves (k,) at the extensions `at` [mm], y down the page."""

    name: str
    inside: Markup
    view: str
    alt: str
    width: float
    height: float
    at: tuple[float, ...]
    curves: tuple[tuple[float, ...], ...]

    def x(self, out: float) -> float:
        """Place of an extension [mm] from the field's left edge."""
        return round(self.width * out / self.at[-1], _DECIMALS)

    def ys(self, out: float) -> list[float]:
        """Where the curves are at an extension [mm]."""
        return [round(float(np.interp(out, self.at, curve)), _DECIMALS) for curve in self.curves]

    def document(self) -> dict[str, Any]:
        """For a script."""
        return {"width": self.width, "at": self.at, "curves": self.curves}


def diagrams_of(slide: Slide, shown: Shown) -> tuple[Diagram, ...]:
    """Sag and roller forces over the travel, those that are known."""
    found = []
    if slide.data.has_sag:
        found.append(("sag", filling(partial(sag_diagram, slide, units=shown), *ROOM)))
    if slide.rollers is not None:
        found.append(("force", filling(partial(force_diagram, slide, units=shown), *ROOM)))
    return tuple(_diagram(name, picture, slide) for name, picture in found)


def _diagram(name: str, picture: Picture, slide: Slide) -> Diagram:
    at = tuple(round(float(one), 3) for one in slide.drawn.extension)
    lines = [each for each in picture.scene.primitives if isinstance(each, Polyline)]
    field = next(each for each in lines if each.closed)
    width, height = max(x for x, _ in field.points), max(y for _, y in field.points)
    curves = [each for each in lines if not each.closed and len(each.points) == len(at)]
    return Diagram(
        name,
        inside_of(picture, f"carry-{name}"),
        view_of(picture.room),
        picture.scene.alt,
        round(width, _DECIMALS),
        round(height, _DECIMALS),
        at,
        tuple(tuple(round(-y, _DECIMALS) + 0.0 for _, y in each.points) for each in curves),
    )


def inside_of(picture: Picture, name: str) -> Markup:
    """A drawing without its frame: its text went through the drawings' writer, so it is safe as it is."""
    return Markup(write_svg_inside(replace(picture.scene, name=name)))


def view_of(room: Bounds) -> str:
    """The view box of a room."""
    return f"{room.left:.2f} {-room.top:.2f} {room.width:.2f} {room.height:.2f}"


@dataclass(frozen=True, slots=True)
class BentSlide:
    """A slide's members bent at every place of a table, `level` by level, y down the page.

    `heights`: by place, of each member at evenly spread places along it; `supports`: by place, what the
    members stand on, two a member, cabinet member first. `scale`: paper for a mm of the slide; `larger`: how
    many times as large heights are as lengths.
    """

    at: tuple[float, ...]
    heights: tuple[tuple[tuple[float, ...], ...], ...]
    supports: tuple[tuple[float, ...], ...]
    fixings: tuple[float, float]
    lower: tuple[float, float]
    upper: tuple[float, float]
    member: float
    scale: float
    larger: int

    @property
    def view(self) -> str:
        """The view box."""
        lowest = max(max(max(row) for row in place) for place in self.heights)
        height = max(lowest, self.level(0)) + 6.0 + BENT_TOP
        return f"{-BENT_EDGE:g} {-BENT_TOP:g} {BENT_WIDTH + 2 * BENT_EDGE:g} {height:.2f}"

    @staticmethod
    def level(number: int) -> float:
        """Where a member lies unbent, the drawer member uppermost."""
        return (2 - number) * BENT_STEP

    def points(self, out: float) -> list[str]:
        """The members' polylines at an extension [mm]."""
        heights = self._between(out, np.array(self.heights))
        lines = []
        for number, row in enumerate(heights):
            start = (0.0, out / 2, out)[number]
            xs = [start + self.member * place / (BENT_PLACES - 1) for place in range(BENT_PLACES)]
            lines.append(
                " ".join(f"{x * self.scale:.2f},{y:.2f}" for x, y in zip(xs, row.tolist(), strict=True))
            )
        return lines

    def stands(self, out: float) -> list[tuple[float, float]]:
        """Where the members stand on what carries them, two a member."""
        places = (
            *self.fixings,
            *(one + out / 4 for one in self.lower),
            *(one + 0.75 * out for one in self.upper),
        )
        heights = self._between(out, np.array(self.supports)).tolist()
        return [(round(x * self.scale, 2), round(y, 2)) for x, y in zip(places, heights, strict=True)]

    def _between(self, out: float, rows: Any) -> Any:
        """Rows of the table at an extension, on straight lines between its places."""
        after = int(np.clip(np.searchsorted(self.at, out), 1, len(self.at) - 1))
        before, to = self.at[after - 1], self.at[after]
        share = 0.0 if to == before else (out - before) / (to - before)
        return rows[after - 1] + (rows[after] - rows[after - 1]) * share

    def document(self) -> dict[str, Any]:
        """For a script."""
        return {
            "at": self.at,
            "heights": self.heights,
            "supports": self.supports,
            "fixings": self.fixings,
            "lower": self.lower,
            "upper": self.upper,
            "member": self.member,
            "scale": round(self.scale, 6),
        }


def bent_slide_of(slide: Slide, positions: Positions) -> BentSlide | None:
    """The slide bent at every place of the table; None where its sag is not known."""
    data = slide.data
    if not data.has_sag:
        return None
    scale = BENT_WIDTH / (data.member + data.travel)
    largest = float(np.abs(positions.drawn.sag).max())
    larger = BENT_DROP / largest if largest > 0.0 else 0.0
    dense = replace(slide, drawn=positions.drawn)
    told = [bent_members(dense, place, BENT_PLACES) for place in range(len(positions.at))]

    def paper(values: Sequence[float], level: int) -> tuple[float, ...]:
        return tuple(round(BentSlide.level(level) - value * larger, _DECIMALS) + 0.0 for value in values)

    def stood(members: tuple[BentMember, BentMember, BentMember]) -> tuple[float, ...]:
        return tuple(y for level, member in enumerate(members) for y in paper(member.at_supports, level))

    return BentSlide(
        at=tuple(round(float(one), 3) for one in positions.at),
        heights=tuple(
            tuple(paper(member.heights.tolist(), level) for level, member in enumerate(members))
            for members in told
        ),
        supports=tuple(stood(members) for members in told),
        fixings=data.screws,
        lower=data.lower,
        upper=data.upper,
        member=data.member,
        scale=scale,
        larger=round(larger / scale),
    )


@dataclass(frozen=True, slots=True)
class Chart:
    """The chart of closing as a page carries it."""

    inside: Markup
    view: str
    alt: str


def chart_of(unit: SoftClose, travel: float, shown: Shown, closing: Closing | None = None) -> Chart:
    """What a closing unit does over mass and lean; `closing` marks a drawer in it."""
    most = MASSES[1] if closing is None else greatest_mass(closing.moving)
    picture = filling(partial(chart_view, _chart(unit, travel, most), closing, units=shown), *CHART_ROOM)
    return Chart(inside_of(picture, "carry-closing"), view_of(picture.room), picture.scene.alt)


@lru_cache(maxsize=64)
def _chart(unit: SoftClose, travel: float, greatest: float) -> ClosingChart:
    return closing_chart(unit, travel, np.linspace(MASSES[0], greatest, CELLS).tolist())
