"""On which line each key of a TOML text stands.

The standard reader gives values without places. This scanner is run only when something is wrong, on text
that the standard reader has accepted, so it does not check the syntax again.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Sequence
from typing import Final

Path = tuple[str | int, ...]

_BLANK: Final = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_SPACE: Final = re.compile(r"[ \t]*")
_KEY_PART: Final = re.compile(r'[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'')
_STRING: Final = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}|\'\'\'(?:[^\']|\'(?!\'\'))*\'{3,5}'
    r'|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'',
    re.DOTALL,
)
_BARE: Final = re.compile(r"[^,\]}\n#]+")


def lines_of_keys(text: str) -> dict[Path, int]:
    """The line, from 1, of every key, table and list entry; list entries are counted from 0."""
    return _Scanner(text).scan()


def line_of(lines: dict[Path, int], path: Sequence[str | int]) -> int | None:
    """The line of a place, or of the nearest place around it; None when nothing around it is known."""
    for end in range(len(path), 0, -1):
        line = lines.get(tuple(path[:end]))
        if line is not None:
            return line
    return None


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.position = 0
        self.starts = [0] + [match.end() for match in re.finditer("\n", text)]
        self.lines: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}

    def scan(self) -> dict[Path, int]:
        table: Path = ()
        while True:
            self._skip(_BLANK)
            if self.position >= len(self.text):
                return self.lines
            if self.text.startswith("[[", self.position):
                table = self._header(2)
            elif self.text[self.position] == "[":
                table = self._header(1)
            else:
                self._pair(table)

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.position)
        if match is not None:
            self.position = match.end()

    def _note(self, path: Path, position: int) -> None:
        self.lines.setdefault(path, bisect_right(self.starts, position))

    def _keys(self) -> list[str]:
        """The parts of a dotted key."""
        keys: list[str] = []
        while True:
            self._skip(_SPACE)
            match = _KEY_PART.match(self.text, self.position)
            if match is None:
                raise ValueError(f"no key at {self.position}")
            part = match[0]
            keys.append(tomllib.loads(f"key = {part}")["key"] if part[0] in "\"'" else part)
            self.position = match.end()
            self._skip(_SPACE)
            if self.text[self.position] != ".":
                return keys
            self.position += 1

    def _header(self, brackets: int) -> Path:
        start = self.position
        self.position += brackets
        keys = self._keys()
        self.position += brackets
        path: Path = ()
        for depth, key in enumerate(keys):
            path = (*path, key)
            if depth < len(keys) - 1 and path in self.counts:
                path = (*path, self.counts[path] - 1)
        if brackets == 2:
            self._note(path, start)
            self.counts[path] = self.counts.get(path, 0) + 1
            path = (*path, self.counts[path] - 1)
        self._note(path, start)
        return path

    def _pair(self, table: Path) -> None:
        start = self.position
        path = table
        for key in self._keys():
            path = (*path, key)
            self._note(path, start)
        self.position += 1  # the sign of equality
        self._skip(_SPACE)
        self._value(path)

    def _value(self, path: Path) -> None:
        sign = self.text[self.position]
        if sign in "\"'":
            self._skip(_STRING)
        elif sign == "[":
            self._list(path)
        elif sign == "{":
            self._inline_table(path)
        else:
            self._skip(_BARE)

    def _list(self, path: Path) -> None:
        self.position += 1
        entry = 0
        while True:
            self._skip(_BLANK)
            if self.text[self.position] == "]":
                break
            self._note((*path, entry), self.position)
            self._value((*path, entry))
            entry += 1
            self._skip(_BLANK)
            if self.text[self.position] == ",":
                self.position += 1
        self.position += 1

    def _inline_table(self, path: Path) -> None:
        self.position += 1
        while True:
            self._skip(_BLANK)
            if self.text[self.position] == "}":
                break
            self._pair(path)
            self._skip(_BLANK)
            if self.text[self.position] == ",":
                self.position += 1
        self.position += 1
