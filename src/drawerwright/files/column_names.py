"""Headings as people write them: a column's key, its word on the sheet, a unit beside it, a group above it.

A group is a cell over several columns, merged or with blank cells after it: `Opening` over `width`, `height`
and `depth` names the columns `opening.width`, `opening.height` and `opening.depth`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.files.columns import Column
from drawerwright.model.spelling import nearest

_UNIT: Final = re.compile(r"\s*[\[(](mm|cm|in|inch|inches|kg|lb)[\])]\Z")
BARE: Final = re.compile(r"[+-]?\d[\d.,/¼½¾⅛⅜⅝⅞\s-]*")
"""A number without a unit, as people write it."""
_ENDS_A_READING: Final = re.compile(rf"(?<![^\s;=,]){BARE.pattern}(?=\s*(?:;|\Z|,\s*[^\W\d]))")

_SHORT: Final = {
    "id": "Drawer",
    "opening.width": "Width",
    "opening.height": "Height",
    "opening.depth": "Depth",
    "opening.floor": "Floor",
    "side": "Sides",
    "slide": "Slide wanted",
    "front.style": "Front",
    "quantity": "Pieces",
}
"""Headings of columns whose key alone would not say it."""


def heading_of(key: str) -> str:
    """A column's heading: "Width", "Front gap", "Box bottom thickness"."""
    if key in _SHORT:
        return _SHORT[key]
    words = key.replace("opening.", "").replace(".", " ").replace("_", " ")
    return words[:1].upper() + words[1:]


class ColumnNames:
    """Columns as headings name them, by their keys or by their words on the sheet."""

    def __init__(self, known: Mapping[str, Column], also: Mapping[str, str] | None = None) -> None:
        """`also`: other names of columns, each with the key that it stands for."""
        self.known = known
        self._also = {name: known[key] for name, key in (also or {}).items()}
        self._by_word = {heading_of(key).casefold(): column for key, column in known.items()}

    def named(self, name: str) -> Column | None:
        """The column that a heading names, its unit left out; None where it names none."""
        return self.keyed(name) or self._by_word.get(_plain(name))

    def keyed(self, name: str) -> Column | None:
        """The column that a heading names by its key, blanks for its dots or underscores."""
        plain = _plain(name)
        for key in (plain.replace(" ", "_"), plain, plain.replace(" ", ".")):
            if key in self.known:
                return self.known[key]
        return self._also.get(plain)

    def nearest(self, name: str) -> str:
        """The key of the column that a heading comes nearest to, by its key or by its word."""
        spelled = {word: column.key for word, column in self._by_word.items()}
        spelled |= {key: key for key in self.known}
        return spelled[nearest(name.casefold(), spelled)]


def _plain(name: str) -> str:
    return " ".join(_UNIT.sub("", name.strip().casefold()).split())


def unit_beside(name: str) -> str | None:
    """The unit that stands beside a name: "cm" of "Width (cm)"."""
    found = _UNIT.search(name.strip().casefold())
    return found[1] if found else None


def with_unit_of_heading(text: str, unit: str) -> str:
    """The numbers of a cell with the unit of its heading, where they carry none, each reading by itself."""
    return _ENDS_A_READING.sub(lambda number: f"{number[0].rstrip()} {unit}", text)


@dataclass(frozen=True, slots=True)
class Name:
    """What a column may be called: its own `name`, and the `group` above it, empty where there is none.

    `held`: the group surely reaches over the column; else its cell is only followed by blank ones.
    `ended`: the group that has reached its end before the column, where none stands above it since.
    """

    name: str
    group: str = ""
    held: bool = False
    ended: str = ""

    @property
    def whole(self) -> str:
        """Group and name together; a unit beside the group is left out."""
        return _under(self.group, self.name) if self.group and self.name else self.name

    def unit(self, names: ColumnNames) -> str | None:
        """The unit that stands beside the name, or else beside its group.

        One beside a group that may not reach so far counts for the names alone that belong to it.
        """
        beside = unit_beside(self.name)
        if beside is None and (self.held or names.named(self.whole) is not None):
            return unit_beside(self.group)
        return beside

    def under_ended(self, names: ColumnNames) -> Column | None:
        """The column that the name would be, had the group before it reached over it."""
        return names.named(_under(self.ended, self.name)) if self.ended else None

    def is_grouped(self, names: ColumnNames) -> bool:
        """Whether the group and the name together name a column."""
        return bool(self.group and self.name) and names.named(self.whole) is not None

    def column(self, names: ColumnNames) -> Column | None:
        """The column that group and name are together, else that of the name alone."""
        return names.named(self.whole) or names.named(self.name)

    def other(self, names: ColumnNames) -> Column | None:
        """The column of the name alone, where another one stands with a group that may not reach so far."""
        if self.held or not self.group:
            return None
        grouped, alone = names.named(self.whole), names.named(self.name)
        return None if grouped is None or alone is grouped else alone

    def is_foreign(self, names: ColumnNames) -> bool:
        """Whether the name is only a word of a column, and stands under a group that says something else."""
        return bool(self.group) and names.named(self.whole) is None and names.keyed(self.name) is None


def _under(group: str, name: str) -> str:
    return f"{_UNIT.sub('', group)}.{name}"


def plain_names(cells: Sequence[str]) -> list[Name]:
    """The names of one row of cells."""
    return [Name(cell.strip()) for cell in cells]


def under_groups(
    groups: Sequence[str], names: Sequence[str], reach: Callable[[int], int] | None = None
) -> list[Name]:
    """The names of two rows, groups above names; a column that is named in the upper row alone keeps that.

    `reach`: how many columns the group at a place surely covers, as a merged cell does; 0 where it tells
    nothing, and the group then goes on over blank cells. Without it no group tells.
    """
    found: list[Name] = []
    group, ended, until, tells = "", "", 0, False
    for at in range(max(len(groups), len(names))):
        above = groups[at].strip() if at < len(groups) else ""
        name = names[at].strip() if at < len(names) else ""
        if above:
            covered = 0 if reach is None else reach(at)
            group, ended, tells, until = above, "", covered > 0, at + max(covered, 1)
        elif tells and at >= until:
            group, ended, tells = "", group, False
        found.append(Name(name, group, at < until, ended) if name else Name(above))
    return found


def columns_named(names: Sequence[Name], known: ColumnNames) -> dict[int, Column]:
    """The columns that names come to, by position, each at the first that names it."""
    found: dict[int, Column] = {}
    taken: set[str] = set()
    for at, name in enumerate(names):
        column = name.column(known)
        if column is not None and column.key not in taken:
            found[at] = column
            taken.add(column.key)
    return found
