"""A column of fronts at the bench: which are measured, what to turn at each, which were turned already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from drawerwright.align import AlignedFront, align_job
from drawerwright.align.adjusters import marks_between
from drawerwright.errors import Fault
from drawerwright.files.gaps import SETTING_COLUMNS, gaps_of_mappings
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.gaps import ADJUSTER_NAMES, AdjusterName, Hand, Setting
from drawerwright.units import ShownUnits
from drawerwright.web.bench.gaps import has_gaps
from drawerwright.web.bench.rounds import (
    FrontNow,
    Round,
    Stale,
    ToldTwice,
    columns_of,
    conflicts_of,
    round_of,
)
from drawerwright.web.fitting import JobAnswer

_COLUMNS: Final[dict[Setting, str]] = {setting: column for column, setting in SETTING_COLUMNS.items()}
_PLUS: Final[dict[AdjusterName, str]] = {
    "side": "plus is to the right",
    "height": "plus is up",
    "depth": "plus is out, towards you",
    "tilt": "plus is up",
}


@dataclass(frozen=True, slots=True)
class SettingField:
    """Where one adjuster stands: its column, its name in words, and how far it goes."""

    column: str
    words: str
    reach: str


@dataclass(frozen=True, slots=True)
class FrontTold:
    """One front of the column. `front` None: it is not measured, or wants to be measured again (`again`).

    `turned`: it was turned since, as told here. `after`: where its adjusters stand then, by column.
    """

    drawer: str
    number: int
    front: AlignedFront | None
    turned: bool
    again: bool
    after: Mapping[str, int]

    @property
    def stands(self) -> str:
        """Where the adjusters that are turned stand after it, in words."""
        named = (
            f"{adjuster} {hand} {self.after[column]}"
            for column, (hand, adjuster) in SETTING_COLUMNS.items()
            if column in self.after
        )
        return ", ".join(named).replace("-", "\u2212")


@dataclass(frozen=True, slots=True)
class ColumnTold:
    """All fronts that share gaps with one, in the order in which they are turned; what does not agree."""

    fronts: tuple[FrontTold, ...]
    conflicts: tuple[ToldTwice, ...]
    stale: tuple[Stale, ...]

    def of(self, drawer: str) -> FrontTold:
        """One of its fronts."""
        return next(one for one in self.fronts if one.drawer == drawer)

    @property
    def missing(self) -> tuple[str, ...]:
        """Fronts that are to be measured before anything is turned, where others share a gap with them."""
        return tuple(one.drawer for one in self.fronts if one.front is None)


def column_states(fitted: Sequence[FittedDrawer], now: Mapping[str, FrontNow]) -> list[tuple[str, str]]:
    """Fronts that share gaps, the highest first: each "measured", "turned", "again" or "" (not measured)."""
    counted = round_of(fitted, now)
    states = []
    for name in [name for column in columns_of(fitted) for name in reversed(column)]:
        measured = "measured" if name in counted.rows else ""
        states.append(
            (name, "turned" if name in counted.turned else "again" if name in counted.again else measured)
        )
    return states


def fronts_of(answer: JobAnswer, drawer: str) -> tuple[FittedDrawer, ...]:
    """The drawer and those that share gaps with it, in the order of the job."""
    hung = [one.fitted for one in answer.drawers if one.fitted is not None and has_gaps(one.fitted)]
    column = next((names for names in columns_of(hung) if drawer in names), [])
    return tuple(one for one in hung if one.id in column)


def column_told(answer: JobAnswer, drawer: str, now: Mapping[str, FrontNow], units: ShownUnits) -> ColumnTold:
    """What to turn at a front and at those that share gaps with it. Raises InputError."""
    fitted = fronts_of(answer, drawer)
    counted = round_of(fitted, now)
    conflicts = tuple(conflicts_of(fitted, counted.rows))
    aligned: dict[str, AlignedFront] = {}
    if counted.rows and not conflicts:
        gaps = gaps_of_mappings(list(counted.rows.values()), "mm", "gaps")
        found = align_job(FittedJob("", fitted, answer.columns), gaps, units=units)
        aligned = {front.drawer: front for front in found.fronts}
    told = [_told(one.id, now, counted, aligned.get(one.id)) for one in fitted]
    told.sort(key=lambda one: one.front.turn if one.front is not None else len(told))
    return ColumnTold(tuple(told), conflicts, counted.stale)


def _told(drawer: str, now: Mapping[str, FrontNow], counted: Round, front: AlignedFront | None) -> FrontTold:
    here = now.get(drawer, FrontNow())
    after: Mapping[str, int] = {} if front is None else stands_after(here.stood, front)
    return FrontTold(drawer, here.number, front, drawer in counted.turned, drawer in counted.again, after)


def stands_after(stood: Mapping[str, float], front: AlignedFront) -> dict[str, int]:
    """Where the adjusters that are turned stand after it [marks], by column; untold ones from 0."""
    after: dict[str, int] = {}
    for move in front.moves:
        hands: Sequence[Hand] = ("left", "right") if move.side == "both" else (move.side,)
        for hand in hands:
            column = _COLUMNS[hand, move.adjuster]
            after[column] = after.get(column, round(stood.get(column, 0.0))) + move.marks
    return after


def setting_fields(family: SlideFamily) -> tuple[SettingField, ...]:
    """Places for where the adjusters of a family stand; none of those that it lacks."""
    fields = []
    for adjuster in ADJUSTER_NAMES:
        low, high = marks_between(family, adjuster)
        if low == high == 0 or family.carriage == "side-mounted":
            continue
        reach = f"{low} to {high}, {_PLUS[adjuster]}".replace("-", "\u2212")
        for hand in ("left", "right"):
            words = f"{adjuster}, {hand} {'rear hook' if adjuster == 'tilt' else 'bracket'}"
            fields.append(SettingField(_COLUMNS[hand, adjuster], words, reach))
    return tuple(fields)


def setting_faults(family: SlideFamily, told: Mapping[str, Any]) -> dict[str, Fault]:
    """Settings at which an adjuster of the family cannot stand, by column."""
    faults = {}
    for column, (_, adjuster) in SETTING_COLUMNS.items():
        if told.get(column) in (None, ""):
            continue
        low, high = marks_between(family, adjuster)
        text = str(told[column])
        try:
            stands = low <= float(text) <= high
        except ValueError:
            stands = False
        if not stands:
            says = f"is no place of this adjuster: it goes from {low} to {high} marks"
            faults[column] = Fault(column, text, says.replace("-", "\u2212"), str(min(max(0, low), high)))
    return faults
