"""Where things stand on a drawer's page [mm]: for the templates, and for the drawing that fills its room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.pack.papers import Paper

EDGE: Final = 8.0
"""From the paper's edge to the sheet's frame: wide enough for the margins of common office printers."""
TITLE_STRIP: Final = 16.5
MEASURED_STRIP: Final = 13.5
PADDING: Final = 3.5
BAR_STRIP: Final = 8.0
CHECK_BAR: Final = 100.0
"""True length of the bar by which a print is checked."""
NOTES_SHARE: Final = 0.285
FOOT_SHARE: Final = 0.345


@dataclass(frozen=True, slots=True)
class Layout:
    """The rooms of a page on one paper."""

    paper: Paper

    @property
    def width(self) -> float:
        """Inside the frame, across."""
        return self.paper.width - 2 * EDGE

    @property
    def board(self) -> float:
        """Between the measured strip and the title strip."""
        return self.paper.height - 2 * EDGE - TITLE_STRIP - MEASURED_STRIP

    @property
    def notes_width(self) -> float:
        """The column of checks at the right."""
        return self.width * NOTES_SHARE

    @property
    def foot(self) -> float:
        """Height of the columns under the drawing."""
        return self.board * FOOT_SHARE

    @property
    def drawing_width(self) -> float:
        """Room of the drawing, across."""
        return self.width - self.notes_width - 2 * PADDING

    @property
    def drawing_height(self) -> float:
        """Room of the drawing, up."""
        return self.board - self.foot - BAR_STRIP - PADDING

    def document(self) -> dict[str, float]:
        """What the templates want to know."""
        return {
            "width": self.paper.width,
            "height": self.paper.height,
            "edge": EDGE,
            "title_strip": TITLE_STRIP,
            "measured_strip": MEASURED_STRIP,
            "padding": PADDING,
            "bar_strip": BAR_STRIP,
            "notes": self.notes_width,
            "foot": self.foot,
        }
