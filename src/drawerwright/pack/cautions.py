"""The cautions that stand on papers, kept as data."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: `wall` says whether whoever mounts needs it before the eyes."""

    title: str
    says: str
    wall: bool


@cache
def cautions() -> tuple[Caution, ...]:
    """All cautions in their order."""
    data = tomllib.loads(files(__package__).joinpath("cautions.toml").read_text(encoding="utf-8"))
    return tuple(Caution(one["title"], one["says"], one.get("wall", False)) for one in data["caution"])
