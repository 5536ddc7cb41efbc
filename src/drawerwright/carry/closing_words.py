"""How a drawer closes, in sentences: let go where its unit catches it, and pushed into it."""

from __future__ import annotations

from drawerwright.carry.closing import Closing, Homeward
from drawerwright.carry.closing_motion import TIME_OUT
from drawerwright.carry.words import Words


def let_go_words(closing: Closing, words: Words) -> str:
    """What a drawer does by itself that is let go, at rest, where the unit catches it."""
    caught, run = words.length(min(closing.capture, closing.travel)), closing.let_go
    if run.closes:
        return f"Let go {caught} from home, it closes by itself in {run.time:.1f} s"
    return f"Let go {caught} from home, it does not close by itself: {_stays(run, words)}"


def pushed_words(closing: Closing, words: Words) -> str:
    """What a drawer does that is pushed at hand speed."""
    run = closing.pushed
    pushed = f"Pushed at {words.speed(closing.push)} {words.length(closing.start)} from home, it"
    if run.closes:
        assert run.slam_speed is not None
        return f"{pushed} closes in {run.time:.1f} s and meets home at {words.speed(run.slam_speed)}"
    springs = "springs back and " if run.slam_speed is not None else ""
    return f"{pushed} does not close: {_stays(run, words, springs)}"


def _stays(run: Homeward, words: Words, springs: str = "") -> str:
    if run.outcome == "open":
        return f"it {springs}rolls open"
    assert run.stall_at is not None
    if run.outcome == "too-slow":
        return f"it {springs}creeps and is still {words.length(run.stall_at)} open after {TIME_OUT:g} s"
    return f"it {springs}stays {words.length(run.stall_at)} open"
