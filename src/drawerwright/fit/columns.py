"""Fronts of one column: inner edges share the gap, outer edges keep their overlay; who stands over whom."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.model.columns import columns_of, shared_edge
from drawerwright.model.job import Cabinet, Drawer

Standing: TypeAlias = Literal["alone", "lowest", "between", "highest"]
NO_CABINETS: Final[Mapping[str, Cabinet]] = {}


@dataclass(frozen=True, slots=True)
class Overlaps:
    """How far a front reaches beyond each edge of its opening [mm]; negative: it stays inside.

    `row_below_top` and `row_above_floor`: where the openings below and above in the column end and begin,
    above the cabinet floor; None: there is none.
    """

    left: float
    right: float
    top: float
    bottom: float
    row_below_top: float | None = None
    row_above_floor: float | None = None

    @property
    def standing(self) -> Standing:
        """Where the drawer stands in its column."""
        if self.row_below_top is None:
            return "alone" if self.row_above_floor is None else "lowest"
        return "highest" if self.row_above_floor is None else "between"


def front_overlaps(
    drawers: Iterable[Drawer], cabinets: Mapping[str, Cabinet] = NO_CABINETS
) -> dict[str, Overlaps]:
    """Overlaps of every drawer's front by drawer id; drawers of one cabinet are its column, row 1 lowest.

    `cabinets` by id, for the sides that they share with a neighbour. Where heights of fronts are told, the
    fronts are laid from the bottom: the lowest begins its overlay under its opening, each next one a gap
    above the one before.
    """
    drawers = tuple(drawers)
    columns = columns_of(drawers)
    upright = {
        drawer.id: edges
        for column in columns.values()
        for drawer, edges in _laid([one for one in column if one.front.style == "overlay"])
    }
    between = {drawer.id: places for column in columns.values() for drawer, places in _between(column)}
    return {
        drawer.id: Overlaps(
            *_across(drawer, cabinets),
            *(upright[drawer.id] if drawer.id in upright else _laid([drawer])[0][1]),
            *between.get(drawer.id, (None, None)),
        )
        for drawer in drawers
    }


def _across(drawer: Drawer, cabinets: Mapping[str, Cabinet]) -> tuple[float, float]:
    """Left and right: the overlay, or half of a side that is shared with the neighbouring cabinet."""
    told, gap = drawer.front.overlay, drawer.front.gap
    cabinet = cabinets.get(drawer.cabinet) if drawer.cabinet is not None else None
    if cabinet is None:
        return told.left, told.right
    shared = cabinet.partition
    return (
        shared_edge(told.left, gap, shared.left) if shared.left else told.left,
        shared_edge(told.right, gap, shared.right) if shared.right else told.right,
    )


def _laid(fronts: Sequence[Drawer]) -> list[tuple[Drawer, tuple[float, float]]]:
    """Top and bottom overlap of each overlay front of a column, lowest first."""
    laid: list[tuple[Drawer, tuple[float, float]]] = []
    reached: float | None = None  # upper edge of the front below, where its height was told
    for position, drawer in enumerate(fronts):
        floor, front = drawer.opening.floor, drawer.front
        ceiling = floor + drawer.opening.height.largest
        bottom, top = front.overlay.bottom, front.overlay.top
        if position > 0:
            rail = floor - _ceiling(fronts[position - 1])
            bottom = shared_edge(bottom, front.gap, rail)
            if reached is not None:
                alone = bottom == front.overlay.bottom  # a wide rail between: fronts need not meet on it
                meets = floor - (reached + front.gap)
                bottom = min(bottom, meets) if alone else meets
        if position < len(fronts) - 1:
            top = shared_edge(top, front.gap, fronts[position + 1].opening.floor - ceiling)
        if front.height is not None and front.style == "overlay":
            top = front.height - (ceiling - floor) - bottom
            reached = ceiling + top
        else:
            reached = None
        laid.append((drawer, (top, bottom)))
    return laid


def _between(column: Sequence[Drawer]) -> list[tuple[Drawer, tuple[float | None, float | None]]]:
    """For each opening of a column where the one below ends and the one above begins."""
    last = len(column) - 1
    return [
        (
            drawer,
            (
                _certain_top(column[position - 1]) if position > 0 else None,
                column[position + 1].opening.floor if position < last else None,
            ),
        )
        for position, drawer in enumerate(column)
    ]


def _certain_top(drawer: Drawer) -> float:
    """Up to here the opening reaches by every reading: what overlaps it does so for certain."""
    return drawer.opening.floor + drawer.opening.height.smallest


def _ceiling(drawer: Drawer) -> float:
    return drawer.opening.floor + drawer.opening.height.largest
