"""Odd entries about how the slide moves: rollers on their rails, stiffness, the closing unit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drawerwright.catalogue.family_remark import Figures, Oddity
from drawerwright.model.family import SlideFamily, SlideLength

_GRAVITY: Final = 9.80665
_CLOSE_ROLLERS: Final = 0.25
_BENDS: Final = (1e7, 1e11)
_ROLLER: Final = (100.0, 100_000.0)
_PLAY: Final = 1.0
_DRAG: Final = 0.05
_CAPTURE: Final = 1 / 3


def rolling_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Rollers, their rails, and how the members bend."""
    for length in family.lengths:
        yield from _carriage_oddities(family, length, figures)
    if family.stiffness is not None:
        for member, stiffness in family.stiffness:
            if not _BENDS[0] <= stiffness <= _BENDS[1]:
                told = f"{stiffness:g} N mm²"
                yield (
                    f"stiffness.{member}",
                    told,
                    f"{told} is no bending stiffness of a rolled steel member",
                    "Sag goes by it: too soft and every drawer hangs, too stiff and none does.",
                    "E times I: 200,000 N/mm² times some thousand mm⁴, about 1e9.",
                )
    if family.roller is not None:
        told = f"{family.roller.stiffness:g} N/mm"
        if not _ROLLER[0] <= family.roller.stiffness <= _ROLLER[1]:
            yield (
                "roller.stiffness",
                told,
                f"{told} is no stiffness of a roller group",
                "The front's sag is rollers as much as steel: this would be all of it, or nothing.",
                "Load a roller group and measure how far it gives: some thousand N/mm.",
            )
        if family.roller.play > _PLAY:
            told = figures.mm(family.roller.play)
            yield (
                "roller.play",
                told,
                f"{told} of play in a roller group is a worn slide",
                "Sag and racking grow with it: a new slide would be told as an old one.",
                "Lift a drawer at its rear and measure, over the spacing of the rollers: about 0.1.",
            )


def _carriage_oddities(family: SlideFamily, length: SlideLength, figures: Figures) -> Iterator[Oddity]:
    """Rollers stay on both rails only while e/4 ≤ a and b ≤ L − e/4: the carriages run half as fast."""
    travel, carriages = family.travel_of(length), family.carriages_on(length.member)
    if carriages is None:
        return
    for name, (rear, front) in zip(("lower", "upper"), carriages, strict=True):
        where, told = f"length {length.nominal:g} carriages.{name}", figures.places((rear, front))
        if rear < travel / 4 or front > length.member - travel / 4:
            yield (
                where,
                told,
                f"{told}: the {name} rollers leave their rail before a travel of {figures.mm(travel)}",
                (
                    "A carriage runs half as far as what it carries. Forces and sag at full travel would be "
                    "computed "
                    "on rollers that hang in the air."
                ),
                (
                    f"Between {figures.mm(travel / 4)} from the rear end and "
                    f"{figures.mm(length.member - travel / 4)}."
                ),
            )
        elif front - rear < _CLOSE_ROLLERS * length.member:
            yield (
                where,
                told,
                f"{told}: the {name} roller groups stand {figures.mm(front - rear)} apart",
                (
                    "Roller forces are load times arm over that spacing: so close, the slide would be torn "
                    "apart."
                ),
                "The middles of the two groups of one carriage, drawer closed, from the rear end.",
            )


def closing_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """The closing unit against what it has to draw home."""
    unit = family.soft_close
    if unit is None:
        return
    drag = unit.drag * family.capacity * _GRAVITY
    told = f"{unit.pull_in:g} N"
    if unit.pull_in <= drag:
        yield (
            "soft_close.pull_in",
            told,
            f"{told} is less than the rolling drag of a full drawer, {drag:.3g} N",
            "Loaded to its capacity the drawer would stop short of home: the unit cannot draw it in.",
            (
                f"More than {drag:.3g} N; or drag, now {unit.drag:g}, of the slide's own: 0.002 to 0.03 is "
                "usual."
            ),
        )
    if unit.drag > _DRAG:
        yield (
            "soft_close.drag",
            f"{unit.drag:g}",
            f"{unit.drag:g} of the load is much for rollers",
            "The drawer would have to be pushed all the way, and never close by itself.",
            "Force to keep a loaded drawer moving over its weight: 0.002 to 0.03 is usual.",
        )
    if unit.damping == 0.0:
        yield (
            "soft_close.damping",
            "0 N s/mm",
            "0 N s/mm damps nothing",
            "Spring and no damper: the drawer slams, and the answer says so of every one.",
            "Force over speed while it draws in, about 0.1 N s/mm; without a damper leave soft_close out.",
        )
    shortest = min(family.travel_of(length) for length in family.lengths)
    if unit.capture > _CAPTURE * shortest:
        told = figures.mm(unit.capture)
        yield (
            "soft_close.capture",
            told,
            f"{told} is more than a third of the shortest travel, {figures.mm(shortest)}",
            "A drawer opened a hand's breadth would be drawn shut again.",
            "How far from home the unit catches the drawer: 30 to 60 is usual.",
        )
