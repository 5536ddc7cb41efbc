"""Sheets of one drawer next to each other, each under its caption: the same opening on several slides."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import CAPTION_SIZE
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.scene import Primitive, Scene, translate
from drawerwright.drawing.sheet import drawer_sheet, scale_words
from drawerwright.drawing.shown import Units
from drawerwright.model.fitted import FittedDrawer

WIDTH: Final = 190.0
HEIGHT: Final = 190.0
BETWEEN: Final = 8.0
CAPTION: Final = 9.0


def sheets_side_by_side(
    answers: Sequence[FittedDrawer], captions: Sequence[str], units: Units = "mm"
) -> Scene:
    """One drawer's sheets from left to right, each with its caption and its scale above it.

    Raises:
        ValueError: captions and answers are not as many, or none, or a drawer is too large for the paper.
    """
    if not answers:
        raise ValueError("there is no drawer to draw")
    drawn: list[Primitive] = []
    told: list[str] = []
    for place, (answer, caption) in enumerate(zip(answers, captions, strict=True)):
        sheet = drawer_sheet(answer, WIDTH, HEIGHT, units=units)
        left = place * (WIDTH + BETWEEN)
        words = f"{caption}, {scale_words(sheet.scale)}"
        drawn.append(Text((left + 2.0, HEIGHT + CAPTION / 3), words, CAPTION_SIZE, weight="semibold"))
        drawn.extend(translate(sheet, left, 0.0).primitives)
        told.append(f"{words}: {sheet.alt}")
    width = len(answers) * (WIDTH + BETWEEN) - BETWEEN
    page = Bounds(0.0, 0.0, width, HEIGHT + CAPTION)
    title = f"Drawer {answers[0].id} on {len(answers)} slides"
    return Scene("compared", title, ". ".join(told), tuple(drawn), 1.0, page)
