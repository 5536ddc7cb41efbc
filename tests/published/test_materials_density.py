"""Densities at 12 % moisture against the Wood Handbook (US Forest Products Laboratory).

Solid wood: density = 1000 G (1 + x/100), G on ovendry mass and volume at x % (GTR-190, p. 4-10, whose
example is G 0.605 at 12 %: 678 kg/m³), with G of each species from Table 5-3a (GTR-282; some read in
copies). Panels: ranges of specific gravity in Table 12-1 (GTR-190).
"""

from __future__ import annotations

import pytest

from drawerwright.catalogue import density_of, material_named

SPECIFIC_GRAVITY = {
    "maple": 0.63,
    "soft maple": 0.54,
    "cherry": 0.50,
    "white oak": 0.68,
    "red oak": 0.63,
    "poplar": 0.42,
    "walnut": 0.55,
    "birch": 0.62,
    "beech": 0.64,
    "ash": 0.60,
}


def density(specific_gravity: float, moisture: float) -> float:
    return 1000 * specific_gravity * (1 + moisture / 100)


def test_the_handbooks_example_comes_out() -> None:
    assert density(0.605, 12) == pytest.approx(678, abs=0.5)


@pytest.mark.parametrize("species", SPECIFIC_GRAVITY)
def test_a_species_has_the_density_of_its_specific_gravity(species: str) -> None:
    assert density_of(f"3/4 {species}") == pytest.approx(density(SPECIFIC_GRAVITY[species], 12), abs=0.5)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("1/2 ply", 0.4, 0.6),
        ("16 particleboard", 0.6, 0.8),
        ("16 melamine", 0.6, 0.8),
        ("18 mdf", 0.7, 0.9),
        ("1/8 hardboard", 0.9, 1.0),
    ],
)
def test_a_panel_lies_in_the_handbooks_range(name: str, low: float, high: float) -> None:
    assert 1000 * low <= material_named(name).density <= 1000 * high
    assert "Table 12-1" in material_named(name).density_source


def test_a_maple_drawer_side_weighs_what_its_volume_says() -> None:
    # 500 × 120 × 12.7 mm = 762 cm³; at 0.7056 g/cm³ that is 538 g.
    assert density_of("12.7 maple") * 0.5 * 0.12 * 0.0127 == pytest.approx(0.538, abs=0.001)
