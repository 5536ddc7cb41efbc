"""Wood and moisture against the Wood Handbook (USDA Forest Products Laboratory).

Equilibrium moisture content: table 4-2 of FPL-GTR-190. The cells of `READ` were read in it; those of
`FROM_MEMORY` are from memory, and agree with every cell that was read. Tolerance 0.07: the table is printed
to 0.1, and the equation and the table differ by up to 0.062 over its 152 cells.
Movement: the worked example of chapter 13 (a flat-grained board 232 mm wide moves 1.7 mm); its starting
moisture and coefficient are from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from drawerwright.catalogue.wood_species import species_named, wood_species
from drawerwright.equations.wood_moisture import (
    equilibrium_moisture,
    equilibrium_moisture_fahrenheit,
    swelling,
)

READ = {
    (30, 75): 14.9, (50, 40): 7.9, (60, 60): 11.1, (70, 5): 1.3, (70, 30): 6.2, (70, 40): 7.7,
    (70, 50): 9.2, (70, 65): 12.0, (70, 80): 16.0, (70, 85): 17.9, (90, 50): 8.9, (100, 90): 19.5,
}  # fmt: skip
"""Moisture content [%] by temperature [°F] and relative humidity [%]."""

HUMIDITIES = range(5, 100, 5)
FROM_MEMORY = {
    30: [
        1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5,
        10.4, 11.3, 12.4, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3,
    ],
    70: [
        1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2,
        10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5, 23.9,
    ],
    90: [
        1.2, 2.3, 3.4, 4.3, 5.1, 5.9, 6.7, 7.4, 8.1, 8.9,
        9.7, 10.5, 11.5, 12.6, 13.9, 15.4, 17.3, 19.8, 23.3,
    ],
}  # fmt: skip


@pytest.mark.parametrize(("fahrenheit", "humidity"), READ)
def test_moisture_of_wood_in_air_is_that_of_the_table(fahrenheit: int, humidity: int) -> None:
    table = READ[fahrenheit, humidity]
    assert equilibrium_moisture((fahrenheit - 32) / 1.8, humidity / 100) == pytest.approx(table, abs=0.07)
    assert equilibrium_moisture_fahrenheit(fahrenheit, humidity / 100) == pytest.approx(table, abs=0.07)


@pytest.mark.parametrize("fahrenheit", FROM_MEMORY)
def test_moisture_of_wood_in_air_is_that_of_the_table_as_remembered(fahrenheit: int) -> None:
    row = FROM_MEMORY[fahrenheit]
    humidity = np.array(HUMIDITIES) / 100
    assert equilibrium_moisture((fahrenheit - 32) / 1.8, humidity) == pytest.approx(row, abs=0.07)
    for (row_of, at), value in READ.items():
        if row_of == fahrenheit:
            assert row[HUMIDITIES.index(at)] == value


def test_both_sets_of_constants_agree_within_what_the_handbook_rounds_them_to() -> None:
    fahrenheit, humidity = np.meshgrid(np.arange(30, 131, 10), np.arange(0.05, 0.96, 0.05))
    apart = equilibrium_moisture((fahrenheit - 32) / 1.8, humidity) - equilibrium_moisture_fahrenheit(
        fahrenheit, humidity
    )
    assert np.abs(apart).max() < 0.02


def test_the_worked_example_moves_a_board_by_1_7_mm() -> None:
    assert round(float(swelling(232.0, 8.0, 11.0, 0.00245, 7.0)), 1) == 1.7


def test_beyond_6_to_14_percent_the_curved_equation_takes_over() -> None:
    """Equation 13-3 by hand: 200 × 4 / (3000 / 7.1 − 30 + 12) = 1.978."""
    assert float(swelling(200.0, 12.0, 16.0, 0.00248, 7.1)) == pytest.approx(1.978, abs=0.001)
    assert float(swelling(200.0, 8.0, 12.0, 0.00248, 7.1)) == pytest.approx(200 * 0.00248 * 4)
    assert float(swelling(200.0, 28.0, 40.0, 0.00248, 7.1)) == float(
        swelling(200.0, 28.0, 30.0, 0.00248, 7.1)
    )


@pytest.mark.parametrize("species", [one.id for one in wood_species() if "oak" not in one.id])
def test_coefficients_follow_from_the_shrinkages_of_the_other_table(species: str) -> None:
    """C = S / (3000 − 20 S): equation 13-3 at 10 %. Not so for the oaks, whose coefficients are of groups."""
    wood = species_named(species)
    for coefficient, shrinkage in (
        (wood.radial, wood.shrink_radial),
        (wood.tangential, wood.shrink_tangential),
    ):
        assert coefficient == pytest.approx(shrinkage / (3000 - 20 * shrinkage), abs=6e-6)
