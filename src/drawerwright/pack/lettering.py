"""Text made fit for the sheets' lettering, which has the Latin alphabets and no others."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import Final, TypeVar

from drawerwright.drawing.fonts import font_file
from drawerwright.drawing.wording import plain_text

STAND_IN: Final = "?"
"""Stands for a character that the lettering lacks; the job file keeps what was written."""

_SURE: Final = frozenset(map(chr, (*range(0x20, 0x7F), *range(0xA0, 0x100)))) | frozenset(
    "\n−×–—…′″≤≥⁄½¼¾⅛⅜⅝⅞"
)
"""Characters known to be in the lettering, so that plain text never waits for the font file to be read."""

_LONG_WORD: Final = re.compile(r"\S{25,}")
_LONG_IN_COLUMN: Final = re.compile(r"[^\s-]{13,}")
_MIXED: Final = re.compile(r"(?<=\d) (?=\d{1,2}/\d{1,2}\b)")
"""The space between a whole number and its fraction: no line breaks there."""

_BREAK: Final = "\u200b"
_PIECE: Final = 12

Tree = TypeVar("Tree")


@cache
def _in_font() -> frozenset[str]:
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    with TTFont(font_file("regular"), lazy=True) as regular, TTFont(font_file("semibold"), lazy=True) as bold:
        return frozenset(map(chr, set(regular.getBestCmap()) & set(bold.getBestCmap()))) | {"\n"}


def lettered(text: str) -> str:
    """The text with each character that the lettering lacks replaced by `STAND_IN`."""
    composed = unicodedata.normalize("NFC", text)
    if _SURE.issuperset(composed):
        return composed
    known = _in_font()
    return "".join(c if c in known else " " if c.isspace() else STAND_IN for c in composed)


def breakable(text: str) -> str:
    """The text with places where very long words may break over lines (zero-width spaces)."""
    return _LONG_WORD.sub(lambda word: _BREAK.join(_pieces(word.group())), text)


def id_for_sheets(text: str) -> str:
    """An id as a narrow column can set it: words break sooner than in running text."""
    return _LONG_IN_COLUMN.sub(lambda word: _BREAK.join(_pieces(word.group())), lettered(plain_text(text)))


def _pieces(word: str) -> list[str]:
    return [word[start : start + _PIECE] for start in range(0, len(word), _PIECE)]


def for_sheets(text: str) -> str:
    """One line of any text as the sheets can set it."""
    return _MIXED.sub("\u00a0", breakable(lettered(plain_text(text))))
