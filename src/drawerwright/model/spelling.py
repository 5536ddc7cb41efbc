"""The nearest known name to one that was mistyped."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(name: str, known: Iterable[str]) -> str:
    """The known name most like `name`: the first of the alphabet if none is like it, "" if none is known."""
    names = sorted(known)
    close = difflib.get_close_matches(name.casefold(), names, n=1, cutoff=0.5)
    if close:
        return close[0]
    return names[0] if names else ""
