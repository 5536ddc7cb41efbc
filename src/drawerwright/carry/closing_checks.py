"""What is held against the answers of a closing unit: comes home, softly, by itself, and stays there.

`closes` and `slam` judge the pushed drawer, `self-close` the one that is let go; the others are statics.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from drawerwright.carry.closing_motion import LATCHED, RESTITUTION, TIME_OUT
from drawerwright.carry.words import Words
from drawerwright.model.fitted import Check, State

if TYPE_CHECKING:
    from drawerwright.carry.closing import Closing, Homeward

SOFT: Final = 250.0
"""Speed at home [mm/s] up to which a closing is called soft. Own choice; no source."""
PULL: Final = 44.5
"""Force that pushes or pulls a loaded drawer [N]: 10 lb, AA-F-358J 4.6.1, read (filing cabinets)."""
LEAST: Final = 0.1
"""Least that a run is told to have failed by [mm/s]: the least push is found in steps. Own choice."""

_TELLABLE: Final = 1e6

_MOTION: Final = (
    "equation of motion: spring, viscous damper, rolling drag, gravity; the unit is the slide family's data"
)
_HAND: Final = f"{_MOTION}; hand speed and rebound: own choice"


def closing_checks(closing: Closing, words: Words) -> tuple[Check, ...]:
    """All checks of a closing, in the order in which they are told; `words` write the numbers."""
    return (
        _capture(closing, words),
        _closes(closing, words),
        _slam(closing, words),
        _self_close(closing, words),
        _stays_shut(closing, words),
        _opening(closing, words),
    )


def _capture(one: Closing, words: Words) -> Check:
    margin = one.travel - one.capture
    says = (
        f"The unit catches the drawer {words.length(one.capture)} from home; "
        f"it travels {words.length(one.travel)}."
    )
    cure = (
        "" if margin > 0 else "The family's soft_close.capture or the length's travel is not right: measure."
    )
    state: State = "ok" if margin > 0 else "stop"
    working = f"{one.travel:g} − {one.capture:g} = {margin:g} mm"
    return Check("capture", state, margin, "mm", _told(says, cure), working, "the slide family's data", cure)


def _closes(one: Closing, words: Words) -> Check:
    run = one.pushed
    where = words.length(one.start)
    pushed = f"Pushed at {words.speed(one.push)} {where} from home, {words.mass(one.moving)}"
    stays = "" if run.stall_at is None else words.length(run.stall_at)
    least = f"{one.push:.1f} − {one.arrives_at:.1f} (least push that gets home)"
    if run.closes:
        assert run.time is not None
        assert run.slam_speed is not None
        margin = max(one.push - one.arrives_at, 0.0)
        says = f"{pushed} comes home in {run.time:.2f} s and meets it at {words.speed(run.slam_speed)}."
        return Check("closes", "ok", margin, "mm/s", says, f"{least} = {margin:.1f} mm/s", _HAND)
    if run.slam_speed is not None:
        latched = LATCHED * 1000 / RESTITUTION
        margin = min(latched - run.slam_speed, -LEAST)
        ends = "rolls open" if run.outcome == "open" else f"stays {stays} open"
        says = f"{pushed} meets home at {words.speed(run.slam_speed)}, springs back and {ends}."
        working = f"{latched:.1f} (springs back less than shows) − {run.slam_speed:.1f} = {margin:.1f} mm/s"
        cure = "A damper that takes more, less mass, or a cabinet that leans less."
    elif run.outcome == "too-slow":
        assert run.stall_at is not None
        margin = min(-run.stall_at / TIME_OUT, -LEAST)
        says = f"{pushed} creeps and is still {stays} open after {TIME_OUT:g} s."
        working = f"−{run.stall_at:.1f} mm / {TIME_OUT:g} s = {margin:.1f} mm/s"
        cure = "A stronger pull-in or less damping."
    else:
        margin = min(one.push - one.arrives_at, -LEAST)
        rolls = "rolls open again" if run.outcome == "open" else f"stays {stays} open"
        says = f"{pushed} {rolls}; {_wants(one, words)}."
        working = f"{least} = {margin:.1f} mm/s"
        cure = "Level the cabinet, take mass off, or choose a family that pulls harder."
    return Check("closes", "stop", margin, "mm/s", _told(says, cure), working, _HAND, cure)


def _wants(one: Closing, words: Words) -> str:
    """The push that would close it, or that none near it does."""
    wanted = words.speed(math.ceil(one.arrives_at))
    if one.least_push is None:
        return f"a harder push, from {wanted} on, would get home, but not stay there"
    return f"it wants {wanted}"


def _slam(one: Closing, words: Words) -> Check:
    speed, energy = one.pushed.slam_speed, one.pushed.slam_energy
    if speed is None or energy is None:
        says = "Pushed, it does not come home, so nothing slams."
        return Check("slam", "ok", SOFT, "mm/s", says, f"{SOFT:g} − 0", "own choice; no source")
    margin = SOFT - speed
    soft = margin >= 0
    says = (
        f"Pushed, it meets home at {words.speed(speed)} with {_figure(energy, 2)} J; "
        f"up to {words.speed(SOFT)} is called soft."
    )
    cure = "" if soft else "It slams: push gently, take mass off, or choose a family with a stronger damper."
    working = f"{SOFT:g} − {speed:.1f} = {margin:.1f} mm/s"
    source = "own choice; no source"
    return Check("slam", "ok" if soft else "watch", margin, "mm/s", _told(says, cure), working, source, cure)


def _self_close(one: Closing, words: Words) -> Check:
    margin = one.limit_tilt - one.tilt_deg
    ok = margin >= 0 and one.let_go.closes
    limit = (
        "however it leans"
        if one.limit_tilt >= 90
        else f"up to {one.limit_tilt:.1f}° of lean to the front"
        if one.limit_tilt >= 0
        else "only where the cabinet leans back"
    )
    says = f"Let go where the unit catches it, it {_let_go(one.let_go, words)}; surely drawn home {limit}"
    says = f"{says}, and here it leans {one.tilt_deg:g}°."
    cure = "" if ok else "It wants a push: level the cabinet or take mass off."
    working = f"{one.limit_tilt:.2f} − {one.tilt_deg:.2f} = {margin:.2f}°"
    source = "statics: pull-in against gravity along the way and rolling drag"
    shown = margin if ok or margin < 0 else -0.0
    return Check(
        "self-close", "ok" if ok else "watch", shown, "deg", _told(says, cure), working, source, cure
    )


def _let_go(run: Homeward, words: Words) -> str:
    if run.closes:
        return f"is drawn home in {run.time:.2f} s"
    if run.outcome == "open":
        return "rolls open"
    assert run.stall_at is not None
    return f"stays {words.length(run.stall_at)} open"


def _stays_shut(one: Closing, words: Words) -> Check:
    margin = one.opening_start
    ok = margin >= 0
    held = (
        f"{_force(margin, words)} hold it shut"
        if ok
        else f"it rolls open of itself with {_force(-margin, words)}"
    )
    says = f"Shut, {words.mass(one.moving)} at {one.tilt_deg:g}° of lean: {held}."
    cure = "" if ok else "Level the cabinet; until then the drawer opens alone."
    working = f"pull-in + rolling drag − gravity along the way = {_figure(margin)} N"
    source = "statics; the unit is the slide family's data"
    return Check("stays-shut", "ok" if ok else "stop", margin, "N", _told(says, cure), working, source, cure)


def _opening(one: Closing, words: Words) -> Check:
    margin = PULL - one.opening_force
    ok = margin >= 0
    says = f"Opening pulls with {_force(one.opening_force, words)} at most, where the unit is cocked again."
    if one.opening_force <= 0:
        says = "Opening needs no pull: it rolls out of itself."
    cure = (
        ""
        if ok
        else f"More than {_force(PULL, words)} is hard to open: less mass, less lean back, or a weaker unit."
    )
    working = f"{PULL:g} − {_figure(one.opening_force)} = {_figure(margin)} N"
    source = "AA-F-358J 4.6.1 (filing cabinets): a loaded drawer moves with at most 10 lb; only watched here"
    return Check(
        "opening-force", "ok" if ok else "watch", margin, "N", _told(says, cure), working, source, cure
    )


def _told(says: str, cure: str) -> str:
    return f"{says} {cure}" if cure else says


def _force(newtons: float, words: Words) -> str:
    """A force [N] as it is told: small ones to a tenth where newtons are read."""
    if words.units == "mm" or abs(newtons) >= _TELLABLE:
        return f"{_figure(newtons)} N"
    return words.force(newtons)


def _figure(value: float, decimals: int = 1) -> str:
    """A number as it is told; what nobody reads out in full is told in powers of ten."""
    return f"{value:.{decimals}f}" if abs(value) < _TELLABLE else f"{value:.3g}"
