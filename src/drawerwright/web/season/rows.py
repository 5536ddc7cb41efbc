"""Fronts over a year as a page shows them: each gap with what to set today, and whether it has that room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.align.season_room import HARDLY
from drawerwright.align.seasons import SeasonalGap, SeasonedFront, Seasons
from drawerwright.cli.season_words import cure_words, gap_length, screw_words
from drawerwright.model.fitted import FittedDrawer, State
from drawerwright.units import ShownUnits

MINUS: Final = "\N{MINUS SIGN}"
AIR_WORDS: Final = {
    "workshop": "Workshop",
    "now": "House now",
    "dry": "Its driest month",
    "wet": "Its dampest month",
}


@dataclass(frozen=True, slots=True)
class GapLine:
    """One gap in words. `margin`: room that the front as cut leaves today, less what it wants."""

    edge: str
    set_today: str
    smallest: str
    largest: str
    as_cut: str
    state: State
    margin: str


@dataclass(frozen=True, slots=True)
class FrontLine:
    """One front: its gaps, and what is to be done where they are too tight."""

    drawer: str
    gaps: tuple[GapLine, ...]
    does: str


def has_front(one: FittedDrawer) -> bool:
    """Whether a drawer has a front of its own."""
    return one.front is not None and one.front.style != "none"


def front_lines(seasons: Seasons, fronts: Sequence[SeasonedFront], units: ShownUnits) -> list[FrontLine]:
    """Some of the fronts, in their order."""
    return [
        FrontLine(
            one.drawer,
            tuple(_gap_line(gap, one, units) for gap in one.gaps),
            "; ".join(said for said in (cure_words(seasons, one, units), screw_words(one, units)) if said),
        )
        for one in fronts
    ]


def moisture_words(seasons: Seasons) -> dict[str, str]:
    """What moisture wood comes to in each air."""
    found = seasons.moistures
    return {name: f"wood comes to {getattr(found, name):.1f} %" for name in AIR_WORDS}


def state_of(gap: SeasonalGap, front: SeasonedFront) -> State:
    """Whether a front as cut has its room here all the year; it stops where it binds wherever it hangs."""
    if gap.margin >= -HARDLY:
        return "ok"
    return "stop" if front.lacks and gap.smallest_as_cut <= 0.0 else "watch"


def _gap_line(gap: SeasonalGap, front: SeasonedFront, units: ShownUnits) -> GapLine:
    return GapLine(
        gap.edge,
        gap_length(gap.set_today, units),
        gap_length(gap.smallest, units),
        gap_length(gap.largest, units),
        gap_length(gap.as_cut, units),
        state_of(gap, front),
        _signed(gap.margin, units),
    )


def _signed(size: float, units: ShownUnits) -> str:
    """A margin with its sign, a true minus; none where it rounds to 0."""
    text = gap_length(abs(size), units)
    sign = "" if round(abs(size), 1) == 0.0 else "+" if size > 0.0 else MINUS
    return f"{sign}{text}"
