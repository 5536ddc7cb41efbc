"""The cautions that stand on papers, kept as data."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from drawerwright.model.fitted import FittedDrawer


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: `wall` says whether whoever mounts needs it before the eyes.

    `slide`: of which carriage alone it speaks, "concealed" or "side-mounted"; empty: of any.
    """

    title: str
    says: str
    wall: bool
    slide: str = ""


@cache
def cautions() -> tuple[Caution, ...]:
    """All cautions in their order."""
    data = tomllib.loads(files(__package__).joinpath("cautions.toml").read_text(encoding="utf-8"))
    return tuple(
        Caution(one["title"], one["says"], one.get("wall", False), one.get("slide", ""))
        for one in data["caution"]
    )


def cautions_for(drawers: Sequence[FittedDrawer]) -> list[Caution]:
    """Those that speak of some drawers: of locking brackets only where a slide runs under its box."""
    carriages = carriages_of(drawers)
    return [one for one in cautions() if not one.slide or one.slide in carriages]


def carriages_of(drawers: Sequence[FittedDrawer]) -> frozenset[str]:
    """Where the slides of some drawers run: under the box, beside it, or both; under it where none fits."""
    found = frozenset(one.slide.family.carriage for one in drawers if one.slide is not None)
    return found or frozenset({"concealed"})
