"""How stiff and strong the stock is that boxes, bottoms and cabinets are made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, Literal

from drawerwright.catalogue.boards import board
from drawerwright.catalogue.shipped import shipped_values

_FILE: Final = "stock-strength.toml"


@dataclass(frozen=True, slots=True)
class Strength:
    """A kind of stock [N/mm²]: `rupture` None where no source tells it; `gravity` is specific gravity.

    `screws`: whether a screw holds as in wood, or as in board.
    """

    board: str
    title: str
    modulus: float
    rupture: float | None
    gravity: float
    screws: Literal["wood", "board"]
    source: str


@cache
def strengths() -> dict[str, Strength]:
    """All kinds of stock by the id of their board, in the order of the data file."""
    return {
        entry["board"]: Strength(
            board=entry["board"],
            title=board(entry["board"]).title,
            modulus=float(entry["modulus"]),
            rupture=float(entry["rupture"]) if "rupture" in entry else None,
            gravity=float(entry["gravity"]),
            screws=entry["screws"],
            source=entry["source"],
        )
        for entry in shipped_values(_FILE)["stock"]
    }


@cache
def cabinet_strength() -> Strength:
    """The stock that a cabinet is taken to be made of."""
    return strengths()[shipped_values(_FILE)["cabinet"]]
