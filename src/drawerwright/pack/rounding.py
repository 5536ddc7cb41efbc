"""What rounding to a fraction of an inch spends of a check's margin, told where it spends all of it.

A side cut by its inches is a little shorter or longer than computed, and its locking brackets stand off their
seats by as much; a cross piece that is cut narrower takes half of that on each hand.
"""

from __future__ import annotations

from collections.abc import Iterator

from drawerwright.drawing.wording import shown_length
from drawerwright.model.cut_sizes import in_fractions, length_rounds_down
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.figures import inches, inches_down
from drawerwright.pack.shown import Shown
from drawerwright.units import finest_parts

_HAIR = 1e-6
"""Margins this much short of 0 [mm] still hold, as those of checks do."""


def rounding_notes(fitted: FittedDrawer, shown: Shown) -> tuple[str, ...]:
    """Sentences on cut sizes whose inches leave a check nothing; none where they may be cut by the inches."""
    if not shown.with_inches or fitted.box is None or fitted.latch is None:
        return ()
    if fitted.drawer.existing_box is not None:
        return ()
    return (*_along(fitted, shown), *_across(fitted, shown))


def _along(fitted: FittedDrawer, shown: Shown) -> Iterator[str]:
    found = next((part for part in fitted.parts if part.part == "side"), None)
    room = _margin(fitted, "latch-along")
    if found is None or room is None:
        return
    off = _cut(found.length, "side", shown) - found.length
    if abs(off) > room + _HAIR:
        at = inches(found.length, shown)
        yield _told(
            f"sides {_mm(found.length)} long are",
            at,
            off,
            f"as much off the brackets' seats, and {_mm(room)} are left",
        )


def _across(fitted: FittedDrawer, shown: Shown) -> Iterator[str]:
    name = next((part.part for part in fitted.parts if part.part in ("subfront", "back")), None)
    found = next((part for part in fitted.parts if part.part == name), None)
    if found is None:
        return
    off = _cut(found.length, found.part, shown) - found.length
    at, what = inches_down(found.length, shown), f"{found.part} {_mm(found.length)} long is"
    latch, room = _margin(fitted, "latch-side"), _room_for_a_narrow_box(fitted)
    if latch is not None and abs(off) / 2 > latch + _HAIR:
        yield _told(what, at, off, f"half of it off each bracket's seat, and {_mm(latch)} are left")
    elif room is not None and -off > room + _HAIR:
        yield _told(what, at, off, f"the pair runs with a box up to {_mm(room)} narrower")


def _room_for_a_narrow_box(fitted: FittedDrawer) -> float | None:
    """How much narrower the box may come out before its pair does not run [mm]; None without a band."""
    too_wide = fitted.workings.get("too_wide")
    return None if too_wide is None else max(-too_wide.value, 0.0)


def _cut(length: float, part: str, shown: Shown) -> float:
    """Length [mm] of a part as its inches say it."""
    down = length_rounds_down(part)
    return in_fractions(length, shown.parts if down else finest_parts(length, shown.parts), down=down)


def _margin(fitted: FittedDrawer, check: str) -> float | None:
    """What is left of a check [mm]; None where the drawer has none such."""
    found = next((one for one in fitted.checks if one.id == check), None)
    return None if found is None else max(found.margin, 0.0)


def _told(what: str, at: str, off: float, why: str) -> str:
    way = "longer" if off > 0 else "shorter"
    return f"{what[:1].upper()}{what[1:]} {_mm(abs(off))} {way} at {at} in: {why}. Cut to the mm."


def _mm(value: float) -> str:
    return f"{shown_length(value, 2)} mm"
