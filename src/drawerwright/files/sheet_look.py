"""A look through the XML of one sheet, before its cells are read: what the values alone do not show.

The reader of workbooks gives an empty cell for an error and for a formula that was never computed, and takes
memory for the whole area up to the last cell. Names of elements: ECMA-376-1, SpreadsheetML.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final
from xml.parsers import expat

from drawerwright.errors import InputError
from drawerwright.files.grid import reference
from drawerwright.files.workbook_parts import damaged, refuse

MOST_CELLS: Final = 2_000_000
"""Largest area from the first cell to the last; by judgement, without a source."""

_REFERENCE: Final = re.compile(r"([A-Z]{1,3})([1-9][0-9]{0,6})")
_TRUE: Final = ("1", "true")

Place = tuple[int, int]
"""Row and column, both from 0."""


@dataclass
class SheetLook:
    """Cells that show an error, formulas without a value, by place; and what is hidden."""

    errors: dict[Place, str] = field(default_factory=dict)
    uncomputed: set[Place] = field(default_factory=set)
    formulas: int = 0
    hidden_rows: list[int] = field(default_factory=list)
    hidden_columns: list[int] = field(default_factory=list)
    last_row: int = -1
    last_column: int = -1


def look_through(xml: bytes, file: str, sheet: str) -> SheetLook:
    """Everything of a sheet that its values do not show. Raises InputError when it is too large or broken."""
    scan = _Scan()
    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.StartElementHandler = scan.start
    parser.EndElementHandler = scan.end
    parser.CharacterDataHandler = scan.text
    parser.StartDoctypeDeclHandler = scan.doctype
    try:
        parser.Parse(xml, True)
    except (expat.ExpatError, ValueError, LookupError):
        raise damaged(file) from None
    look = scan.look
    if (look.last_row + 1) * (look.last_column + 1) > MOST_CELLS:
        raise _too_large(file, sheet, look)
    return look


def _too_large(file: str, sheet: str, look: SheetLook) -> InputError:
    last = reference(look.last_row + 1, look.last_column)
    says = f"reaches to {last}: at most {MOST_CELLS} cells are read"
    return refuse(f"{file}:{sheet}", says, "deleting what stands far below or beside the table")


class _Scan:
    """Follows the elements of a sheet; a cell or a row without a place comes after the one before it."""

    def __init__(self) -> None:
        self.look = SheetLook()
        self.row = -1
        self.column = -1
        self.kind = ""
        self.held = False
        self.formula = False
        self.in_value = False
        self.value: list[str] = []

    def doctype(self, *_: object) -> None:
        raise ValueError("a sheet declares no document type")

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        name = tag.rpartition(":")[2]
        if name == "c":
            self._cell(attributes)
        elif name == "v":
            self.in_value = True
        elif name == "f":
            self.formula = True
        elif name == "is":
            self.held = True
        elif name == "row":
            self.row = int(attributes["r"]) - 1 if "r" in attributes else self.row + 1
            self.column = -1
            if attributes.get("hidden") in _TRUE:
                self.look.hidden_rows.append(self.row)
        elif name == "col" and attributes.get("hidden") in _TRUE:
            first, last = int(attributes.get("min", 1)), int(attributes.get("max", 1))
            self.look.hidden_columns += range(first - 1, min(last, 20_000))

    def _cell(self, attributes: Mapping[str, str]) -> None:
        self.kind = attributes.get("t", "")
        self.held, self.formula, self.value = False, False, []
        if "r" not in attributes:
            self.column += 1
            return
        match = _REFERENCE.fullmatch(attributes["r"])
        if match is None:
            raise ValueError("a cell has no place")
        column = 0
        for letter in match[1]:
            column = column * 26 + ord(letter) - 64
        self.row, self.column = int(match[2]) - 1, column - 1

    def text(self, data: str) -> None:
        if self.in_value:
            self.value.append(data)

    def end(self, tag: str) -> None:
        name = tag.rpartition(":")[2]
        if name == "v":
            self.in_value = False
        elif name == "c":
            self._end_of_cell()

    def _end_of_cell(self) -> None:
        look, value, place = self.look, "".join(self.value), (self.row, self.column)
        if value or self.held or self.formula:
            look.last_row = max(look.last_row, self.row)
            look.last_column = max(look.last_column, self.column)
        if self.kind == "e":
            look.errors[place] = value or "#ERROR"
        elif self.formula and not value and self.kind != "str":
            look.uncomputed.add(place)
        if self.formula:
            look.formulas += 1
