"""Rounds of lining up: what was measured last at each front, what was turned since, and what still counts.

A front is measured, told its moves, turned, and measured again. What the store keeps of it in order are
measurings (gaps, and where the adjusters stood then) and turnings (where they stand now, alone). A turned
front moves the gap that it shares with a neighbour, so what the neighbour measured there before is stale.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any, Final

from drawerwright.align.measured import contradict
from drawerwright.align.stack import SHARED
from drawerwright.errors import InputError
from drawerwright.files.gaps import SETTING_COLUMNS, gaps_of_mappings
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, GapName
from drawerwright.store import StoredGaps

FOR_BOTH: Final = "for_both"
"""Kept with a measuring whose shared gaps hold for the neighbours too, in place of what was told there."""


@dataclass(frozen=True, slots=True)
class FrontNow:
    """One front as the store has it: readings as they were told, `settings` in marks by column.

    `number` of its last measuring (0: none), `turned` of the turning since then (0: none), `before` of the
    last turning before it. `stood`: settings at the measuring; `settings`: as they stand now.
    """

    readings: Mapping[str, Any] = field(default_factory=dict)
    stood: Mapping[str, float] = field(default_factory=dict)
    settings: Mapping[str, float] = field(default_factory=dict)
    number: int = 0
    turned: int = 0
    before: int = 0
    for_both: bool = False

    @property
    def waits(self) -> bool:
        """Whether it was turned since it was measured, so that it wants to be measured again."""
        return bool(self.turned)


@dataclass(frozen=True, slots=True)
class Stale:
    """A reading of a shared gap that counts no more, and the neighbour by which it is so.

    `replaced`: the neighbour's reading was taken for both; else the neighbour was turned since.
    """

    drawer: str
    name: GapName
    neighbour: str
    replaced: bool


@dataclass(frozen=True, slots=True)
class ToldTwice:
    """Two readings of one shared gap that cannot both be right, as told; `at`: "left" or "right"."""

    lower: str
    upper: str
    at: str
    told_lower: str
    told_upper: str

    def told_at(self, drawer: str) -> str:
        """What was told at one of the two fronts."""
        return self.told_lower if drawer == self.lower else self.told_upper

    def other(self, drawer: str) -> str:
        """The neighbour of one of the two."""
        return self.upper if drawer == self.lower else self.lower

    def name_at(self, drawer: str) -> str:
        """The reading's name at one of the two."""
        return f"{'top' if drawer == self.lower else 'bottom'}_{self.at}"


@dataclass(frozen=True, slots=True)
class Round:
    """What counts now: rows to line up by drawer, in the order of the job.

    `turned`: fronts among them that were turned since, as this round told; `again`: fronts that are left out,
    as they were turned and want to be measured again.
    """

    rows: Mapping[str, dict[str, Any]]
    turned: frozenset[str] = frozenset()
    again: tuple[str, ...] = ()
    stale: tuple[Stale, ...] = ()


def fronts_now(kept: Sequence[StoredGaps]) -> dict[str, FrontNow]:
    """Each front as what was kept of it, in order, leaves it."""
    found: dict[str, FrontNow] = {}
    for one in kept:
        was = found.get(one.drawer, FrontNow())
        told = {column: one.values[column] for column in SETTING_COLUMNS if column in one.values}
        settings = {key: marks for key, marks in was.settings.items() if key not in told}
        settings |= {key: float(marks) for key, marks in told.items() if marks not in (None, "")}
        readings: dict[str, Any] = {
            name: one.values[name] for name in GAP_NAMES if one.values.get(name) not in (None, "")
        }
        if not readings:
            found[one.drawer] = FrontNow(
                was.readings, was.stood, settings, was.number, one.id, was.before, was.for_both
            )
            continue
        moved = was.turned or was.before
        if was.number and not was.turned and settings != was.settings:
            moved = one.id  # turned without a word, and told of only now
        both = bool(one.values.get(FOR_BOTH))
        found[one.drawer] = FrontNow(readings, settings, settings, one.id, 0, moved, both)
    return found


