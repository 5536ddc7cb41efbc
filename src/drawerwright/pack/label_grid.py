"""How labels lie on a sheet, kept as data with its source."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from drawerwright.pack.papers import PaperName


@dataclass(frozen=True, slots=True)
class LabelGrid:
    """Labels on an upright sheet [mm]: `left` and `top` are the margins before the first one."""

    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    source: str

    @property
    def per_sheet(self) -> int:
        """How many labels a sheet holds."""
        return self.columns * self.rows


@cache
def label_grid(paper: PaperName) -> LabelGrid:
    """The grid for one paper."""
    text = files(__package__).joinpath("label_grids.toml").read_text(encoding="utf-8")
    return LabelGrid(**tomllib.loads(text)[paper])
