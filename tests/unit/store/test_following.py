"""What a drawer that the bench named is called now, after it was renamed, taken away or brought back."""

from __future__ import annotations

from typing import Any

from drawerwright.store.following import Life, follow


def life(name: str, since: int, until: int | None = None, position: int = 1, **keys: Any) -> Life:
    return Life(name, position, since, until, {"id": name, **keys})


def test_a_drawer_that_keeps_its_name_is_itself_whatever_else_changes() -> None:
    lives = [life("A", 1, 4, side=16), life("A", 4, None, side=15)]
    assert follow(lives, "A", 2) == "A"


def test_one_that_is_renamed_in_its_place_is_followed_and_its_old_name_is_free_for_another() -> None:
    lives = [
        life("A", 1, 2, position=1, side=16),
        life("B", 1, 3, position=2, side=12),
        life("A9", 2, None, position=1, side=15),
        life("A", 3, None, position=2, side=12),
    ]
    assert follow(lives, "A", 1) == "A9"
    assert follow(lives, "B", 2) == "A"
    assert follow(lives, "A", 3) == "A"


def test_a_name_told_a_little_late_is_that_of_whoever_had_it_last() -> None:
    lives = [life("A", 1, 2), life("A9", 2, None)]
    assert follow(lives, "A", 2) == "A9"


def test_one_that_is_taken_away_is_gone_until_it_is_brought_back_as_it_was() -> None:
    gone = [life("A", 1, 2, position=1, side=16), life("C", 2, None, position=7, side=12)]
    assert follow(gone, "A", 1) is None
    assert follow([*gone, life("A", 3, None, position=5, side=12)], "A", 1) is None
    assert follow([*gone, life("A", 3, None, position=5, side=16)], "A", 1) == "A"
    assert follow(gone, "D", 1) is None
