"""The column beside a drawing: what would make the drawer fit, its checks, and notes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from drawerwright.model.check_names import check_name, check_name_within
from drawerwright.model.fitted import Check, FittedDrawer, Rejected
from drawerwright.pack.check_margins import check_margin_text
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.figures import (
    MOUNT_WORDS,
    STATE_WORDS,
    change_text,
    counted,
    hardware_text,
    millimetres,
)
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.main_workings import main_workings
from drawerwright.pack.rounding import rounding_notes
from drawerwright.pack.shown import Shown
from drawerwright.pack.standing_free import Balances, balance_checks

SHORT_NOTES: Final = 240
"""Most characters of notes that may stand before the checks; longer ones come last."""

NO_CHANGE: Final = {
    "by": "None found",
    "says": "No single change of depth, width, sides or contents makes it fit.",
}
_SEVEREST: Final = {"stop": 0, "watch": 1, "ok": 2}


def in_order_of_care(checks: tuple[Check, ...]) -> list[Check]:
    """Checks with what stops first, then what wants care, each in its own order."""
    return sorted(checks, key=lambda check: _SEVEREST[check.state])


def short_ids(ids: tuple[str, ...], room: int = 30) -> str:
    """As many ids as find room [characters], the rest counted."""
    if len(", ".join(ids)) <= room:
        return ", ".join(ids)
    shown = list(ids)
    while len(shown) > 1 and len(", ".join(shown)) > room - 8:
        shown.pop()
    left = len(ids) - len(shown)
    return ", ".join(shown) + (f" and {left} more" if left else "")


def tried_rows(rejected: Sequence[Rejected], shown: Shown) -> list[dict[str, str]]:
    """What was tried: one row a family, with its slide that lacks least; the nearest family first."""
    families: dict[str, list[Rejected]] = {}
    for one in rejected:
        families.setdefault(one.family, []).append(one)
    return [
        {
            "slide": for_sheets(f"{nearest.family} / {millimetres(nearest.nominal)}"),
            "because": for_sheets(f"{MOUNT_WORDS[nearest.mount]}: {_reason(nearest)}"),
            "lengths": for_sheets(check_margin_text(nearest.because, nearest.margin, nearest.unit, shown)),
        }
        for nearest in sorted((min(tried, key=_lack) for tried in families.values()), key=_lack)
    ]


def _lack(one: Rejected) -> tuple[int, bool, float]:
    """What one that was tried lacks: the fewest checks stop it, then by the least, lengths before others."""
    return len(one.stops), one.unit != "mm", -one.margin


def _reason(one: Rejected) -> str:
    more = len(one.stops) - 1
    return check_name_within(one.because) + (f" and {more} more" if more > 0 else "")


def beside(alike: AlikeDrawers, shown: Shown, balances: Balances | None = None) -> list[dict[str, Any]]:
    """What would make it fit, or the checks; the main workings; notes first if they are short.

    A check that wants care or stops is told in full; one that fits has one line: its name and margin. Where
    the cabinet stands free, its balance is the first of all.
    """
    fitted = alike.first
    told: list[dict[str, Any]] = []
    if fitted.slide is None:
        changes = [
            {
                "by": "" if change.to else for_sheets(change_text(change.by, change.unit, shown)),
                "says": for_sheets(change.says),
            }
            for change in fitted.changes
        ] or [NO_CHANGE]
        told.append({"kind": "changes", "title": "Smallest changes that make it fit", "rows": changes})
    careful = [_check(check, shown) for check in in_order_of_care(fitted.checks) if check.state != "ok"]
    fine = [_check(check, shown) for check in fitted.checks if check.state == "ok"]
    title = "The nearest slide tried" if fitted.slide is None else "Look at these"
    told.append({"kind": "checks", "title": title, "rows": careful})
    told.append({"kind": "fine", "title": "Checks that fit, and how much is left", "rows": fine})
    told.append({"kind": "checks", "title": "Why not longer", "rows": _next_longer(fitted, shown)})
    told.append(_workings(fitted))
    notes = [*_rounding(alike, shown), *_notes(alike)]
    if sum(len(note["who"] + note["says"]) for note in notes) <= SHORT_NOTES:
        told.insert(0, {"kind": "notes", "title": "Notes", "rows": notes})
    else:
        told.append({"kind": "notes", "title": "Notes", "rows": notes})
    free = balance_checks(alike.drawers, balances or {})
    told.insert(0, {"kind": "checks", "title": "Stands free", "rows": free})
    return [one for one in told if one["rows"]]


def _check(check: Check, shown: Shown) -> dict[str, str]:
    return {
        "state": check.state,
        "word": STATE_WORDS[check.state],
        "margin": check_margin_text(check.id, check.margin, check.unit, shown),
        "name": check_name(check.id),
        "says": for_sheets(check.says),
    }


def _next_longer(fitted: FittedDrawer, shown: Shown) -> list[dict[str, str]]:
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
            "margin": check_margin_text(next_one.because, next_one.margin, next_one.unit, shown),
            "name": f"Slide {hardware_text(next_one.nominal, shown)}",
            "says": f"The next longer slide is stopped by: {check_name_within(next_one.because)}.",
        }
    ]


def _workings(fitted: FittedDrawer) -> dict[str, Any]:
    """How the main numbers came about, each on a line; the unit in the title where all share it."""
    told = main_workings(fitted)
    in_mm = all(figures.endswith(" mm") for _, figures in told)
    rows = [
        {"title": for_sheets(name), "figures": for_sheets(figures.removesuffix(" mm") if in_mm else figures)}
        for name, figures in told
    ]
    return {"kind": "working", "title": "Working, mm" if in_mm else "Working", "rows": rows}


def _rounding(alike: AlikeDrawers, shown: Shown) -> list[dict[str, str]]:
    """Cut sizes whose inches would spoil a check."""
    return [{"who": "Inches", "says": note} for note in rounding_notes(alike.first, shown)]


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
