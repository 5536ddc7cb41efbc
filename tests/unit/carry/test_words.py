"""Values in the sentences of the study, in the units that are read."""

from __future__ import annotations

import pytest

from drawerwright.carry.tipping_facts import PULL
from drawerwright.carry.words import Words
from drawerwright.units import ShownUnits


@pytest.mark.parametrize(
    ("units", "small", "speed", "pull"),
    [
        ("mm", "3.7 mm", "300 mm/s", "44.5 N"),
        ("in", "0.15 in", "11.8 in/s", "10 lbf"),
        ("both", "3.7 mm (0.15 in)", "300 mm/s (11.8 in/s)", "44.5 N (10 lbf)"),
    ],
)
def test_small_lengths_speeds_and_the_published_pull_are_told_in_the_units_read(
    units: ShownUnits, small: str, speed: str, pull: str
) -> None:
    """3.7 / 25.4 = 0.146; 300 / 25.4 = 11.81; 44.5 / 4.448 = 10.004."""
    words = Words(units)
    assert words.length(3.7) == small
    assert words.speed(300.0) == speed
    assert words.force(PULL, 1) == pull


@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_nothing_is_never_told_as_a_negative_nought(units: ShownUnits) -> None:
    words = Words(units)
    told = [words.length(-1e-9), words.speed(-1e-9), words.force(-1e-9), words.force(-1e-9, 1)]
    assert not any("−" in one or "-" in one for one in told)
