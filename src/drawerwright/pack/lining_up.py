"""The lining-up sheet: each front with an empty box at every gap, its adjusters, and the order of work."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Any, Final

from drawerwright.align.adjusters import marks_between, travel_of
from drawerwright.align.front_geometry import front_geometry
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.views.front_gaps import front_gaps
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.gaps import ADJUSTER_NAMES, AdjusterName
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.layout import EDGE, FOOT_GAP, PADDING, TITLE_STRIP, Layout
from drawerwright.pack.lettering import for_sheets, id_for_sheets
from drawerwright.pack.papers import Paper
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.picture_scale import Picture
from drawerwright.pack.typeset import forget_settings, set_document
from drawerwright.units import format_length

FRONTS: Final = 240
"""Most fronts of one document, so that the compiler's memory stays bounded."""
ON_A_PAGE: Final = 4
WHITE: Final = 0.6
"""White around a picture [mm]. Own choice."""
STEPS: Final = 62.0
"""Width of the column that tells the order of work [mm]. Own choice."""
BESIDE: Final = 21.0
"""Height under a picture for what the adjusters can do [mm]. Own choice."""
PLUS: Final[dict[AdjusterName, str]] = {"side": "to the right", "height": "up", "depth": "out", "tilt": "up"}
"""Which way an adjuster's marks count up; left and right as one stands in front."""
HEAD: Final = 8.0
"""Height over a picture for names [mm]. Own choice."""


@cache
def _steps() -> tuple[dict[str, str], ...]:
    text = files(__package__).joinpath("lining_up_steps.toml").read_text(encoding="utf-8")
    return tuple(tomllib.loads(text)["step"])


def fronts_of(fitted: FittedJob) -> list[FittedDrawer]:
    """The drawers that fit and have a front."""
    return [
        one
        for one in fitted.drawers
        if one.slide is not None and one.front is not None and one.front.style != "none"
    ]


def adjuster_rows(family: SlideFamily) -> list[list[str]]:
    """Name, marks and the move of a mark of each adjuster of a family; none of one without."""
    rows = []
    for adjuster in ADJUSTER_NAMES:
        low, high = marks_between(family, adjuster)
        if low == high == 0 or family.carriage == "side-mounted":
            continue
        step = format_length(travel_of(family, adjuster)[2], decimals=2)
        marks = f"{low} to {high}, + {PLUS[adjuster]}".replace("-", "\u2212")
        rows.append([adjuster, marks, step])
    return rows


def front_data(one: FittedDrawer, of: str, width: float, height: float) -> dict[str, Any]:
    """The quarter page of one front, in a room of so many mm."""
    assert one.slide is not None
    shape = front_geometry(one)
    scene = front_gaps(one.id, shape.width, shape.height)
    picture = Picture(scene, extent(scene).grown(WHITE))
    fits = picture.room.width <= width - 2 * PADDING and picture.room.height <= height - HEAD - BESIDE
    return {
        "id": id_for_sheets(one.id),
        "of": of,
        "slide": id_for_sheets(slide_text(one)),
        "aim": f"Aim at gaps of {format_length(one.drawer.front.gap, decimals=2)}, alike",
        "drawing": picture.document() if fits else None,
        "adjusters": adjuster_rows(one.slide.family),
    }


def lining_up_files(fitted: FittedJob, paper: Paper) -> Iterator[tuple[str, bytes]]:
    """`lining-up.pdf`; very many fronts go on in further documents. Gaps are in mm whatever the units."""
    built = [
        (one, f"{number} of {one.drawer.quantity}" if one.drawer.quantity > 1 else "")
        for one in fronts_of(fitted)
        for number in range(1, one.drawer.quantity + 1)
    ]
    width = (paper.width - 2 * EDGE - STEPS) / 2
    height = (paper.height - 2 * EDGE - TITLE_STRIP - FOOT_GAP) / 2
    parts = in_parts(built, FRONTS)
    title = for_sheets(fitted.title) or "Drawers"
    for name, members in zip(part_names("lining-up", len(parts)), parts, strict=True):
        fronts = [front_data(one, of, width, height) for one, of in members]
        data = {
            "document_title": f"{title}: lining up",
            "job": title,
            "paper": Layout(paper).document(),
            "steps": list(_steps()),
            "steps_width": STEPS,
            "head": HEAD,
            "beside": BESIDE,
            "pages": _pages(fronts),
        }
        yield f"{name}.pdf", set_document("lining-up", data)
        if len(parts) > 1:
            forget_settings()


def _pages(fronts: Sequence[dict[str, Any]]) -> list[Sequence[dict[str, Any]]]:
    return [fronts[at : at + ON_A_PAGE] for at in range(0, len(fronts), ON_A_PAGE)]
