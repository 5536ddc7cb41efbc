"""The mounting sheet: the installer's steps in the order of work, cautions, and a row for each drawer."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Any, Final, TypeAlias

from drawerwright.model.fitted import FittedDrawer, FittedJob, Mounting
from drawerwright.pack.across import shelf_places
from drawerwright.pack.blocks import blocks_short
from drawerwright.pack.cautions import carriages_of, cautions
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.figures import (
    MOUNT_WORDS,
    NOUGHT,
    holes_text,
    length_text,
    margin_text,
    mass_unit,
    millimetres,
)
from drawerwright.pack.front_rows import low_text
from drawerwright.pack.layout import Layout
from drawerwright.pack.lettering import for_sheets, id_for_sheets
from drawerwright.pack.packing import packing_words, rear_packing_words
from drawerwright.pack.papers import Paper
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.shown import Shown
from drawerwright.pack.typeset import forget_settings, set_document

ROWS: Final = 400
"""Most drawers of one document, so that the compiler's memory stays bounded."""
WIDEST: Final = 28
"""Most characters for which a column of the table is widened; longer ones run over several lines."""
WIDEST_NAME: Final = 16
"""Most characters of an id or a slide that stand in one line; a column with longer ones has a set width."""
TICKS: Final = ("On", "Locked", "Click L", "Click R", "Set")
"""Boxes to tick for each drawer, in the order of work; what is beside the box is caught without a click."""
_CAUGHT: Final = {"Click L": "Caught L", "Click R": "Caught R"}
_UNDER_OR_BESIDE: Final = {"concealed": "Slides under the box. ", "side-mounted": "Slides beside the box. "}

_Text: TypeAlias = Callable[[FittedDrawer, Mounting, Shown], str]


@cache
def _steps() -> tuple[dict[str, str], ...]:
    data = tomllib.loads(files(__package__).joinpath("mounting_steps.toml").read_text(encoding="utf-8"))
    return tuple(data["step"])


def steps_of(fitted: FittedJob, *, alone: bool = False) -> list[dict[str, str]]:
    """Title and words of each step that the job wants; `alone`: without the table, each drawer for itself."""
    wants_packing = any(
        one.mounting is not None
        and (
            one.mounting.rear_bracket_left is not None
            or one.mounting.packing_left + one.mounting.packing_right > 0
            or one.mounting.rear_packing_left + one.mounting.rear_packing_right > 0
        )
        for one in fitted.drawers
    )
    wanted = {
        "packing or rear brackets": wants_packing,
        "fronts to fix": any(_has_front_to_fix(one) for one in fitted.drawers),
    }
    carriages = carriages_of(fitted.drawers)
    steps = []
    for step in _steps():
        kind = step.get("slide", "")
        if not wanted.get(step.get("only", ""), True) or (kind and kind not in carriages):
            continue
        says = step["alone"] if alone and "alone" in step else step["says"]
        meant = [
            one
            for one in fitted.drawers
            if not kind or (one.slide is not None and one.slide.family.carriage == kind)
        ]
        says = says.replace("{front}", fronts_text(meant)).replace("{spacers}", _spacers_text(meant))
        whose = _UNDER_OR_BESIDE[kind] if kind and len(carriages) > 1 else ""
        steps.append({"title": step["title"], "says": whose + says})
    return steps


def ticks_of(drawers: Sequence[FittedDrawer]) -> list[str]:
    """Boxes to tick for each drawer, in the order of work."""
    beside = carriages_of(drawers) == {"side-mounted"}
    return [_CAUGHT.get(tick, tick) if beside else tick for tick in TICKS]


def _spacers_text(drawers: Sequence[FittedDrawer]) -> str:
    """Whether spacers go under the brackets."""
    slides = [one.slide for one in drawers if one.slide is not None]
    with_any = any(slide.side_spacers or slide.subfront_spacers for slide in slides)
    return "with the spacers told here" if with_any else "without spacers"


def fronts_text(drawers: Sequence[FittedDrawer]) -> str:
    """How low to fix the fronts, so that the height adjusters have room both ways; empty where none is."""
    kinds = {
        "even with their gaps" if one.fixing.low_by < NOUGHT else f"{millimetres(one.fixing.low_by)} mm low"
        for one in drawers
        if _has_front_to_fix(one) and one.fixing is not None
    }
    if not kinds:
        return ""
    return next(iter(kinds)) if len(kinds) == 1 else "as low as the table says"


def _has_front_to_fix(one: FittedDrawer) -> bool:
    """Whether an applied front is screwed onto the drawer."""
    return one.fixing is not None and one.drawer.box.front == "applied"


def _screw_line(_: FittedDrawer, mounting: Mounting, shown: Shown) -> str:
    return "" if mounting.screw_line is None else holes_text((mounting.screw_line,), shown)


def _places(places: tuple[float, ...], from_edge: tuple[float, ...], shown: Shown) -> str:
    """Depths from the front; behind a face frame those from the side's edge as well."""
    told = holes_text(places, shown)
    if places == from_edge or not places:
        return told
    return f"{told}; from the side's edge {holes_text(from_edge, shown)}"


def _slots(_: FittedDrawer, mounting: Mounting, shown: Shown) -> str:
    return _places(mounting.slots, mounting.slots_from_side_edge, shown)


def _holes(_: FittedDrawer, mounting: Mounting, shown: Shown) -> str:
    if mounting.shelf_holes:
        return f"into the shelf {holes_text(mounting.shelf_holes, shown)}"
    return _places(mounting.holes, mounting.holes_from_side_edge, shown)


def _is_packed(mounting: Mounting) -> bool:
    return mounting.packing_left + mounting.packing_right > 0


