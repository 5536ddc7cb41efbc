"""Line weights, lettering sizes, arrows and colours: one table for every drawing.

All sizes are mm on paper. They come from the house's drawer sheet, which is 1572 units wide and is
printed 281.55 mm wide on A4; lettering and line weights are given there in sheet units.
Source: own design of the drawer sheet (no outside source).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

LineClass: TypeAlias = Literal[
    "cut",
    "outline",
    "edge",
    "fine",
    "hidden",
    "centre",
    "hatch",
    "dimension",
    "leader",
    "frame",
    "accent",
    "accent-note",
]
Fill: TypeAlias = Literal["none", "wood", "metal", "paper", "ink", "accent"]
Tone: TypeAlias = Literal["ink", "mid", "fine", "accent"]

SHEET_UNIT: Final = 281.55 / 1572

DIMENSION_SIZE: Final = round(18 * SHEET_UNIT, 2)
NOTE_SIZE: Final = round(15.8 * SHEET_UNIT, 2)
CAPTION_SIZE: Final = round(17 * SHEET_UNIT, 2)
LABEL_SIZE: Final = round(15 * SHEET_UNIT, 2)

ARROW_LENGTH: Final = round(10 * SHEET_UNIT, 3)
ARROW_WIDTH: Final = round(3.8 * SHEET_UNIT, 3)
OUTSIDE_TAIL: Final = round(8 * SHEET_UNIT, 3)
EXTENSION_GAP: Final = round(5 * SHEET_UNIT, 3)
EXTENSION_BEYOND: Final = round(5 * SHEET_UNIT, 3)
LETTERING_CLEAR: Final = round(6 * SHEET_UNIT, 3)
DOT_RADIUS: Final = round(2.6 * SHEET_UNIT, 3)
HATCH_SPACING: Final = round(7.5 * SHEET_UNIT, 3)
HATCH_SPACING_CLOSE: Final = round(5.5 * SHEET_UNIT, 3)

ROW_FIRST: Final = 5.4
"""From the object to the first row of horizontal dimensions."""
ROW_STEP: Final = 4.7
"""From row to row of horizontal dimensions."""
COLUMN_FIRST: Final = 5.6
"""From the object to the first column of vertical dimensions, whose numbers lie across it."""
COLUMN_STEP: Final = 7.8
"""From column to column of vertical dimensions."""


@dataclass(frozen=True, slots=True)
class Pen:
    """How one class of line is drawn: weight [mm], tone, dashes [mm on, off, …], empty for a full line."""

    weight: float
    tone: Tone
    dashes: tuple[float, ...] = ()


def _units(*lengths: float) -> tuple[float, ...]:
    return tuple(round(length * SHEET_UNIT, 3) for length in lengths)


PENS: Final[dict[LineClass, Pen]] = {
    "cut": Pen(_units(2.3)[0], "ink"),
    "outline": Pen(_units(1.7)[0], "ink"),
    "edge": Pen(_units(1.15)[0], "mid"),
    "fine": Pen(_units(0.7)[0], "fine"),
    "hidden": Pen(_units(0.95)[0], "mid", _units(6, 3.5)),
    "centre": Pen(_units(0.7)[0], "fine", _units(16, 3, 3, 3)),
    "hatch": Pen(_units(0.55)[0], "mid"),
    "dimension": Pen(_units(0.9)[0], "fine"),
    "leader": Pen(_units(1.1)[0], "ink"),
    "frame": Pen(_units(1.6)[0], "ink"),
    "accent": Pen(_units(1.6)[0], "accent", _units(7, 4)),
    "accent-note": Pen(_units(1.0)[0], "accent"),
}


@dataclass(frozen=True, slots=True)
class Palette:
    """Colours of the tones and washes of one kind of paper, as #rrggbb."""

    tones: dict[Tone, str]
    fills: dict[Fill, str]


def _palette(*, ink: str, mid: str, fine: str, accent: str, paper: str, wood: str, metal: str) -> Palette:
    return Palette(
        {"ink": ink, "mid": mid, "fine": fine, "accent": accent},
        {"none": "none", "wood": wood, "metal": metal, "paper": paper, "ink": ink, "accent": accent},
    )


PaperKind: TypeAlias = Literal["screen", "print", "dark"]
PALETTES: Final[dict[PaperKind, Palette]] = {
    "screen": _palette(
        ink="#1d2226",
        mid="#3f474e",
        fine="#5b636b",
        accent="#b3261e",
        paper="#fcfbf7",
        wood="#f0ebdd",
        metal="#eceef0",
    ),
    "print": _palette(
        ink="#000000",
        mid="#222222",
        fine="#444444",
        accent="#a01810",
        paper="#ffffff",
        wood="#f3f0e8",
        metal="#eef0f2",
    ),
    "dark": _palette(
        ink="#efeae0",
        mid="#c9c6bd",
        fine="#a3a39c",
        accent="#ff8f7c",
        paper="#15191c",
        wood="#262a2b",
        metal="#20262b",
    ),
}
"""The class names in the SVG let a page recolour a drawing; these are for drawings that stand alone."""
