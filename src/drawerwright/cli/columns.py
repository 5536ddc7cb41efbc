"""Columns on the console: one table a cabinet, highest drawer first, then its sums and what to look at."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from drawerwright.cli.tables import new_table, print_indented
from drawerwright.cli.wording import MARKS, NOTHING, STATE_STYLES, fine, hardware
from drawerwright.model.fitted import FittedJob
from drawerwright.model.fitted_column import ColumnRow, FittedColumn
from drawerwright.units import ShownUnits, format_length

HEADS = ("Row", "Drawer", "Opening from – to", "Front from – to", "Gap above", "Box from – to", "Screw line")


def show_columns(out: Console, job: FittedJob, units: ShownUnits) -> None:
    """Every cabinet with two rows and more; nothing where there is none. Heights above the cabinet floor."""
    for column in job.columns:
        out.print(column_table(column, units))
        for told in column.remarks:
            print_indented(out, f"{MARKS[told.state]} {told.says}", by=2, style=STATE_STYLES[told.state])
        out.print()


def column_table(column: FittedColumn, units: ShownUnits) -> Table:
    """One row a drawer, the highest at the top as it stands."""
    table = new_table(f"Cabinet {column.cabinet}, heights above its floor", HEADS, lines=False)
    for row in reversed(column.rows):
        table.add_row(*_cells(row, units))
    return table


def _cells(row: ColumnRow, units: ShownUnits) -> list[str | Text]:
    moved = f", {hardware(row.moved_up, units)} up to its row" if row.moved_up else ""
    box_top = None if row.lower_edge is None or row.box_height is None else row.lower_edge + row.box_height
    return [
        str(row.row),
        row.drawer,
        _from_to(row.floor, row.floor + row.opening, units),
        _from_to(row.front_bottom, row.front_top, units, cut=True),
        NOTHING if row.gap_above is None else _length(row.gap_above, units),
        _from_to(row.lower_edge, box_top, units, cut=True),
        NOTHING if row.screw_line is None else f"{hardware(row.screw_line, units)}{moved}",
    ]


def _from_to(low: float | None, high: float | None, units: ShownUnits, *, cut: bool = False) -> str:
    """Two heights and what lies between; that is rounded as it is cut, where it is a part's."""
    if low is None or high is None:
        return NOTHING
    if units == "mm":
        ends = f"{_length(low, units)} – {_length(high, units)}".replace(" mm", "")
        return f"{ends} = {_length(high - low, units)}"
    size = (
        format_length(high - low, units, denominator=32, inches_down=True)
        if cut
        else _length(high - low, units)
    )
    return f"{_length(low, units)} – {_length(high, units)} = {size}"


def _length(mm: float, units: ShownUnits) -> str:
    return fine(mm, units).replace("-", "−")
