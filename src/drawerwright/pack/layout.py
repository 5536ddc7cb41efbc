"""Where things stand on a drawer's page [mm]: for the templates, and for the drawing that fills its room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.pack.papers import Paper

EDGE: Final = 8.0
"""From the paper's edge to the sheet's frame: wide enough for the margins of common office printers."""
TITLE_STRIP: Final = 15.5
MEASURED_STRIP: Final = 12.5
PADDING: Final = 3.5
FOOT_GAP: Final = 2.5
"""White kept above the title strip, on pages that run on as well."""
BAR_STRIP: Final = 7.5
CHECK_BAR: Final = 100.0
"""True length of the bar by which a print is checked."""
NOTES_SHARE: Final = 0.29
"""The column of checks at the right, of the width inside the frame."""
CORNER_WIDTH: Final = 54.0
"""Least width of the white beside the plan that is worth writing in."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The rooms of a page on one paper."""

    paper: Paper

    @property
    def board(self) -> float:
        """Between the measured strip and the white above the title strip."""
        return self.paper.height - 2 * EDGE - TITLE_STRIP - MEASURED_STRIP - FOOT_GAP

    @property
    def notes_width(self) -> float:
        """The column of checks, across."""
        return (self.paper.width - 2 * EDGE) * NOTES_SHARE

    @property
    def drawing_width(self) -> float:
        """Room of the drawing, across: all but the column of checks."""
        return self.paper.width - 2 * EDGE - self.notes_width - PADDING

    @property
    def drawing_height(self) -> float:
        """Room of the drawing, up: all but the strip of the bar."""
        return self.board - BAR_STRIP

    @property
    def beside_width(self) -> float:
        """Room of the words in the column of checks, across."""
        return self.notes_width - 2 * PADDING

    @property
    def beside_height(self) -> float:
        """Room of the words in the column of checks, up."""
        return self.board - PADDING - 1.0

    def document(self) -> dict[str, float]:
        """What the templates want to know."""
        return {
            "width": self.paper.width,
            "height": self.paper.height,
            "edge": EDGE,
            "title_strip": TITLE_STRIP,
            "measured_strip": MEASURED_STRIP,
            "padding": PADDING,
            "foot_gap": FOOT_GAP,
            "board": self.board,
            "bar_strip": BAR_STRIP,
            "notes": self.notes_width,
        }
