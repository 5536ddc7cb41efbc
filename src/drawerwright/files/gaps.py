"""Gaps files: what was measured around each front, from CSV, XLSX, TOML or a list of row objects.

Columns are the contract's; besides, `set_…` tell where an adjuster stands now, in marks from the place as
delivered.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.files.gap_text import parse_gap
from drawerwright.files.tables import Table, TableColumn, TableRow, read_table, table_of_mappings
from drawerwright.model.gaps import ADJUSTER_NAMES, GAP_NAMES, FrontGaps, GapName, Hand, Reading, Setting
from drawerwright.units import BareUnit

_HANDS: Final[tuple[Hand, ...]] = ("left", "right")
SETTING_COLUMNS: Final[dict[str, Setting]] = {
    f"set_{adjuster}_{hand}": (hand, adjuster) for adjuster in ADJUSTER_NAMES for hand in _HANDS
}
"""Adjusters by the column that tells how they stand: `set_height_left` and so on."""

COLUMNS: Final[tuple[TableColumn, ...]] = (
    TableColumn("drawer", "name", required=True),
    *(TableColumn(name, "reading") for name in GAP_NAMES),
    *(TableColumn(name, "number") for name in SETTING_COLUMNS),
)


def read_gaps(path: Path, units: BareUnit = "mm") -> tuple[FrontGaps, ...]:
    """The readings of a file, a row a front; a bare length is in `units` unless the file says.

    Raises InputError with all its faults.
    """
    return _gaps(read_table(path, COLUMNS, entry="gap", units=units))


def gaps_of_mappings(rows: object, units: BareUnit = "mm", where: str = "gaps") -> tuple[FrontGaps, ...]:
    """The readings of a list of row objects, as a request holds it. Raises InputError with all its faults."""
    return _gaps(table_of_mappings(rows, COLUMNS, entry="gap", units=units, where=where))


def _gaps(table: Table) -> tuple[FrontGaps, ...]:
    faults: list[Fault] = []
    fronts = [_front(row, table.units, faults) for row in table.rows]
    if faults:
        raise InputError(faults)
    return tuple(fronts)


def _front(row: TableRow, units: BareUnit, faults: list[Fault]) -> FrontGaps:
    readings: dict[GapName, Reading] = {}
    for name in GAP_NAMES:
        try:
            reading = parse_gap(row[name], units, corner=name.startswith("out_"))
        except ReadingError as error:
            faults.append(error.fault(f"{row.place(name)[1]} {name}"))
            continue
        if reading is not None:
            readings[name] = reading
    settings = {key: float(row[name]) for name, key in SETTING_COLUMNS.items() if row[name] is not None}
    columns: Sequence[str] = ("drawer", *readings, *SETTING_COLUMNS)
    places = {name: row.place(name)[1] for name in columns}
    return FrontGaps(row["drawer"], readings, settings, {"": row.place(None)[1], **places})
