"""The demo job's values, for whoever wants to begin from an example. Place and people in it are invented."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Final

FIRST_CABINET: Final = "K1"


@cache
def _demo_text() -> str:
    return files("drawerwright.cli").joinpath("demo.toml").read_text(encoding="utf-8")


def demo_values() -> dict[str, Any]:
    """The keys of the demo job's file, to change as one likes."""
    return tomllib.loads(_demo_text())


def demo_cabinet() -> dict[str, Any]:
    """Its first cabinet alone, with the two lowest drawers: an example that can be read at a glance."""
    values = demo_values()
    cabinets = [one for one in values["cabinet"] if one["id"] == FIRST_CABINET]
    drawers = [one for one in values["drawer"] if one.get("cabinet") == FIRST_CABINET][:2]
    return {**values, "cabinet": cabinets, "drawer": drawers}
