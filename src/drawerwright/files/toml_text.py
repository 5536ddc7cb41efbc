"""A TOML file: its values, and where each of them stands."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from drawerwright.errors import Fault, InputError
from drawerwright.files.remarks import FileRemark
from drawerwright.files.table_job import Refused
from drawerwright.files.text import read_text
from drawerwright.files.toml_lines import line_of, lines_of_keys

_PLACE: Final = re.compile(r"\s*\(at (?:line (?P<line>\d+), column \d+|end of document)\)$")
_WORDS: Final = {
    "Cannot overwrite a value": "a key is given twice",
    "Invalid value": "a value is missing or lacks its quotes",
    "Expected newline or end of document after a statement": "something follows the value on its line",
    "Illegal character '\\n'": "a quote is not closed on its line",
    "Unterminated string": "a quote is not closed",
}


_DEEPEST: Final = 30
"""Most levels of lists and tables; a job needs six."""


@dataclass(frozen=True)
class TomlFile:
    """The values of a TOML file by key."""

    name: str
    text: str
    values: Mapping[str, Any] = field(repr=False)
    refused: tuple[Refused, ...] = ()
    remarks: tuple[FileRemark, ...] = ()

    @cached_property
    def _lines(self) -> dict[tuple[str | int, ...], int]:
        return lines_of_keys(self.text)

    def place(self, loc: Sequence[str | int]) -> tuple[int, str]:
        """Line of a key, for sorting, and the place as it is named: "job.toml:12"."""
        line = line_of(self._lines, loc)
        return (line or 0, f"{self.name}:{line}" if line else self.name)


def read_toml(path: Path, *, instead: str | None = None) -> TomlFile:
    """Read a TOML file. Raises InputError with the line when it is none, `instead` when it is missing."""
    return parse_toml(read_text(path, instead=instead), path.name)


def parse_toml(text: str, name: str) -> TomlFile:
    """Read TOML text that bears a name. Raises InputError with the line when it is none."""
    try:
        values = tomllib.loads(text)
        if _is_deeper_than(values, _DEEPEST):
            raise RecursionError
        return TomlFile(name, text, values)
    except tomllib.TOMLDecodeError as error:
        message = str(error)
        match = _PLACE.search(message)
        line = int(match["line"]) if match and match["line"] else text.rstrip().count("\n") + 1
        reason = _PLACE.sub("", message)
        rows = text.split("\n")
        found = rows[line - 1].strip() if line <= len(rows) else ""
        shown = found if len(found) <= 80 else found[:79] + "…"
        says = f"is not TOML: {_WORDS.get(reason, reason)}"
    except RecursionError:
        line, shown, says = 1, "", "is not read: lists or tables are nested too deep"
    except ValueError as error:
        line, shown, says = 1, "", f"is not read: {error}"
    fault = Fault(f"{name}:{line}", shown, says, 'lines such as width = 562 or note = "text"')
    raise InputError([fault])


def _is_deeper_than(values: Mapping[str, Any], levels: int) -> bool:
    """Whether lists and tables nest deeper, told without recursion."""
    layer: list[Any] = [values]
    for _ in range(levels):
        inner: list[Any] = []
        for holder in layer:
            inner += holder.values() if isinstance(holder, dict) else holder
        layer = [one for one in inner if isinstance(one, (dict, list))]
        if not layer:
            return False
    return True
