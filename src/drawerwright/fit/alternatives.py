"""Other ways to build a drawer that fits nothing: another mount, slide, front or box, one thing at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
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

_BOTTOMS = {
    "groove-4": "Let the bottom run in a groove on all four sides.",
    "groove-3": "Let the back stand on the bottom.",
    "under": "Fix the bottom under front and back.",
}


def other_ways(one: DrawerValues, rows: Sequence[SlideRows]) -> Iterator[Change]:
    """Each single other way that fits; the slide it would get is named."""
    for key, to, says, keys in _ways(one.drawer):
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
