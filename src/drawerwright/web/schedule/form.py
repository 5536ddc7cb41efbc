"""The schedule as a plain form: what was typed into its fields as edits of the revision that it showed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

from starlette.datastructures import FormData, UploadFile

from drawerwright.web.schedule.columns import schedule_columns, text_of
from drawerwright.web.schedule.edits import (
    MOST_ROWS,
    AddRow,
    CopyRows,
    Edit,
    MoveRows,
    Paste,
    RemoveRows,
    SetCell,
    SetShared,
)

MOST_FIELDS: Final = 20_000
"""Fields that one form may have: 200 rows of every column there is. Own choice."""

SHARED_KEYS: Final = (
    "construction",
    "side",
    "subfront",
    "front.style",
    "front.thickness",
    "front.overlay",
    "front.gap",
    "box.joint",
    "box.bottom",
    "box.bottom_thickness",
    "box.heights",
    "size_from",
    "mount",
    "slide",
    "contents",
    "frame.left",
    "frame.right",
    "frame.thickness",
)
"""Defaults that the page always offers; others that are told are shown beside them."""

_CELL: Final = re.compile(r"r(\d{1,4})\.(.{1,80})")


def text_fields(form: FormData) -> list[tuple[str, str]]:
    """Names and texts of a form, its files left out; line ends as they were typed."""
    return [
        (name, value.replace("\r\n", "\n"))
        for name, value in form.multi_items()
        if not isinstance(value, UploadFile)
    ]


def typed_edits(fields: Iterable[tuple[str, str]], values: Mapping[str, Any]) -> list[Edit]:
    """What was typed anew, against the values that the form showed; new rows follow the last one."""
    drawers = values.get("drawer", [])
    defaults = values.get("defaults") or {}
    edits: list[Edit] = []
    new: dict[int, int] = {}
    fields = list(fields)
    reread = ("numbers", "reread") in fields
    for name, text in fields:
        cell = _CELL.fullmatch(name)
        if cell is not None:
            row, key = int(cell[1]), cell[2]
            column = schedule_columns().get(key)
            if column is None:
                continue
            if row >= len(drawers):
                if text.strip():
                    edits.append(
                        SetCell(row=new.setdefault(row, len(drawers) + len(new)), key=key, text=text)
                    )
            elif text != text_of(drawers[row], column.column).replace("\r\n", "\n"):
                edits.append(SetCell(row=row, key=key, text=text))
        elif name in ("title", "units"):
            if text != str(values.get(name, "mm" if name == "units" else "")):
                edits.append(SetShared(key=name, text=text, numbers="reread" if reread else "keep"))
        elif name.startswith("defaults."):
            column = schedule_columns().get(name.removeprefix("defaults."))
            if column is not None and text != text_of(defaults, column.column):
                edits.append(SetShared(key=name, text=text))
    return edits


def picked_rows(fields: Iterable[tuple[str, str]]) -> list[int]:
    """The rows that are picked, counted from 0."""
    return sorted(
        {int(text) for name, text in fields if name == "pick" and text.isdecimal() and len(text) < 5}
    )


def asked_edits(do: str, fields: Sequence[tuple[str, str]], columns: Sequence[str]) -> list[Edit]:
    """What a button does, to the rows that are picked; `columns`: those on the screen."""
    rows = picked_rows(fields)
    told = dict(fields)
    if do == "add":
        return [AddRow(at=rows[-1] + 1 if rows else MOST_ROWS)]
    if do == "paste":
        row, _, key = told.get("paste-at", "").partition(".")
        at = int(row) if row.isdecimal() and len(row) < 5 else MOST_ROWS
        return [
            Paste(row=min(at, MOST_ROWS), key=key or "id", columns=list(columns), text=told.get("paste", ""))
        ]
    if not rows:
        return []
    if do == "copy":
        return [CopyRows(rows=rows)]
    if do == "remove":
        return [RemoveRows(rows=rows)]
    if do in ("up", "down"):
        return [MoveRows(rows=rows, by=-1 if do == "up" else 1)]
    return []


def shared_fields(values: Mapping[str, Any]) -> list[str]:
    """Keys of the defaults that the page shows: those always offered, then others that are told."""
    told = values.get("defaults") or {}
    more = [
        key
        for key, column in schedule_columns().items()
        if key not in SHARED_KEYS and key != "id" and text_of(told, column.column) and not _inside(key)
    ]
    return [*SHARED_KEYS, *more]


def _inside(key: str) -> bool:
    """Whether a key that is always offered shows this one already."""
    return any(key.startswith(f"{shown}.") for shown in SHARED_KEYS)
