"""What is said of a balance: it stops where a cabinet tips under its own drawers and what they hold.

It watches where the published child's test mass, the pull or the published fill tips it, or where a drawer of
it is not known. No state of it says that a standard is met.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from drawerwright.carry.tipping_facts import BLOCK, BLOCK_INCHES, CHILD, PULL
from drawerwright.carry.words import SLACK, Words
from drawerwright.model.fitted import Check, State

if TYPE_CHECKING:
    from drawerwright.carry.tipping import Tipping
    from drawerwright.carry.tipping_cases import Stance, TippingCase

SOURCE: Final = (
    "statics of a rigid cabinet about its front feet (engineering, not a standard's formula); block, child's "
    "test mass: ASTM F2057-23 as a test laboratory gives them, read; pull of 10 lbf: from memory"
)
CONTENTS: Final = {
    "told": "all drawers loaded as told",
    "empty": "all drawers empty",
    "adverse": "open drawers loaded as told and shut ones empty",
    "filled": "all drawers filled at 8.5 lb/ft³",
}


def block_words(words: Words) -> str:
    """The height of the block under the rear."""
    return words.as_published(f"{BLOCK:g} mm", f"{BLOCK_INCHES:g} in")


def _stands(stance: Stance, words: Words) -> str:
    if stance == "level":
        return "on a level floor"
    return f"with a block of {block_words(words)} under its rear, as on carpet"


def tipping_check(tipping: Tipping, words: Words) -> Check:
    """The check `tipping`; its margin [N m] is the least under its own drawers and contents."""
    worst = tipping.worst
    stands = worst.margin >= -SLACK
    threats = _threats(tipping, words)
    state: State = "stop" if not stands else "watch" if threats or tipping.missing else "ok"
    verb = "stands" if stands else "tips"
    says = f"With {_open_words(worst)}, {CONTENTS[worst.load]}, it {verb} {_stands(worst.stance, words)}"
    says = f"{says}: {worst.restoring:.0f} N m hold it, {worst.overturning:.0f} N m turn it over."
    if stands:
        says = " ".join([says, *threats, _hang_words(tipping, words)])
    if tipping.missing:
        says = f"{says} Not all is known: {'; '.join(tipping.missing)}."
    cure = _cure(tipping, stands=stands) if state != "ok" else ""
    anchor = "Anchor it to the wall whatever this says."
    working = (
        f"{worst.restoring:.2f} (restoring) − {worst.overturning:.2f} (overturning) = {worst.margin:.2f} N m"
    )
    told = " ".join(part for part in (says, cure, anchor) if part)
    return Check("tipping", state, worst.margin, "N m", told, working, SOURCE, cure or anchor)


def _open_words(case: TippingCase) -> str:
    if not case.open:
        return "no drawer open"
    drawers = "drawer" if len(case.open) == 1 else "drawers"
    return (
        f"{drawers} {', '.join(case.open)} open as far as they go"
        if len(case.open) > 1
        else (f"{drawers} {case.open[0]} open as far as it goes")
    )


def _threats(tipping: Tipping, words: Words) -> list[str]:
    """What tips it beyond its own drawers: the child's test mass, the pull, the published fill."""
    told: list[str] = []
    own = [case for case in tipping.cases if case.load != "filled"]
    child = min((case.child_margin for case in own if case.child_margin is not None), default=0.0)
    if child < -SLACK:
        from_child = next(case for case in own if case.child_margin == child)
        told.append(
            f"A child's test mass of {words.mass(CHILD)} on the open front of {from_child.child_on} tips it "
            f"{_stands(from_child.stance, words)}."
        )
    if min(case.pull_margin for case in own) < -SLACK:
        pull = f"{words.force(PULL, 1)} at {words.length(tipping.pull_at)}"
        told.append(f"A pull of {pull} tips it (the pull is from memory).")
    if any(case.margin < -SLACK for case in tipping.cases if case.load == "filled"):
        told.append("Filled at 8.5 lb/ft³ its own drawers tip it.")
    return told


def _hang_words(tipping: Tipping, words: Words) -> str:
    masses = [case.may_hang for case in tipping.cases if case.load != "filled" and case.may_hang is not None]
    if not masses:
        return "Nothing can hang ahead of its feet."
    least = math.floor(min(masses) * 10) / 10  # never told as more than it is
    return f"Up to {words.mass(least)} may hang on an open front."


def _cure(tipping: Tipping, *, stands: bool) -> str:
    cures = ["an interlock that lets one drawer open at a time"] if tipping.interlock is not True else []
    cures += ["ballast low and at the back", "feet further forward"]
    lead = "Do not let it stand free: fix it to the wall" if not stands else "Fix it to the wall"
    return f"{lead}; besides, {', '.join(cures)} would help."
