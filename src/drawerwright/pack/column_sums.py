"""A column of drawers in words: a row for each drawer, the sums that must close, and what to look at."""

from __future__ import annotations

from typing import Any

from drawerwright.model.fitted_column import ColumnRow, FittedColumn
from drawerwright.pack.figures import NOUGHT, length_text
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.shown import Shown


def column_data(column: FittedColumn, shown: Shown) -> dict[str, Any]:
    """The table of one column, the highest drawer first as it stands.

    Its sums: openings, what is between them and the overlays beyond, less fronts and gaps.
    """
    return {
        "heads": ["Drawer", "Opening", "Front", "Gap above"],
        "rows": [_row(row, shown) for row in reversed(column.rows)],
        "sum": ["Together", *(_told(one, shown) for one in (column.openings, column.fronts, column.gaps))],
        "sums": [{"name": name, "value": value} for name, value in sums_of(column, shown)],
        "remarks": [{"state": one.state, "says": for_sheets(one.says)} for one in column.remarks],
    }


def sums_of(column: FittedColumn, shown: Shown) -> list[tuple[str, str]]:
    """Each term of the sum with its sign, and what is left of it; heights in the shown units."""
    terms: list[tuple[str, float | None]] = [
        ("+ openings", column.openings),
        ("+ between openings", column.between),
        ("+ overlays beyond them", column.overlays),
        ("− fronts", column.fronts),
        ("− gaps", column.gaps),
    ]
    rows = [(name, length_text(value, shown)) for name, value in terms if value is not None]
    left = column.closes_by
    if left is not None:
        value = 0.0 if abs(left) < NOUGHT else left
        says = "= 0: all is covered" if value == 0.0 else "= left open" if value > 0 else "= too much"
        rows.append((says, length_text(abs(value), shown)))
    if column.room_above is not None:
        rows.append(("Room above the highest opening", length_text(column.room_above, shown)))
    return rows


def _row(row: ColumnRow, shown: Shown) -> list[str]:
    front = None if row.front_bottom is None or row.front_top is None else row.front_top - row.front_bottom
    return [
        for_sheets(row.drawer),
        _told(row.opening, shown),
        _told(front, shown),
        _told(row.gap_above, shown),
    ]


def _told(value: float | None, shown: Shown) -> str:
    return "–" if value is None else length_text(value, shown)
