"""Columns: drawers of one cabinet over each other, and what of their openings follows from the others.

A front that covers an opening shares what stands between two openings with its neighbour, less half the gap.
So a column may be told by its fronts: each opening is then the front less what it covers. Openings that tell
no floor stand one on the other, a rail apart. Plain geometry; lengths [mm].
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from drawerwright.errors import Problem
from drawerwright.model.readings import NOT_TOLD, Readings
from drawerwright.units import LARGEST_LENGTH

if TYPE_CHECKING:
    from drawerwright.model.job import Cabinet, Drawer


def columns_of(drawers: Iterable[Drawer]) -> dict[str, list[Drawer]]:
    """Drawers by the cabinet that they name, lowest row first; those without a row stand in no column."""
    columns: dict[str, list[Drawer]] = defaultdict(list)
    for drawer in drawers:
        if drawer.cabinet is not None and drawer.row is not None:
            columns[drawer.cabinet].append(drawer)
    for column in columns.values():
        column.sort(key=_row)
    return dict(columns)


def shared_edge(told: float, gap: float, between: float) -> float:
    """How far a front covers its half of what stands `between` two openings; negative inside its opening.

    Never more than its overlay as `told`; what overlaps counts as nothing between.
    """
    return min(told, (max(between, 0.0) - gap) / 2)


def settle_openings(
    drawers: Sequence[Drawer], cabinets: Mapping[str, Cabinet]
) -> tuple[tuple[Drawer, ...], list[Problem]]:
    """Drawers with the heights and floors of their openings that follow; what cannot be, as problems.

    A height that is not told is the front's less what it covers. Floors follow only where no row above the
    lowest tells one (0 is none: an opening cannot stand below the one under it) and no row is left out.
    """
    settled = {drawer.id: drawer for drawer in drawers}
    columns = columns_of(drawers)
    inner = _edges_inside(columns)
    problems = []
    for position, drawer in enumerate(drawers):
        if drawer.opening.height == NOT_TOLD:
            height = _height_behind(drawer, _rail(cabinets, drawer.cabinet), inner.get(drawer.id, (0, 0)))
            if not 0.0 < height <= LARGEST_LENGTH:
                problems.append(_no_opening(position, drawer, height))
            settled[drawer.id] = _with(drawer, height=Readings((height,)))
    if problems:
        return tuple(drawers), problems
    for name, column in columns.items():
        below = [settled[drawer.id] for drawer in column]
        for drawer, floor in zip(below, _floors(below, _rail(cabinets, name)), strict=True):
            if floor != drawer.opening.floor:
                settled[drawer.id] = _with(drawer, floor=floor)
    return tuple(settled[drawer.id] for drawer in drawers), []


def _row(drawer: Drawer) -> int:
    return drawer.row or 0


def _rail(cabinets: Mapping[str, Cabinet], name: str | None) -> float:
    cabinet = cabinets.get(name) if name is not None else None
    return 0.0 if cabinet is None else cabinet.rail


def _edges_inside(columns: Mapping[str, Sequence[Drawer]]) -> dict[str, tuple[int, int]]:
    """By drawer id, 1 where its front's bottom or top edge meets another overlay front of the column."""
    inside: dict[str, tuple[int, int]] = {}
    for column in columns.values():
        fronts = [drawer for drawer in column if drawer.front.style == "overlay"]
        for position, drawer in enumerate(fronts):
            inside[drawer.id] = (int(position > 0), int(position < len(fronts) - 1))
    return inside


def _height_behind(drawer: Drawer, rail: float, inner: tuple[int, int]) -> float:
    front = drawer.front
    height = front.height or 0.0
    if front.style == "inset":
        return height + 2 * front.gap
    told = (front.overlay.bottom, front.overlay.top)
    covers = [
        shared_edge(overlay, front.gap, rail) if inside else overlay
        for overlay, inside in zip(told, inner, strict=True)
    ]
    return height - covers[0] - covers[1]


def _no_opening(position: int, drawer: Drawer, height: float) -> Problem:
    says = (
        "leaves no opening behind its overlays"
        if height <= 0
        else f"makes an opening of {height:g} mm: {LARGEST_LENGTH:g} mm is the most"
    )
    value = f"{drawer.front.height or 0:g} mm"
    return Problem(("drawer", position, "front", "height"), value, says, "a front that covers its opening")


def _floors(column: Sequence[Drawer], rail: float) -> list[float]:
    """Floors of a column, lowest first: as told, or one opening on the other."""
    told = [drawer.opening.floor for drawer in column]
    gapless = all(_row(upper) == _row(lower) + 1 for lower, upper in pairwise(column))
    if any(told[1:]) or not gapless:
        return told
    floors = told[:1]
    for drawer in column[:-1]:
        floors.append(floors[-1] + drawer.opening.height.largest + rail)
    return floors if floors[-1] <= LARGEST_LENGTH else told


def _with(drawer: Drawer, **opening: object) -> Drawer:
    return drawer.model_copy(update={"opening": drawer.opening.model_copy(update=opening)})
