"""Odd entries of a length, and of the run of lengths of a family."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drawerwright.catalogue.family_remark import Figures, Oddity
from drawerwright.model.family import SlideFamily, SlideLength

_SHORT: Final = 100.0
_GRID: Final = 32.0
_MEMBER_OVER_BOX: Final = 50.0
_BOX_OVER_MEMBER: Final = 100.0
_BOX_OFF_NAME: Final = 15.0
_OVERLAP: Final = 8.0
_AT_THE_END: Final = 5.0
_THREE_QUARTERS: Final = (0.6, 0.9)
_LEAST_FULL: Final = 0.9
_MOST_OVER: Final = 1.5
_HELD: Final = 0.5


def run_of_lengths_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Lengths beside each other: order, capacity and price from one to the next."""
    lengths = sorted(family.lengths, key=lambda one: one.nominal)
    for shorter, longer in pairwise(lengths):
        where, between = f"length {longer.nominal:g}", f"length {shorter.nominal:g}"
        less, more = family.capacity_at(shorter), family.capacity_at(longer)
        if more > less:
            yield (
                f"{where} capacity",
                figures.kg(more),
                f"{figures.kg(more)} is more than the {figures.kg(less)} of {between}",
                (
                    "A longer slide reaches further out and carries less, if anything: the load lets the "
                    "wrong one in."
                ),
                "The rating of each length as printed; the two may be swapped.",
            )
        if shorter.price is not None and longer.price is not None and longer.price < shorter.price:
            yield (
                f"{where} price",
                f"{longer.price:g}",
                f"{longer.price:g} is less than the {shorter.price:g} of {between}",
                "The cheapest choice of a whole job is made by prices: a slip here buys the wrong lengths.",
                "The price of a pair in each length.",
            )


