"""What a shop can change about an opening's width: all of it, or the places where it is too wide or narrow.

A place is brought in as far as a limit: every reading there that passes the limit is brought to it, and the
others stay. So the change is told as the limit, and cures whatever other readings stand there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from drawerwright.equations.equation import Q
from drawerwright.fit.lever import Lever
from drawerwright.model.job import Readings

_WIDTHS = ("measured_width", "widest_width", "narrowest_at_slide", "widest_at_slide")
_WIDER, _NARROWER = 1, -1


def width_levers(width: Readings, *, labelled: bool, rear_packed: bool) -> Iterator[Lever]:
    """All readings together, then those of a place up to a limit.

    `labelled`: read at the front and at the back; `rear_packed`: members packed where the back is wider. Of
    two that are as far the first is told: packing is easier than planing.
    """
    yield Lever(
        "opening.width",
        "mm",
        (_WIDER, _NARROWER),
        100.0,
        _WIDTHS,
        {_WIDER: "Make the opening {by} wider.", _NARROWER: "Make the opening {by} narrower (packing)."},
        lambda drawer: float(drawer["measured_width"][0, 0]) - 1.0,
        "all",
        closes={
            _WIDER: "Measure the opening again: if it reads {by} more, the sum closes.",
            _NARROWER: "Measure the opening again: if it reads {by} less, the sum closes.",
        },
    )
    if len(width.values) == 1:
        return
    if labelled:
        yield _limited(width, "front", _NARROWER, rear_packed)
        yield _limited(width, "back", _NARROWER, rear_packed)
    yield _limited(width, "widest", _NARROWER, labelled and rear_packed)
    if labelled:
        yield _limited(width, "back", _WIDER, rear_packed)


_SAYS: Mapping[tuple[str, int], str] = {
    ("front", _NARROWER): "Pack the opening at the front until no place there is wider than {limit}.",
    ("back", _NARROWER): "Pack the opening at the back until no place there is wider than {limit}.",
    ("back", _WIDER): "Plane the opening at the back until no place there is narrower than {limit}.",
    ("widest", _NARROWER): "Pack the opening until no place is wider than {limit}.",
}


def _limited(width: Readings, place: str, direction: int, rear_packed: bool) -> Lever:
    here = _readings_at(width, place)
    starts_at = min(here) if direction == _WIDER else max(here)
    # Past the farthest of the other readings there is nothing to gain: the opening is even by then.
    keeps = max(width.values) if direction == _WIDER else min(width.values)
    farthest = abs(keeps - starts_at)
    return Lever(
        "opening.width",
        "mm",
        (direction,),
        farthest,
        (*_WIDTHS, "taper"),
        {direction: _SAYS[place, direction]},
        lambda drawer: farthest,
        place,
        moved_by=lambda step: _brought_to(width, place, starts_at + step, direction, rear_packed),
        starts_at=starts_at,
        keeps=keeps,
    )


def _readings_at(width: Readings, place: str) -> tuple[float, ...]:
    if place == "widest":
        return width.values
    return tuple(value for label, value in width.labelled.items() if label.startswith(place))


def _brought_to(width: Readings, place: str, limit: Q, direction: int, rear_packed: bool) -> dict[str, Q]:
    """The widths once every reading of a place stands within the limit [mm], whatever its shape."""

    def brought(value: float) -> Q:
        return np.maximum(value, limit) if direction == _WIDER else np.minimum(value, limit)

    here, others = _readings_at(width, place), list(width.values)
    for value in here:
        others.remove(value)
    measured, widest = brought(min(here)), brought(max(here))
    if others:
        measured, widest = np.minimum(measured, min(others)), np.maximum(widest, max(others))
    moved = {"measured_width": measured, "widest_width": widest}
    if width.front is None or width.back is None:
        return {**moved, "narrowest_at_slide": measured, "widest_at_slide": widest, "taper": 0 * measured}
    front = width.front + 0 * limit if place == "back" else brought(width.front)
    back = width.back + 0 * limit if place == "front" else brought(width.back)
    # Packed, the members stand as far apart at a wider back as at the front.
    behind = np.minimum(back, front) if rear_packed else back
    return {
        **moved,
        "narrowest_at_slide": np.minimum(front, behind),
        "widest_at_slide": np.maximum(front, behind),
        "taper": back - front,
    }
