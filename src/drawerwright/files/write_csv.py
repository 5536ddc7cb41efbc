"""A job written as CSV, so that reading it gives the same job."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence

from drawerwright.files.cells import inert
from drawerwright.files.job_columns import drawer_columns
from drawerwright.files.job_rows import (
    CellsByKey,
    Figure,
    Written,
    cabinet_rows,
    columns_of_cabinets,
    columns_of_drawers,
    drawer_rows,
)
from drawerwright.model.job import Job


def write_job_csv(job: Job) -> str:
    """The text of a CSV file (RFC 4180, commas, decimal points) that reads back equal.

    Title and units stand above the heading, described cabinets in rows of their own. Text that begins with
    `= + - @`, a tab, a line end or `#` has `'` before it; a zero byte, which is no text, becomes a
    replacement character. Spreadsheets want the file saved as UTF-8 with a byte order mark.
    """
    settings = {"title": job.title} if job.title else {}
    settings |= {"units": job.units} if job.units != "mm" else {}
    return rows_as_csv(settings, drawer_rows(job), cabinet_rows(job))


def rows_as_csv(
    settings: Mapping[str, Written], drawers: Sequence[CellsByKey], cabinets: Sequence[CellsByKey]
) -> str:
    """The same of cells by key: those above the heading, those of drawers, those of described cabinets."""
    columns = columns_of_drawers(drawers)
    beside = [column for column in columns_of_cabinets(cabinets) if column.key != "id"] if cabinets else []
    if cabinets and all(column.key != "cabinet" for column in columns):
        columns.insert(1, drawer_columns()["cabinet"])
    keys = [column.key for column in columns] + [f"cabinet.{column.key}" for column in beside]
    lines = [[key, cell_text(cell)] for key, cell in settings.items()]
    lines.append(keys)
    for cabinet in cabinets:
        cells = {f"cabinet.{key}": cell for key, cell in cabinet.items() if key != "id"}
        lines.append(_line({"cabinet": cabinet.get("id", ""), **cells}, keys))
    lines += [_line(drawer, keys) for drawer in drawers]
    return csv_text(lines)


def csv_text(lines: Sequence[Sequence[str]]) -> str:
    """Lines of cells as CSV."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(lines)
    return out.getvalue().replace("\0", "\N{REPLACEMENT CHARACTER}")


def _line(cells: Mapping[str, Written], keys: Sequence[str]) -> list[str]:
    return [cell_text(cells[key]) if key in cells else "" for key in keys]


def cell_text(cell: Written) -> str:
    """A cell as CSV holds it."""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    return cell.text if isinstance(cell, Figure) else inert(cell)
