"""Cabinet sides of whole columns: one panel carries the holes of every drawer that it holds.

Axes as of a single cabinet side [mm]: x from the front edge, y above the cabinet floor, seen from inside.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drawerwright.drawing.dimensioning import stacked
from drawerwright.drawing.scene import Dimension, Leader, Primitive, RunningDimension, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.cabinet_side import (
    ABOVE,
    ROW_HOLE,
    ROW_HOLE_DEPTH,
    member_lines,
    opening_lines,
    right_from,
    row_marks,
    side_edges,
)
from drawerwright.drawing.views.standing import fitted_parts, needed_parts, standing
from drawerwright.drawing.wording import bored, listed, on_grid
from drawerwright.model.fitted import FittedDrawer


@dataclass(frozen=True, slots=True)
class ColumnSide:
    """A cabinet side as it is bored: `cabinets` that want it alike, and the drawers on it."""

    name: str
    scene: Scene
    cabinets: tuple[str, ...]
    ids: tuple[str, ...]


def bored_in_column(fitted: FittedDrawer) -> bool:
    """Whether a drawer's row holes are on the sides of a cabinet that is drawn as a column."""
    parts = fitted_parts(fitted)
    return (
        parts is not None
        and fitted.drawer.cabinet is not None
        and fitted.drawer.frame_in_use is None
        and parts.slide.mount == "side"
        and parts.mounting.screw_line is not None
        and bool(parts.mounting.holes_from_side_edge)
        and parts.mounting.packing_left == parts.mounting.packing_right == 0.0
    )


def cabinet_sides(drawers: Iterable[FittedDrawer], units: Units = "mm") -> tuple[ColumnSide, ...]:
    """Left and right side of every cabinet that drawers name, in their order; sides bored alike once.

    Drawers without a cabinet, on packing, rear brackets or a shelf are passed over: see their own view.
    """
    columns: dict[str, list[FittedDrawer]] = {}
    for each in drawers:
        if bored_in_column(each):
            columns.setdefault(str(each.drawer.cabinet), []).append(each)
    found: dict[tuple[Primitive, ...], list[tuple[str, Scene, str, Sequence[FittedDrawer]]]] = {}
    for cabinet, column in columns.items():
        rows = sorted(column, key=_height)
        left = in_units(_left_side(cabinet, rows, units), units)
        for name, scene in (("cabinet side left", left), ("cabinet side right", right_from(left))):
            found.setdefault(scene.primitives, []).append((name, scene, cabinet, rows))
    return tuple(
        ColumnSide(
            name=uses[0][0],
            scene=uses[0][1],
            cabinets=tuple(cabinet for _, _, cabinet, _ in uses),
            ids=tuple(each.id for _, _, _, rows in uses for each in rows),
        )
        for uses in found.values()
    )


def _height(fitted: FittedDrawer) -> float:
    return needed_parts(fitted).mounting.screw_line or 0.0


def _left_side(cabinet: str, rows: Sequence[FittedDrawer], units: Units) -> Scene:
    length = max(each.opening.depth for each in rows)
    top = max(each.opening.floor + each.opening.height for each in rows) + ABOVE
    drawn: list[Primitive] = [*side_edges(length, top)]
    for each in rows:
        drawn += [one for one in opening_lines(each, length) if one not in drawn]
        drawn += member_lines(standing(each))
    for number, each in enumerate(rows, start=1):
        drawn += _row(each, number, units)
    heights = [
        Dimension("screw_line", y, (0.0, 0.0), (0.0, y), "vertical")
        for y in dict.fromkeys(_height(each) for each in rows)
    ]
    drawn += stacked(heights, 0.0, below_or_left=True)
    drawn += _running(rows)
    says = "; ".join(
        f"row {number} at {on_grid(_height(each), units)} above the floor, holes at "
        f"{listed(needed_parts(each).mounting.holes_from_side_edge, units)}"
        for number, each in enumerate(rows, start=1)
    )
    return Scene(
        "cabinet-side-left",
        f"Left cabinet side, cabinet {cabinet}",
        f"Left cabinet side seen from inside the cabinet, bored for {len(rows)} drawers: {says}",
        tuple(drawn),
    )


def _row(fitted: FittedDrawer, number: int, units: Units) -> list[Primitive]:
    """One drawer's holes and slots on their screw line, with a note."""
    mounting = needed_parts(fitted).mounting
    y, holes = _height(fitted), mounting.holes_from_side_edge
    drawn = row_marks(mounting, y, ROW_HOLE_DEPTH, "row holes")
    note = f"row {number}: {len(holes)} × Ø {bored(ROW_HOLE, units)}, {bored(ROW_HOLE_DEPTH, units)} deep"
    drawn.append(Leader((holes[-1], y), (-3.0, 5.0), -2.0, note, dot=False))
    return drawn


def _running(rows: Sequence[FittedDrawer]) -> list[Primitive]:
    """Distances from the front edge: under the side for the lowest row, under a row that differs from it."""
    drawn: list[Primitive] = []
    before: tuple[float, ...] | None = None
    for each in rows:
        holes, y = needed_parts(each).mounting.holes_from_side_edge, _height(each)
        if holes != before:
            base = 0.0 if before is None else y
            marks = tuple((x, y) for x in holes)
            drawn.append(RunningDimension("first_hole", (0.0, base), marks, holes, base, -9.0))
        before = holes
    return drawn