def round_of(fitted: Sequence[FittedDrawer], now: Mapping[str, FrontNow]) -> Round:
    """What of the fronts' readings counts now; `fitted` are whole columns, in the order of the job."""
    rows: dict[str, dict[str, Any]] = {}
    turned: set[str] = set()
    again: list[str] = []
    stale: list[Stale] = []
    for column in columns_of(fitted):
        measured = [name for name in column if name in now and now[name].number]
        done = [name for name in measured if now[name].waits]
        newest = max((now[name].number for name in measured), default=0)
        one_round = all(now[name].turned > newest for name in done)
        counted = [name for name in measured if one_round or not now[name].waits]
        turned |= set(done) if one_round else set()
        again += [] if one_round else done
        again += [name for name in column if name in now and not now[name].number and now[name].turned]
        for at, name in enumerate(column):
            if name not in counted:
                continue
            beside = [(column[at + by], shared) for by, shared in _beside(at, len(column))]
            for neighbour, (here, there) in ((near, pair) for near, pairs in beside for pair in pairs):
                one, other = now[name], now.get(neighbour, FrontNow())
                moved = other.before if one_round and other.waits else other.turned or other.before
                takes_over = other.for_both and other.number > one.number and there in other.readings
                if here in one.readings and (moved > one.number or takes_over):
                    stale.append(Stale(name, here, neighbour, moved <= one.number))
        gone: dict[tuple[str, str], str] = {(one.drawer, one.name): one.neighbour for one in stale}
        for name in counted:
            here_now = now[name]
            readings = {key: one for key, one in here_now.readings.items() if (name, key) not in gone}
            if not readings:  # all it told was the gap to a neighbour, which tells it anew
                readings = {
                    key: now[gone[name, key]].readings[_there(key)]
                    for key in here_now.readings
                    if gone[name, key] in counted and _there(key) in now[gone[name, key]].readings
                }
            if readings:
                rows[name] = {"drawer": name, **readings, **here_now.stood}
            elif name not in again:
                again.append(name)
    in_order = [one.id for one in fitted]
    return Round(
        {name: rows[name] for name in in_order if name in rows},
        frozenset(turned),
        tuple(name for name in in_order if name in again),
        tuple(stale),
    )


def _there(name: str) -> GapName:
    """What a shared gap is called at the neighbour."""
    return {**dict(SHARED), **{under: over for over, under in SHARED}}[name]  # type: ignore[index]


def columns_of(fitted: Sequence[FittedDrawer]) -> list[list[str]]:
    """Fronts that share gaps, from the lowest up; those without a row each for itself."""
    columns: dict[object, list[FittedDrawer]] = {}
    for at, one in enumerate(fitted):
        alone = one.drawer.cabinet is None or one.drawer.row is None
        columns.setdefault(at if alone else (one.drawer.cabinet,), []).append(one)
    return [
        [one.id for one in sorted(column, key=lambda one: one.drawer.row or 0)] for column in columns.values()
    ]


def conflicts_of(fitted: Sequence[FittedDrawer], rows: Mapping[str, Mapping[str, Any]]) -> list[ToldTwice]:
    """Shared gaps that were told at both fronts, and cannot be both; nothing of rows that do not read."""
    try:
        read = {one.drawer: one.readings for one in gaps_of_mappings(list(rows.values()), "mm", "gaps")}
    except InputError:
        return []
    found = []
    for column in columns_of(fitted):
        for lower, upper in pairwise(column):
            for over, under in SHARED:
                one, other = read.get(lower, {}).get(over), read.get(upper, {}).get(under)
                if one is not None and other is not None and contradict(one, other):
                    told = str(rows[lower][over]), str(rows[upper][under])
                    found.append(ToldTwice(lower, upper, over.removeprefix("top_"), *told))
    return found


def _beside(at: int, count: int) -> Iterator[tuple[int, list[tuple[GapName, GapName]]]]:
    """Steps to the neighbours, each with the shared gaps as they are called here and there."""
    if at + 1 < count:
        yield 1, list(SHARED)
    if at > 0:
        yield -1, [(under, over) for over, under in SHARED]
