"""A name told once on a device: it goes with what is saved from there, and proves nothing of who it was."""

from __future__ import annotations

import unicodedata
from typing import Final
from urllib.parse import quote, unquote

from starlette.requests import Request
from starlette.responses import Response

COOKIE: Final = "drawerwright_name"
LONGEST: Final = 60
"""Most characters of a name. Own choice: the store keeps more."""
KEPT_SECONDS: Final = 365 * 24 * 3600
"""How long a device keeps it after it was told: a year, own choice."""
_JOINERS: Final = "\u200c\u200d"
"""Signs without a width that part or join letters of some scripts, and make one emoji of several:
zero width non-joiner and joiner (Unicode Standard, section 23.2)."""
_LONGEST_COOKIE: Final = 12 * LONGEST
"""A character is four bytes at most, and each of them three signs of a cookie."""


def name_told(request: Request) -> str:
    """The name that this device sends along; empty where none was told, or nothing that could be one."""
    kept = request.cookies.get(COOKIE, "")
    return clean_name(unquote(kept, errors="replace")) if len(kept) <= _LONGEST_COOKIE else ""


def clean_name(text: str) -> str:
    """A name as it is kept: one line, nothing that cannot be seen, not longer than names are."""
    seen = "".join(
        " " if one.isspace() else one for one in text if one.isspace() or one in _JOINERS or _is_seen(one)
    )
    short = " ".join(_without_loose_joiners(seen).split())[:LONGEST]
    return _without_loose_joiners(short).rstrip()


def _without_loose_joiners(text: str) -> str:
    """Text with joiners only where they join: one, between signs that are letters, marks or pictures."""
    return "".join(
        one
        for before, one, after in zip(" " + text, text, text[1:] + " ", strict=False)
        if one not in _JOINERS or (_is_joined(before) and _is_joined(after))
    )


def _is_joined(sign: str) -> bool:
    """Whether a joiner may stand beside a sign: letters, their marks, emoji and what colours them."""
    return unicodedata.category(sign)[0] in "LM" or unicodedata.category(sign) in ("So", "Sk")


def _is_seen(sign: str) -> bool:
    """Whether it is no control, direction mark, lone half of a pair or place that no sign has."""
    return not unicodedata.category(sign).startswith("C")


def keep_name(request: Request, answer: Response, name: str) -> None:
    """Let the device keep a name, or forget it where it is empty."""
    told = clean_name(name)
    if not told:
        answer.delete_cookie(COOKIE, path="/", httponly=True, samesite="lax")
        return
    answer.set_cookie(
        COOKIE,
        quote(told, safe=""),
        max_age=KEPT_SECONDS,
        path="/",
        httponly=True,
        samesite="lax",
        secure=request.url.scheme == "https",
    )
