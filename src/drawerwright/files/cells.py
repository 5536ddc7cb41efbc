"""What a cell means in a column of a kind: the value that a TOML file would hold there.

Text that a spreadsheet would take for a formula is written with a leading `'`, which reading takes away
again; the escape is common practice for files that spreadsheets open. The same mark goes before a leading
`#`, which else begins a comment.
"""

from __future__ import annotations

import re
import tomllib
from datetime import date, datetime, time, timedelta
from typing import Any, Final, Literal, TypeAlias

from drawerwright.errors import ReadingError
from drawerwright.files.grid import Cell, Unreadable
from drawerwright.units import show_value

CellKind: TypeAlias = Literal["text", "word", "number", "list", "tables", "count", "truth"]
"""`text`: free; `word`: a name or choice; `number`: a length or mass, or several; `list`: always several.

`tables`: a list as it stands in a TOML file, because a row has no room for tables of their own.
"""

_MARKED: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "#")
_TRUTHS: Final = {"true": True, "yes": True, "false": False, "no": False}
_MONTH: Final = r"(?:jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-zä]*\.?"
_DATE: Final = re.compile(
    rf"\d{{1,2}}[.\s/-]{{1,2}}{_MONTH}(?:[.\s/-]+\d{{2,4}})?|{_MONTH}[.\s/-]+\d{{1,4}}"
    r"|\d{4}-\d{2}-\d{2}(?:[T ][\d:.]+)?|\d{1,2}([./-])\d{1,2}\1\d{2,4}",
    re.IGNORECASE,
)
"""Dates as spreadsheets write them into a CSV file: common practice, no source."""
_NOTHING: Final = frozenset({"-", "–", "—", "−", "n/a", "none", "?"})
_WHOLE: Final = re.compile(r"\+?(\d{1,9})(?:[.,]0*)?")


def inert(text: str) -> str:
    """Text as CSV holds it: no spreadsheet takes it for a formula, no reader of ours for a comment."""
    return f"'{text}" if text.startswith(_MARKED) or _is_escaped(text) else text


def inert_in_workbook(text: str) -> str:
    """Text as a string cell holds it, which is no formula as it is: only what reading would change."""
    return f"'{text}" if text.startswith("#") or _is_escaped(text) else text


def as_typed(text: str) -> str:
    """Text without the mark that writing put before it."""
    return text[1:] if _is_escaped(text) else text


def _is_escaped(text: str) -> bool:
    return text[:1] == "'" and text[1:].startswith((*_MARKED, "'"))


def value_of(cell: Cell, kind: CellKind) -> Any:
    """What a cell that is not empty holds, as a TOML file would hold it. Raises ReadingError."""
    if isinstance(cell, Unreadable):
        raise ReadingError(cell.shows, cell.says, cell.try_)
    if kind in ("text", "word"):
        return _text(cell, free=kind == "text")
    if kind == "tables":
        return _tables(_text(cell, free=False))
    if kind == "truth":
        return _TRUTHS.get(cell.strip().casefold(), cell) if isinstance(cell, str) else cell
    if isinstance(cell, bool):
        raise ReadingError(shown(cell), "is a truth value: a number is wanted", "562 or 21 3/4 in")
    if isinstance(cell, (date, time, timedelta)):
        raise _dated(cell, "a number is wanted; the spreadsheet may have made it of what was typed")
    if kind == "count":
        if isinstance(cell, str):
            _refuse_empty_words(cell)
        whole = _WHOLE.fullmatch(cell.strip()) if isinstance(cell, str) else None
        return int(whole[1]) if whole else cell
    if isinstance(cell, str):
        _refuse_empty_words(cell)
        return _several(cell.strip().removeprefix("'"), always=kind == "list")
    number = int(cell) if cell == cell // 1 else cell
    return [number] if kind == "list" else number


def shown(cell: Cell) -> str:
    """A cell as a message names it."""
    if isinstance(cell, Unreadable):
        return cell.shows
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, (date, time)):
        return cell.isoformat()
    if isinstance(cell, float) and cell == cell // 1 and abs(cell) < 1e15:
        return str(int(cell))
    return show_value(cell)


def _text(cell: Cell, *, free: bool) -> str:
    """Text of a cell; a number that a spreadsheet made of a name, such as 12, is the name again."""
    if isinstance(cell, str):
        return as_typed(cell) if free else as_typed(cell.strip())
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        return shown(cell)
    if not free and isinstance(cell, (date, time, timedelta)):
        raise _dated(cell, "text is wanted; the spreadsheet may have made it of what was typed")
    if not free:
        raise ReadingError(shown(cell), "is a truth value: text is wanted", "B1-2")
    return shown(cell)


def _tables(text: str) -> Any:
    """A list of tables, read as a TOML file would be."""
    try:
        return tomllib.loads(f"list = {text}")["list"]
    except ValueError:
        says = "is not a list of tables as a TOML file has it"
        raise ReadingError(show_value(text), says, "[{ what = 'hinge', side = 'left' }]") from None


def _refuse_empty_words(text: str) -> None:
    """Text that is no number because a spreadsheet made a date of one, or that says there is none."""
    if _DATE.fullmatch(text.strip()):
        says = "looks like a date that a spreadsheet made of what was typed: a number is wanted"
        raise ReadingError(show_value(text), says, "the value again, its cell set to the format Text")
    if text.strip().casefold() in _NOTHING:
        raise ReadingError(show_value(text), "is no number: what is not told is left empty", "an empty cell")


def _dated(cell: date | datetime | time | timedelta, says: str) -> ReadingError:
    kind = "date" if isinstance(cell, date) else "time"
    try_ = "the value again, its cell set to the format Text"
    return ReadingError(shown(cell), f"is a {kind}: {says}", try_)


def _several(text: str, *, always: bool) -> Any:
    """One value, several between `;`, or labelled ones such as `front_bottom=562; back_bottom=561.2`."""
    parts = [part.strip() for part in text.split(";") if part.strip()]
    if not any("=" in part for part in parts):
        return parts if always or len(parts) > 1 else text.rstrip("; ")
    labelled: dict[str, str] = {}
    for part in parts:
        label, sign, value = (one.strip() for one in part.partition("="))
        if not sign or not label or not value:
            says = "mixes readings with and without a label"
            raise ReadingError(show_value(text), says, "front_bottom=562; back_bottom=561.2")
        if label in labelled:
            raise ReadingError(show_value(text), f'names "{label}" twice', f"one reading of {label}")
        labelled[label] = value
    return labelled
