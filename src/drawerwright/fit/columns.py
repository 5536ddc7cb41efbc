"""Fronts of one column: inner edges share the gap, outer edges keep their overlay."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from drawerwright.model.job import Drawer


@dataclass(frozen=True, slots=True)
class Overlaps:
    """How far a front reaches beyond each edge of its opening [mm]; negative: it stays inside."""

    left: float
    right: float
    top: float
    bottom: float


def front_overlaps(drawers: Iterable[Drawer]) -> dict[str, Overlaps]:
    """Overlaps of every drawer's front by drawer id; drawers of one cabinet are its column, row 1 lowest."""
    drawers = tuple(drawers)
    above, below = _neighbours(drawers)
    return {drawer.id: _overlaps(drawer, above.get(drawer.id), below.get(drawer.id)) for drawer in drawers}


def _neighbours(drawers: Iterable[Drawer]) -> tuple[dict[str, Drawer], dict[str, Drawer]]:
    columns: dict[str, list[tuple[int, Drawer]]] = defaultdict(list)
    for drawer in drawers:
        if drawer.cabinet is not None and drawer.row is not None and drawer.front.style == "overlay":
            columns[drawer.cabinet].append((drawer.row, drawer))
    above: dict[str, Drawer] = {}
    below: dict[str, Drawer] = {}
    for column in columns.values():
        column.sort(key=lambda item: item[0])
        for (_, lower), (_, upper) in pairwise(column):
            above[lower.id], below[upper.id] = upper, lower
    return above, below


def _overlaps(drawer: Drawer, above: Drawer | None, below: Drawer | None) -> Overlaps:
    told = drawer.front.overlay
    return Overlaps(
        told.left,
        told.right,
        told.top if above is None else _inner(told.top, drawer, above, drawer.front.gap),
        told.bottom if below is None else _inner(told.bottom, below, drawer, drawer.front.gap),
    )


def _inner(told: float, lower: Drawer, upper: Drawer, gap: float) -> float:
    """Half the gap inside the edge, or up to half of a rail that stands between the openings."""
    rail = upper.opening.floor - (lower.opening.floor + lower.opening.height.largest)
    return min(told, (max(rail, 0.0) - gap) / 2)
