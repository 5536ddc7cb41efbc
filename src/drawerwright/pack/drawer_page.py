"""The data of one distinct drawer's page: everything already in words, for the template to set."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.model.fitted import Check, FittedDrawer, Mount, Rejected
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.figures import (
    GRAIN_WORDS,
    MOUNT_WORDS,
    STATE_WORDS,
    VERDICT_STATES,
    VERDICT_WORDS,
    counted,
    inches,
    length_text,
    margin_text,
    mass_text,
    mass_unit,
    millimetres,
    size_text,
)
from drawerwright.pack.free_corner import free_corner
from drawerwright.pack.layout import CORNER_WIDTH
from drawerwright.pack.lettering import for_sheets, lettered
from drawerwright.pack.main_workings import main_workings
from drawerwright.pack.measured import also_told, measured_fields
from drawerwright.units import ShownUnits

SHORT_NOTES: Final = 240
"""Most characters of notes that may stand before the checks; longer ones come last."""

NO_CHANGE: Final = {
    "by": "None found",
    "says": "No single change of depth, width, sides or contents makes it fit.",
}
_SEVEREST: Final = {"stop": 0, "watch": 1, "ok": 2}


def check_name(check_id: str) -> str:
    """A check's id in words."""
    return check_id.replace("-", " ").capitalize()


def in_order_of_care(checks: tuple[Check, ...]) -> list[Check]:
    """Checks with what stops first, then what wants care, each in its own order."""
    return sorted(checks, key=lambda check: _SEVEREST[check.state])


def slide_text(fitted: FittedDrawer) -> str:
    """The chosen slide as family / nominal length; a dash where there is none."""
    if fitted.slide is None:
        return "–"
    return f"{fitted.slide.family.id} / {millimetres(fitted.slide.length.nominal)}"


def short_ids(ids: tuple[str, ...], room: int = 30) -> str:
    """As many ids as find room [characters], the rest counted."""
    if len(", ".join(ids)) <= room:
        return ", ".join(ids)
    shown = list(ids)
    while len(shown) > 1 and len(", ".join(shown)) > room - 8:
        shown.pop()
    left = len(ids) - len(shown)
    return ", ".join(shown) + (f" and {left} more" if left else "")


def _load(fitted: FittedDrawer, units: ShownUnits) -> dict[str, Any] | None:
    """What moves against what the pair carries, in words and as shares of the longer of the two."""
    mass, capacity = fitted.mass, fitted.capacity
    if mass is None or capacity is None or capacity <= 0 or fitted.slide is None:
        return None
    whole = max(capacity, mass.moving)
    moving, contents, most = (mass_text(one, units) for one in (mass.moving, mass.contents, capacity))
    unit = mass_unit(units)
    text = f"Moving {moving} of {most} {unit}, contents {contents}"
    if fitted.slide.family.capacity_of == "contents":
        text = f"Contents {contents} of {most} {unit}, moving {moving}"
    return {"text": text, "box": (mass.moving - mass.contents) / whole, "contents": mass.contents / whole}


def _parts(fitted: FittedDrawer, units: ShownUnits) -> list[dict[str, str]]:
    return [
        {
            "count": str(part.count),
            "part": for_sheets(part.part),
            "grain": GRAIN_WORDS[part.grain],
            "size": size_text((part.length, part.width, part.thickness), units),
            "inches": " × ".join(inches(size) for size in (part.length, part.width, part.thickness))
            if units == "both"
            else "",
        }
        for part in fitted.parts
    ]


def _amount(value: float, unit: str, units: ShownUnits) -> str:
    """A margin without its unit."""
    if unit == "mm" and units == "in":
        return inches(value)
    if unit == "mm":
        return millimetres(value)
    return margin_text(value, unit, units).removesuffix(f" {unit}")


def tried_rows(rejected: Sequence[Rejected], units: ShownUnits) -> list[dict[str, str]]:
    """What was tried: one row a family, mount and reason, each length with how far it was off."""
    groups: dict[tuple[str, Mount, str, str], list[Rejected]] = {}
    for one in rejected:
        groups.setdefault((one.family, one.mount, one.because, one.unit), []).append(one)
    rows = []
    for (family, mount, because, unit), members in groups.items():
        shown = "in" if unit == "mm" and units == "in" else unit
        tried = (
            f"{length_text(one.nominal, units)} by {_amount(-one.margin, unit, units)}" for one in members
        )
        rows.append(
            {
                "slide": for_sheets(family),
                "because": for_sheets(f"{MOUNT_WORDS[mount]}: {check_name(because).lower()}"),
                "lengths": for_sheets(f"{', '.join(tried)} {shown}".strip()),
            }
        )
    return rows


