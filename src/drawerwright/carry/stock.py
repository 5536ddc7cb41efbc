"""What the parts of a drawer and its cabinet are made of, as far as strength goes."""

from __future__ import annotations

from drawerwright.catalogue.boards import box_board, front_board
from drawerwright.catalogue.drawer_materials import Part, material_of
from drawerwright.catalogue.materials import Materials
from drawerwright.catalogue.strength import Strength, strengths
from drawerwright.equations.mechanics.screws import (
    BOARD_SOURCE,
    WOOD_SOURCE,
    withdrawal_from_board,
    withdrawal_from_wood,
)
from drawerwright.model.job import Drawer


def stock_of(drawer: Drawer, part: Part, materials: Materials | None) -> Strength | None:
    """The stock of a part: of the material named, else what boxes and fronts are taken to be made of.

    None where a material is named whose strength is not known.
    """
    material = material_of(drawer, part, materials)
    if material is None:
        return strengths()[front_board().id if part == "front" else box_board().id]
    return strengths().get(material.board) if material.board is not None else None


def withdrawal(stock: Strength, diameter: float, penetration: float) -> float:
    """Pull [N] that draws a screw out of the face of that stock."""
    if stock.screws == "board":
        return withdrawal_from_board(stock.gravity, diameter, penetration)
    return withdrawal_from_wood(stock.gravity, diameter, penetration)


def withdrawal_source(stock: Strength) -> str:
    """On whose word that stands."""
    return f"{BOARD_SOURCE if stock.screws == 'board' else WOOD_SOURCE}; {stock.source}"
