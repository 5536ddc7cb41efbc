"""The pictures: each cabinet's elevation, and each distinct drawer drawn out and taken apart.

Drawers of a cabinet that tell their rows are seen together from the front. Every drawer that fits then has
half a page: in its cabinet in isometric, drawn out by two thirds, and its parts drawn apart with their names.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any, Final, TypeAlias

from drawerwright.drawing.views.elevation import cabinet_elevation
from drawerwright.drawing.views.exploded import exploded
from drawerwright.drawing.views.isometric import isometric, travel_of
from drawerwright.model.columns import columns_of
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.job import Contents
from drawerwright.pack.beside import short_ids
from drawerwright.pack.column_sums import column_data
from drawerwright.pack.distinct import AlikeDrawers, gather_alike
from drawerwright.pack.drawer_page import scale_text, slide_text
from drawerwright.pack.figures import VERDICT_STATES, VERDICT_WORDS, box_text, counted, length_text, part_text
from drawerwright.pack.layout import EDGE, FOOT_GAP, NOTES_SHARE, PADDING, TITLE_STRIP, Layout
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.papers import Paper
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.picture_scale import Picture, as_large_as_fits
from drawerwright.pack.shown import MILLIMETRES, Shown
from drawerwright.pack.typeset import forget_settings, set_document

PAGES: Final = 80
"""Most cabinets and distinct drawers of one document, so that the compiler's memory stays bounded."""
DRAWN_OUT: Final = 2 / 3
"""Share of its travel by which a drawer is drawn out: box, slides and cabinet are all seen. Own choice."""
HEAD: Final = 8.5
"""Strip above the drawings with names and sizes [mm]."""
CAPTION: Final = 5.5
"""Strip under each drawing with what it shows and its scale [mm]."""
BOTH_SHARE: Final = 0.38
"""Column of the sums where inches stand beside millimetres, of the width inside the frame."""
APART_SHARE: Final = 0.63
"""Most of the width that the parts drawn apart may take: the other drawing wants the rest. Own choice."""

Cabinet: TypeAlias = tuple[FittedDrawer, ...]


def cabinets_of(fitted: FittedJob) -> tuple[Cabinet, ...]:
    """The drawers of each cabinet that tell their rows, lowest first, in the job's order of cabinets."""
    by_id = {one.id: one for one in fitted.drawers}
    columns = columns_of(one.drawer for one in fitted.drawers)
    return tuple(tuple(by_id[drawer.id] for drawer in column) for column in columns.values())


def drawers_to_draw(distinct: Sequence[AlikeDrawers]) -> tuple[AlikeDrawers, ...]:
    """The drawers that fit, those of one picture together: what they carry and its checks are not seen."""
    fit = [alike for alike in distinct if alike.first.slide is not None and alike.first.box is not None]
    by_id = {alike.first.id: alike for alike in fit}
    alike_in_picture = gather_alike([_as_seen(alike.first) for alike in fit])
    return tuple(
        AlikeDrawers(tuple(one for seen in group.drawers for one in by_id[seen.id].drawers))
        for group in alike_in_picture
    )


def _as_seen(fitted: FittedDrawer) -> FittedDrawer:
    """The drawer without what no picture shows; its verdict stands beside the picture, and stays."""
    drawer = fitted.drawer.model_copy(update={"contents": Contents()})
    return replace(
        fitted,
        drawer=drawer,
        mass=None,
        capacity=None,
        checks=(),
        changes=(),
        rejected=(),
        retrofit=(),
        way_out=None,
    )


def elevation_data(fitted: FittedJob, cabinet: Cabinet, paper: Paper, shown: Shown) -> dict[str, Any]:
    """The page of one cabinet: its elevation, and beside it the sums of its column where there is one."""
    name = cabinet[0].drawer.cabinet or ""
    column = next((one for one in fitted.columns if one.cabinet == name), None)
    width, height = room_of(paper)
    share = 0.0 if column is None else BOTH_SHARE if shown.both else NOTES_SHARE
    scene = cabinet_elevation(cabinet, units=shown)
    picture = as_large_as_fits(scene, width * (1 - share) - 2 * PADDING, height - 2 * PADDING)
    return {
        "kind": "elevation",
        "cabinet": for_sheets(name),
        "drawers": for_sheets(short_ids(tuple(one.id for one in cabinet))),
        "scale": _scale(picture),
        "column_width": width * share,
        "drawing": _document(picture),
        "column": None if column is None else column_data(column, shown),
    }


