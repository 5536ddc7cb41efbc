"""File names made from ids: safe on every common file system, and never two alike.

Sources: Windows' reserved device names and trailing dots, "Naming Files, Paths, and Namespaces"
(Windows documentation); case-insensitive and normalising file systems, common practice.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Final

LONGEST: Final = 60
"""Longest stem [characters]: far below the 255 bytes a name may have, so folders and endings find room."""

_LONGEST_TAIL: Final = LONGEST // 2
_EDGES: Final = "-. "
_UNSAFE: Final = re.compile(r"[^A-Za-z0-9_.]+")
_RESERVED: Final = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9]|conin\$|conout\$)(\..*)?", re.IGNORECASE)


def safe_stem(text: str, tail: str = "") -> str:
    """A file name without its ending, made from any text, and a tail that stays whole however long the text.

    Letters lose their accents; whatever else is no Latin letter, figure, `_` or dot inside becomes `-`.
    The name never starts or ends with a dot or `-`, is no device name, and is never empty.
    """
    end = _cleaned(tail)[:_LONGEST_TAIL].strip(_EDGES)
    room = LONGEST - len(end) - 1 if end else LONGEST
    head = _cleaned(text)[:room].strip(_EDGES) or "unnamed"
    stem = f"{head}-{end}" if end else head
    return f"{stem}_" if _RESERVED.fullmatch(stem) else stem


def _cleaned(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"\.{2,}", ".", _UNSAFE.sub("-", plain)).strip(_EDGES)


class TakenStems:
    """Gives safe stems, no two alike even where capitals count for nothing."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def take(self, text: str, tail: str = "") -> str:
        """A safe stem that nobody has yet: the second of two that clash gets `-2`, the third `-3`."""
        candidate, number = safe_stem(text, tail), 1
        while candidate.casefold() in self._taken:
            number += 1
            candidate = safe_stem(text, f"{tail} {number}")
        self._taken.add(candidate.casefold())
        return candidate
