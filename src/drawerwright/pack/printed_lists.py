"""The cut list and the hardware list on paper, for a shop without a spreadsheet at the saw."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final

from drawerwright.pack.figures import millimetres
from drawerwright.pack.layout import Layout
from drawerwright.pack.lettering import for_sheets, id_for_sheets
from drawerwright.pack.papers import Paper
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.shown import Shown
from drawerwright.pack.tables import Cell, Kind, Table
from drawerwright.pack.typeset import forget_settings, set_document

ROWS: Final = 1500
"""Most rows of one document, so that the compiler's memory stays bounded."""
IDS_ROOM: Final = 110
"""Most characters of drawers' ids in a row; the spreadsheet has them all."""

ABREAST: Final = 10
"""Most columns that stand beside each other with room for words."""
ONE_LINE: Final = 18
"""Most characters of a cell of words that never break over lines."""


def cell_text(cell: Cell, kind: Kind) -> str:
    """A cell as it is printed: lengths to a tenth, money to a hundredth, nothing as nothing."""
    if cell is None:
        return ""
    if isinstance(cell, str):
        if kind == "ids":
            return id_for_sheets(_shortened(cell) if len(cell) > IDS_ROOM else cell)
        return for_sheets(cell)
    if kind == "thickness":
        return f"{cell:.3f}".rstrip("0").rstrip(".")
    return f"{cell:.2f}" if kind == "money" else millimetres(cell)


def _shortened(listed: str) -> str:
    """The first words of a long list, and how many are left."""
    words = listed.split(", ")
    shown: list[str] = []
    for word in words:
        if len(", ".join([*shown, word])) > IDS_ROOM - 12:
            break
        shown.append(word)
    left = len(words) - len(shown)
    return ", ".join(shown) + (f" and {left} more" if left and shown else "")


def table_data(table: Table, rows: Sequence[tuple[Cell, ...]]) -> dict[str, Any]:
    """A table as its template takes it: columns with nothing in them are left out.

    With very many columns the last one, if it holds words, stands on a second line of its row.
    """
    kept = [
        at for at, _ in enumerate(table.columns) if any(row[at] not in (None, "") for row in rows) or not rows
    ]
    second = kept.pop() if len(kept) > ABREAST and table.columns[kept[-1]].kind == "text" else None
    return {
        "name": table.sheet,
        "columns": [
            {
                "heading": table.columns[at].heading,
                "numeric": table.columns[at].kind not in ("text", "ids"),
                "share": _share(table, rows, at),
            }
            for at in kept
        ],
        "rows": [[cell_text(row[at], table.columns[at].kind) for at in kept] for row in rows],
        "second": "" if second is None else table.columns[second].heading,
        "second_lines": [] if second is None else [cell_text(row[second], "text") for row in rows],
        "remarks": [for_sheets(remark) for remark in table.remarks],
    }


def _share(table: Table, rows: Sequence[tuple[Cell, ...]], at: int) -> float:
    """Share of the width that a column of long words has; 0: as wide as its cells."""
    column = table.columns[at]
    widest = max((len(str(row[at] or "")) for row in rows), default=0)
    if column.kind not in ("text", "ids") or widest <= ONE_LINE:
        return 0
    return max(min(column.width, widest), 8)


def printed_lists(
    title: str, tables: tuple[Table, ...], paper: Paper, shown: Shown
) -> Iterator[tuple[str, bytes]]:
    """`lists.pdf` with all tables one after another; very long ones go on in further documents."""
    pieces = [(table, rows) for table in tables for rows in in_parts(table.rows, ROWS)]
    groups = [pieces] if sum(len(rows) for _, rows in pieces) <= ROWS else [[piece] for piece in pieces]
    job = for_sheets(title) or "Drawers"
    for name, group in zip(part_names("lists", len(groups)), groups, strict=True):
        data = {
            "document_title": f"{job}: lists",
            "job": job,
            "paper": Layout(paper).document(),
            "inches": shown.with_inches,
            "tables": [table_data(table, rows) for table, rows in group],
        }
        yield f"{name}.pdf", set_document("lists", data)
        if len(groups) > 1:
            forget_settings()
