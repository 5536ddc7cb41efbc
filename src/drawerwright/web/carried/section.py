"""What a drawer carries, in words for its sheet: main answers, notes, figures, what is missing, cautions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final
from urllib.parse import quote

from drawerwright.carry import CarriedDrawer, carry_job
from drawerwright.carry.carried import Slide
from drawerwright.carry.closing_words import let_go_words, pushed_words
from drawerwright.carry.sagging import sag_words
from drawerwright.carry.words import Words
from drawerwright.drawing.shown import Shown
from drawerwright.errors import InputError
from drawerwright.model.check_names import check_name
from drawerwright.model.fitted import Check, FittedDrawer, FittedJob, State
from drawerwright.pack.beside import in_order_of_care
from drawerwright.pack.carry_figures import STATE_WORDS, as_if_text, capacity_name, carry_margin_text
from drawerwright.pack.carry_page import carrying_cautions, worst_state
from drawerwright.pack.carry_rows import lean_words, row_groups
from drawerwright.pack.carry_unknown import missing_rows
from drawerwright.pack.figures import mass_text, mass_unit
from drawerwright.web.carried.asked import CarryQuestion
from drawerwright.web.carried.drawn import BentSlide, Chart, Diagram, bent_slide_of, chart_of, diagrams_of
from drawerwright.web.carried.positions import PlaceWords, Positions, measures, positions_of, words_at

CLOSING_CHECKS: Final = frozenset({"capture", "closes", "slam", "self-close", "stays-shut", "opening-force"})
_NO_SLIDE: Final = "No slide fits this drawer: nothing is drawn out."


@dataclass(frozen=True, slots=True)
class CheckNote:
    """A check as a note of a sheet, with its working and source."""

    id: str
    state: State
    margin: str
    name: str
    says: str
    working: str
    source: str


@dataclass(frozen=True, slots=True)
class LoadBar:
    """What moves against what may, in words and as shares [1] of the longer of the two."""

    words: str
    contents: float
    moving: float
    capacity: float


class CarrySection:
    """What one drawer carries; drawings are made when a page asks for them.

    `together`: the drawers of its cabinet, itself among them, for a cabinet that stands free tips with all of
    them. `out`: how far it is shown drawn out [mm].
    """

    def __init__(
        self,
        fitted: FittedDrawer,
        together: Sequence[FittedDrawer],
        question: CarryQuestion,
        *,
        out: float,
        shown: Shown,
    ) -> None:
        self.shown, self.out, self.question = shown, out, question
        self.words = Words(shown.units)
        self.carried: CarriedDrawer | None = None
        if not question.faults:
            job = FittedJob("", tuple(together) or (fitted,))
            try:
                found = carry_job(job, only=fitted.id, units=shown.units, where="", **question.options)
                self.carried = found.drawers[0]
            except InputError as error:
                self.question = question.with_faults(error.faults)

    @property
    def faults(self) -> Mapping[str, Any]:
        """What does not read, by the field it stands in."""
        return {fault.where: fault for fault in self.question.faults}

    @property
    def one(self) -> CarriedDrawer:
        """The drawer as the study found it; there is none where the question does not read."""
        assert self.carried is not None
        return self.carried

    @property
    def slide(self) -> Slide | None:
        """Its slide; None where nothing fits."""
        return self.one.slide

    @property
    def as_if(self) -> str:
        """On which slide its figures are told though none fits; empty where one does, or nothing is told."""
        return as_if_text(self.one, self.shown)

    @property
    def state(self) -> State:
        """The severest state of its checks."""
        return worst_state(self.one.checks) if self.slide is not None else "stop"

    @property
    def verdict(self) -> str:
        """That in words."""
        if self.slide is None:
            return "No slide fits"
        stopped = {check.id for check in self.one.checks if check.state == "stop"}
        if stopped == {"tipping"}:
            return "Carries, but its cabinet tips"
        known = self.state != "ok" or not self.one.missing
        return STATE_WORDS[self.state] + ("" if known else ", as far as is known")

    @property
    def short(self) -> list[str]:
        """The main answers, each in a few words."""
        told = []
        for state, word in (("stop", "stops"), ("watch", "with care")):
            found = [check_name(check.id).lower() for check in self.one.checks if check.state == state]
            if found:
                told.append(f"{word}: {', '.join(found)}")
        if self.bar is not None:
            told.append(self.bar.words)
        slide = self.one.figured
        if slide is None:
            return told
        if slide.data.has_sag:
            sag = float(slide.drawn.sag[-1])
            told.append(f"front {'rises' if sag < 0.0 else 'sags'} {self.words.length(abs(sag))} at full out")
        if slide.closing is not None:
            told.append("closes by itself" if slide.closing.let_go.closes else "does not close by itself")
        if self.one.missing:
            told.append("some data of the slide are missing")
        return told

    @property
    def bar(self) -> LoadBar | None:
        """What moves against the lowest capacity; None where either is not known."""
        one, mass = self.one, self.one.fitted.mass
        limit = one.limit
        if limit is None or one.load is None or one.load <= 0.0:
            return None
        whole = max(limit.moving, one.load)
        contents = 0.0 if mass is None else mass.contents
        told = f"{mass_text(one.load, self.shown)} of {mass_text(limit.moving, self.shown)}"
        name = capacity_name(limit)
        modified = ", modified test" if limit.modified and "modified" not in name else ""
        words = f"{told} {mass_unit(self.shown)}, {name}{modified}"
        return LoadBar(words, contents / whole, one.load / whole, limit.moving / whole)

    @property
    def load_says(self) -> str:
        """Load and capacity in a sentence."""
        check = next((one for one in self.one.checks if one.id == "load"), None)
        return "Nothing is known of what may move." if check is None else check.says

    @property
    def sag_says(self) -> str:
        """Sag at full travel and who makes it up."""
        slide = self.one.figured
        if slide is None:
            return _NO_SLIDE
        if not slide.data.has_sag:
            return "The sag is not known: the slide family does not tell what it goes by."
        return f"The front {sag_words(slide.drawn, self.words)}."

    @property
    def closing_says(self) -> list[str]:
        """How it closes, in sentences."""
        slide = self.one.figured
        if slide is None:
            return [_NO_SLIDE]
        closing = slide.closing
        if closing is None:
            return ["The slide family tells of no closing unit."]
        return [
            f"{pushed_words(closing, self.words)}.",
            f"{let_go_words(closing, self.words)}.",
            f"Lean to the front up to which it is drawn home at rest: {lean_words(closing.limit_tilt)}.",
        ]

    @property
    def notes(self) -> list[CheckNote]:
        """Every check, those that want care first."""
        return [self._note(check) for check in in_order_of_care(self.one.checks)]

    def _note(self, check: Check) -> CheckNote:
        margin = carry_margin_text(check, self.shown)
        return CheckNote(
            check.id, check.state, margin, check_name(check.id), check.says, check.working, check.source
        )

    @property
    def groups(self) -> list[tuple[str, list[tuple[str, str]]]]:
        """Titled groups of names and figures."""
        told = [
            (group["title"], [(row["title"], row["figures"]) for row in group["rows"]])
            for group in row_groups(self.one, self.words)
        ]
        sides = [] if self.one.figured is None else self._sides(self.one.figured)
        return [*told[:2], ("Load off centre", sides), *told[2:]] if sides else told

    def _sides(self, slide: Slide) -> list[tuple[str, str]]:
        if slide.sides is None:
            return []
        rows = [("Middle of the load, from the drawer's", self.words.length(slide.sides.off_centre))]
        for hand, share in slide.sides.shares.items():
            rows.append((f"{hand.capitalize()} slide carries", f"{100 * share:.0f} %".replace("-", "\u2212")))
            if slide.data.has_sag:
                sag = float(slide.sides.drawn[hand].sag[-1])
                rows.append(("Front sags over it", self.words.length(sag, 2)))
        deeper = slide.sides.out_of_level
        if deeper is not None:
            rows.append(
                (
                    f"Front's {'right' if deeper >= 0 else 'left'} end hangs deeper by",
                    self.words.length(abs(deeper), 2),
                )
            )
        return rows

    @property
    def missing(self) -> list[dict[str, str]]:
        """What the slide family does not tell, and how it is measured."""
        return missing_rows(self.one)

    @property
    def cautions(self) -> list[str]:
        """Cautions, those of a cabinet that stands free first."""
        tipping = self.one.tipping
        told = [] if tipping is None else list(tipping.cautions)
        return [*told, *(f"{one['who']}. {one['says']}" for one in carrying_cautions())]

    @cached_property
    def positions(self) -> Positions | None:
        """The slide over its travel; None without one or where nothing of it is known."""
        slide = self.slide
        if slide is None or not slide.data.has_forces:
            return None
        return positions_of(slide)

    @property
    def place(self) -> PlaceWords | None:
        """What it does where it is drawn out now."""
        if self.slide is None or self.positions is None:
            return None
        return words_at(self.slide, self.positions, self.out, self.shown)

    @cached_property
    def diagrams(self) -> tuple[Diagram, ...]:
        """Sag and forces over the travel."""
        return () if self.slide is None else diagrams_of(self.slide, self.shown)

    @cached_property
    def bent(self) -> BentSlide | None:
        """The slide bent."""
        if self.slide is None or self.positions is None:
            return None
        return bent_slide_of(self.slide, self.positions)

    @cached_property
    def chart(self) -> Chart | None:
        """The chart of closing with the drawer in it; None without a closing unit."""
        slide = self.slide
        unit = None if slide is None else slide.chosen.family.soft_close
        if slide is None or unit is None:
            return None
        return chart_of(unit, slide.data.travel, self.shown, slide.closing)

    @property
    def data(self) -> dict[str, Any] | None:
        """Everything that a script moves with the drawer."""
        if self.positions is None or self.slide is None:
            return None
        how = {
            name: {"per": one.per, "decimals": one.decimals, "unit": one.unit}
            for name, one in measures(self.shown).items()
        }
        return {
            "travel": self.slide.data.travel,
            "measures": how,
            "told": self.positions.document(),
            "diagrams": {one.name: one.document() for one in self.diagrams},
            "bent": None if self.bent is None else self.bent.document(),
        }

    @property
    def balance_address(self) -> str:
        """Where this drawer's cabinet stands on the page of cabinets; "" where it does not stand free."""
        tipping = self.one.tipping
        return "" if tipping is None else quote(tipping.cabinet.id, safe="")
