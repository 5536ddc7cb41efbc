"""Workbooks made for tests, whole and damaged."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from typing import Any

import openpyxl

HEADING = ["id", "opening.width", "opening.height", "opening.depth", "side", "quantity", "note"]
ROW = ["A-1", 562, 168, 530, 16, 1, "cutlery"]


def workbook(*rows: list[Any], change: Callable[[Any], None] | None = None) -> bytes:
    """A workbook with one sheet of drawers; `change` is given the book before it is saved."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "drawers"
    for row in rows or (HEADING, ROW):
        sheet.append(row)
    if change is not None:
        change(book)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def with_part(content: bytes, part: str, change: Callable[[bytes], bytes]) -> bytes:
    """The workbook with one part changed, or added."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            new.writestr(name, change(old.read(name)) if name == part else old.read(name))
        if part not in old.namelist():
            new.writestr(part, change(b""))
    return out.getvalue()
