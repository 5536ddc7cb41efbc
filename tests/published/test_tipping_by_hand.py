"""The balance of a free-standing cabinet against one that was worked out on paper.

A cabinet of 40 kg, 500 deep and 800 high, feet under its front edge; one drawer whose box (6 kg) is 480
long and begins at that edge, its middle 700 above the floor; a front of 2 kg, 20 thick, 600 to 800 above
the floor; contents of 12 kg in the middle of the box. It comes out 480. Levers in mm from the front feet,
ahead positive; 1 kg mm is 9.80665e-3 N m.

Level, open: cabinet 40 × (−250) = −10,000 hold it. Box 6 × (−240 + 480) = 1,440, contents 12 × 240 = 2,880,
front 2 × (10 + 480) = 980: 5,300 turn it over. Margin 4,700 kg mm = 46.091 N m. At the front, 20 + 480 =
500 ahead, 4,700 / 500 = 9.4 kg may hang; the test mass of 27.5 kg takes 13,750 and leaves −9,050 kg mm =
−88.750 N m. A pull of 44.5 N 800 above the floor takes 35.6 N m and leaves 10.491 N m.

Level, shut: 40 × (−250) + 18 × (−240) + 2 × 10 = −14,300 kg mm = 140.235 N m.

On the block: tan θ = 10.9 / (500 − 25), θ = 1.31456°, cos 0.999737, sin 0.022941. A weight `a` ahead and
`h` up is a cos θ + h sin θ ahead: cabinet −249.934 + 9.176 = −240.758, times 40 = −9,630.3. Box 239.937 +
16.059 = 255.996, times 6 = 1,535.98; contents, 700 up, 255.996 × 12 = 3,071.95; front (490 ahead, 700 up)
489.871 + 16.059 = 505.930, times 2 = 1,011.86. Margin 9,630.3 − 5,619.8 = 4,010.5 kg mm = 39.330 N m.

Source: statics; block, its reach under the cabinet and the test mass are ASTM F2057-23's as a test
laboratory gives them (read), the pull is from memory.
"""

from __future__ import annotations

import math

import pytest

from drawerwright.carry.tipping_cases import TippingCase, tipping_case
from drawerwright.carry.tipping_sets import choices, worst_set
from drawerwright.carry.tipping_weights import TippingDrawer, Weight

KG_MM = 9.80665e-3
CABINET = Weight("cabinet C", "", 40.0, -250.0, 400.0)
DRAWER = TippingDrawer(
    id="D",
    own=(Weight("box and slides", "D", 6.0, -240.0, 700.0), Weight("front", "D", 2.0, 10.0, 700.0)),
    contents=Weight("contents", "D", 12.0, -240.0, 700.0),
    filled=Weight("contents", "D", 5.0, -240.0, 700.0),
    reach=480.0,
    front_at=20.0,
    hang_height=800.0,
    litres=40.0,
    box=(-480.0, 0.0, 650.0, 750.0),
    front=(0.0, 20.0, 600.0, 800.0),
)
LEAN = math.atan(10.9 / 475)


def case(stance: str, tilt: float) -> TippingCase:
    return tipping_case(CABINET, [DRAWER], "told", stance, tilt, 800.0, interlock=True)  # type: ignore[arg-type]


def test_level_and_open_it_is_the_paper_balance() -> None:
    found = case("level", 0.0)
    assert found.open == ("D",)
    assert found.restoring == pytest.approx(10_000 * KG_MM)
    assert found.overturning == pytest.approx(5_300 * KG_MM)
    assert found.margin == pytest.approx(46.091, abs=5e-4)
    assert found.may_hang == pytest.approx(9.4)
    assert found.child_margin == pytest.approx(-88.750, abs=5e-4)
    assert found.pull_margin == pytest.approx(10.491, abs=5e-4)


def test_shut_it_is_held_by_all_but_its_front() -> None:
    shut = CABINET.moment(0.0) + choices([DRAWER], "told", 0.0)[0].shut.moment
    assert shut == pytest.approx(-140.235, abs=5e-4)


def test_a_block_under_the_rear_brings_every_weight_forward_by_its_height() -> None:
    assert math.degrees(LEAN) == pytest.approx(1.31456, abs=1e-5)
    found = case("block", LEAN)
    assert found.margin == pytest.approx(39.330, abs=2e-3)


def test_without_contents_less_turns_it_over() -> None:
    """10,000 − 1,440 − 980 = 7,580 kg mm."""
    empty = tipping_case(CABINET, [DRAWER], "empty", "level", 0.0, 800.0, interlock=True)
    assert empty.margin == pytest.approx(7_580 * KG_MM)


def test_two_such_drawers_both_open_leave_next_to_nothing() -> None:
    """10,000 − 2 × 5,300 = −600 kg mm: it tips; the interlock leaves 4,700 + 18 × 240 − 20 = 9,000."""
    two = choices([DRAWER, DRAWER], "told", 0.0)
    rest = CABINET.moment(0.0)
    assert -worst_set(rest, two, interlock=False).moment == pytest.approx(-600 * KG_MM)
    assert -worst_set(rest, two, interlock=True).moment == pytest.approx(9_000 * KG_MM)
