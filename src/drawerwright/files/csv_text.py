"""CSV text as spreadsheets and editors save it: its code page and separator found, its rows by line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Final

from drawerwright.errors import Fault, InputError
from drawerwright.files.grid import Cell, Grid, Unreadable
from drawerwright.files.remarks import FileRemark
from drawerwright.files.text import read_bytes

SEPARATORS: Final = ",;\t"
_NAMES: Final = {",": "comma", ";": "semicolon", "\t": "tab"}
_LOOKED_AT: Final = 200
"""Rows among which the header is looked for, to tell the separator."""

_TOLD: Final = re.compile(rf'"?sep=([{SEPARATORS}])"?[{SEPARATORS}]*\r?\n', re.IGNORECASE)
"""A first line that tells a spreadsheet the separator: common practice, no source."""
_ERRORS: Final = frozenset(
    {"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!", "#GETTING_DATA"}
)
"""What a cell shows of an error: ECMA-376-1, SpreadsheetML, cell values of type error."""

_CONTROLS: Final = frozenset(map(chr, range(32))) - frozenset("\t\r\n\x0b\x0c")

_CONTAINERS: Final = (
    (b"PK\x03\x04", "is a zip archive, perhaps a workbook: it is no CSV text", ".xlsx"),
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "is an old or a protected workbook: it is no CSV text", ".xlsx"),
    (b"%PDF-", "is a PDF: it is no CSV text", ".csv"),
    (b"<", "is a web page or XML, as some programs name .csv: it is no CSV text", ".csv in a spreadsheet"),
)


def read_csv(path: Path, is_known: Callable[[str], bool]) -> tuple[Grid, list[FileRemark]]:
    """A CSV file. `is_known`: whether a cell is a heading; it tells the separator. Raises InputError."""
    text, remarks = decode(read_bytes(path), path.name)
    return grid_of(text, path.name, is_known), remarks


def decode(content: bytes, name: str) -> tuple[str, list[FileRemark]]:
    """Text in UTF-8, UTF-16 or, where it is neither, Windows-1252. Raises InputError when it is no text."""
    for begins, says, ending in _CONTAINERS:
        if content.startswith(begins):
            raise InputError([Fault(name, "", says, f"saving it anew as {ending}")])
    wide = _utf_16(content)
    if wide is not None:
        try:
            return _text(content.decode(wide), name), []
        except UnicodeDecodeError:
            raise InputError([Fault(name, "", "is broken UTF-16", "saving it as CSV UTF-8")]) from None
    try:
        return _text(content.decode("utf-8-sig"), name), []
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
    try:
        text = _text(content.decode("cp1252"), name)
    except UnicodeDecodeError:
        says = "is neither UTF-8, UTF-16 nor Windows-1252 text"
        raise InputError([Fault(f"{name}:{line}", "", says, "saving it as CSV UTF-8")]) from None
    says = "is not UTF-8 and was read as Windows-1252 (a Western code page): look at letters with accents"
    return text, [FileRemark(f"{name}:{line}", says)]


def _utf_16(content: bytes) -> str | None:
    """The codec of UTF-16 text, by its byte order mark or by where its zero bytes stand."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "utf-16"
    head = content[:4096]
    if len(head) >= 8 and b"\0" in head:
        even, odd = head[0::2].count(0), head[1::2].count(0)
        if max(even, odd) > 0.4 * len(head[0::2]) and min(even, odd) == 0:
            return "utf-16-le" if odd else "utf-16-be"
    return None


def _text(text: str, name: str) -> str:
    """Text that is text: zero bytes and many controls are what other files are made of."""
    controls = sum(text.count(sign) for sign in _CONTROLS)
    if "\0" in text or controls > 0.05 * len(text):
        place = next(at for at, sign in enumerate(text) if sign in _CONTROLS)
        line = text.count("\n", 0, place) + 1
        says = f"is not text: it holds the control character 0x{ord(text[place]):02x}"
        raise InputError([Fault(f"{name}:{line}", "", says, "a CSV file in UTF-8")])
    return text


def grid_of(text: str, name: str, is_known: Callable[[str], bool]) -> Grid:
    """Rows of CSV text, whichever separator makes most of its headings known ones. Raises InputError."""
    told = _TOLD.match(text)
    separator = told[1] if told else max(SEPARATORS, key=lambda one: _headings(text, one, is_known))
    rows: list[Sequence[Cell]] = []
    numbers: list[int] = []
    spaced = re.search(rf'(?:^|{separator}) +"[^",;\s]', text, re.MULTILINE) is not None
    lines = csv.reader(
        io.StringIO(text, newline=""), delimiter=separator, strict=True, skipinitialspace=spaced
    )
    line = 0
    try:
        for row in lines:
            if line or not told:
                rows.append([_cell(cell) for cell in row])
                numbers.append(line + 1)
            line = lines.line_num
    except csv.Error as error:
        says = f"is not CSV with {_NAMES[separator]}s between the cells: {_worded(str(error))}"
        try_ = 'a cell with quotes in it written as "21 3/4"""'
        raise InputError([Fault(f"{name}:{line + 1}", "", says, try_)]) from None
    return Grid(name, None, rows, numbers)


def _cell(text: str) -> Cell:
    """A cell; what a spreadsheet shows of an error is no text."""
    if text[:1] == "#" and text.strip().upper() in _ERRORS:
        return Unreadable(text.strip(), "is an error in the spreadsheet", "mending the cell, and saving anew")
    return text


def _worded(message: str) -> str:
    if "unexpected end" in message:
        return "a quote is opened on this line and never closed"
    if "expected after" in message:
        return "a quote is closed inside a cell"
    return message


def _headings(text: str, separator: str, is_known: Callable[[str], bool]) -> int:
    """The most known headings in one of the first rows, read with that separator."""
    lines = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    return max((sum(map(is_known, row)) for row in _first(lines)), default=0)


def _first(rows: Iterable[list[str]]) -> list[list[str]]:
    """The first rows, as far as they can be read."""
    found: list[list[str]] = []
    try:
        for row in rows:
            found.append(row)
            if len(found) == _LOOKED_AT:
                break
    except csv.Error:  # the whole reading tells it with its line
        return found
    return found
