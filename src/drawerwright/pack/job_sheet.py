"""The data of the job sheet: totals, cautions, and one row a drawer."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from drawerwright.model.fitted import FittedDrawer, FittedJob, State
from drawerwright.pack.beside import in_order_of_care
from drawerwright.pack.cautions import cautions_for
from drawerwright.pack.check_margins import named_margin
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.figures import (
    VERDICT_STATES,
    VERDICT_WORDS,
    box_text,
    mass_text,
    mass_unit,
)
from drawerwright.pack.lettering import STAND_IN, for_sheets, lettered
from drawerwright.pack.shown import Shown
from drawerwright.pack.standing_free import Balances, balance_rows, balances_by_cabinet
from drawerwright.units import ShownUnits

REASON_ROOM: Final = 180
"""Most characters of a reason on the job sheet; the drawer's own page has it whole."""

_UNIT_WORDS: Final[dict[ShownUnits, str]] = {"mm": "mm", "in": "inches", "both": "mm and inches"}


def reason(fitted: FittedDrawer, shown: Shown) -> str:
    """What to look at before building: the first check that stops or wants care, and how many more do."""
    told = [check for check in in_order_of_care(fitted.checks) if check.state != "ok"]
    if not told:
        if fitted.rejected and fitted.slide is None:
            nearest = max(fitted.rejected, key=lambda one: one.margin)
            return named_margin(nearest.because, nearest.margin, nearest.unit, shown)
        return fitted.drawer.note
    first = told[0]
    more = f" (and {len(told) - 1} more)" if len(told) > 1 else ""
    text = f"{named_margin(first.id, first.margin, first.unit, shown)}: {first.says}"
    if len(text) + len(more) > REASON_ROOM:
        text = text[: REASON_ROOM - len(more) - 1].rsplit(" ", 1)[0].rstrip(".,;:") + "…"
    return text + more


def _row(fitted: FittedDrawer, key: str, shown: Shown) -> dict[str, str]:
    box = fitted.box
    why = reason(fitted, shown)
    return {
        "id": for_sheets(fitted.id),
        "quantity": str(fitted.drawer.quantity),
        "state": VERDICT_STATES[fitted.verdict],
        "verdict": VERDICT_WORDS[fitted.verdict],
        "slide": for_sheets(slide_text(fitted)),
        "box": "–" if box is None else box_text(box, shown),
        "moving": "–" if fitted.mass is None else mass_text(fitted.mass.moving, shown),
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
    fitted: FittedJob,
    distinct: Sequence[AlikeDrawers],
    keys: Sequence[str],
    shown: Shown,
    part: tuple[int, int] = (1, 1),
    balances: Balances | None = None,
) -> dict[str, Any]:
    """The job sheet; `keys` are what the pages of `distinct` are found by; `part` as for the sheets.

    `balances`: those of the cabinets that stand free; they are worked out where none are given.
    """
    found = balances_by_cabinet(fitted.drawers, shown.units) if balances is None else balances
    page_of = {id(drawer): key for alike, key in zip(distinct, keys, strict=True) for drawer in alike.drawers}
    listed = [drawer for drawer in fitted.drawers if id(drawer) in page_of]
    written = fitted.title + "".join(drawer.id + drawer.drawer.note for drawer in listed)
    replaced = lettered(written).count(STAND_IN) > written.count(STAND_IN)
    number, of = part
    return {
        "name": "Job sheet" + (f", part {number} of {of}" if of > 1 else ""),
        "units": _UNIT_WORDS[shown.units],
        "box_name": "Box, W × H × L" + (", in" if shown.in_inches else ", mm"),
        "inches": shown.in_inches,
        "mass_name": f"Moving, {mass_unit(shown)}",
        "count": str(sum(drawer.drawer.quantity for drawer in fitted.drawers)),
        "totals": _totals(fitted),
        "free": balance_rows(listed, found),
        "cautions": [{"title": one.title, "says": one.says} for one in cautions_for(fitted.drawers)],
        "remarks": [
            *([rounding_remark(shown)] if shown.with_inches else []),
            *(
                [f"Letters that these sheets lack stand as {STAND_IN}; job.toml keeps them."]
                if replaced
                else []
            ),
        ],
        "rows": [_row(drawer, page_of[id(drawer)], shown) for drawer in listed],
    }


def rounding_remark(shown: Shown) -> str:
    """How inches on the sheets are rounded."""
    return (
        f"Inches are shown to 1/{shown.parts}. Sizes of boxes and parts and all margins are rounded down, so"
        " that rounding never hides a clash; the length of boxes, which the slide sets, and readings go to"
        " the nearest. Hardware, row holes, boards that are no fraction of an inch and what is under 1/8 in"
        " are told in mm, but for whole sixty-fourths."
    )
