"""The drawers of each cabinet together: sums that must close, and the move that puts all on rows of holes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from math import fsum

from drawerwright.fit.column_remarks import CLOSES, column_remarks
from drawerwright.fit.columns import Overlaps, front_overlaps
from drawerwright.model.columns import columns_of
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.fitted_column import ColumnMove, ColumnRow, FittedColumn
from drawerwright.units import ShownUnits


def fitted_columns(fitted: Sequence[FittedDrawer], units: ShownUnits = "mm") -> tuple[FittedColumn, ...]:
    """The columns of two drawers and more, in the job's order; `units` of the sentences."""
    by_id = {one.id: one for one in fitted}
    columns = {
        name: [by_id[drawer.id] for drawer in column]
        for name, column in columns_of(one.drawer for one in fitted).items()
        if len(column) > 1
    }
    if not columns:
        return ()
    cabinets = {one.cabinet.id: one.cabinet for one in fitted if one.cabinet is not None}
    overlaps = front_overlaps([one.drawer for one in fitted], cabinets)
    return tuple(_column(name, column, overlaps, units) for name, column in columns.items())


def _column(
    name: str, column: Sequence[FittedDrawer], overlaps: Mapping[str, Overlaps], units: ShownUnits
) -> FittedColumn:
    edges = [_edges(one, overlaps[one.id]) for one in column]
    gaps = [_gap(lower, upper) for lower, upper in pairwise(edges)]
    rows = tuple(_row(one, edge, gap) for one, edge, gap in zip(column, edges, (*gaps, None), strict=True))
    openings = fsum(row.opening for row in rows)
    between = fsum(upper.floor - (lower.floor + lower.opening) for lower, upper in pairwise(rows))
    fronts = [edge[1] - edge[0] for edge in edges if edge is not None]
    whole = len(fronts) == len(rows)
    known_gaps = [gap for gap in gaps if gap is not None]
    overlays = _wanted(column[0])[0] + _wanted(column[-1])[1]
    cabinet = column[0].cabinet
    inside = cabinet.inside_height if cabinet is not None else None
    top = rows[-1].floor + rows[-1].opening
    found = FittedColumn(
        cabinet=name,
        rows=rows,
        openings=openings,
        between=between,
        fronts=fsum(fronts) if whole else None,
        gaps=fsum(known_gaps) if whole else None,
        overlays=overlays if whole else None,
        closes_by=openings + between + overlays - fsum(fronts) - fsum(known_gaps) if whole else None,
        room_above=None if inside is None else inside - top,
        move=_move(column, rows),
        remarks=(),
    )
    return replace(found, remarks=column_remarks(found, column, units))


def _edges(one: FittedDrawer, overlaps: Overlaps) -> tuple[float, float] | None:
    """Lower and upper edge of a front above the cabinet floor."""
    front, opening = one.drawer.front, one.drawer.opening
    if front.style == "none":
        return None
    if front.style == "inset":
        return opening.floor + front.gap, opening.floor + opening.height.smallest - front.gap
    return opening.floor - overlaps.bottom, opening.floor + opening.height.largest + overlaps.top


def _gap(lower: tuple[float, float] | None, upper: tuple[float, float] | None) -> float | None:
    return None if lower is None or upper is None else upper[0] - lower[1]


def _wanted(one: FittedDrawer) -> tuple[float, float]:
    """How far a front is to reach beyond its opening at the bottom and at the top of a column."""
    front, height = one.drawer.front, one.drawer.opening.height
    if front.style == "inset":
        return -front.gap, height.smallest - height.largest - front.gap
    return front.overlay.bottom, front.overlay.top


def _row(one: FittedDrawer, edges: tuple[float, float] | None, gap: float | None) -> ColumnRow:
    mounting, box, opening = one.mounting, one.box, one.drawer.opening
    on_side = mounting is not None and bool(mounting.holes)
    return ColumnRow(
        drawer=one.id,
        row=one.drawer.row or 0,
        floor=opening.floor,
        opening=opening.height.largest,
        front_bottom=edges[0] if edges else None,
        front_top=edges[1] if edges else None,
        gap_above=gap,
        lower_edge=box.lower_edge if box else None,
        box_height=box.height if box else None,
        screw_line=mounting.screw_line if mounting and on_side else None,
        moved_up=mounting.moved_up if mounting and _on_rows(one) else None,
    )


def _on_rows(one: FittedDrawer) -> bool:
    """Whether a drawer's screws go into rows of holes that are there already."""
    cabinet, slide = one.cabinet, one.slide
    return (
        cabinet is not None and cabinet.first_row is not None and slide is not None and slide.mount == "side"
    )


def _move(column: Sequence[FittedDrawer], rows: Sequence[ColumnRow]) -> ColumnMove | None:
    """One opening raised or lowered with all above it; those under it must be on their rows as they are."""
    off = [(row, row.moved_up) for row in rows if row.moved_up is not None]
    first = next((place for place, (_, up) in enumerate(off) if up > CLOSES), None)
    if first is None:
        return None
    by = off[first][1]
    if any(abs(up - by) > CLOSES for _, up in off[first:]):
        return None
    cabinet = column[0].cabinet
    pitch = cabinet.pitch if cabinet is not None else by
    down = by - pitch
    lowers = -pitch < down and -down < by and off[first][0].floor + down >= 0
    return ColumnMove(off[first][0].row, down if lowers else by)
