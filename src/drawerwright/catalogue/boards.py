"""Densities of the stock that boxes and fronts are made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drawerwright.catalogue.shipped import shipped_values
from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest
from drawerwright.units import show_value


@dataclass(frozen=True, slots=True)
class Board:
    """A kind of stock: the density that estimates use, and the range of its source [kg/m³]."""

    id: str
    title: str
    density: float
    lowest: float
    highest: float
    source: str


@cache
def boards() -> tuple[Board, ...]:
    """All kinds of stock, in the order of their data file."""
    return tuple(
        Board(
            id=entry["id"],
            title=entry["title"],
            density=float(entry["density"]),
            lowest=float(entry["range"][0]),
            highest=float(entry["range"][1]),
            source=entry["source"],
        )
        for entry in shipped_values("boards.toml")["board"]
    )


def board(id: str, *, where: str = "board") -> Board:  # noqa: A002
    """The stock with that id. Raises InputError naming the nearest when there is none."""
    for one in boards():
        if one.id == id:
            return one
    known = [one.id for one in boards()]
    says = f"is not a known board: {', '.join(known)}"
    raise InputError([Fault(where, show_value(id), says, f'"{nearest(id, known)}"')])


@cache
def box_board() -> Board:
    """The stock that a box is taken to be made of."""
    return board(shipped_values("boards.toml")["box"])


@cache
def front_board() -> Board:
    """The stock that an applied front is taken to be made of."""
    return board(shipped_values("boards.toml")["front"])
