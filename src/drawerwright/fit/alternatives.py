"""Other ways to build a drawer that fits nothing: another mount, slide, front or box, one thing at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Any

from drawerwright.equations.equation import Q
from drawerwright.fit.asked_for import slides_allowed
from drawerwright.fit.choose import choose
from drawerwright.fit.drawer_values import NO_ERRORS, DrawerValues, drawer_values, stack
from drawerwright.fit.situation import mounts_of, mounts_to_try
from drawerwright.fit.slide_rows import SlideRows
from drawerwright.fit.trial import run_trial
from drawerwright.model.fitted import MOUNT_WORDS, Change
from drawerwright.model.job import Drawer
from drawerwright.units import ShownUnits, format_length

_SHOWN = 10
_ROUND_OFF = 1e-6
_BOTTOMS = {
    "groove-4": "Let the bottom run in a groove on all four sides.",
    "groove-3": "Let the back stand on the bottom.",
    "under": "Fix the bottom under front and back.",
}


def other_ways(
    one: DrawerValues,
    rows: Sequence[SlideRows],
    filler: tuple[float, float] = (0.0, 0.0),
    units: ShownUnits = "mm",
) -> Iterator[Change]:
    """Each single other way that fits; the slide it would get is named.

    `filler`: what the way out lacks left and right [mm] on the slide that came nearest.
    """
    for key, to, says, keys in (*_ways(one.drawer), *_packed_ways(one.drawer, filler, units)):
        slide = _slide_for(one, one.drawer.model_copy(update=keys), rows)
        if slide is not None:
            yield Change(key, 0.0, "", f"{says} It then takes {slide}.", to=to)


def _ways(drawer: Drawer) -> Iterator[tuple[str, str, str, dict[str, Any]]]:
    if drawer.mount != "auto":
        for mount in mounts_of(drawer.construction):
            if mount != drawer.mount:
                yield "mount", mount, f"Mount the members {MOUNT_WORDS[mount]}.", {"mount": mount}
    if drawer.slide != "auto":
        yield "slide", "auto", "Take another slide.", {"slide": "auto"}
    if drawer.front.style in ("overlay", "inset"):
        style = "inset" if drawer.front.style == "overlay" else "overlay"
        front = drawer.front.model_copy(update={"style": style})
        yield "front.style", style, f"Let the front be {style}.", {"front": front}
    if drawer.existing_box is not None:
        return
    if drawer.size_from == "outside":
        yield "size_from", "inside", "Size the box by its inside width.", {"size_from": "inside"}
    for bottom, says in _BOTTOMS.items():
        if bottom != drawer.box.bottom:
            yield "box.bottom", bottom, says, {"box": drawer.box.model_copy(update={"bottom": bottom})}
    if drawer.box.front == "integral":
        box = drawer.box.model_copy(update={"front": "applied"})
        yield "box.front", "applied", "Apply the front to a box of its own.", {"box": box}


def _packed_ways(
    drawer: Drawer, filler: tuple[float, float], units: ShownUnits
) -> Iterator[tuple[str, str, str, dict[str, Any]]]:
    """Packing that the shop did not think of: at the rear of the members, or on both sides at once."""
    front, back = drawer.opening.width.front, drawer.opening.width.back
    if front is not None and back is not None and back > front and not drawer.pack_rear:
        half = format_length((back - front) / 2, units, decimals=2)
        says = f"Pack the rear of each member by {half}."
        yield "pack_rear", "true", says, {"pack_rear": True}
    if min(filler) > 0:
        left, right = (ceil(lack * _SHOWN - _ROUND_OFF) / _SHOWN for lack in filler)
        lost = {"left": drawer.lost.left + left, "right": drawer.lost.right + right}
        more = f"{format_length(left, units)} left and {format_length(right, units)} right"
        says = f"Pack out by {more}, clear of what is in the way."
        to = f"left = {lost['left']:g}, right = {lost['right']:g}"
        yield "lost", to, says, {"lost": drawer.lost.model_copy(update=lost)}


def _slide_for(one: DrawerValues, drawer: Drawer, rows: Sequence[SlideRows]) -> str | None:
    """Family and length that the drawer would get, None where it still gets none."""
    other = drawer_values(drawer, one.cabinet, one.overlaps, one.materials)
    columns: Mapping[str, Q] = {**NO_ERRORS, **stack([other])}
    allowed = [slides_allowed([other], group) for group in rows]
    for mount in mounts_to_try(drawer):
        trials = [run_trial(other.situation, mount, group, columns, answer=False) for group in rows]
        choice = choose(trials, allowed)
        if choice.trial[0] >= 0:
            family, length = rows[choice.trial[0]].candidates[choice.column[0]]
            return f"{family.id}/{length.nominal:g} {MOUNT_WORDS[mount]}"
    return None
