"""Blocks of cells as spreadsheets copy them: tabs between cells, a line a row.

A cell with a tab, a line end or a quote at its beginning stands in quotes, its own quotes doubled (what
spreadsheets put on the clipboard: common practice, no source).
"""

from __future__ import annotations

import csv
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from drawerwright.files.cells import as_typed, inert
from drawerwright.files.column_names import (
    BARE,
    ColumnNames,
    Name,
    columns_named,
    plain_names,
    under_groups,
    with_unit_of_heading,
)
from drawerwright.files.job_columns import drawer_columns
from drawerwright.web.schedule.columns import ScheduleColumn, schedule_columns

Block = list[list[str]]

_QUOTED: Final = re.compile(r'"((?:[^"]|"")*)"(?=[\t\n]|\Z)')
_SPARE: Final = "\ufeff\u200b"


def read_block(text: str) -> Block:
    """Rows of cells; rows that are blank throughout are left out, and each row is as long as it was."""
    plain = text.lstrip(_SPARE).replace("\r\n", "\n").replace("\r", "\n")
    rows: Block = [[]]
    at = 0
    while at <= len(plain):
        quoted = _QUOTED.match(plain, at) if plain[at : at + 1] == '"' else None
        if quoted:
            rows[-1].append(quoted[1].replace('""', '"'))
            at = quoted.end()
        else:
            end = min(
                (found for found in (plain.find("\t", at), plain.find("\n", at)) if found >= 0), default=-1
            )
            end = len(plain) if end < 0 else end
            rows[-1].append(plain[at:end])
            at = end
        if plain[at : at + 1] == "\n":
            rows.append([])
        at += 1
    return [[_typed(cell) for cell in row] for row in rows if any(cell.strip() for cell in row)]


def parted(block: Block, key: str) -> Block | None:
    """Lines of a CSV file (semicolons or commas between cells), parted; None where the cells are cells.

    `key`: the column pasted onto. A note may hold any sign, and the readings of one opening are parted by
    semicolons as well: lines of nothing but numbers stay whole there.
    """
    if key == "note" or any(len(row) != 1 for row in block):
        return None
    lines = [row[0] for row in block]
    for sign, least in ((";", 3), (",", 4)):  # a comma may be a decimal sign: 562,5 is one number
        try:
            rows = list(csv.reader(lines, delimiter=sign))
        except csv.Error:
            continue
        told = [[cell for cell in row if cell.strip()] for row in rows]
        numbers = [sum(BARE.fullmatch(cell.strip()) is not None for cell in row) for row in told]
        bare = all(count == len(row) for count, row in zip(numbers, told, strict=True))
        if min(map(len, rows)) >= least and max(numbers) >= 2 and not (bare and key != "id"):
            return rows
    return None


def _typed(cell: str) -> str:
    """A cell as it was typed: hard blanks are blanks, and the mark before a formula's sign is taken away."""
    return as_typed(cell.replace("\u00a0", " "))


def write_block(rows: Sequence[Sequence[str]]) -> str:
    """Rows of cells for the clipboard, so that `read_block` reads them back; blank rows are lost."""
    return "\n".join("\t".join(_written(cell) for cell in row) for row in rows)


def _written(cell: str) -> str:
    told = inert(cell) if _is_marked(cell) else cell
    quoted = any(sign in told for sign in "\t\n\r") or told.startswith('"')
    return '"' + told.replace('"', '""') + '"' if quoted else told


def _is_marked(cell: str) -> bool:
    """Whether a spreadsheet would take a cell for a formula, or reading would take a mark from it."""
    return inert(cell) != cell and not re.fullmatch(r"[+-]?[\d.,\s/]+", cell)


@dataclass(frozen=True, slots=True)
class Heading:
    """The columns that the first rows of a block name, by position; `rows`: how many rows they take.

    `units`: those that stand beside the names ("Width (cm)"), by position.
    """

    columns: Mapping[int, ScheduleColumn]
    units: Mapping[int, str]
    rows: int
    unknown: tuple[str, ...]

    def cell(self, at: int, text: str, own: Collection[str]) -> str:
        """A cell of the column, its numbers with the unit of the heading where they carry none.

        `own`: the units that a bare number has anyway.
        """
        unit = self.units.get(at)
        if unit is None or unit in own or self.columns[at].column.kind not in ("number", "list"):
            return text
        return with_unit_of_heading(text, unit)


def heading_of_block(block: Block) -> Heading | None:
    """The heading of a block: one row, or two where groups stand above (merged cells); None without one."""
    if not block:
        return None
    tried = [_heading(plain_names(block[0]), 1)]
    if len(block) > 1:
        tried += [_heading(under_groups(block[0], block[1]), 2), _heading(plain_names(block[1]), 2)]
    best = max(tried, key=lambda one: (len(one.columns), -one.rows))
    wide = max(len(row) for row in block)
    return best if len(best.columns) >= min(2, wide) and best.columns else None


def _heading(names: Sequence[Name], taken: int) -> Heading:
    columns = columns_named(names, _names())
    units = {at: unit for at in columns if (unit := names[at].unit(_names())) is not None}
    unknown = tuple(one.name for at, one in enumerate(names) if one.name and at not in columns)
    described = {at: schedule_columns()[column.key] for at, column in columns.items()}
    return Heading(described, units, taken, unknown)


@cache
def _names() -> ColumnNames:
    return ColumnNames(drawer_columns())


def nearest_column(name: str) -> str:
    """The key of the column that a heading comes nearest to, by its key or by its word on the sheet."""
    return _names().nearest(name)
