"""The sheets: a job sheet and a page for each distinct drawer, in one document or in several parts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from typing import Any, Final

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.model.fitted import FittedJob
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.drawer_page import page_data
from drawerwright.pack.job_sheet import job_sheet_data
from drawerwright.pack.layout import CHECK_BAR, Layout
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.shown import MILLIMETRES, Shown
from drawerwright.pack.standing_free import balances_by_cabinet
from drawerwright.pack.type_sizes import GAPS, SIZES
from drawerwright.pack.typeset import forget_settings, set_document

ALONE: Final = 80
"""Most distinct drawers whose sheets are one document: the compiler takes some 6 MB a page (measured)."""
PAGES: Final = 40
"""Most drawers of each document, where there are several."""


def sheets_data(
    fitted: FittedJob,
    distinct: Sequence[AlikeDrawers],
    layout: Layout,
    shown: Shown,
    tell: Callable[[str], None] = lambda _: None,
    part: tuple[int, int] = (1, 1),
) -> dict[str, Any]:
    """Everything the sheets of some distinct drawers show, in words, with each one's drawing.

    `part` is the number of this document and how many there are.
    """
    keys = tuple(f"sheet-{number}" for number in range(1, len(distinct) + 1))
    balances = balances_by_cabinet(fitted.drawers, shown.units)
    pages = []
    for alike, key in zip(distinct, keys, strict=True):
        pages.append(page_data(alike, drawing_of(alike, layout, shown), key, layout, shown, balances))
        tell(f"drawing of {alike.first.id}")
    title = for_sheets(fitted.title) or "Drawers"
    number, of = part
    return {
        "document_title": f"{title}: sheets" + (f", part {number} of {of}" if of > 1 else ""),
        "job": title,
        "paper": layout.document(),
        "bar": {"length": CHECK_BAR, "says": f"Print at 100 %: this bar is {CHECK_BAR:g} mm long"},
        "type": {"sizes": [list(one) for one in SIZES], "gaps": dict(GAPS)},
        "cover": job_sheet_data(fitted, distinct, keys, shown, part, balances),
        "sheets": pages,
    }


def drawing_of(alike: AlikeDrawers, layout: Layout, shown: Shown) -> tuple[Scene, Shown]:
    """The drawing, and the units that its numbers are in.

    In both units it is in mm: two numbers at every line would leave the drawing no room, and the words beside
    it have the inches. So it is where inches leave no scale at which their fractions find room.
    """
    room = layout.drawing_width, layout.drawing_height
    if shown.in_inches:
        with suppress(ValueError):
            return drawer_sheet(alike.first, *room, units=shown), shown
    return drawer_sheet(alike.first, *room), MILLIMETRES


def sheet_files(
    fitted: FittedJob,
    distinct: Sequence[AlikeDrawers],
    layout: Layout,
    shown: Shown,
    tell: Callable[[str], None] = lambda _: None,
) -> Iterator[tuple[str, bytes]]:
    """`sheets.pdf`; for very many distinct drawers `sheets-01.pdf` and so on, each with its own job sheet."""
    parts = in_parts(distinct, PAGES if len(distinct) > ALONE else ALONE)
    for number, (name, members) in enumerate(zip(part_names("sheets", len(parts)), parts, strict=True), 1):
        data = sheets_data(fitted, members, layout, shown, tell, (number, len(parts)))
        yield f"{name}.pdf", set_document("sheets", data)
        tell(name)
        if len(parts) > 1:
            forget_settings()
