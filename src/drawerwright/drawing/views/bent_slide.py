"""A slide drawn out, from the side: its three members bent under the load, the bending made larger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from drawerwright.carry.carried import Slide
from drawerwright.carry.telescope import Drawn
from drawerwright.carry.words import Words
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.pens import DOT_RADIUS, NOTE_SIZE, LineClass
from drawerwright.drawing.primitives import Circle, Polyline, Text, line
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.equations.mechanics.beams import Q, bent_line

WIDTH: Final = 150.0
"""Of the slide at full travel, on paper [mm]. Own choice."""
STEP: Final = 9.0
"""Between the members on paper [mm]: they lie within one another, and are drawn one above the other."""
DROP: Final = 22.0
"""The largest sag over the travel on paper [mm]."""
_PLACES: Final = 41

Pair: TypeAlias = tuple[float, float]
Loads: TypeAlias = Sequence[Pair]
_PENS: Final[tuple[LineClass, LineClass, LineClass]] = ("outline", "outline", "cut")
_NAMES: Final = ("cabinet member", "intermediate member", "drawer member")


@dataclass(frozen=True, slots=True)
class BentMember:
    """One member: places along it and its heights there [mm], and heights over its supports."""

    places: Q
    heights: Q
    supports: tuple[float, float]
    at_supports: tuple[float, float]


def bent_slide(slide: Slide, position: int = -1, *, units: Units = "mm") -> Scene:
    """The slide at one of its positions; heights are made larger by one factor over the whole travel.

    Raises:
        ValueError: the slide family does not tell what the sag goes by.
    """
    if not slide.data.has_sag:
        raise ValueError(f"the sag is not known: {', '.join(slide.data.missing)} not told")
    members = bent_members(slide, position)
    scale = WIDTH / (slide.data.member + slide.data.travel)
    largest = float(np.abs(slide.drawn.sag).max())
    larger = DROP / largest if largest > 0.0 else 0.0
    drawn: list[Primitive] = []
    for level, (member, pen, name) in enumerate(zip(members, _PENS, _NAMES, strict=True)):
        up = level * STEP

        def at(place: float, height: float, up: float = up) -> Point:
            return (place * scale, up + height * larger)

        points = [at(x, y) for x, y in zip(member.places.tolist(), member.heights.tolist(), strict=True)]
        drawn.append(line(at(float(member.places[0]), 0.0), at(float(member.places[-1]), 0.0), "fine"))
        drawn.append(Polyline(tuple(points), pen))
        drawn.append(Text((-2.0, points[0][1] - NOTE_SIZE * 0.35), name, NOTE_SIZE, "end"))
        for place, height in zip(member.supports, member.at_supports, strict=True):
            x, y = at(place, height)
            if level == 0:
                drawn.append(Polyline(((x - 1.6, y - 3.0), (x, y), (x + 1.6, y - 3.0)), "edge"))
            else:
                drawn.append(line((x, y - STEP), (x, y), "hidden"))
                drawn.append(Circle((x, y), DOT_RADIUS, "edge", fill="ink", on_paper=True))
    words = Words(shown_in(units).units)
    out, sag = float(slide.drawn.extension[position]), float(slide.drawn.sag[position])
    told = f"{words.length(out)} out: the front sags {words.length(sag, 2)}"
    drawn.append(
        Text((0.0, 2 * STEP + 8.0), f"{told}; heights {larger / scale:.0f} times as large", NOTE_SIZE)
    )
    return Scene("bent-slide", "The slide under its load", f"A slide's three members, {told}", tuple(drawn))


def bent_members(
    slide: Slide, position: int, places: int = _PLACES
) -> tuple[BentMember, BentMember, BentMember]:
    """The three members from the cabinet out, each standing on the one before, told at so many `places`."""
    data, drawn = slide.data, slide.drawn
    out = float(drawn.extension[position])
    lower = (data.lower[0] + out / 4, data.lower[1] + out / 4)
    upper = (data.upper[0] + 0.75 * out, data.upper[1] + 0.75 * out)
    screws = _forces(drawn, position, "screw")
    low, up = _forces(drawn, position, "lower"), _forces(drawn, position, "upper")
    ends = np.linspace(0.0, data.member, places)
    held = (-screws[0] * data.mount_give, -screws[1] * data.mount_give)
    loads_low = list(zip(lower, low, strict=True))
    loads_up = list(zip(upper, up, strict=True))
    cabinet = _member(ends, data.screws, held, loads_low, (), data.bending[0])
    carried = _on(cabinet, data.screws, held, loads_low, data.bending[0], lower)
    on_low = _pressed(carried, low, data.roller_give, data.play)
    middle = _member(ends + out / 2, lower, on_low, loads_up, (), data.bending[1])
    carried = _on(middle, lower, on_low, loads_up, data.bending[1], upper)
    on_up = _pressed(carried, up, data.roller_give, data.play)
    spread = ((out, out + data.member, data.weight / data.member),)
    front = _member(ends + out, upper, on_up, (), spread, data.bending[2])
    return cabinet, middle, front


def _member(
    places: Q,
    supports: Pair,
    heights: Pair,
    loads: Loads,
    spreads: tuple[tuple[float, float, float], ...],
    stiffness: float,
) -> BentMember:
    bent = bent_line(
        places,
        *supports,
        loads=loads,
        spreads=spreads,
        stiffness=stiffness,
        at_rear=heights[0],
        at_front=heights[1],
    )
    return BentMember(places, bent, supports, heights)


def _on(member: BentMember, supports: Pair, heights: Pair, loads: Loads, stiffness: float, at: Pair) -> Pair:
    """Heights of a member at two places."""
    rear, front = bent_line(
        np.array(at), *supports, loads=loads, stiffness=stiffness, at_rear=heights[0], at_front=heights[1]
    )
    return float(rear), float(front)


def _pressed(rail: Pair, forces: Pair, give: float, play: float) -> Pair:
    """Heights of what stands on a carriage: rollers pressed down, or at the upper end of their play."""
    rear, front = (
        height - force * give + (play if force < 0.0 else 0.0)
        for height, force in zip(rail, forces, strict=True)
    )
    return rear, front


def _forces(drawn: Drawn, position: int, which: str) -> Pair:
    return (
        float(getattr(drawn, f"{which}_rear")[position]),
        float(getattr(drawn, f"{which}_front")[position]),
    )
