"""Data files that come with the package."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any


def shipped_text(name: str) -> str:
    """Text of a data file, such as "families/house-16.toml"."""
    return files(__package__).joinpath("data", *name.split("/")).read_text(encoding="utf-8")


def shipped_values(name: str) -> dict[str, Any]:
    """Values of a TOML data file."""
    return tomllib.loads(shipped_text(name))
