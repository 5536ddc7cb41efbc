"""Columns as JSON: what `fit` tells of each cabinet under `columns`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from drawerwright.model.fitted_column import ColumnRow, FittedColumn

_DECIMALS = 6


def columns_document(columns: Iterable[FittedColumn]) -> list[dict[str, Any]]:
    """Lengths in mm, rounded to 1e-6."""
    return [_column(one) for one in columns]


def _column(one: FittedColumn) -> dict[str, Any]:
    return {
        "cabinet": one.cabinet,
        "openings": _n(one.openings),
        "between": _n(one.between),
        "fronts": _n(one.fronts),
        "gaps": _n(one.gaps),
        "overlays": _n(one.overlays),
        "closes_by": _n(one.closes_by),
        "room_above": _n(one.room_above),
        "move": None if one.move is None else {"row": one.move.row, "by": _n(one.move.by)},
        "rows": [_row(row) for row in one.rows],
        "remarks": [
            {"id": told.id, "state": told.state, "margin": _n(told.margin), "unit": "mm", "says": told.says}
            for told in one.remarks
        ],
    }


def _row(row: ColumnRow) -> dict[str, Any]:
    return {
        "drawer": row.drawer,
        "row": row.row,
        "floor": _n(row.floor),
        "opening": _n(row.opening),
        "front": None
        if row.front_bottom is None
        else {"bottom": _n(row.front_bottom), "top": _n(row.front_top)},
        "gap_above": _n(row.gap_above),
        "lower_edge": _n(row.lower_edge),
        "box_height": _n(row.box_height),
        "screw_line": _n(row.screw_line),
        "moved_up": _n(row.moved_up),
    }


def _n(value: float | None) -> float | None:
    # Adding 0.0 turns a negative zero into a plain one.
    return None if value is None else round(value, _DECIMALS) + 0.0