def _corner(fitted: FittedDrawer, units: ShownUnits) -> list[dict[str, Any]]:
    """What stands in the white beside the plan: parts, bores, working; where nothing fits, what was tried."""
    if fitted.slide is None:
        title = "What was tried, and by how much it stops"
        return [{"kind": "rejected", "title": title, "rows": tried_rows(fitted.rejected, units)}]
    bores = [
        {"name": for_sheets(name), "value": for_sheets(value)} for name, value in bore_rows(fitted, units)
    ]
    unit = "length × width × thickness, " + ("in" if units == "in" else "mm")
    told = main_workings(fitted)
    in_mm = all(figures.endswith(" mm") for _, figures in told)
    workings = [
        {"title": for_sheets(name), "figures": for_sheets(figures.removesuffix(" mm") if in_mm else figures)}
        for name, figures in told
    ]
    return [
        {"kind": "parts", "title": "Cut", "rows": [{"unit": unit, "parts": _parts(fitted, units)}]},
        {"kind": "bores", "title": "Bore and mount", "rows": bores},
        {
            "kind": "working",
            "title": "Working, mm" if in_mm else "Working",
            "rows": [workings[at : at + 2] for at in range(0, len(workings), 2)],
        },
    ]


def _beside(alike: AlikeDrawers, units: ShownUnits) -> list[dict[str, Any]]:
    """The column beside the drawing: what would make it fit, or the checks; notes first if short."""
    fitted = alike.first
    checks = [_check(check, units) for check in in_order_of_care(fitted.checks)] + _next_longer(fitted, units)
    if fitted.slide is None:
        changes = [
            {"by": for_sheets(_signed(change.by, change.unit, units)), "says": for_sheets(change.says)}
            for change in fitted.changes
        ] or [NO_CHANGE]
        told: list[dict[str, Any]] = [
            {"kind": "changes", "title": "Smallest changes that make it fit", "rows": changes},
            {"kind": "checks", "title": "The nearest slide tried", "rows": checks},
        ]
    else:
        told = [{"kind": "checks", "title": "Checks", "rows": checks}]
    notes = _notes(alike)
    if sum(len(note["who"] + note["says"]) for note in notes) <= SHORT_NOTES:
        told.insert(0, {"kind": "notes", "title": "Notes", "rows": notes})
    else:
        told.append({"kind": "notes", "title": "Notes", "rows": notes})
    return [one for one in told if one["rows"]]


def _signed(value: float, unit: str, units: ShownUnits) -> str:
    text = margin_text(value, unit, units)
    return text if text.startswith("−") else f"+{text}"


def _check(check: Check, units: ShownUnits) -> dict[str, str]:
    return {
        "state": check.state,
        "word": STATE_WORDS[check.state],
        "margin": margin_text(check.margin, check.unit, units),
        "name": check_name(check.id),
        "says": for_sheets(check.says),
    }


def _next_longer(fitted: FittedDrawer, units: ShownUnits) -> list[dict[str, str]]:
    """Why not longer: what stopped the next longer slide of the chosen family, as a check's row."""
    slide = fitted.slide
    if slide is None:
        return []
    longer = [
        one
        for one in fitted.rejected
        if one.family == slide.family.id and one.mount == slide.mount and one.nominal > slide.length.nominal
    ]
    if not longer:
        return []
    next_one = min(longer, key=lambda one: one.nominal)
    return [
        {
            "state": "stop",
            "word": STATE_WORDS["stop"],
            "margin": margin_text(next_one.margin, next_one.unit, units),
            "name": f"Slide {length_text(next_one.nominal, units)}",
            "says": f"The next longer slide would not fit: {check_name(next_one.because).lower()} stops it.",
        }
    ]


def _notes(alike: AlikeDrawers) -> list[dict[str, str]]:
    """All ids where the title strip has no room for them, then each drawer's note."""
    notes = []
    if short_ids(alike.ids) != ", ".join(alike.ids):
        notes.append(
            {"who": counted(len(alike.ids), "drawer", "drawers"), "says": for_sheets(", ".join(alike.ids))}
        )
    notes += [
        {"who": for_sheets(one.id), "says": for_sheets(one.drawer.note)}
        for one in alike.drawers
        if one.drawer.note
    ]
    return notes


def scale_text(scale: float) -> str:
    """A scale as 1 : 7, or 2 : 1 where it enlarges."""
    if scale > 1:
        return f"{scale:g} : 1"
    return f"1 : {round(1 / scale, 6):g}"


def _drawing(scene: Scene, units: ShownUnits) -> dict[str, Any]:
    corner = free_corner(scene, CORNER_WIDTH)
    page = scene.page or corner
    return {
        "svg": lettered(write_svg(scene, paper="print")),
        "width": page.width,
        "height": page.height,
        "alt": lettered(scene.alt),
        "corner_width": corner.width,
        "corner_height": corner.height,
        "scale_text": f"Drawn {scale_text(scene.scale)}" + ("" if units == "mm" else " in mm"),
    }


def page_data(alike: AlikeDrawers, scene: Scene, key: str, units: ShownUnits) -> dict[str, Any]:
    """The page of drawers that are alike; `key` is what the job sheet finds it by."""
    fitted = alike.first
    made = f"Drawer, {counted(alike.count, 'to build', 'to build')}" if alike.count > 1 else "Drawer"
    return {
        "key": key,
        "inches": units != "mm",
        "ids_name": made,
        "ids_short": for_sheets(short_ids(alike.ids)),
        "slide": for_sheets(slide_text(fitted)),
        "state": VERDICT_STATES[fitted.verdict],
        "verdict": VERDICT_WORDS[fitted.verdict],
        "load": _load(fitted, units),
        "measured": measured_fields(fitted, units),
        "also": also_told(fitted, units),
        "drawing": _drawing(scene, units),
        "corner": _corner(fitted, units),
        "beside": _beside(alike, units),
    }
