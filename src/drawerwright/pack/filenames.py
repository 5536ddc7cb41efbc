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

_UNSAFE: Final = re.compile(r"[^A-Za-z0-9_.]+")
_RESERVED: Final = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9]|conin\$|conout\$)(\..*)?", re.IGNORECASE)


def safe_stem(text: str) -> str:
    """A file name without its ending, made from any text.

    Letters lose their accents; whatever else is no Latin letter, figure, `_` or dot inside becomes `-`.
    The name never starts or ends with a dot or `-`, is no device name, and is never empty.
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    stem = _UNSAFE.sub("-", plain)
    stem = re.sub(r"\.{2,}", ".", stem).strip("-. ")[:LONGEST].strip("-. ")
    if not stem:
        return "unnamed"
    return f"{stem}_" if _RESERVED.fullmatch(stem) else stem


class TakenStems:
    """Gives safe stems, no two alike even where capitals count for nothing."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def take(self, text: str) -> str:
        """A safe stem that nobody has yet: the second of two that clash gets `-2`, the third `-3`."""
        stem = safe_stem(text)
        candidate, number = stem, 1
        while candidate.casefold() in self._taken:
            number += 1
            ending = f"-{number}"
            candidate = stem[: LONGEST - len(ending)].rstrip("-. ") + ending
        self._taken.add(candidate.casefold())
        return candidate
