"""Odd entries about where the box sits between the slides: deduction, band, latch, spacers, adjusters."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drawerwright.catalogue.family_remark import Figures, Oddity
from drawerwright.model.family import SlideFamily

_A_SIDE: Final = 12.7
"""Room of a side-mounted ball-bearing slide on each side [mm]: common practice, no source."""

_WIDE_GAP: Final = 8.0
_MUCH_KG: Final = 200.0
_LITTLE_KG: Final = 5.0
_WIDE_BAND: Final = 6.0
_NARROW_BAND: Final = 0.3
_THICK_SPACER: Final = 8.0
_FAR_LATCH: Final = 3.0
_FAR_ADJUSTER: Final = 10.0


def width_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Deduction against design side, the band that the pair runs in, the capacity."""
    yield from _gap_oddities(family, figures)
    low, high = family.width_band
    told = figures.places(family.width_band)
    if not low <= 0.0 <= high:
        yield (
            "width_band",
            told,
            f"{told} leaves out 0, where the opening is exactly what the box was cut for",
            "A box cut to the number would stop: every drawer of the family would be refused.",
            "Count from the right width: narrower is negative, wider positive, such as [-1.0, 1.5].",
        )
    elif high - low > _WIDE_BAND:
        yield (
            "width_band",
            told,
            f"{told} lets an opening be {figures.mm(high - low)} off from one to the other",
            "Members that far from parallel bind or drop off: the sheet would say yes to a drawer that jams.",
            "Run the pair in a jig, narrow and widen it until it drags, and write those two ends.",
        )
    elif high - low < _NARROW_BAND:
        yield (
            "width_band",
            told,
            f"{told} is narrower than a tape reads",
            "Nearly every opening with two readings would be refused for a taper that nobody can feel.",
            "Common practice without a source is [-1.0, 1.5].",
        )
    yield from _capacity_oddities(family, figures)


def _gap_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    deduction, side = family.inside_width_deduction, family.design_side
    gap = deduction / 2 - side
    where, told = "inside_width_deduction", figures.mm(deduction)
    leaves = f"{told} leaves {figures.mm(gap)} beside the design side of {figures.mm(side)}"
    if gap < family.min_gap:
        yield (
            where,
            told,
            f"{leaves}, less than min_gap {figures.mm(family.min_gap)}",
            (
                "A box with the very sides that the family is for would rub the cabinet or not go in: each "
                "stops."
            ),
            (
                f"At least {figures.mm(2 * (side + family.min_gap))}, or a thinner design_side: 42 goes with "
                "16, 49 "
                "with 19 (common practice)."
            ),
        )
    elif family.carriage == "side-mounted" and abs(gap - _A_SIDE) > 1.0:
        yield (
            where,
            told,
            f"{leaves}; a side-mounted ball-bearing slide stands in {figures.mm(_A_SIDE)} (common practice)",
            (
                "The box is cut as wide as opening − deduction + 2 × design_side: what is too little there "
                "binds, "
                "what is too much leaves the balls loose."
            ),
            f"25.4 + 2 × design_side, {figures.mm(25.4 + 2 * side)}.",
        )
    elif family.carriage == "concealed" and gap > _WIDE_GAP:
        yield (
            where,
            told,
            f"{leaves}, much beside a concealed slide",
            (
                "Deduction and design side are not of one family: outside-sized boxes get brackets off their "
                "seats, "
                "and the sheet asks for spacers that nobody needs."
            ),
            f"The side that this deduction is told for, about {figures.mm(deduction / 2 - 5)}.",
        )


def _capacity_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    told = figures.kg(family.capacity)
    if family.capacity > _MUCH_KG:
        yield (
            "capacity",
            told,
            f"{told} is much for a pair of drawer slides",
            "A rating in N or lb read as kg lets a drawer through that breaks the slide.",
            'With its unit: "45 kg", "100 lb"; 10 N are about 1 kg.',
        )
    elif family.capacity < _LITTLE_KG:
        yield (
            "capacity",
            told,
            f"{told} is little: a drawer's own box and front weigh about as much",
            "Nearly every drawer would be refused for its load.",
            'The rating of the pair, with its unit: "45 kg".',
        )


def latch_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """How far a bracket may sit off its seat, against the spacers that bring it home."""
    least = min(family.spacers, default=None)
    for key, way in (("side", "sideways"), ("along", "lengthways")):
        tolerance: float = getattr(family.latch_tolerance, key)
        where, told = f"latch_tolerance.{key}", figures.mm(tolerance)
        if least is not None and tolerance >= least:
            yield (
                where,
                told,
                f"{told} is as much as a spacer is thick, {figures.mm(least)}",
                (
                    "A bracket a whole spacer off would count as latched, so no spacer would ever be asked "
                    "for: at "
                    "the bench it goes half in, and looks the same from above."
                ),
                "Lay feeler strips under one bracket until it no longer clicks; common practice is about 1.",
            )
        elif tolerance == 0.0:
            yield (
                where,
                told,
                f"{told} asks for a bracket exactly on its seat",
                "No sheet is exactly as thick as its name: every other drawer would be refused.",
                "Lay feeler strips under one bracket until it no longer clicks; common practice is about 1.",
            )
        elif tolerance > _FAR_LATCH:
            yield (
                where,
                told,
                f"{told} off its seat {way} is further than a hook catches",
                "The sheet would call a bracket latched that only leans on the member: the drawer pulls off.",
                "Lay feeler strips under one bracket until it no longer clicks; common practice is about 1.",
            )
    for spacer in family.spacers:
        if spacer > _THICK_SPACER:
            told = figures.mm(spacer)
            yield (
                "spacers",
                told,
                f"{told} is thick for a bracket spacer",
                "The bracket's screws would hold in the last thread: what is so far off wants other wood.",
                "The thicknesses that lie in the bracket bag, such as [3].",
            )


def adjuster_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Travel and step of the adjusters."""
    for key in ("side", "height", "depth"):
        low, high = getattr(family.adjust, key)
        step = getattr(family.adjust_step, key)
        told = figures.places((low, high))
        if not low <= 0.0 <= high:
            yield (
                f"adjust.{key}",
                told,
                f"{told} leaves out 0, where the adjuster stands as delivered",
                (
                    "The front could not be hung without turning the adjuster first, and lining up "
                    "starts from a "
                    "place that is not there."
                ),
                "Count from the place as delivered: [0, 3] for a wedge that only lifts.",
            )
        elif high - low > _FAR_ADJUSTER:
            yield (
                f"adjust.{key}",
                told,
                f"{told} is a long way for an adjuster",
                "The sheet would promise to cure a front that stands further off than the screw turns.",
                "Turn it from stop to stop and measure how far the front moves.",
            )
        if low < high and step > high - low:
            yield (
                f"adjust_step.{key}",
                figures.mm(step),
                f"{figures.mm(step)} a step is longer than the whole travel, {figures.mm(high - low)}",
                "Told in whole marks, every move would come out as none.",
                "The move of one mark or part turn: the travel over the marks from stop to stop.",
            )
    low, high = family.adjust.side
    if family.carriage == "concealed" and family.side_strain > high - low:
        yield (
            "side_strain",
            figures.mm(family.side_strain),
            (
                f"{figures.mm(family.side_strain)} is more than the side adjusters can differ, "
                f"{figures.mm(high - low)}"
            ),
            "The limit that keeps the pair unstrained would never be met.",
            "How unlike both may be set before the drawer drags; common practice is about two marks.",
        )
