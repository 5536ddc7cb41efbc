"""The page of a cabinet that stands free: its balance drawn, every case in figures, the cautions in full."""

from __future__ import annotations

import math
from typing import Any, Final

from drawerwright.carry.balance_told import BALANCE_WORDS
from drawerwright.carry.tipping import Tipping
from drawerwright.carry.tipping_cases import TippingCase
from drawerwright.carry.tipping_checks import CONTENTS, block_words
from drawerwright.carry.tipping_facts import CHILD, FROM_MEMORY, LABORATORY, PULL
from drawerwright.carry.words import Words
from drawerwright.drawing.views.tipping_balance import tipping_balance
from drawerwright.pack.beside import short_ids
from drawerwright.pack.carry_page import check_row, worst_state
from drawerwright.pack.drawer_page import scale_text
from drawerwright.pack.layout import PADDING
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.papers import Paper
from drawerwright.pack.picture_scale import Picture, as_large_as_fits
from drawerwright.pack.pictures import room_of
from drawerwright.pack.shown import MILLIMETRES, Shown

BESIDE: Final = 0.43
"""Column of figures and words, of the width inside the frame. Own choice."""
_STANCES: Final = {"level": "level", "block": "on the block"}


def cabinet_page(tipping: Tipping, paper: Paper, shown: Shown) -> dict[str, Any]:
    """Everything on the page of one free-standing cabinet, in words."""
    width, height = room_of(paper)
    words = Words(shown.units)
    room = width * (1.0 - BESIDE) - 2 * PADDING, height - 2 * PADDING
    # Two units at every lever would leave the drawing no room: then mm, for the words have the inches.
    units = MILLIMETRES if shown.both else shown
    picture = as_large_as_fits(tipping_balance(tipping, units=units), *room)
    state = worst_state(tipping.checks)
    return {
        "cabinet": for_sheets(tipping.cabinet.id),
        "drawers": for_sheets(short_ids(tuple(one.id for one in tipping.drawers)) or "none"),
        "state": state,
        "verdict": BALANCE_WORDS[state],
        "scale": _scale_words(picture, shown),
        "drawing": None if picture is None else picture.document(),
        "beside_width": width * BESIDE,
        "groups": _groups(tipping, words, shown),
    }


def _scale_words(picture: Picture | None, shown: Shown) -> str:
    if picture is None:
        return "too large to draw"
    return scale_text(picture.scene.scale) + (" in mm" if shown.both else "")


def _groups(tipping: Tipping, words: Words, shown: Shown) -> list[dict[str, Any]]:
    cautions = [{"who": f"{number}", "says": says} for number, says in enumerate(tipping.cautions, 1)]
    groups = [
        {"kind": "notes", "title": "Cautions", "rows": cautions},
        {"kind": "checks", "title": "The balance", "rows": [check_row(one, shown) for one in tipping.checks]},
        {
            "kind": "cases",
            "title": "Margins about the front feet, N m",
            "rows": [balance_cases(tipping, words)],
        },
        {"kind": "notes", "title": "What was taken", "rows": balance_taken(tipping, words)},
    ]
    return [one for one in groups if one["rows"]]


def balance_cases(tipping: Tipping, words: Words) -> dict[str, Any]:
    """The table of all cases: what holds, what turns it over, what is left, and what is left with more on."""
    return {
        "heads": ["Loaded, stands", "Open", "Hold", "Turn over", "Left", "Child", "Pull", "May hang"],
        "rows": [
            [
                f"{CONTENTS[case.load]}; {_STANCES[case.stance]}",
                for_sheets(short_ids(case.open, 14)) or "none",
                _moment(case.restoring),
                _moment(case.overturning),
                _moment(case.margin),
                "–" if case.child_margin is None else _moment(case.child_margin),
                _moment(case.pull_margin),
                _hang(case, words),
            ]
            for case in tipping.cases
        ],
    }


def _moment(value: float) -> str:
    """A moment [N m] to a whole one; what is left is never shown as more than it is."""
    return f"{math.floor(value + 1e-6) + 0.0:.0f}".replace("-", "−")


def _hang(case: TippingCase, words: Words) -> str:
    return "any" if case.may_hang is None else words.mass(math.floor(case.may_hang * 10.0) / 10.0)


def _pull_words(words: Words) -> str:
    """The pull as it is told, to a tenth of a newton."""
    return words.force(PULL).replace(f"{PULL:.0f} N", f"{PULL:g} N")


def balance_taken(tipping: Tipping, words: Words) -> list[dict[str, str]]:
    """What the balance goes by: published facts, what is not known or taken for granted, the scope."""
    rows = [
        (
            "Block",
            f"{block_words(words)} under the rear lean it by {tipping.lean_deg:.2f}° ({LABORATORY}).",
        ),
        ("Child", f"A test mass of {words.mass(CHILD)} over the front where it is worst ({LABORATORY})."),
        ("Pull", f"{_pull_words(words)} outwards, {words.length(tipping.pull_at)} up ({FROM_MEMORY})."),
        *(("Not known", one) for one in tipping.missing),
        *(("Taken for granted", one) for one in tipping.notes),
        ("Scope", f"{tipping.scope.says} ({tipping.scope.source}.)"),
    ]
    return [{"who": who, "says": for_sheets(says)} for who, says in rows]
