"""Gaps told of a job's drawers, put together into stacks; what cannot be so is said at the reading."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from drawerwright.align.adjusters import adjusters_of, marks_between
from drawerwright.align.front_geometry import front_geometry
from drawerwright.align.stack import SHARED, MeasuredFront, Stack
from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.gaps import FrontGaps, Reading, Setting
from drawerwright.model.spelling import nearest

Travel = Mapping[tuple[str, Setting], float]
"""True move of one mark [mm] by drawer, hand and adjuster."""

CONTRADICT_FROM: Final = 1.0
"""Two readings of one gap that lie further apart cannot both be right [mm]. Own choice, no source."""
CONTRADICT_TIMES: Final = 4.0
"""… nor those that lie further apart than so many times their uncertainty together."""


def stacks_of(fitted: FittedJob, gaps: Sequence[FrontGaps], travel: Travel) -> tuple[Stack, ...]:
    """The measured fronts as stacks of neighbours, in the order in which the readings name them.

    Raises InputError with everything that contradicts the job or itself.
    """
    by_id = {one.id: one for one in fitted.drawers}
    faults = [*_rows_faults(by_id, gaps)]
    if faults:
        raise InputError(faults)
    between = _between(fitted)
    fronts = {told.drawer: _front(by_id[told.drawer], told, travel, between) for told in gaps}
    faults += [fault for front in fronts.values() for fault in _setting_faults(front)]
    stacks = tuple(Stack(tuple(fronts[name] for name in names)) for names in _neighbours(by_id, gaps))
    faults += [fault for stack in stacks for fault in _contradictions(stack)]
    if faults:
        raise InputError(faults)
    return stacks


def _rows_faults(by_id: Mapping[str, FittedDrawer], gaps: Sequence[FrontGaps]) -> list[Fault]:
    faults: list[Fault] = []
    if not gaps:
        return [Fault("gaps", "", "has no row: nothing was measured", "a row for each front")]
    seen: dict[str, FrontGaps] = {}
    for told in gaps:
        where = told.place("drawer")
        if told.drawer not in by_id:
            says = "is no drawer of this job"
            faults.append(Fault(where, f'"{told.drawer}"', says, nearest(told.drawer, by_id) or "its id"))
        elif told.drawer in seen:
            says = f"has a row already, {seen[told.drawer].place()}"
            faults.append(Fault(where, f'"{told.drawer}"', says, "one row a front"))
        if not told.readings:
            says = "has no reading: all twelve are empty"
            faults.append(Fault(told.place(), f'"{told.drawer}"', says, "left_top and right_top at least"))
        seen.setdefault(told.drawer, told)
    return faults or _order_faults(by_id, gaps)


def _order_faults(by_id: Mapping[str, FittedDrawer], gaps: Sequence[FrontGaps]) -> list[Fault]:
    """Fronts of one cabinet are told from the top down or from the bottom up, so that no row is mistaken."""
    faults: list[Fault] = []
    columns: dict[str, list[FrontGaps]] = {}
    for told in gaps:
        drawer = by_id[told.drawer].drawer
        if drawer.cabinet is not None and drawer.row is not None:
            columns.setdefault(drawer.cabinet, []).append(told)
    for cabinet, column in columns.items():
        rows = [by_id[told.drawer].drawer.row or 0 for told in column]
        up = len(rows) < 2 or rows[1] > rows[0]
        for (before, after), told in zip(pairwise(rows), column[1:], strict=True):
            if (after > before) != up:
                order = ", ".join(each.drawer for each in column)
                says = (
                    f"is out of order: {order} stand in cabinet {cabinet} as rows "
                    f"{', '.join(map(str, rows))}; readings may stand at the wrong front"
                )
                faults.append(
                    Fault(told.place("drawer"), f'"{told.drawer}"', says, "from the top down or bottom up")
                )
                break
    return faults


def _between(fitted: FittedJob) -> dict[str, float]:
    """Designed gap over a front, to the next front of its column [mm]."""
    return {
        row.drawer: row.gap_above
        for column in fitted.columns
        for row in column.rows
        if row.gap_above is not None
    }


def _front(
    fitted: FittedDrawer, told: FrontGaps, travel: Travel, between: Mapping[str, float]
) -> MeasuredFront:
    gap = fitted.drawer.front.gap
    known = {setting: move for (drawer, setting), move in travel.items() if drawer == told.drawer}
    return MeasuredFront(
        fitted=fitted,
        told=told,
        geometry=front_geometry(fitted),
        adjusters=adjusters_of(fitted, told.settings, known),
        gap=gap,
        under=gap,
        over=max(between.get(told.drawer, gap), 0.0),
    )


def _neighbours(by_id: Mapping[str, FittedDrawer], gaps: Sequence[FrontGaps]) -> list[tuple[str, ...]]:
    """Ids of fronts that share a gap, from the lowest up."""
    measured = {told.drawer for told in gaps}
    above: dict[str, str] = {}
    columns: dict[str, dict[int, str]] = {}
    for one in by_id.values():
        if one.drawer.cabinet is not None and one.drawer.row is not None:
            columns.setdefault(one.drawer.cabinet, {})[one.drawer.row] = one.id
    for column in columns.values():
        for lower, upper in pairwise(sorted(column)):
            if {column[lower], column[upper]} <= measured:
                above[column[lower]] = column[upper]
    below = {upper: lower for lower, upper in above.items()}
    stacks: dict[str, tuple[str, ...]] = {}
    for told in gaps:
        lowest = told.drawer
        while lowest in below:
            lowest = below[lowest]
        if lowest not in stacks:
            names = [lowest]
            while names[-1] in above:
                names.append(above[names[-1]])
            stacks[lowest] = tuple(names)
    return list(stacks.values())


def _setting_faults(front: MeasuredFront) -> list[Fault]:
    """Settings that the family's adjusters cannot stand at."""
    if front.adjusters.none_because or front.fitted.slide is None:
        return []
    family = front.fitted.slide.family
    faults: list[Fault] = []
    for (hand, adjuster), marks in front.told.settings.items():
        low, high = marks_between(family, adjuster)
        if not low <= marks <= high:
            says = (
                f"is beyond the end: the {adjuster} adjuster of {family.id} goes from {low} to {high} marks"
            )
            name = f"set_{adjuster}_{hand}"
            faults.append(Fault(front.told.place(name), f"{marks:g}", says, f"{min(max(0, low), high)}"))
    return faults


def contradict(one: Reading, other: Reading) -> bool:
    """Whether two readings of one gap cannot both be right."""
    unsure = (one.uncertainty**2 + other.uncertainty**2) ** 0.5
    return bool(abs(one.value - other.value) > max(CONTRADICT_FROM, CONTRADICT_TIMES * unsure))


def _contradictions(stack: Stack) -> list[Fault]:
    """Two readings of the gap between two fronts that cannot both be right."""
    faults: list[Fault] = []
    for lower, upper in pairwise(stack.fronts):
        for over, under in SHARED:
            one, other = lower.told.readings.get(over), upper.told.readings.get(under)
            if one is None or other is None:
                continue
            if contradict(one, other):
                says = (
                    f"contradicts {over} of {lower.id}, {one.told or f'{one.value:g}'} "
                    f"({lower.told.place(over)}): both are the gap between these two fronts"
                )
                told = other.told or f"{other.value:g}"
                faults.append(Fault(upper.told.place(under), told, says, "measuring it again"))
    return faults
