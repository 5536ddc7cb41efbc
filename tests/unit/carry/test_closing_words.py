"""The sentences of closing: what a drawer does by itself, and what it does when it is pushed."""

from __future__ import annotations

import pytest

from drawerwright.carry.closing import Closing, closing_of
from drawerwright.carry.closing_words import let_go_words, pushed_words
from drawerwright.carry.words import Words
from drawerwright.model.family import SoftClose

UNIT = {"capture": 50.0, "pull_in": 8.0, "spring": 0.2, "damping": 0.1, "drag": 0.008}
WORDS = Words()


def closing(mass: float = 20.0, tilt_deg: float = 0.0, **unit: float) -> Closing:
    found = closing_of(mass, SoftClose(**(UNIT | unit)), travel=500.0, tilt_deg=tilt_deg)
    assert found is not None
    return found


def test_a_drawer_that_is_drawn_home_closes_by_itself_in_the_time_of_that_run() -> None:
    one = closing()
    assert one.let_go.closes
    assert one.time != one.pushed.time
    assert let_go_words(one, WORDS) == (f"Let go 50 mm from home, it closes by itself in {one.time:.1f} s")


def test_a_drawer_that_wants_a_push_is_not_said_to_close_by_itself() -> None:
    one = closing(drag=0.1, damping=0.058)
    assert one.pushed.closes
    assert not one.closes
    assert "does not close by itself" in let_go_words(one, WORDS)
    assert pushed_words(one, WORDS) == (
        f"Pushed at 300 mm/s 50 mm from home, it closes in {one.pushed.time:.1f} s "
        f"and meets home at {one.pushed.slam_speed:.0f} mm/s"
    )


def test_a_drawer_that_rolls_open_stays_nowhere() -> None:
    one = closing(mass=60.0, tilt_deg=6.0)
    assert one.let_go.outcome == "open"
    assert let_go_words(one, WORDS).endswith("does not close by itself: it rolls open")


@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_a_drawer_that_stays_open_is_told_how_far(units: str) -> None:
    words = Words(units)  # type: ignore[arg-type]
    one = closing(mass=40.0, tilt_deg=0.5, drag=0.05)
    assert one.let_go.stall_at is not None
    stays = f"stays {words.length(one.let_go.stall_at)} open"
    assert let_go_words(one, words).endswith(stays)


def test_what_springs_back_is_told_so() -> None:
    one = closing(mass=45.0, drag=0.03, damping=0.0, pull_in=1.0)
    assert not one.pushed.closes
    assert one.pushed.slam_speed is not None
    assert "does not close: it springs back and stays" in pushed_words(one, WORDS)


def test_what_creeps_is_still_open_after_the_time_that_is_waited() -> None:
    one = closing(damping=80.0)
    assert one.pushed.outcome == "too-slow"
    assert pushed_words(one, WORDS).endswith("open after 30 s")
