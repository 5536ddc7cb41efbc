"""The notes of a sheet: each check with its mark, word and margin, and where on the drawing it speaks of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.drawing.shown import Shown
from drawerwright.drawing.views.standing import standing
from drawerwright.drawing.views.stops import longer_rejected
from drawerwright.model.fitted import FittedDrawer, State
from drawerwright.pack.check_margins import check_margin_text
from drawerwright.pack.figures import hardware_text, margin_text
from drawerwright.web.sheet.words import short_words

ViewName: TypeAlias = Literal["plan", "side", "front"]
Margin: TypeAlias = Literal["left", "right"]

LONGER: Final = "longer"
"""Id of the note on the next longer slide."""
SEVERITY: Final[Mapping[State, int]] = {"stop": 0, "watch": 1, "ok": 2}


@dataclass(frozen=True, slots=True)
class Place:
    """Where a note points to: a dimension of a view by its quantities, the first that is drawn, or a spot.

    `at` is the margin that the note stands in; `spot` names a point of the view that has no dimension.
    """

    view: ViewName
    at: Margin
    quantities: tuple[str, ...] = ()
    spot: str = ""


PLACES: Final[Mapping[str, Place]] = {
    "side-thickness": Place("plan", "left", ("side_gap",)),
    "hook-bore": Place("plan", "left", spot="hook"),
    "latch-side": Place("plan", "left", spot="bracket"),
    "latch-along": Place("plan", "left", spot="subfront"),
    "front-reach": Place("plan", "left", ("stands_out",)),
    "frame-sum": Place("plan", "left", ("overhang_left", "overhang_right")),
    "opening-width": Place("plan", "right", ("opening_width",)),
    "opening-taper": Place("plan", "right", ("opening_width",)),
    LONGER: Place("plan", "right", spot="longer"),
    "cabinet-depth": Place("plan", "right", ("opening_depth",)),
    "rear-bracket": Place("side", "right", ("reach",)),
    "front-gap": Place("front", "left", ("front_gap", "front_height")),
    "opening-height": Place("side", "right", ("opening_height", "box_height")),
}
"""Where each check has its place; the others stand in the list of what was also checked."""


@dataclass(frozen=True, slots=True)
class Note:
    """One check in two short lines. `place` is None where it speaks of no dimension."""

    id: str
    state: State
    margin: str
    name: str
    says: str
    place: Place | None


def notes_of(fitted: FittedDrawer, shown: Shown) -> tuple[Note, ...]:
    """All checks of a drawer in their order, and the next longer slide where the depth stopped it.

    Where nothing fits they are those of the nearest slide, and only those that keep it from fitting.
    """
    notes = []
    for check in fitted.checks:
        if fitted.slide is None and check.state == "ok":
            continue  # of a slide that does not go, what goes is no news
        name, says = short_words(check, fitted, shown)
        margin = check_margin_text(check.id, check.margin, check.unit, shown)
        notes.append(Note(check.id, check.state, margin, name, says, PLACES.get(check.id)))
    longer = longer_rejected(standing(fitted))
    if longer is not None:
        margin = margin_text(longer.margin, longer.unit, shown)
        name = f"Slide {hardware_text(longer.nominal, shown)},"
        says = "the next longer, hits the cabinet back."
        notes.append(Note(LONGER, "stop", margin, name, says, PLACES[LONGER]))
    return tuple(notes)


def in_order_of_care(notes: tuple[Note, ...]) -> list[Note]:
    """What wants care first, then what fits, each in its own order; last why the slide is not longer."""
    return sorted(notes, key=lambda note: (note.id == LONGER, SEVERITY[note.state]))
