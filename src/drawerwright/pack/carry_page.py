"""The data of one distinct drawer's page of what it carries: everything already in words."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Final

from drawerwright.carry.carried import CarriedDrawer
from drawerwright.carry.closing import Closing
from drawerwright.carry.words import Words
from drawerwright.model.check_names import check_name
from drawerwright.model.fitted import Check, State
from drawerwright.pack.beside import in_order_of_care, short_ids
from drawerwright.pack.carry_figures import STATE_WORDS, as_if_text, capacity_name, carry_margin_text
from drawerwright.pack.carry_rows import ends_words, row_groups, screw_words
from drawerwright.pack.carry_unknown import missing_rows
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.figures import STATE_WORDS as CHECK_WORDS
from drawerwright.pack.figures import VERDICT_WORDS, counted, mass_text, mass_unit
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.shown import Shown

NOT_TOLD: Final = "not told"
_SEVERITY: Final[dict[State, int]] = {"ok": 0, "watch": 1, "stop": 2}


@cache
def carrying_cautions() -> tuple[dict[str, str], ...]:
    """The cautions of every page, as its rows of notes."""
    data = tomllib.loads(files(__package__).joinpath("carrying_cautions.toml").read_text(encoding="utf-8"))
    return tuple({"who": one["title"], "says": one["says"]} for one in data["caution"])


def worst_state(checks: tuple[Check, ...]) -> State:
    """The severest state of some checks; without any it is ok."""
    return max((check.state for check in checks), key=lambda state: _SEVERITY[state], default="ok")


def carry_page(alike: AlikeDrawers, one: CarriedDrawer, shown: Shown) -> dict[str, Any]:
    """The page of drawers that are alike but for its drawings; `one` is what the first of them carries."""
    words = Words(shown.units)
    made = f"Drawer, {counted(alike.count, 'built alike', 'built alike')}" if alike.count > 1 else "Drawer"
    state = worst_state(one.checks)
    fits = one.slide is not None
    return {
        "ids_name": made,
        "ids_short": for_sheets(short_ids(alike.ids)),
        "slide": for_sheets(slide_text(one.fitted)),
        "state": state if fits else "stop",
        "verdict": STATE_WORDS[state] if fits else VERDICT_WORDS["does-not-fit"],
        "load": _load_bar(one, shown),
        "strip": [{"name": name, "value": for_sheets(value)} for name, value in _strip(one, words)],
        "figures": row_groups(one, words),
        "beside": _beside(alike, one, shown),
    }


def _load_bar(one: CarriedDrawer, shown: Shown) -> dict[str, Any] | None:
    """What moves against the lowest capacity, in words and as shares of the longer of the two."""
    limit, mass = one.limit, one.fitted.mass
    if limit is None or one.load is None or mass is None or one.load <= 0.0:
        return None
    moving, most = mass_text(one.load, shown), mass_text(limit.moving, shown)
    modified = ", modified test" if limit.modified else ""
    whole = max(limit.moving, one.load)
    return {
        "text": f"{moving} of {most} {mass_unit(shown)}{modified}",
        "box": (one.load - mass.contents) / whole,
        "contents": mass.contents / whole,
    }


def _strip(one: CarriedDrawer, words: Words) -> list[tuple[str, str]]:
    """The main answers, each under its name."""
    limit, slide = one.limit, one.figured
    told = [("Moves", NOT_TOLD if one.load is None else words.mass(one.load))]
    if limit is not None:
        told.append((f"May move: {capacity_name(limit)}", words.mass(limit.moving)))
    if limit is not None and one.load is not None:
        spare = limit.moving - one.load
        left = words.mass_at_least(spare).replace("−", "")
        told.append(("To spare" if spare >= 0.0 else "Too much", left))
    if slide is None:
        return told
    data, drawn, rollers, closing = slide.data, slide.drawn, slide.rollers, slide.closing
    sag = float(drawn.sag[-1]) if data.has_sag else None
    told.append(
        (
            "Front rises, full out" if sag is not None and sag < 0.0 else "Front sags, full out",
            NOT_TOLD if sag is None else words.length(abs(sag)),
        )
    )
    told.append(("Most on a roller group", NOT_TOLD if rollers is None else words.force(rollers.largest)))
    screw = screw_words(float(drawn.screw_rear[-1]), words) if data.has_screws else NOT_TOLD
    told.append(("Rearmost fixing, full out", screw))
    told.append(("Closes by itself", NOT_TOLD if closing is None else _by_itself(closing, words)))
    return told


def _by_itself(closing: Closing, words: Words) -> str:
    return f"{'yes' if closing.let_go.closes else 'no'}, {ends_words(closing.let_go, words)}"


def _beside(alike: AlikeDrawers, one: CarriedDrawer, shown: Shown) -> list[dict[str, Any]]:
    """Checks in order of care, what the family does not tell, and cautions."""
    ordered = in_order_of_care(one.checks)
    careful = [check_row(check, shown) for check in ordered if check.state != "ok"]
    fine = [check_row(check, shown) for check in ordered if check.state == "ok"]
    told = [
        {"kind": "notes", "title": "No slide fits", "rows": _not_fitted(one, shown)},
        {"kind": "checks", "title": "Look at these", "rows": careful},
        {"kind": "fine", "title": "Checks that hold, and how much is left", "rows": fine},
        {"kind": "notes", "title": "What is not known", "rows": missing_rows(one)},
        {"kind": "notes", "title": "Cautions", "rows": [*_standing_free(alike), *carrying_cautions()]},
    ]
    return [each for each in told if each["rows"]]


def check_row(check: Check, shown: Shown) -> dict[str, str]:
    """A check as the papers show it."""
    return {
        "state": check.state,
        "word": CHECK_WORDS[check.state] if check.state != "ok" else "holds",
        "margin": carry_margin_text(check, shown),
        "name": check_name(check.id),
        "says": for_sheets(check.says),
    }


def _not_fitted(one: CarriedDrawer, shown: Shown) -> list[dict[str, str]]:
    """Of a drawer that fits nothing: on which slide its figures are told all the same."""
    if one.slide is not None:
        return []
    says = (
        "No slide fits this drawer, so nothing is drawn out. What would make it fit stands on its own sheet."
    )
    as_if = as_if_text(one, shown)
    told = [{"who": "Figures", "says": for_sheets(as_if)}] if as_if else []
    return [*told, {"who": "Slide", "says": says}]


def _standing_free(alike: AlikeDrawers) -> list[dict[str, str]]:
    """Where drawers stand in cabinets that stand free, their balance is told elsewhere."""
    ids = dict.fromkeys(
        drawer.cabinet.id
        for drawer in alike.drawers
        if drawer.cabinet is not None and drawer.cabinet.freestanding
    )
    if not ids:
        return []
    says = f"Cabinet {short_ids(tuple(ids))} stands free: look at its balance. Anchor it to the wall."
    return [{"who": "Tipping", "says": for_sheets(says)}]
