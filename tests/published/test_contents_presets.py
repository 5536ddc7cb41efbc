"""Published test loads against boxes worked by hand.

ANSI/KCMA A161.1, 7.1, drawer operation: 15 lb per square foot of drawer bottom (718 Pa), as read in the trade
press (FDMC, March 2017, p. 90). ASTM F2057-23, the standard of 16 CFR 1261: drawers filled with 8.5 lb per
cubic foot, as read in a test laboratory's bulletin.
"""

from __future__ import annotations

import pytest

from drawerwright.catalogue import contents_preset


def test_a_drawer_bottom_of_one_square_foot_bears_15_lb() -> None:
    load = contents_preset("kcma-drawer").mass(inside_length=304.8, inside_width=304.8, inside_height=100.0)
    assert load == pytest.approx(15 * 0.45359237, rel=1e-12)


def test_the_kcma_load_is_718_pascal() -> None:
    # 15 lbf/ft²: with standard gravity, 9.80665 m/s².
    assert contents_preset("kcma-drawer").per_area * 9.80665 == pytest.approx(718.2, abs=0.05)


def test_a_drawer_bottom_of_18_by_24_inches_bears_45_lb() -> None:
    # 1.5 ft × 2 ft = 3 ft²; 3 × 15 = 45 lb = 20.41 kg; the height of the box does not count.
    preset = contents_preset("kcma-drawer")
    low = preset.mass(inside_length=457.2, inside_width=609.6, inside_height=80.0)
    assert low == pytest.approx(20.41165665, rel=1e-12)
    assert low == preset.mass(inside_length=457.2, inside_width=609.6, inside_height=200.0)


def test_a_drawer_bottom_of_500_by_520_mm_bears_19_kg() -> None:
    # 0.26 m² × 73.236 kg/m² = 19.04 kg
    load = contents_preset("kcma-drawer").mass(inside_length=500, inside_width=520, inside_height=100)
    assert load == pytest.approx(19.04, abs=0.005)


def test_a_cubic_foot_of_clothing_weighs_8_5_lb() -> None:
    load = contents_preset("clothing-fill").mass(inside_length=304.8, inside_width=304.8, inside_height=304.8)
    assert load == pytest.approx(8.5 * 0.45359237, rel=1e-12)


def test_a_clothing_drawer_of_two_by_one_and_a_half_by_half_a_foot_holds_12_75_lb() -> None:
    # 2 × 1.5 × 0.5 ft = 1.5 ft³; 1.5 × 8.5 = 12.75 lb = 5.783 kg
    load = contents_preset("clothing-fill").mass(inside_length=457.2, inside_width=609.6, inside_height=152.4)
    assert load == pytest.approx(5.783302718, abs=1e-9)


def test_the_clothing_fill_is_136_kg_to_the_cubic_metre() -> None:
    assert contents_preset("clothing-fill").per_volume == pytest.approx(136.2, abs=0.05)
