"""What a person should know about the moves of a front besides the moves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from statistics import median
from typing import Final

from drawerwright.align.adjusters import TURNED
from drawerwright.align.front_geometry import COLUMNS
from drawerwright.align.stack import SHARED, MeasuredFront, Stack
from drawerwright.align.words import marks_words

_APART: Final = 0.5
"""Two readings of one gap that differ by more are told of [mm]. Own choice, no source."""
_INCH_NEAR: Final = 0.35
"""How near a bare number times 25.4 must come to the other gaps, as a share, to look like inches."""


def warnings_of(stack: Stack, at: int, beyond: Mapping[int, int]) -> Iterator[str]:
    """Remarks on the front at that place; `beyond`: marks wanted beyond the end, by column of the stack."""
    front = stack.fronts[at]
    if front.adjusters.none_because:
        yield f"nothing can be turned: {front.adjusters.none_because}"
        return
    shape = front.fitted.front
    if shape is None or shape.style == "none":
        yield "no front is told in the job (front.style): the box's own front was taken"
    if not front.adjusters.are_told:
        yield "where the adjusters stand was not told: all are taken as delivered, at 0"
    if any(front.adjusters.evening):
        yield "the side adjusters stood further apart than the pair takes: they are brought alike first"
    drawer = front.fitted.drawer
    if drawer.cabinet is not None and drawer.row is None:
        yield f"no row of cabinet {drawer.cabinet} is told: the front was lined up by itself"
    yield from _ends(beyond, at)
    yield from _doubled(stack, at)
    yield from _inches(front)


def _ends(beyond: Mapping[int, int], at: int) -> Iterator[str]:
    """Adjusters that end before the readings are met."""
    for column, marks in beyond.items():
        if column // len(COLUMNS) != at:
            continue
        adjuster, hands = TURNED[column % len(COLUMNS)]
        who = f"both {adjuster} adjusters are" if len(hands) > 1 else f"the {hands[0]} {adjuster} adjuster is"
        yield f"{who} at the end: {marks_words(marks)} more would be wanted"


def _doubled(stack: Stack, at: int) -> Iterator[str]:
    for lower, upper in pairwise(stack.fronts[max(at - 1, 0) : at + 1]):
        for over, under in SHARED:
            one, other = lower.told.readings.get(over), upper.told.readings.get(under)
            if one is not None and other is not None and abs(one.value - other.value) > _APART:
                yield (
                    f"{under} was told as {other.value:g} and, at {lower.id}, {over} as {one.value:g} mm: "
                    "their mean was taken"
                )


def _inches(front: MeasuredFront) -> Iterator[str]:
    gaps = {name: one for name, one in front.told.readings.items() if not name.startswith("out_")}
    if len(gaps) < 3:
        return
    middle = median(one.value for one in gaps.values())
    for name, one in gaps.items():
        inches = one.value * 25.4
        if 0.0 < one.value < 0.5 < middle and abs(inches - middle) < _INCH_NEAR * middle:
            yield f"{name} is {one.value:g} mm beside gaps of about {middle:g} mm: were inches meant?"