def drawer_data(alike: AlikeDrawers, paper: Paper, shown: Shown) -> dict[str, Any]:
    """The half page of drawers that are alike: drawn out, and taken apart.

    Raises:
        ValueError: the drawer does not fit.
    """
    fitted = alike.first
    assert fitted.box is not None
    travel = travel_of(fitted)
    out = float(math.floor(travel * DRAWN_OUT))
    width, height = room_of(paper)
    width -= 2 * PADDING
    height = height / 2 - HEAD - CAPTION - PADDING
    # Two units of three sizes at every part would leave the parts no room: then mm, as in the drawer's sheet.
    units = MILLIMETRES if shown.both else shown
    taken_apart = exploded(fitted, units=units, sizes=lambda part: part_text(part, shown))
    apart = as_large_as_fits(taken_apart, width * APART_SHARE, height, names_beside=True)
    used = width * APART_SHARE if apart is None else apart.room.width
    drawn_out = as_large_as_fits(isometric(fitted, out, units=shown), width - used - 2 * PADDING, height)
    return {
        "kind": "drawer",
        "ids": for_sheets(short_ids(alike.ids)),
        "count": counted(alike.count, "to build", "to build") if alike.count > 1 else "",
        "slide": for_sheets(slide_text(fitted)),
        "box": f"Box {box_text(fitted.box, shown)}" + (" in" if shown.in_inches else " mm"),
        "state": VERDICT_STATES[fitted.verdict],
        "verdict": VERDICT_WORDS[fitted.verdict],
        "drawings": [
            {
                "caption": f"Drawn out by {length_text(out, shown)} of {length_text(travel, shown)}",
                "scale": _scale(drawn_out),
                "drawing": _document(drawn_out),
            },
            {
                "caption": f"Taken apart, sizes in {'inches' if shown.in_inches else 'mm'}",
                "scale": _scale(apart),
                "drawing": _document(apart),
            },
        ],
    }


def room_of(paper: Paper) -> tuple[float, float]:
    """Width and height inside the frame and above the title strip [mm]."""
    return paper.width - 2 * EDGE, paper.height - 2 * EDGE - TITLE_STRIP - FOOT_GAP


def _scale(picture: Picture | None) -> str:
    return "too large to draw" if picture is None else scale_text(picture.scene.scale)


def _document(picture: Picture | None) -> dict[str, str | float] | None:
    return None if picture is None else picture.document()


def picture_files(
    fitted: FittedJob,
    drawn: Sequence[AlikeDrawers],
    paper: Paper,
    shown: Shown,
    tell: Callable[[str], None] = lambda _: None,
) -> Iterator[tuple[str, bytes]]:
    """`pictures.pdf` with the drawers `drawn`; of very many drawers `pictures-01.pdf` and so on."""
    things: list[Cabinet | AlikeDrawers] = [*cabinets_of(fitted), *drawn]
    parts = in_parts(things, PAGES)
    title = for_sheets(fitted.title) or "Drawers"
    for name, members in zip(part_names("pictures", len(parts)), parts, strict=True):
        elevations, drawers = [], []
        for one in members:
            if isinstance(one, AlikeDrawers):
                drawers.append(drawer_data(one, paper, shown))
                tell(f"pictures of {one.first.id}")
            else:
                elevations.append(elevation_data(fitted, one, paper, shown))
        data = {
            "document_title": f"{title}: pictures",
            "job": title,
            "paper": Layout(paper).document(),
            "head": HEAD,
            "caption": CAPTION,
            "inches": shown.with_inches,
            "unit": {"mm": "mm", "in": "inches", "both": "mm (inches)"}[shown.units],
            "elevations": elevations,
            "pages": [drawers[at : at + 2] for at in range(0, len(drawers), 2)],
        }
        yield f"{name}.pdf", set_document("pictures", data)
        tell(name)
        if len(parts) > 1:
            forget_settings()
