"""Bottom, racking, screws and the stop of a carried drawer, by hand."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.carry import CarriedDrawer, carry_drawer
from drawerwright.carry.bottom import bottom_checks, bottom_of
from drawerwright.carry.fixings import Fixing
from drawerwright.carry.words import Words
from drawerwright.catalogue.strength import strengths
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, FittedDrawer

Fit = Callable[..., FittedDrawer]
Family = Callable[..., SlideFamily]

MECHANICS: dict[str, Any] = {
    "carriages": {"lower": [130, 370], "upper": [120, 370]},
    "carriages_for": 500,
    "roller": {"stiffness": 4000, "play": 0.1},
}


@pytest.fixture
def carried(fit_one: Fit, family: Family) -> Callable[..., CarriedDrawer]:
    def carry(keys: dict[str, Any] | None = None, **drawer: Any) -> CarriedDrawer:
        return carry_drawer(fit_one([family(**{**MECHANICS, **(keys or {})})], **{"contents": 20, **drawer}))

    return carry


Carry = Callable[..., CarriedDrawer]


def check(one: CarriedDrawer, id_: str) -> Check:
    (found,) = (check for check in one.checks if check.id == id_)
    return found


def fixing(one: CarriedDrawer, id_: str) -> Fixing:
    assert one.slide is not None
    (found,) = (each for each in one.slide.fixings if each.id == id_)
    return found


def test_a_bottom_sags_between_what_its_edges_allow(carried: Carry) -> None:
    """520 by 468 between 16 mm sides, 6 mm plywood of 6,960 N/mm², 20 kg: α about 0.0050 and 0.00155."""
    one = carried()
    assert one.slide is not None
    bottom = one.slide.bottom
    assert bottom is not None
    pressure = 20 * 9.80665 / (520 * 468)
    bend = pressure * 468**4 / (6960 * 6**3 / 10.92)
    assert (bottom.short_side, bottom.long_side) == (468.0, 520.0)
    assert bottom.pressure == pytest.approx(pressure)
    assert 0.0040 * bend < bottom.supported < 0.0057 * bend
    assert 0.00127 * bend < bottom.clamped < 0.0018 * bend
    assert bottom.at_member < bottom.supported
    assert check(one, "bottom-clearance").margin == pytest.approx(13.0 - bottom.supported)


def test_a_thin_bottom_of_hardboard_hangs_below_the_sides(carried: Carry) -> None:
    one = carried(
        contents=30,
        opening={"width": 900},
        box={"bottom_thickness": 3, "groove_depth": 6},
        materials={"bottom": "3 hardboard"},
    )
    assert check(one, "bottom-clearance").state == "stop"
    assert check(one, "bottom-bending").state == "ok"


def test_a_bottom_without_contents_is_not_stressed(carried: Carry) -> None:
    told = check(carried(contents=0), "bottom-bending")
    assert told.margin == pytest.approx(33.72)
    assert "times" not in told.says


def test_a_bottom_of_wood_whose_rupture_nobody_tells_is_not_held_against_it(fit_one: Fit) -> None:
    one = fit_one(contents=20)
    assert one.box is not None
    assert one.slide is not None
    bottom = bottom_of(one.box, one.slide.family, 20.0, strengths()["sugar-maple"])
    assert [check.id for check in bottom_checks(bottom, Words())] == ["bottom-clearance"]


def test_play_over_the_spacing_of_both_carriages_is_how_askew_a_drawer_stands(carried: Carry) -> None:
    one = carried()
    assert one.slide is not None
    racking = one.slide.racking
    assert racking is not None
    yaw = 0.1 / 240 + 0.1 / 250
    assert racking.yaw_deg == pytest.approx(math.degrees(yaw))
    assert racking.sideways == pytest.approx(yaw * 250)
    assert check(one, "racking").margin == pytest.approx(5.0 - yaw * 250)
    assert check(one, "racking").state == "ok"


def test_a_wide_drawer_wants_a_stabiliser_until_it_has_one(carried: Carry) -> None:
    wide = {"opening": {"width": 1400}, "slide": "plain-16/500"}
    due = carried(**wide)
    assert due.slide is not None
    assert due.slide.racking is not None
    assert due.slide.racking.stabiliser_due
    assert check(due, "racking").state == "watch"
    assert "stabiliser" in check(due, "racking").cure
    assert check(carried(**wide, stabiliser=True), "racking").state == "ok"


def test_play_beyond_the_side_gap_stops(carried: Carry) -> None:
    one = carried({"roller": {"stiffness": 4000, "play": 3.0}})
    assert check(one, "racking").state == "stop"


def test_screws_of_the_front_share_the_pull(carried: Carry) -> None:
    """Four No. 8 screws, 15 mm deep in MDF of 0.7: 41.1 √4.17 (15 − 1.39)^1.25 0.49."""
    one = carried(front={"style": "overlay"})
    found = fixing(one, "screw-front")
    assert found.count == 4
    assert found.pull == pytest.approx(222.41 / 4, abs=0.01)
    assert found.hold == pytest.approx(15.0)
    assert found.ultimate == pytest.approx(41.1 * 4.17**0.5 * (15 - 1.39) ** 1.25 * 0.49)
    assert check(one, "screw-front").margin == pytest.approx(found.ultimate - found.pull)


def test_a_drawer_without_an_applied_front_has_no_screws_in_it(carried: Carry) -> None:
    assert [one.id for one in carried().checks if one.id == "screw-front"] == []


def test_screws_of_a_bracket_are_as_long_as_told(carried: Carry) -> None:
    """Plywood of 0.4: 108.25 × 0.16 × 3.51 × 12; half the pull over three screws at 75 degrees."""
    found = fixing(carried(box={"bracket_screw": 12}), "screw-bracket")
    assert found.hold == pytest.approx(12.0)
    assert found.ultimate == pytest.approx(108.25 * 0.16 * 3.51 * 12)
    assert found.pull == pytest.approx(222.41 / 6 * math.sin(math.radians(75)), abs=0.01)


def test_the_rearmost_fixing_is_pulled_by_what_the_balance_asks(carried: Carry) -> None:
    one = carried()
    assert one.slide is not None
    assert one.fitted.mass is not None
    low, high = one.slide.data.screws
    weight = one.fitted.mass.moving * 9.80665 / 2
    pull = weight * (250 + 500 - low) / (high - low) - weight
    assert fixing(one, "screw-mount").pull == pytest.approx(pull)


def test_a_slide_on_a_shelf_pulls_its_screw_straight_and_one_beside_by_judgement(carried: Carry) -> None:
    assert "judgement" not in check(carried(mount="shelf"), "screw-mount").says
    assert "judgement" in check(carried(), "screw-mount").says


def test_a_drawer_drawn_against_its_stop_gives_its_energy_to_it(carried: Carry) -> None:
    one = carried()
    assert one.slide is not None
    assert one.fitted.mass is not None
    slam = one.slide.slam
    # A weight of 0.2 m that falls 152.4 mm moves 1.2 m: v² = 2 × 0.2 g h / 1.2.
    speed = math.sqrt(0.4 * 9.80665 * 0.1524 / 1.2)
    assert slam.speed == pytest.approx(speed * 1000)
    assert slam.force * 2 * slam.give / 1000 / 2 == pytest.approx(one.fitted.mass.moving * speed**2 / 2)
    assert slam.upper_front is not None
    assert slam.upper_front > one.slide.drawn.upper_front[-1]


def test_carriages_scale_with_the_member_of_the_length_that_they_are_told_for(family: Family) -> None:
    lengths = [{"nominal": 500, "member": 510}, {"nominal": 400, "member": 408}]
    one = family(**MECHANICS, length=lengths)
    assert one.carriages_on(510.0) == ((130.0, 370.0), (120.0, 370.0))
    assert one.carriages_on(408.0)[0] == pytest.approx((104.0, 296.0))  # type: ignore[index]
    elsewhere = family(**{**MECHANICS, "carriages_for": 1000})
    assert elsewhere.carriages_on(500.0)[0] == pytest.approx((65.0, 185.0))  # type: ignore[index]
    assert family().carriages_on(500.0) is None
