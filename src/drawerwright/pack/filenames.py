"""File names made from ids: safe on every common file system, and never two alike.

Sources: Windows' reserved device names and trailing dots, "Naming Files, Paths, and Namespaces"
(Windows documentation); case-insensitive and normalising file systems, common practice.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
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


def distinct_stems(texts: Iterable[str]) -> tuple[str, ...]:
    """Safe stems in the order of `texts`, no two alike even where capitals count for nothing.

    The second of two that clash gets `-2`, the third `-3`.
    """
    taken: set[str] = set()
    stems = []
    for text in texts:
        stem = safe_stem(text)
        candidate, number = stem, 1
        while candidate.casefold() in taken:
            number += 1
            ending = f"-{number}"
            candidate = stem[: LONGEST - len(ending)].rstrip("-. ") + ending
        taken.add(candidate.casefold())
        stems.append(candidate)
    return tuple(stems)
