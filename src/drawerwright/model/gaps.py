"""What is measured around a hung front: gaps beside its edges, corners that stand out, adjusters as they are.

Lengths mm. A gap stands beside an edge of the front at one of its ends; a corner that stands out towards the
viewer is positive.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias, get_args

GapName: TypeAlias = Literal[
    "left_top",
    "left_bottom",
    "right_top",
    "right_bottom",
    "top_left",
    "top_right",
    "bottom_left",
    "bottom_right",
    "out_top_left",
    "out_top_right",
    "out_bottom_left",
    "out_bottom_right",
]
AdjusterName: TypeAlias = Literal["side", "height", "depth", "tilt"]
Hand: TypeAlias = Literal["left", "right"]

GAP_NAMES: Final[tuple[GapName, ...]] = get_args(GapName)
"""The readings of one front, in the order of the gaps file."""

ADJUSTER_NAMES: Final[tuple[AdjusterName, ...]] = get_args(AdjusterName)

SURE_WITHIN: Final = 0.1
"""Standard uncertainty of a plain reading [mm], a feeler leaf or a small rule. Own choice, no source."""

Setting: TypeAlias = tuple[Hand, AdjusterName]


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading [mm]: its best value, its standard uncertainty, and the words it was told in."""

    value: float
    uncertainty: float = SURE_WITHIN
    told: str = ""


@dataclass(frozen=True)
class FrontGaps:
    """The readings of one drawer's front; those that were not taken are left out.

    `settings`: where adjusters stand now, in marks from the place as delivered, by hand and adjuster.
    `places`: where each reading was told (file and line), by column; "" is the row itself.
    """

    drawer: str
    readings: Mapping[GapName, Reading]
    settings: Mapping[Setting, float] = field(default_factory=dict)
    places: Mapping[str, str] = field(default_factory=dict)

    def place(self, column: str = "") -> str:
        """Where a column was told, as a message names it."""
        words = self.places.get(column) or self.places.get("") or f"gaps {self.drawer}"
        return f"{words} {column}".rstrip()
