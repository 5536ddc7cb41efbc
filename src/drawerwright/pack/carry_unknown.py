"""What a slide family leaves untold of what its drawers carry: what goes unsaid, what is wanted for it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from drawerwright.carry.carried import CarriedDrawer
from drawerwright.pack.lettering import for_sheets


@cache
def unknown_words() -> Mapping[str, Mapping[str, str]]:
    """By key of the slide file: `name`, what it `says`, what it `wants`, and its keys for `small` print."""
    data = tomllib.loads(files(__package__).joinpath("carrying_unknown.toml").read_text(encoding="utf-8"))
    return {entry["key"]: entry for entry in data["unknown"]}


def unknown_name(key: str) -> str:
    """A key of a slide family in words."""
    return unknown_words()[key]["name"]


def missing_rows(one: CarriedDrawer) -> list[dict[str, str]]:
    """What the slide family does not tell: what goes without an answer, what is wanted, and its keys."""
    rows = []
    for key in one.missing:
        words = unknown_words()[key]
        says = f"{words['says']} Wanted: {words['wants']}"
        rows.append({"who": words["name"], "says": for_sheets(says), "small": words["small"]})
    return rows
