"""The data of one distinct drawer's page: everything already in words, for the template to set."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.beside import beside, short_ids, tried_rows
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.figures import (
    GRAIN_WORDS,
    VERDICT_STATES,
    VERDICT_WORDS,
    counted,
    mass_text,
    mass_unit,
    millimetres,
    part_inches,
    part_text,
)
from drawerwright.pack.free_corner import free_corner
from drawerwright.pack.front_rows import front_rows
from drawerwright.pack.layout import CORNER_WIDTH, PADDING, Layout
from drawerwright.pack.lettering import for_sheets, lettered
from drawerwright.pack.measured import also_told, measured_fields
from drawerwright.pack.shown import Shown
from drawerwright.pack.standing_free import Balances
from drawerwright.pack.type_sizes import first_step


def slide_text(fitted: FittedDrawer) -> str:
    """The chosen slide as family / nominal length; a dash where there is none."""
    if fitted.slide is None:
        return "–"
    return f"{fitted.slide.family.id} / {millimetres(fitted.slide.length.nominal)}"


def _load(fitted: FittedDrawer, shown: Shown) -> dict[str, Any] | None:
    """What moves against what the pair carries, in words and as shares of the longer of the two."""
    mass, capacity = fitted.mass, fitted.capacity
    if mass is None or capacity is None or capacity <= 0 or fitted.slide is None:
        return None
    whole = max(capacity, mass.moving)
    moving, contents, most = (mass_text(one, shown) for one in (mass.moving, mass.contents, capacity))
    unit = mass_unit(shown)
    text = f"Moving {moving} of {most} {unit}, contents {contents}"
    if fitted.slide.family.capacity_of == "contents":
        text = f"Contents {contents} of {most} {unit}, moving {moving}"
    return {"text": text, "box": (mass.moving - mass.contents) / whole, "contents": mass.contents / whole}


def _parts(fitted: FittedDrawer, shown: Shown) -> list[dict[str, str]]:
    return [
        {
            "count": str(part.count),
            "part": for_sheets(part.part),
            "grain": GRAIN_WORDS[part.grain],
            "size": part_text(part, shown),
            "inches": " × ".join(part_inches(part, shown)) if shown.both else "",
        }
        for part in fitted.parts
    ]


def _named(rows: Iterable[tuple[str, str]]) -> list[dict[str, str]]:
    return [{"name": for_sheets(name), "value": for_sheets(value)} for name, value in rows]


def _corner(fitted: FittedDrawer, shown: Shown) -> list[dict[str, Any]]:
    """What stands in the white beside the plan: parts, bores, front; where nothing fits, what was tried."""
    if fitted.slide is None:
        title = "What was tried, and what each family lacks"
        return [{"kind": "rejected", "title": title, "rows": tried_rows(fitted.rejected, shown)}]
    unit = {
        "mm": "length × width × thickness, mm",
        "in": "in; sizes rounded down, sides' length nearest",
        "both": "l × w × t, mm",
    }[shown.units]
    groups: list[dict[str, Any]] = [
        {"kind": "parts", "title": "Cut", "rows": [{"unit": unit, "parts": _parts(fitted, shown)}]},
        {"kind": "bores", "title": "Bore and mount", "rows": _named(bore_rows(fitted, shown))},
        {"kind": "bores", "title": "Fix the front", "rows": _named(front_rows(fitted, shown))},
    ]
    return [one for one in groups if one["rows"]]


def scale_text(scale: float) -> str:
    """A scale as 1 : 7, or 2 : 1 where it enlarges."""
    if scale > 1:
        return f"{scale:g} : 1"
    return f"1 : {round(1 / scale, 6):g}"


def _drawing(scene: Scene, numbers: Shown, shown: Shown) -> dict[str, Any]:
    groups = tuple(drawn(scene))
    page = scene.page or scene.bounds
    corner = free_corner(groups, page, CORNER_WIDTH)
    # Laid out once: on paper no dimension answers, so that its lines and letters may stand by themselves.
    plain = replace(scene, primitives=tuple(item for group in groups for item in group.items))
    return {
        "svg": lettered(write_svg(plain, paper="print")),
        "width": page.width,
        "height": page.height,
        "alt": lettered(scene.alt),
        "corner_width": corner.width,
        "corner_height": corner.height,
        "scale_text": f"Drawn {scale_text(scene.scale)}"
        + (" in mm" if shown.with_inches and not numbers.with_inches else ""),
    }


def page_data(
    alike: AlikeDrawers,
    drawn: tuple[Scene, Shown],
    key: str,
    layout: Layout,
    shown: Shown,
    balances: Balances | None = None,
) -> dict[str, Any]:
    """The page of drawers that are alike; `key` is what the job sheet finds it by.

    `drawn` is the drawing, with the units of its numbers; `balances` of the cabinets that stand free.
    """
    fitted = alike.first
    drawing, corner, told = _drawing(*drawn, shown), _corner(fitted, shown), beside(alike, shown, balances)
    made = f"Drawer, {counted(alike.count, 'to build', 'to build')}" if alike.count > 1 else "Drawer"
    return {
        "key": key,
        "inches": shown.with_inches,
        "ids_name": made,
        "ids_short": for_sheets(short_ids(alike.ids)),
        "slide": for_sheets(slide_text(fitted)),
        "state": VERDICT_STATES[fitted.verdict],
        "verdict": VERDICT_WORDS[fitted.verdict],
        "load": _load(fitted, shown),
        "measured": measured_fields(fitted, shown),
        "also": also_told(fitted, shown),
        "drawing": drawing,
        "corner": corner,
        "corner_step": first_step(corner, drawing["corner_width"], drawing["corner_height"] - PADDING),
        "beside": told,
        "beside_step": first_step(told, layout.beside_width, layout.beside_height),
    }
