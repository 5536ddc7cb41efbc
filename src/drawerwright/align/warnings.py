"""What a person should know about the moves of a front besides the moves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from statistics import median
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.adjusters import TURNED, marks_between
from drawerwright.align.assumed import unmeasured
from drawerwright.align.front_geometry import Array
from drawerwright.align.next_reading import reading_words
from drawerwright.align.pose import Found
from drawerwright.align.stack import SHARED, MeasuredFront, Stack
from drawerwright.align.words import further_words, marks_words, small_length
from drawerwright.model.gaps import ADJUSTER_NAMES, AdjusterName, GapName, Hand
from drawerwright.units import ShownUnits

_APART: Final = 0.2
"""Two readings of one gap that differ by more are told of [mm]. Own choice, no source."""
_SWINGS: Final = 0.3
"""A swing or a lean that no reading shows is told of from here [mm]. Own choice, no source."""
_INCH_NEAR: Final = 0.35
"""How near a bare number times 25.4 must come to the other gaps, as a share, to look like inches."""


def warnings_of(
    stack: Stack, found: Found, at: int, turned: Array, further: Array, units: ShownUnits = "mm"
) -> Iterator[str]:
    """Remarks on the front at that place, whose adjusters are turned by `turned` (6,) [mm].

    `further` (6,): marks by which those at an end would have to be turned on.
    """
    front = stack.fronts[at]
    if front.adjusters.none_because:
        yield f"nothing can be turned: {front.adjusters.none_because}"
        return
    if front.is_bare:
        yield "no front is told in the job (front.style): the box's own front was taken"
    yield from _untold(front, turned, further)
    if any(front.adjusters.evening):
        yield "the side adjusters stood further apart than the pair takes: they are brought alike first"
    drawer = front.fitted.drawer
    if drawer.cabinet is not None and drawer.row is None:
        yield f"no row of cabinet {drawer.cabinet} is told: the front was lined up by itself"
    yield from _ends(front, turned, further)
    yield from _unseen(front, found.is_told(at), turned, units)
    yield from _doubled(stack, at)
    yield from _inches(front)


def further_turns(
    front: MeasuredFront, told: NDArray[np.bool_], wanted: Array, ends: NDArray[np.int64]
) -> Array:
    """Marks (6,) by which adjusters that are at an end (`ends` 1 high, -1 low) would have to be turned on.

    Of `wanted` (6,) [marks] only what cures a coordinate that the readings tell counts: where a roll is cured
    by one bracket alone, the other at its end lacks nothing.
    """
    x, y, z, roll, yaw, pitch = told.tolist()
    step = front.adjusters.step
    by = wanted * step
    lacks = np.array([by[0] * x, 0.0, 0.0, 0.0, 0.0, by[5] * pitch])
    for first, shift, turn in ((1, y, roll), (3, z, yaw)):
        mean, half = (by[first] + by[first + 1]) / 2 * shift, (by[first + 1] - by[first]) / 2 * turn
        if not level_ends(half, ends[first : first + 2], bool(shift)):
            half = 0.0
        lacks[first : first + 2] = mean - half, mean + half
    return np.where(lacks * ends > 0.0, lacks / step, 0.0)


def level_ends(right_more: float, ends: NDArray[np.int64], mean_told: bool) -> bool:
    """Whether a pair of adjusters, left and right, cannot turn the right one further against the left one.

    Either end of both keeps it, or that of one where readings hold their mean (`mean_told`).
    """
    kept = np.array([-right_more, right_more]) * ends > 0.0
    return bool(kept.any() if mean_told else kept.all())


def first_words(stack: Stack, at: int, order: Sequence[int]) -> Iterator[str]:
    """Which front is turned before this one, where the order is not that of the readings."""
    place = order.index(at)
    if place:
        before = stack.fronts[order[place - 1]].id
        yield f"turn {before} before this front: else the gap between them would close on the way"


def closes_words(tight: Mapping[GapName, float], units: ShownUnits = "mm") -> Iterator[str]:
    """Gaps that are closed on the way, whatever the order of the steps."""
    for name, value in tight.items():
        yield (
            f"on the way {reading_words(name)} would come to {small_length(value, units, decimals=1)}: no "
            "order of the steps keeps it open, so turn a little of each step at a time"
        )


def _untold(front: MeasuredFront, turned: Array, further: Array) -> Iterator[str]:
    """Adjusters of which nobody told where they stand: all, or those that are to be turned."""
    if not front.adjusters.are_told:
        yield "where the adjusters stand was not told: all are taken as delivered, at 0"
        return
    used = {
        adjuster
        for column, (adjuster, hands) in enumerate(TURNED)
        if (turned[column] or round(float(further[column]))) and not _is_told(front, adjuster, hands)
    }
    untold = [one for one in ADJUSTER_NAMES if one in used]
    if untold:
        names = " and ".join([", ".join(untold[:-1]), untold[-1]] if untold[1:] else untold)
        yield f"where the {names} adjusters stand was not told: they are taken as delivered, at 0"


def _is_told(front: MeasuredFront, adjuster: AdjusterName, hands: Sequence[Hand] = ("left", "right")) -> bool:
    return all((hand, adjuster) in (front.adjusters.settings or {}) for hand in hands)


def deciding(front: MeasuredFront, turned: Array, further: Array) -> dict[int, int]:
    """Columns that end only because their adjusters, untold, are taken as delivered: what decides.

    Of each the setting [marks] from which on (up where the adjuster would go back, down where it would go on)
    what the readings ask for can be turned. `turned` (6,) [mm], `further` (6,) [marks] as in `warnings_of`.
    """
    found: dict[int, int] = {}
    slide = front.fitted.slide
    for column, (adjuster, hands) in enumerate(TURNED):
        by = round(float(further[column]))
        if not by or slide is None or _is_told(front, adjuster, hands):
            continue
        least, most = marks_between(slide.family, adjuster)
        whole = by + round(float(turned[column] / front.adjusters.step[column]))
        at = most - whole if by > 0 else least - whole
        if least <= at <= most:
            found[column] = at
    return found


def held_words(stack: Stack, at: int, units: ShownUnits = "mm") -> Iterator[str]:
    """Gaps that nobody measured, where they keep a front from being turned further."""
    names = unmeasured(stack, at)
    edges = list(dict.fromkeys(name.partition("_")[0] for name in names))
    if not edges:
        return
    listed = " and ".join([", ".join(edges[:-1]), edges[-1]] if edges[1:] else edges)
    gap = small_length(stack.fronts[at].designed(names[0]), units, decimals=1)
    many = "gaps were" if edges[1:] else "gap was"
    yield (
        f"its {listed} {many} not measured: taken as designed, {gap}, and no move closes more than half of "
        "that; measure there before you turn further"
    )


def rubs_words(tight: Mapping[GapName, float], units: ShownUnits = "mm") -> Iterator[str]:
    """Gaps that are left so narrow that the front may rub."""
    for name, value in tight.items():
        left = small_length(max(value, 0.0), units, decimals=1)
        yield f"{reading_words(name)} is left at {left}: the front may rub there, so do not leave it so"


def _ends(front: MeasuredFront, turned: Array, further: Array) -> Iterator[str]:
    """Adjusters that end before the readings are met; where nobody told their setting, that it decides."""
    decides = deciding(front, turned, further)
    said = set()
    marks = np.round(further).astype(int).tolist()
    for column, (adjuster, hands) in enumerate(TURNED):
        if not marks[column]:
            continue
        alike = [one for one, (other, _) in enumerate(TURNED) if other == adjuster]
        both = len(hands) > 1 or len({(marks[one], decides.get(one)) for one in alike}) == 1
        who = f"both {adjuster} adjusters" if both else f"the {hands[0]} {adjuster} adjuster"
        on = further_words(adjuster, marks[column])
        if not turned[column]:
            on = on.replace(" more", "") if column in decides else on
        if column not in decides:
            who = who if len(hands) > 1 else f"the {hands[0]} {adjuster} adjuster"
            yield f"{who} {'are' if len(hands) > 1 else 'is'} at the end: to meet the readings, {on}"
        elif (who, on) not in said:
            said.add((who, on))
            way = "or more" if marks[column] < 0 else "or less"
            yield (
                f"where {who} {'stand' if both else 'stands'} decides: taken as delivered, at 0, "
                f"{'they end' if both else 'it ends'} here; at {marks_words(decides[column])} {way}, {on}"
            )


def _unseen(front: MeasuredFront, told: NDArray[np.bool_], turned: Array, units: ShownUnits) -> Iterator[str]:
    """What the moves do besides, where no reading would show it."""
    moved = front.geometry.pose_changes @ turned
    rise, pitch = float(moved[1]), float(moved[5] * front.geometry.height)
    # A front that is not centred on its box swings further at one end.
    half = float(moved[4]) * front.geometry.width / 2
    swung = float(front.geometry.pose_changes[2, 0] * turned[0])
    end, out = max((("right", swung - half), ("left", swung + half)), key=lambda one: round(abs(one[1]), 6))
    by_rise, by_swing, by_pitch = (small_length(abs(by), units, decimals=1) for by in (rise, out, pitch))
    if not told[1] and abs(rise) >= _SWINGS:
        way = "rises" if rise > 0 else "sinks"
        yield f"its middle {way} by {by_rise}: measure the gaps above and below after it"
    if not told[4] and abs(out) >= _SWINGS:
        way = "out" if out > 0 else "in"
        yield f"moved sideways, its {end} end swings {way} by {by_swing}: measure the corners after it"
    if not told[5] and abs(pitch) >= _SWINGS:
        way = "out" if pitch > 0 else "in"
        yield f"lifted, its top leans {way} by {by_pitch}: measure the corners after it"


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
