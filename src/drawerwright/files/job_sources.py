"""Job files that hold tables: CSV text and XLSX workbooks."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from drawerwright.errors import Fault, InputError
from drawerwright.files.column_names import ColumnNames
from drawerwright.files.csv_text import read_csv
from drawerwright.files.grid import Grid, Progress
from drawerwright.files.heading import is_heading
from drawerwright.files.job_columns import job_columns, job_settings
from drawerwright.files.job_tables import job_of_tables
from drawerwright.files.remarks import FileRemark
from drawerwright.files.table_job import TableJob
from drawerwright.files.workbook import Workbook

DRAWER_SHEET: Final = "drawers"
CABINET_SHEET: Final = "cabinets"
SETTINGS_SHEET: Final = "job"
NOTES_SHEET: Final = "columns"
"""A sheet of the template that explains the columns; it is not read."""


def read_csv_job(path: Path, progress: Progress | None = None) -> TableJob:
    """A job from CSV text. Raises InputError when it is no table."""
    known = ColumnNames({**job_settings(), **job_columns()})
    grid, remarks = read_csv(path, lambda cell: is_heading(cell, known))
    return job_of_tables(grid, remarks=remarks, progress=progress)


def read_xlsx_job(path: Path, progress: Progress | None = None) -> TableJob:
    """A job from a workbook: its sheets `drawers`, `cabinets` and `job`, or one sheet of drawers of any name.

    Raises InputError when it is no workbook or holds no such sheet.
    """
    book = Workbook(path)
    by_name = {sheet.strip().casefold(): sheet for sheet in reversed(book.sheets)}
    beside = {by_name[name] for name in (CABINET_SHEET, SETTINGS_SHEET, NOTES_SHEET) if name in by_name}
    shown = [sheet for sheet in book.sheets if sheet not in beside and sheet not in book.hidden]
    main = by_name.get(DRAWER_SHEET) or next(iter(shown), None)
    if main is None:
        says = "has no sheet of drawers"
        raise InputError([Fault(book.name, "", says, f'a sheet named "{DRAWER_SHEET}"')])
    remarks: list[FileRemark] = []
    grids: dict[str, Grid] = {}
    for sheet in book.sheets:
        is_read = sheet in (main, by_name.get(CABINET_SHEET), by_name.get(SETTINGS_SHEET))
        if is_read:
            grids[sheet], found = book.read(sheet)
            remarks += found
        elif sheet not in beside:
            hidden = "is hidden and " if sheet in book.hidden else ""
            remarks.append(FileRemark(f"{book.name}:{sheet}", f"{hidden}was not read"))
    return job_of_tables(
        grids[main],
        settings=grids.get(by_name.get(SETTINGS_SHEET, "")),
        cabinets=grids.get(by_name.get(CABINET_SHEET, "")),
        remarks=remarks,
        progress=progress,
    )
