"""What is to be said of a column: openings that overlap, fronts that do not close, rows of holes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.fitted_column import ColumnRemark, FittedColumn
from drawerwright.units import ShownUnits, format_length, is_slight

CLOSES: Final = 0.05
"""Within this [mm] a sum closes: lengths are told to 0.1 at most. The tool's own rule."""


def column_remarks(
    found: FittedColumn, column: Sequence[FittedDrawer], units: ShownUnits
) -> tuple[ColumnRemark, ...]:
    """Remarks on a column and its drawers, lowest first; none stops a drawer. `units` of the sentences."""
    return (
        *_openings_told(found, column, units),
        *_height_told(found, units),
        *_gaps_told(found, column, units),
        *_fronts_told(found, units),
        *_boxes_told(found, units),
        *_rows_told(found, units),
    )


def _openings_told(
    found: FittedColumn, column: Sequence[FittedDrawer], units: ShownUnits
) -> Iterator[ColumnRemark]:
    margins = [
        upper.drawer.opening.floor - lower.drawer.opening.floor - lower.drawer.opening.height.smallest
        for lower, upper in pairwise(column)
    ]
    least = min(margins)
    if least < 0:
        lower, upper = found.rows[margins.index(least)], found.rows[margins.index(least) + 1]
        wrong = "stands under" if upper.floor < lower.floor else "overlaps"
        two = (
            f"The opening of {upper.drawer}, row {upper.row}, {wrong} that of {lower.drawer}, row {lower.row}"
        )
        cure = "measure floors and heights again, and number the rows from the bottom"
        says = f"{two}, by {_shown(-least, units)}: {cure}."
        yield ColumnRemark("column", "watch", least, says)
    else:
        apart = f"{_shown(least, units)} or more" if least > CLOSES else "nothing"
        says = f"The openings stand one over the other, {apart} between them."
        yield ColumnRemark("column", "ok", least, says)


def _height_told(found: FittedColumn, units: ShownUnits) -> Iterator[ColumnRemark]:
    if found.room_above is not None:
        over = found.room_above >= -CLOSES
        room = _shown(abs(found.room_above), units)
        says = (
            f"Over the highest opening {room} of the cabinet's inside height is left."
            if over
            else f"The openings reach {room} higher than the inside of the cabinet."
        )
        yield ColumnRemark("inside-height", "ok" if over else "watch", found.room_above, says)


def _gaps_told(
    found: FittedColumn, column: Sequence[FittedDrawer], units: ShownUnits
) -> Iterator[ColumnRemark]:
    wanted = [
        (row, row.gap_above, one.drawer.front.gap)
        for row, one in zip(found.rows, column, strict=True)
        if row.gap_above is not None and one.drawer.front.style == "overlay"
    ]
    if not wanted:
        return
    row, gap, want = min(wanted, key=lambda item: item[1] - item[2])
    if gap - want < -CLOSES:
        stands = f"stands {_shown(gap, units)} under" if gap >= 0 else f"overlaps by {_shown(-gap, units)}"
        says = f"The front of {row.drawer} {stands} the one above; a gap of {_shown(want, units)} is wanted."
        yield ColumnRemark("front-gaps", "watch", gap - want, says)


def _fronts_told(found: FittedColumn, units: ShownUnits) -> Iterator[ColumnRemark]:
    if found.closes_by is None or found.fronts is None or found.gaps is None or found.overlays is None:
        return
    fronts, gaps, overlays = (_shown(one, units) for one in (found.fronts, found.gaps, found.overlays))
    sums = (
        f"Fronts {fronts} and gaps {gaps} stand against openings {_shown(found.openings, units)}, "
        f"{_shown(found.between, units)} between them and overlays {overlays}"
    )
    off = found.closes_by
    if abs(off) <= CLOSES:
        yield ColumnRemark("fronts", "ok", -abs(off), f"{sums}: they close.")
    else:
        left = "is left open at the top" if off > 0 else "is too much at the top"
        yield ColumnRemark("fronts", "watch", -abs(off), f"{sums}: {_shown(abs(off), units)} {left}.")


def _boxes_told(found: FittedColumn, units: ShownUnits) -> Iterator[ColumnRemark]:
    """A box that reaches beyond its own front stands behind a neighbour's, which then holds it."""
    beyond = []
    for row in found.rows:
        if None not in (row.front_bottom, row.front_top, row.lower_edge, row.box_height):
            assert row.front_bottom is not None
            assert row.front_top is not None
            assert row.lower_edge is not None
            assert row.box_height is not None
            beyond.append((row.front_top - row.lower_edge - row.box_height, row.drawer, "over"))
            beyond.append((row.lower_edge - row.front_bottom, row.drawer, "under"))
    if not beyond:
        return
    room, drawer, where = min(beyond)
    if room < -CLOSES:
        says = (
            f"The box of {drawer} reaches {_shown(-room, units)} {where} its own front, behind the next one."
        )
        cure = "Let the heights of the fronts follow the openings, or make the box lower."
        yield ColumnRemark("boxes", "watch", room, f"{says} {cure}")
    else:
        says = f"Every box stands behind its own front, {_shown(room, units)} or more from its edges."
        yield ColumnRemark("boxes", "ok", room, says)


def _rows_told(found: FittedColumn, units: ShownUnits) -> Iterator[ColumnRemark]:
    on_rows = [(row, row.moved_up) for row in found.rows if row.moved_up is not None]
    if not on_rows:
        return
    most = max(up for _, up in on_rows)
    move = found.move
    if most <= CLOSES:
        says = "Every screw line is on a row of holes as it is."
    elif move is not None:
        way = "Raise" if move.by > 0 else "Lower"
        by = _shown(abs(move.by), units)
        bored = move.by > 0 and move.row == on_rows[0][0].row
        other = f" So they are with rows that are bored {by} lower." if bored else ""
        says = (
            f"{way} the opening of row {move.row} and all above it by {by}: then every screw line is on a "
            f"row of holes and no box is moved up.{other}"
        )
    else:
        moved = ", ".join(f"row {row.row}: {_shown(up, units)}" for row, up in on_rows if up > CLOSES)
        says = f"Boxes are moved up to rows of holes ({moved}); moving one opening alone would not spare it."
    yield ColumnRemark("rows", "ok", -most, says)


def _shown(mm: float, units: ShownUnits) -> str:
    # A small length would be hidden by the fraction of an inch that it is rounded to.
    return format_length(mm, "mm" if is_slight(mm) else units)