def _also(fitted: FittedDrawer, mounting: Mounting, shown: Shown) -> str:
    """Packing, also that under the rear ends alone, rear brackets and spacers, where the drawer has them."""
    told = []
    if _is_packed(mounting):
        both = _hands(mounting.packing_left, mounting.packing_right, shown)
        told.append(f"packing {both}, {packing_words(fitted, mounting, shown)}")
    if mounting.rear_packing_left > 0 or mounting.rear_packing_right > 0:
        rear = _hands(mounting.rear_packing_left, mounting.rear_packing_right, shown)
        told.append(f"packing under the rear ends {rear}, {rear_packing_words(fitted, mounting, shown)}")
    left, right, height = (
        mounting.rear_bracket_left,
        mounting.rear_bracket_right,
        mounting.rear_bracket_height,
    )
    if (shelf := shelf_places(fitted)) is not None:
        told.append(f"outer faces in from the cabinet sides {_hands(*shelf, shown)}")
    if left is not None and right is not None:
        up = "" if height is None else f", {length_text(height, shown)} up"
        told.append(f"rear brackets {_hands(left, right, shown)}{up}")
    blocks = blocks_short(fitted, shown)
    if blocks:
        told.append(blocks)
    if fitted.slide is not None:
        for spacers, where in (
            (fitted.slide.side_spacers, "side"),
            (fitted.slide.subfront_spacers, "subfront"),
        ):
            if spacers:
                thick = " + ".join(millimetres(one) for one in spacers)
                told.append(f"spacers {thick} mm at the {where}")
    return "; ".join(told)


def _on_box(fitted: FittedDrawer, _: Mounting, shown: Shown) -> str:
    """Height of the drawer member's screws above the lower edge of the box; none under a box."""
    if fitted.slide is None or fitted.slide.family.carriage == "concealed":
        return ""
    return f"{length_text(fitted.slide.family.heights.screw_line, shown)} up"


def _hands(left: float, right: float, shown: Shown) -> str:
    return f"L {length_text(left, shown)}, R {length_text(right, shown)}"


def _front_set(fitted: FittedDrawer, _: Mounting, shown: Shown) -> str:
    if fitted.fixing is None or not _has_front_to_fix(fitted):
        return ""
    return low_text(fitted.fixing, shown)


def _load(fitted: FittedDrawer, _: Mounting, shown: Shown) -> str:
    """How much may lie in the drawer: what the pair carries, less what moves without contents."""
    if fitted.capacity is None or fitted.mass is None or fitted.slide is None:
        return ""
    own = fitted.mass.moving - fitted.mass.contents if fitted.slide.family.capacity_of == "moving" else 0.0
    return margin_text(max(fitted.capacity - own, 0.0), "kg", shown).partition(" ")[0]


def _columns(shown: Shown) -> tuple[tuple[str, _Text], ...]:
    """Headings of the figures, and what fills them."""
    return (
        ("Front end", lambda _, mounting, how: length_text(mounting.front_end, how)),
        ("Screw line", _screw_line),
        ("Slots first", _slots),
        ("Round holes", _holes),
        ("Packing, rear brackets, spacers", _also),
        ("On the box side", _on_box),
        ("Front fixed", _front_set),
        (f"Most inside, {mass_unit(shown)}", _load),
    )


def rows_of(
    drawers: Sequence[FittedDrawer], shown: Shown
) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Columns that any drawer fills, each with its share of the width, and a row for each drawer built."""
    columns = _columns(shown)
    filled = [
        (one, [for_sheets(text(one, one.mounting, shown)) for _, text in columns])
        for one in drawers
        if one.mounting is not None
    ]
    kept = [at for at in range(len(columns)) if any(cells[at] for _, cells in filled)]
    rows = []
    for one, cells in filled:
        many = one.drawer.quantity
        row = {
            "id": id_for_sheets(one.id),
            "slide": id_for_sheets(slide_text(one)),
            "mount": MOUNT_WORDS[one.slide.mount] if one.slide is not None else "",
            "cells": [cells[at] for at in kept],
        }
        rows += [{**row, "of": f"{number} of {many}" if many > 1 else ""} for number in range(1, many + 1)]
    headings = []
    for at in kept:
        longest = max(len(cells[at]) for _, cells in filled)
        headings.append(
            {"name": columns[at][0], "share": min(max(longest, len(columns[at][0]) - 4, 6) + 1, WIDEST)}
        )
    return headings, rows


def mounting_files(fitted: FittedJob, paper: Paper, shown: Shown) -> Iterator[tuple[str, bytes]]:
    """`mounting.pdf`; very many drawers go on in further documents, each with the steps first."""
    parts = in_parts(fitted.drawers, ROWS)
    title = for_sheets(fitted.title) or "Drawers"
    for name, members in zip(part_names("mounting", len(parts)), parts, strict=True):
        headings, rows = rows_of(members, shown)
        data = {
            "document_title": f"{title}: mounting",
            "job": title,
            "paper": Layout(paper).document(),
            "inches": shown.with_inches,
            "unit": {"mm": "mm", "in": "inches", "both": "mm (inches)"}[shown.units],
            "steps": steps_of(fitted),
            "cautions": [{"title": one.title, "says": one.says} for one in cautions() if one.wall],
            "long_ids": any(len(row["id"]) > WIDEST_NAME for row in rows),
            "long_slides": any(len(row["slide"]) > WIDEST_NAME for row in rows),
            "headings": headings,
            "ticks": ticks_of(members),
            "rows": rows,
        }
        yield f"{name}.pdf", set_document("mounting", data)
        if len(parts) > 1:
            forget_settings()
