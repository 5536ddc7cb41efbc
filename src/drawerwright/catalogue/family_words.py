"""What each key of a slide-family file is called, what it is, how it is measured, what a wrong one does."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias

from drawerwright.catalogue.shipped import shipped_values

Written: TypeAlias = Literal[
    "text", "truth", "choice", "length", "mass", "number", "count", "lengths", "band", "points"
]
"""How the value of a key is written in one field."""


@dataclass(frozen=True, slots=True)
class KeyWords:
    """A key, dotted as `rear.bore_in`, under its `section`: its name in the trade, and what to know of it.

    `unit` is what a bare number means in a file in mm; empty where the value has none.
    """

    key: str
    section: str
    label: str
    written: Written
    unit: str
    what: str
    measure: str
    wrong: str


@cache
def family_words() -> dict[str, KeyWords]:
    """Every key of a slide-family file, in the order in which they are explained."""
    return {
        key: KeyWords(key, entry["section"], label, kind, unit, entry["is"], entry["measure"], entry["wrong"])
        for entry in shipped_values("family-words.toml")["entry"]
        for key, label, kind, unit in zip(
            entry["keys"], entry["labels"], entry["kinds"], entry["units"], strict=True
        )
    }


def sections_of_family() -> dict[str, tuple[KeyWords, ...]]:
    """The keys under the heading of their subject, both in order."""
    sections: dict[str, tuple[KeyWords, ...]] = {}
    for words in family_words().values():
        sections[words.section] = (*sections.get(words.section, ()), words)
    return sections
