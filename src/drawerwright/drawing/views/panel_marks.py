"""What drawings of panels share: outlines, banded edges, overall dimensions, bores in end grain."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import NOTE_SIZE
from drawerwright.drawing.primitives import Anchor, Text, line, polygon, rectangle
from drawerwright.drawing.scene import Dimension, LabelSide, Leader, Primitive
from drawerwright.drawing.shown import Units
from drawerwright.drawing.wording import hardware, shown, size_words
from drawerwright.model.fitted import FittedDrawer

OUTLINE: Final = "outline"
NOTCH: Final = "notch"
CENTRES: Final = "bore centres not cut"
BEFORE_BANDING: Final = "cut size before banding"


def outline(corners: Bounds | tuple[Point, ...]) -> Primitive:
    """The finished outline of a panel."""
    points = corners.corners if isinstance(corners, Bounds) else corners
    return polygon(points, "outline", "wood", OUTLINE)


def banding(fitted: FittedDrawer, part: str, area: Bounds, units: Units) -> list[Primitive]:
    """The size that is cut before banded edges get their banding, and a note; nothing where none is banded.

    The area is the finished panel, its length across.
    """
    found = next((each for each in fitted.parts if each.part == part), None)
    if found is None or not found.edged or found.edging <= 0:
        return []
    by = {edge: found.edging if edge in found.edged else 0.0 for edge in ("left", "right", "top", "bottom")}
    cut = Bounds(
        area.left + by["left"], area.bottom + by["bottom"], area.right - by["right"], area.top - by["top"]
    )
    where = "all round" if len(found.edged) == 4 else "at " + " and ".join(found.edged)
    size = f"cut {size_words(part, found.cut_length, found.cut_width, units, ' × ')}"
    says = f"banding {hardware(found.edging, units)} {where}, {size}"
    tip = (area.left + area.width * 0.3, cut.top)
    return [
        rectangle(cut, "fine", layer=BEFORE_BANDING),
        Leader(tip, (2.5, -2.6), 2.0, says, dot=False),
    ]


def overall(
    left: float, right: float, low: float, high: float, across: str, up: str, column: int = 1
) -> list[Primitive]:
    """Overall dimensions over the top and at the right."""
    width, height = right - left, high - low
    return [
        Dimension(across, width, (left, high), (right, high), "horizontal", high, row_offset(0)),
        Dimension(up, height, (right, low), (right, high), "vertical", right, column_offset(column)),
    ]


def cross_lines(at: Point, reach: float) -> list[Primitive]:
    """A chain cross through a bore's centre."""
    x, y = at
    return [
        line((x - reach, y), (x + reach, y), "centre", CENTRES),
        line((x, y - reach), (x, y + reach), "centre", CENTRES),
    ]


def end_bores(
    end: float, inward: float, heights: Sequence[float], diameter: float, depth: float, what: str
) -> list[Primitive]:
    """Bores into the end grain at x = `end`, hidden by the face; `inward` is 1 where they run right."""
    layer = f"{what} {diameter:g} mm deep {depth:g}"
    drawn: list[Primitive] = []
    for y in heights:
        a, b = sorted((end, end + inward * depth))
        drawn.append(rectangle(Bounds(a, y - diameter / 2, b, y + diameter / 2), "hidden", layer=layer))
        drawn.append(line((a - 3.0, y), (b + 3.0, y), "centre", CENTRES))
    return drawn


def row_of_heights(
    heights: Sequence[float],
    at: float,
    low: float,
    base: float,
    offset: float,
    quantity: str,
    units: Units,
) -> list[Primitive]:
    """An even row of bores, dimensioned: the first above `low`, then how many steps to the last."""
    if not heights:
        return []
    first = heights[0] - low
    side: LabelSide = "start"
    drawn: list[Primitive] = [
        Dimension(
            f"{quantity}_first", first, (base, low), (at, heights[0]), "vertical", base, offset,
            text=_text(first, units), label_side=side,
        )
    ]  # fmt: skip
    steps = len(heights) - 1
    if steps:
        whole = heights[-1] - heights[0]
        text = _text(whole, units)
        if steps > 1:
            text = f"{steps} × {_text(whole / steps, units)}"
        drawn.append(
            Dimension(
                f"{quantity}_row",
                whole,
                (at, heights[0]),
                (at, heights[-1]),
                "vertical",
                base,
                offset,
                text=text,
            )
        )
    return drawn


def _text(value: float, units: Units) -> str:
    return shown(value, units)


def side_word(at: Point, words: str, shift: Point = (0.0, 1.5), anchor: Anchor = "middle") -> Text:
    """A word at an edge of a panel that says which way it lies."""
    return Text(at, words, NOTE_SIZE, anchor, tone="fine", shift=shift)
