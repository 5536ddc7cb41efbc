"""A drawer's sheet: everything that a page or a fragment of one shows of an answer."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from drawerwright.drawing.sheet import scale_words
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.views.isometric import travel_of
from drawerwright.model.fitted import VERDICT_WORDS, FittedDrawer
from drawerwright.pack.figures import hardware_text, length_text
from drawerwright.pack.rounding import rounding_notes
from drawerwright.units import MM_PER_INCH
from drawerwright.web.sheet.asked import ARRANGEMENTS, Arrangement, Asked
from drawerwright.web.sheet.changes import ChangeRow, change_rows
from drawerwright.web.sheet.drawn import (
    DrawnBoard,
    DrawnView,
    PictureBox,
    draw_board,
    draw_stack,
    notes_under,
    picture_alone,
    stacked_picture,
)
from drawerwright.web.sheet.notes import LONGER, Note, notes_of
from drawerwright.web.sheet.picture import drawn_out
from drawerwright.web.sheet.rows import (
    CheckRow,
    Load,
    PartRow,
    Rows,
    TriedRow,
    box_words,
    check_rows,
    load_of,
    part_rows,
    tried_rows,
    work_rows,
)
from drawerwright.web.sheet.stack import Size
from drawerwright.web.sheet.views import DrawnViews, draw_views
from drawerwright.web.sheet.working import Unfolded, unfold

CHANGES_ON_BOARD: Final = 4
"""How many changes the wide sheet has room for; all of them stand under it."""
BAR: Final = 38.0
"""Longest scale bar [mm on paper]."""


@dataclass(frozen=True, slots=True)
class ScaleBar:
    """A bar in the title strip: true to the wide sheet. Lengths in mm on paper, words in what they mean."""

    length: float
    ticks: tuple[tuple[float, str], ...]
    unit: str
    words: str


class Sheet:
    """The sheet of one fitted drawer as it was asked for. What a page does not use is not computed.

    `texts`: those of all its fields, where the address has not all of them. `for_script`: it goes into a page
    that has one: without its picture, which follows, and with links that the page's script makes whole.
    """

    def __init__(
        self,
        fitted: FittedDrawer,
        asked: Asked,
        texts: Mapping[str, str] | None = None,
        *,
        for_script: bool = False,
    ) -> None:
        self.texts = asked.texts if texts is None else texts
        self.fitted = fitted
        self.asked = asked
        self.out = drawn_out(asked.out, fitted)
        self.for_script = for_script

    @property
    def shown(self) -> Shown:
        """How lengths are shown."""
        return self.asked.shown

    @cached_property
    def views(self) -> DrawnViews:
        """Plan, side and front at true size."""
        return draw_views(self.fitted, self.shown)

    @cached_property
    def notes(self) -> tuple[Note, ...]:
        """The notes of its margins."""
        return notes_of(self.fitted, self.shown)

    @cached_property
    def notes_under(self) -> dict[str, tuple[Note, ...]]:
        """Notes by the view that they stand under."""
        return dict(notes_under(self.notes))

    @cached_property
    def changes(self) -> tuple[ChangeRow, ...]:
        """What would make it fit."""
        return change_rows(self.fitted, self.asked, self.texts)

    @property
    def stops(self) -> tuple[Note, ...]:
        """What keeps it from fitting."""
        return tuple(note for note in self.notes if note.state == "stop" and note.id != LONGER)

    @cached_property
    def unfolded(self) -> Unfolded | None:
        """The working that is open."""
        return unfold(self.asked.show, self.fitted, self.shown) if self.asked.show else None

    @cached_property
    def board(self) -> DrawnBoard:
        """The wide sheet."""
        return draw_board(
            self.views,
            self.notes,
            self.asked,
            self.unfolded,
            out=self.out,
            changes=self._changes_on_board,
            picture=not self.for_script,
            address=self._links_to,
        )

    @property
    def folded(self) -> str:
        """The sheet's address with nothing unfolded."""
        return self.asked.address(show="")

    @property
    def _links_to(self) -> str:
        return "" if self.for_script else self.folded

    @property
    def _changes_on_board(self) -> int:
        if self.fitted.slide is not None:
            return 0
        return min(max(len(self.changes), 1), CHANGES_ON_BOARD)

    def stack(self, size: Size) -> tuple[DrawnView, ...]:
        """The views one below the other."""
        return draw_stack(self.views, size, self.asked, self.unfolded, self._links_to)

    @cached_property
    def stacked_picture(self) -> PictureBox:
        """The drawn-out picture by itself."""
        return stacked_picture(self.fitted, "mid", self.out, self.asked)

    def picture(self, arrangement: Arrangement) -> PictureBox | None:
        """The drawn-out picture of an arrangement alone."""
        return picture_alone(
            self.views,
            self.notes,
            self.asked,
            arrangement,
            out=self.out,
            changes=self._changes_on_board,
        )

    @property
    def travel(self) -> float:
        """How far the drawer comes out [mm]."""
        return travel_of(self.fitted)

    @property
    def out_text(self) -> str:
        """How far it is shown drawn out."""
        return inches_text(self.out) if self.shown.in_inches else hardware_text(round(self.out), Shown("mm"))

    @property
    def travel_text(self) -> str:
        """How far it comes out, with its unit in inches."""
        if self.shown.in_inches:
            return f"{inches_text(self.travel)} in"
        return hardware_text(self.travel, Shown("mm"))

    @property
    def section_words(self) -> str:
        """Where the side section is taken."""
        return "through the left slide" if self.views.stand.concealed else "through the box"

    @property
    def opening_words(self) -> str:
        """The opening's clear sizes."""
        opening = self.fitted.opening
        sizes = (opening.width, opening.height, opening.depth)
        return " × ".join(length_text(one, self.shown) for one in sizes)

    @property
    def verdict_words(self) -> str:
        """The verdict in words."""
        return VERDICT_WORDS[self.fitted.verdict]

    @property
    def slide_name(self) -> str:
        """The slide chosen, or the word for none."""
        slide = self.fitted.slide
        if slide is None:
            return "none"
        return f"{slide.family.id} / {hardware_text(slide.length.nominal, self.shown)}"

    @property
    def why_this(self) -> str:
        """Why this slide and no other, by what counts first in choosing; empty where there is none."""
        slide, asked = self.fitted.slide, self.fitted.drawer.slide
        if slide is None:
            return ""
        if "/" in asked:
            return "as asked for"
        return "longest box that fits" if asked == "auto" else "as asked for, longest box"

    @property
    def nearest_name(self) -> str:
        """The slide that came nearest where nothing fits."""
        slide = self.fitted.nearest
        return (
            "" if slide is None else f"{slide.family.id} / {hardware_text(slide.length.nominal, self.shown)}"
        )

    @property
    def box_words(self) -> str:
        """Size of the box."""
        return box_words(self.fitted, self.shown)

    @property
    def load(self) -> Load | None:
        """The load bar."""
        return load_of(self.fitted, self.shown)

    @property
    def checks(self) -> tuple[CheckRow, ...]:
        """Every check in full."""
        return check_rows(self.fitted, self.shown)

    @property
    def rounding(self) -> tuple[str, ...]:
        """What cutting by the inches would spoil, in sentences."""
        return rounding_notes(self.fitted, self.shown)

    @property
    def parts(self) -> tuple[PartRow, ...]:
        """Parts to cut."""
        return part_rows(self.fitted, self.shown)

    @property
    def work(self) -> Rows:
        """What is bored and mounted."""
        return work_rows(self.fitted, self.shown)

    @property
    def tried(self) -> tuple[TriedRow, ...]:
        """Slides that were tried and stopped."""
        return tried_rows(self.fitted, self.shown)

    @property
    def scale_bar(self) -> ScaleBar:
        """A bar of round lengths, true to the wide sheet."""
        scale = self.board.scale
        unit = 25.4 if self.shown.in_inches else 1.0
        steps = (1, 2, 3, 4, 6, 12, 24) if self.shown.in_inches else (10, 20, 50, 100, 200, 250, 500)
        step = max((one for one in steps if 3 * one * unit * scale <= BAR), default=steps[0])
        ticks = tuple((i * step * unit * scale, f"{i * step}") for i in range(4))
        name = "in" if self.shown.in_inches else "mm"
        return ScaleBar(ticks[-1][0], ticks, name, scale_words(scale))


def inches_text(mm: float) -> str:
    """A length [mm] in inches to a tenth, as a slider tells it."""
    return f"{mm / float(MM_PER_INCH):.1f}"


def arrangements_told(text: str | None) -> Collection[Arrangement]:
    """The arrangements that a fragment is wanted for; all of them where none is told."""
    told = [one for one in ARRANGEMENTS if one == text]
    return told or ARRANGEMENTS
