"""The data of the job sheet: totals, cautions, and one row a drawer."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Final

from drawerwright.model.fitted import FittedDrawer, FittedJob, State
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.drawer_page import check_name, in_order_of_care, slide_text
from drawerwright.pack.figures import (
    VERDICT_STATES,
    VERDICT_WORDS,
    margin_text,
    mass_text,
    mass_unit,
    size_text,
)
from drawerwright.pack.lettering import STAND_IN, for_sheets, lettered
from drawerwright.units import ShownUnits

REASON_ROOM: Final = 180
"""Most characters of a reason on the job sheet; the drawer's own page has it whole."""

_UNIT_WORDS: Final[dict[ShownUnits, str]] = {"mm": "mm", "in": "inches", "both": "mm and inches"}


@cache
def cautions() -> tuple[tuple[str, str], ...]:
    """Title and words of each caution."""
    data = tomllib.loads(files(__package__).joinpath("cautions.toml").read_text(encoding="utf-8"))
    return tuple((entry["title"], entry["says"]) for entry in data["caution"])


def reason(fitted: FittedDrawer, units: ShownUnits) -> str:
    """What to look at before building: the first check that stops or wants care, and how many more do."""
    told = [check for check in in_order_of_care(fitted.checks) if check.state != "ok"]
    if not told:
        if fitted.rejected and fitted.slide is None:
            nearest = max(fitted.rejected, key=lambda one: one.margin)
            return f"{check_name(nearest.because)} {margin_text(nearest.margin, nearest.unit, units)}"
        return fitted.drawer.note
    first = told[0]
    more = f" (and {len(told) - 1} more)" if len(told) > 1 else ""
    text = f"{check_name(first.id)} {margin_text(first.margin, first.unit, units)}: {first.says}"
    if len(text) + len(more) > REASON_ROOM:
        text = text[: REASON_ROOM - len(more) - 1].rsplit(" ", 1)[0].rstrip(".,;:") + "…"
    return text + more


def _row(fitted: FittedDrawer, key: str, units: ShownUnits) -> dict[str, str]:
    box = fitted.box
    why = reason(fitted, units)
    return {
        "id": for_sheets(fitted.id),
        "quantity": str(fitted.drawer.quantity),
        "state": VERDICT_STATES[fitted.verdict],
        "verdict": VERDICT_WORDS[fitted.verdict],
        "slide": for_sheets(slide_text(fitted)),
        "box": "–" if box is None else size_text((box.outside_width, box.height, box.length), units),
        "moving": "–" if fitted.mass is None else mass_text(fitted.mass.moving, units),
        "reason": for_sheets(why if len(why) <= REASON_ROOM else why[: REASON_ROOM - 1] + "…"),
        "sheet": key,
    }


def _totals(fitted: FittedJob) -> list[dict[str, str | None]]:
    counts: dict[State, int] = {"ok": 0, "watch": 0, "stop": 0}
    for drawer in fitted.drawers:
        counts[VERDICT_STATES[drawer.verdict]] += drawer.drawer.quantity
    names: tuple[tuple[State, str], ...] = (("ok", "Fit"), ("watch", "Fit with care"), ("stop", "Do not fit"))
    told: list[dict[str, str | None]] = [
        {"name": "Drawers", "state": None, "value": str(sum(counts.values()))}
    ]
    told += [
        {"name": name, "state": state, "value": str(counts[state])} for state, name in names if counts[state]
    ]
    return told


def job_sheet_data(
    fitted: FittedJob, distinct: tuple[AlikeDrawers, ...], keys: tuple[str, ...], units: ShownUnits
) -> dict[str, Any]:
    """The job sheet; `keys` are what the pages of `distinct` are found by."""
    page_of = {id(drawer): key for alike, key in zip(distinct, keys, strict=True) for drawer in alike.drawers}
    written = fitted.title + "".join(drawer.id + drawer.drawer.note for drawer in fitted.drawers)
    replaced = lettered(written).count(STAND_IN) > written.count(STAND_IN)
    return {
        "units": _UNIT_WORDS[units],
        "box_name": "Box, W × H × L" + (", in" if units == "in" else ", mm"),
        "inches": units == "in",
        "mass_name": f"Moving, {mass_unit(units)}",
        "count": str(sum(drawer.drawer.quantity for drawer in fitted.drawers)),
        "totals": _totals(fitted),
        "cautions": [{"title": title, "says": says} for title, says in cautions()],
        "remark": f"Letters that these sheets lack stand as {STAND_IN}; job.toml keeps them."
        if replaced
        else "",
        "rows": [_row(drawer, page_of[id(drawer)], units) for drawer in fitted.drawers],
    }
