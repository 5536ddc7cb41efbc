"""Paper sizes for the sheets, kept as data with their source."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal, TypeAlias

PaperName: TypeAlias = Literal["a4", "letter"]


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper lying across [mm]: `width` is the longer edge. `source` says where the size is from.

    `spreadsheet` is the number that workbooks know it by.
    """

    name: str
    width: float
    height: float
    spreadsheet: int
    source: str


@cache
def papers() -> dict[str, Paper]:
    """All papers known, by the name they are asked for."""
    data = tomllib.loads(files(__package__).joinpath("papers.toml").read_text(encoding="utf-8"))
    return {
        key: Paper(
            name=entry["name"],
            width=max(entry["width"], entry["height"]),
            height=min(entry["width"], entry["height"]),
            spreadsheet=entry["spreadsheet"],
            source=entry["source"],
        )
        for key, entry in data.items()
    }
