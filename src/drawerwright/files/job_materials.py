"""Names of materials in a job's file become thicknesses, and the job keeps the names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, Protocol

from drawerwright.errors import Problem, ReadingError
from drawerwright.units import parse_size

PLACES: Final[Mapping[str, tuple[str, ...]]] = {
    "side": ("side",),
    "subfront": ("subfront",),
    "back": ("box", "back"),
    "bottom": ("box", "bottom_thickness"),
    "front": ("front", "thickness"),
}
"""Where the thickness of each part of a drawer stands."""


class Found(Protocol):
    """A material that a name stands for: its id, and the thickness it is bought in [mm]."""

    @property
    def id(self) -> str:
        """The name by which a job keeps it."""

    @property
    def thickness(self) -> float:
        """The thickness that is used [mm]."""


class KnownMaterials(Protocol):
    """What tells a material by its name."""

    def find(self, name: str) -> Found:
        """The material of that name. Raises ReadingError."""

    def is_meant(self, text: str) -> bool:
        """Whether text that is no length may have been meant as a material."""


def with_thicknesses(
    drawer: Mapping[str, Any], known: KnownMaterials
) -> tuple[dict[str, Any], list[Problem]]:
    """A drawer's keys with a thickness for every material named, and what was wrong with the names.

    A material that stands in place of a thickness gives it, and is kept under `materials`. One that is named
    under `materials` gives the thickness only where none is told, for that one was measured.
    """
    whole: dict[str, Any] = dict(drawer)
    given = drawer.get("materials", {})
    if not isinstance(given, Mapping):
        return whole, []
    names: dict[str, Any] = dict(given)
    problems: list[Problem] = []
    for part, path in PLACES.items():
        told, own = _get(whole, path), names.get(part)
        loc, text = (path, told) if _is_name(told, known) else (("materials", part), own)
        if not isinstance(text, str):
            continue
        try:
            material = known.find(text)
        except ReadingError as error:
            problems.append(Problem(loc, error.value, error.says, error.try_))
            if loc == path:
                _set(whole, path, None)
            names.pop(part, None)
            continue
        names[part] = material.id
        if told is None or loc == path:
            _set(whole, path, f"{material.thickness!r} mm")
    if names or "materials" in whole:
        whole["materials"] = names
    return whole, problems


def _is_name(told: object, known: KnownMaterials) -> bool:
    """Whether a thickness is told by the name of a material."""
    if not isinstance(told, str):
        return False
    try:
        parse_size(told)
    except ReadingError:
        return known.is_meant(told)
    return False


def _get(values: Mapping[str, Any], path: tuple[str, ...]) -> Any:
    here: Any = values
    for key in path:
        here = here.get(key) if isinstance(here, Mapping) else None
    return here


def _set(values: dict[str, Any], path: tuple[str, ...], value: str | None) -> None:
    """Put a value at its keys, tables on the way copied; None takes the key away."""
    *above, last = path
    here = values
    for key in above:
        inner = here.get(key, {})
        if not isinstance(inner, Mapping):
            return
        here[key] = dict(inner)
        here = here[key]
    if value is None:
        here.pop(last, None)
    else:
        here[last] = value
