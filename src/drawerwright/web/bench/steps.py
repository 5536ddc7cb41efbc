"""The work on one drawer at the bench: the mounting sheet's steps, with the figures that each wants."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.pack.cautions import cautions
from drawerwright.pack.front_rows import ADJUSTERS_HAVE, SET_THE_FRONT, front_rows
from drawerwright.pack.measured import measured_fields
from drawerwright.pack.mounting_sheet import rows_of, steps_of
from drawerwright.pack.shown import Shown
from drawerwright.web.bench.drawer_words import datum, own_figures, own_title, own_words, watched

Drawn: TypeAlias = Literal["side", "plan", "front"]
"""Views of the drawer that a step may want."""

_PACKING: Final = "Packing, rear brackets, spacers"
_FIGURES: Final[dict[str, tuple[str, ...]]] = {
    "measure-and-mark": ("Screw line", "Front end"),
    "packing-and-rear-brackets": (_PACKING,),
    "slots-first": ("Slots first",),
    "set-the-front-ends": ("Front end",),
    "lock-them": ("Round holes",),
    "members-onto-the-box-sides": ("On the box side",),
    "hang-the-drawer": (_PACKING,),
    "fix-the-front": ("Front fixed",),
    "adjust": ("Front fixed",),
    "adjust-in-the-slots": ("Front fixed",),
    "load": ("Most inside",),
}
"""Columns of the mounting sheet that a step wants, by the beginnings of their headings."""
_DRAWN: Final[dict[str, Drawn]] = {
    "measure-and-mark": "side",
    "members-onto-the-box-sides": "side",
    "hang-the-drawer": "plan",
    "slide-the-drawer-in": "plan",
    "fix-the-front": "front",
    "adjust": "front",
    "adjust-in-the-slots": "front",
}
"""The view that stands with a step."""
_CAUTIONS: Final[dict[str, tuple[str, ...]]] = {
    "measure-and-mark": ("Behind the screws", "Loads overhead"),
    "hang-the-drawer": ("Fingers",),
    "slide-the-drawer-in": ("Fingers",),
    "click-then-tug-both-sides": ("Locking brackets",),
    "fix-the-front": ("Saws and boring",),
    "load": ("Tipping", "Who decides"),
}
"""Cautions that are said where they matter, by step."""

MEASURED: Final = "measure-and-mark"
LINED_UP: Final = frozenset({"adjust", "adjust-in-the-slots"})
"""The steps at which gaps are measured and moves told; a drawer has one of them."""
_FRONT: Final = LINED_UP | {"fix-the-front"}
"""The steps that tell what the sheet tells of its front: its screws, and what the adjusters then have."""


@dataclass(frozen=True, slots=True)
class BenchStep:
    """A step: its name for ticks, title and words, the figures it wants, its view and its cautions."""

    key: str
    title: str
    says: str
    figures: tuple[tuple[str, str], ...]
    drawn: Drawn | None
    cautions: tuple[tuple[str, str], ...]

    @property
    def lines_up(self) -> bool:
        """Whether gaps are measured at this step."""
        return self.key in LINED_UP


def lining_up_step(fitted: FittedDrawer) -> str:
    """Name of the step at which a drawer that is hung is lined up."""
    return next(key for key in step_keys(fitted) if key in LINED_UP)


def bench_steps(fitted: FittedDrawer, shown: Shown) -> tuple[BenchStep, ...]:
    """The steps for one drawer in the order of work; none where it does not fit."""
    if fitted.mounting is None:
        return ()
    headings, rows = rows_of([fitted], shown)
    cells = {heading["name"]: cell for heading, cell in zip(headings, rows[0]["cells"], strict=True) if cell}
    says = {one.title: one.says for one in cautions()}
    return tuple(
        BenchStep(
            key,
            own_title(fitted, key, step["title"]),
            own_words(fitted, key, step["says"], shown),
            _figures(key, fitted, cells, shown),
            _DRAWN.get(key),
            (*watched(fitted, key), *((title, says[title]) for title in _CAUTIONS.get(key, ()))),
        )
        for step in steps_of(FittedJob("", (fitted,)), alone=True)
        for key in [step_key(step["title"])]
    )


def step_keys(fitted: FittedDrawer) -> tuple[str, ...]:
    """Names of a drawer's steps in the order of work; none where it does not fit."""
    if fitted.mounting is None:
        return ()
    return tuple(step_key(step["title"]) for step in steps_of(FittedJob("", (fitted,))))


def step_key(title: str) -> str:
    """Name of a step for ticks: its title in small letters, words joined."""
    return "-".join(re.findall(r"[a-z0-9]+", title.lower()))


def tick_name(key: str, piece: int) -> str:
    """Name of a step's tick: of the first drawer of several alike it is the step's own."""
    return key if piece == 1 else f"{key} {piece}"


def steps_done(keys: Iterable[str], piece: int, ticked: Collection[str]) -> tuple[str, ...]:
    """Keys of the steps that are ticked, in the order of work."""
    return tuple(key for key in keys if tick_name(key, piece) in ticked)


def _figures(
    key: str, fitted: FittedDrawer, cells: dict[str, str], shown: Shown
) -> tuple[tuple[str, str], ...]:
    told: list[tuple[str, str]] = []
    if key == MEASURED:
        told = [(one["name"], f"{one['value']} {one['unit']}") for one in measured_fields(fitted, shown)[:3]]
    for wanted in _FIGURES.get(key, ()):
        told += [
            (_heading(name, shown, datum(fitted, name)), cell)
            for name, cell in cells.items()
            if name.startswith(wanted)
        ]
    told += [
        (_heading(name, shown, datum(fitted, name)), cell) for name, cell in own_figures(fitted, key, shown)
    ]
    if key in _FRONT:
        fixes = [row for row in front_rows(fitted, shown) if (row[0] == ADJUSTERS_HAVE) == (key in LINED_UP)]
        told += [(_heading(name, shown), value) for name, value in fixes if name != SET_THE_FRONT]
    return tuple(told)


def _heading(name: str, shown: Shown, counted_from: str = "") -> str:
    """A column's heading with the unit that its bare figures are in, and what they are counted from."""
    named = name if "," in name or shown.in_inches else f"{name}, mm"
    return f"{named} {counted_from}".rstrip()
