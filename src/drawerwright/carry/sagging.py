"""Sag of the front at full travel, what makes it up, and a limit for it where one is told."""

from __future__ import annotations

from typing import Final

from drawerwright.carry.telescope import Drawn
from drawerwright.carry.words import Words, check_of
from drawerwright.model.fitted import Check

SOURCE: Final = (
    "elastic beams, rollers and play; the limit is the user's or the slide family's, no standard's"
)


def sag_words(drawn: Drawn, words: Words) -> str:
    """The sag at full travel and its shares, those that come to nothing left out."""
    shares = (
        ("members", drawn.members_sag),
        ("rollers", drawn.roller_sag),
        ("play", drawn.play_sag),
        ("fixings", drawn.mount_sag),
    )
    told = ", ".join(
        f"{name} {words.length(float(share[-1]))}" for name, share in shares if abs(float(share[-1])) >= 0.05
    )
    sag = float(drawn.sag[-1])
    moved = f"sags {words.length(sag)}" if sag >= 0.0 else f"rises {words.length(-sag)}"
    return f"{moved} at full out, {words.length(float(drawn.extension[-1]))}" + (f": {told}" if told else "")


def sag_check(drawn: Drawn, limit: float, words: Words) -> Check:
    """What is left of the limit told; it only watches."""
    largest = float(drawn.sag.max())
    spare = limit - largest
    return check_of(
        "sag",
        spare,
        "mm",
        f"The front {sag_words(drawn, words)}; {words.length(limit)} are allowed.",
        working=f"limit − sag = {limit:.2f} − {largest:.2f} = {spare:.2f} mm",
        source=SOURCE,
        cure="Less in the drawer, a stiffer slide, or more gap below the front.",
        only_watches=True,
    )
