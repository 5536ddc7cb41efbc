"""Labels: one for each drawer that is built, with its sizes, its hands and a QR code that says the same."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any, Final

from drawerwright.drawing.wording import plain_text, shown_length
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.figures import box_text
from drawerwright.pack.label_grid import label_grid
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.papers import PaperName, papers
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.shown import Shown
from drawerwright.pack.typeset import forget_settings, set_document

LABELS: Final = 480
"""Most labels of one document, so that the compiler's memory stays bounded."""
LONGEST_TITLE: Final = 40
LONGEST_ID: Final = 40
"""Most characters of title and id in a code: more of them make it too fine to be read off a label."""
QUIET_ZONE: Final = 4
"""White around a code [modules] (ISO/IEC 18004, from memory)."""


def code_text(title: str, fitted: FittedDrawer) -> str:
    """What a label's code says: job, drawer, box width × height × length in mm, slide; no address."""
    told = [plain_text(title)[:LONGEST_TITLE], plain_text(fitted.id)[:LONGEST_ID]]
    if fitted.box is not None:
        sizes = (fitted.box.outside_width, fitted.box.height, fitted.box.length)
        told.append("box " + " x ".join(shown_length(size) for size in sizes) + " mm")
        told.append(slide_text(fitted).replace(" / ", "/"))
    return "\n".join(one for one in told if one)


def code_svg(text: str) -> str:
    """A QR code as SVG: 1 unit a module, error correction M, white around it.

    Source: ISO/IEC 18004 (QR code; a code of level M is read with 15 % of it lost, from memory).
    """
    import segno

    out = io.BytesIO()
    made = segno.make(text, error="m", micro=False, encoding=None if text.isascii() else "utf-8")
    made.save(
        out, kind="svg", border=QUIET_ZONE, xmldecl=False, svgclass=None, lineclass=None, omitsize=False
    )
    return out.getvalue().decode("utf-8")


def label_data(title: str, fitted: FittedDrawer, shown: Shown) -> dict[str, Any]:
    """One drawer's label, in words."""
    cabinet = fitted.drawer.cabinet
    row = "" if fitted.drawer.row is None else f", row {fitted.drawer.row}"
    text = code_text(title, fitted)
    unit = "in" if shown.in_inches else "mm"
    return {
        "id": for_sheets(fitted.id),
        "cabinet": for_sheets(f"Cabinet {cabinet}{row}") if cabinet is not None else "",
        "box": "" if fitted.box is None else f"{box_text(fitted.box, shown)} {unit}",
        "slide": for_sheets(slide_text(fitted)),
        "code": code_svg(text),
        "code_says": for_sheets("QR code: " + ", ".join(text.splitlines())),
    }


def _labels(fitted: FittedJob, shown: Shown) -> Iterator[dict[str, Any]]:
    """Labels of all drawers that fit, as many as are built."""
    for drawer in fitted.drawers:
        if drawer.box is None:
            continue
        one = label_data(fitted.title, drawer, shown)
        many = drawer.drawer.quantity
        for number in range(1, many + 1):
            yield {**one, "of": f"{number} of {many}" if many > 1 else ""}


def label_files(fitted: FittedJob, paper: PaperName, shown: Shown) -> Iterator[tuple[str, bytes]]:
    """`labels.pdf`, on an upright sheet; very many labels go on in further documents."""
    grid = label_grid(paper)
    parts = in_parts(tuple(_labels(fitted, shown)), LABELS)
    title = for_sheets(fitted.title) or "Drawers"
    for name, members in zip(part_names("labels", len(parts)), parts, strict=True):
        data = {
            "document_title": f"{title}: labels",
            "job": title,
            "paper": {"width": papers()[paper].height, "height": papers()[paper].width},
            "grid": {
                "columns": grid.columns,
                "rows": grid.rows,
                "width": grid.width,
                "height": grid.height,
                "left": grid.left,
                "top": grid.top,
            },
            "inches": shown.in_inches,
            "sheets": [members[at : at + grid.per_sheet] for at in range(0, len(members), grid.per_sheet)],
        }
        yield f"{name}.pdf", set_document("labels", data)
        if len(parts) > 1:
            forget_settings()
