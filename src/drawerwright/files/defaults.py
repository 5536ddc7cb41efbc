"""What a job's `[defaults]` give to each of its drawers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

_MERGED: Final = frozenset({"opening", "lost", "frame", "front", "box", "existing_box", "materials"})
"""Tables of a drawer that take single keys from the defaults; any other value is replaced whole."""


def merged(defaults: Mapping[str, Any], drawer: Mapping[str, Any]) -> dict[str, Any]:
    """A drawer's keys over the defaults. An empty existing_box means none, whatever the defaults say.

    A drawer that itself says it is frameless takes no frame from the defaults.
    """
    whole = {**defaults, **drawer}
    for key in _MERGED & defaults.keys() & drawer.keys():
        if key != "existing_box" or drawer[key]:
            whole[key] = _over(defaults[key], drawer[key], nested=key == "front")
    if drawer.get("construction") == "frameless" and "frame" not in drawer:
        whole.pop("frame", None)
    return whole


def _over(below: Any, above: Any, *, nested: bool) -> Any:
    """One table over another; with `nested`, the tables in it likewise (a front's overlay)."""
    if not isinstance(below, Mapping) or not isinstance(above, Mapping):
        return above
    whole = {**below, **above}
    if nested:
        for key in below.keys() & above.keys():
            whole[key] = _over(below[key], above[key], nested=False)
    return whole


def comes_from_defaults(
    loc: tuple[str | int, ...], defaults: Mapping[str, Any], drawer: Mapping[str, Any]
) -> bool:
    """Whether the value at a place inside a merged drawer was taken from the defaults."""
    return not _holds(drawer, loc) and _holds(defaults, loc)


def _holds(values: Any, loc: tuple[str | int, ...]) -> bool:
    for step in loc:
        if isinstance(step, int):
            if not isinstance(values, (list, tuple)) or step >= len(values):
                return False
            values = values[step]
        elif isinstance(values, Mapping):
            if step not in values:
                return False
            values = values[step]
        else:
            return False
    return True