def length_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Every length by itself."""
    for length in family.lengths:
        for search in (_sizes, _travel, _row_holes, _slots, _shelf_holes):
            for key, value, says, why, try_ in search(family, length, figures):
                yield f"length {length.nominal:g} {key}", value, says, why, try_


def _sizes(family: SlideFamily, length: SlideLength, figures: Figures) -> Iterator[Oddity]:
    box, member, nominal = length.box, length.member, length.nominal
    if nominal < _SHORT:
        yield (
            "nominal",
            figures.mm(nominal),
            f"{figures.mm(nominal)} is no length of a drawer slide: inches read as millimetres?",
            "The sheet would offer a drawer as long as a matchbox, or none.",
            f'units = "in" at the top of the file, or "{nominal:g} in".',
        )
    if length.capacity is not None and length.capacity > family.capacity:
        yield (
            "capacity",
            figures.kg(length.capacity),
            f"{figures.kg(length.capacity)} is more than the family's {figures.kg(family.capacity)}",
            (
                "The family's rating is told as its best: one of the two is wrong, and the larger one is "
                "believed."
            ),
            "The family's capacity as the highest of its lengths.",
        )
    if member > box + _MEMBER_OVER_BOX:
        yield (
            "member",
            figures.mm(member),
            f"{figures.mm(member)} is much longer than the box, {figures.mm(box)}",
            "Depth is asked for the member: cabinets that would hold the drawer are refused.",
            "The cabinet member end to end, without the rear bracket.",
        )
    if box > member + _BOX_OVER_MEMBER:
        yield (
            "box",
            figures.mm(box),
            f"{figures.mm(box)} is much longer than the member, {figures.mm(member)}",
            "The rear of the box would hang free behind the slide, where no hook reaches it.",
            "The box length that the maker tells for this slide, mostly the nominal length.",
        )
    elif abs(box - nominal) > _BOX_OFF_NAME and nominal >= _SHORT:
        yield (
            "box",
            figures.mm(box),
            f"{figures.mm(box)} is not what the length is called, {figures.mm(nominal)}",
            "Sides are cut to `box`: a slip cuts the whole batch wrong, and the hook misses the back.",
            "From the subfront's outer face to the back's rear face of a box that latches and hooks.",
        )


def _travel(family: SlideFamily, length: SlideLength, figures: Figures) -> Iterator[Oddity]:
    travel, box = family.travel_of(length), length.box
    told = figures.mm(travel)
    why = "Sag, roller forces and tipping are computed at full travel: they would be of another slide."
    try_ = "Pull the drawer to its stop and measure how far its front has come."
    if family.extension == "over":
        if travel <= box:
            yield (
                "travel",
                told,
                f'{told} is not beyond the box, {figures.mm(box)}, though extension = "over"',
                why,
                try_,
            )
        elif travel > _MOST_OVER * box:
            yield "travel", told, f"{told} is beyond reason for a box of {figures.mm(box)}", why, try_
    elif travel > box:
        says = f"{told} is beyond the box, {figures.mm(box)}, though the extension is {family.extension}"
        yield "travel", told, says, why, f'{try_} Beyond the box, extension = "over".'
    elif family.extension == "full" and travel < _LEAST_FULL * box:
        says = f"{told} leaves {figures.mm(box - travel)} of the box inside, though the extension is full"
        yield "travel", told, says, why, f'{try_} Short of the box, extension = "three-quarter".'
    elif family.extension == "three-quarter" and not (
        _THREE_QUARTERS[0] * box <= travel <= _THREE_QUARTERS[1] * box
    ):
        says = f"{told} is not about three quarters of the box, {figures.mm(box)}"
        yield "travel", told, says, why, try_


def _row_holes(family: SlideFamily, length: SlideLength, figures: Figures) -> Iterator[Oddity]:
    holes = length.holes
    if not holes:
        return
    ahead = family.setback - family.front_overlay
    if holes[0] != 0.0:
        told = figures.mm(holes[0])
        yield (
            "holes",
            told,
            f"the first is at {told}: holes are counted from the first row hole, 0",
            f"The whole row is bored {told} too deep, and the front stands out by as much.",
            "Take the first from all of them: [0, 32, 224].",
        )
    off = tuple(hole for hole in holes if abs(hole / _GRID - round(hole / _GRID)) > 0.005)
    if off:
        told = figures.places(off)
        yield (
            "holes",
            told,
            f"{told} off the 32 mm grid",
            "A cabinet side bored in rows has no hole there: the screw wants one of its own.",
            "Whole multiples of 32 from the first hole, where the member has them.",
        )
    if len(holes) == 1:
        yield (
            "holes",
            figures.places(holes),
            "a single one: a member takes two screws at least",
            "On one screw the member turns, and the drawer drops at the rear.",
            "Every round hole that meets the row, such as [0, 32, 224].",
        )
    elif ahead + holes[-1] < _HELD * length.member:
        told = figures.mm(holes[-1])
        yield (
            "holes",
            told,
            f"the last is at {told}: the rear half of a member of {figures.mm(length.member)} is not held",
            "Open and loaded, the rear screw is pulled: the nearer it is to the front, the harder.",
            "The rearmost hole of the member as well.",
        )
    if ahead + holes[-1] > length.member - _AT_THE_END:
        told = figures.mm(holes[-1])
        yield (
            "holes",
            told,
            (
                f"the last is at {told}, {figures.mm(length.member - ahead - holes[-1])} from the member's "
                "rear end"
            ),
            "No member has a hole in its last few millimetres: the row is of a longer one.",
            f"At most {figures.mm(length.member - ahead - 2 * _AT_THE_END)}.",
        )


def _slots(family: SlideFamily, length: SlideLength, figures: Figures) -> Iterator[Oddity]:
    for slot in length.slots:
        if any(abs(slot - hole) < _OVERLAP for hole in length.holes):
            told = figures.mm(slot)
            yield (
                "slots",
                told,
                f"{told} runs into a round hole",
                "Slots go first, to set the front, then a round hole locks it: at one place they do neither.",
                "The middle of each slot, counted from the first row hole as the holes are.",
            )


def _shelf_holes(family: SlideFamily, length: SlideLength, figures: Figures) -> Iterator[Oddity]:
    holes = length.shelf_holes
    if len(holes) == 1:
        yield (
            "shelf_holes",
            figures.places(holes),
            "a single one: a member stands on a shelf with two screws at least",
            "The member turns on its one screw, and the pair runs out of parallel.",
            "Every hole through the member's foot, such as [60, 400]; none for lengths that have none.",
        )
    for hole in holes:
        if not _AT_THE_END <= hole <= length.member - _AT_THE_END:
            told = figures.mm(hole)
            yield (
                "shelf_holes",
                told,
                f"{told} is at the very end of a member of {figures.mm(length.member)}",
                (
                    "They are counted from the member's front end, not from the first row hole: a place so "
                    "near an "
                    "end is told from elsewhere."
                ),
                "From the member's front end to the middle of the hole.",
            )
