"""Rectangular plates under an even load, Poisson's ratio 0.3.

Supported edges: Roark's Formulas for Stress and Strain, Table 11.4, case 1a (printed values, up to 0.6 % off
the series), and the Navier series summed to 199 terms. Clamped edges: Roark case 8a and Timoshenko's Table
35, from memory, found a second time by the Ritz method on a larger basis (14 × 14).
"""

from __future__ import annotations

import math

import pytest

from drawerwright.equations.mechanics.plates import (
    POISSON,
    clamped_plate,
    rigidity,
    supported_deflection_at,
    supported_plate,
)

ROARK = 12.0 * (1.0 - POISSON**2)

PRINTED = {
    1.0: (0.0444, 0.2874),
    1.2: (0.0616, 0.3762),
    1.4: (0.0770, 0.4530),
    1.6: (0.0906, 0.5172),
    1.8: (0.1017, 0.5688),
    2.0: (0.1110, 0.6102),
    3.0: (0.1335, 0.7134),
    5.0: (0.1417, 0.7476),
}
"""Long side over short side: Roark's α and β as printed."""

CLAMPED = {
    1.0: (0.00127, -0.0513, 0.0229, 0.0229),
    1.2: (0.00172, -0.0639, 0.0300, 0.0228),
    1.4: (0.00207, -0.0726, 0.0350, 0.0213),
    1.6: (0.00230, -0.0780, 0.0382, 0.0193),
    1.8: (0.00245, -0.0812, 0.0401, 0.0174),
    2.0: (0.00253, -0.0829, 0.0412, 0.0158),
}
"""Long side over short: deflection, moment in the middle of the long edge, both in the plate's middle."""


def navier(ratio: float, x: float = 0.5) -> tuple[float, float]:
    """Deflection [q a⁴/D] at x of the short side, half way along the long one, and the moment [q a²]."""
    deflection = moment = 0.0
    for m in range(1, 200, 2):
        for n in range(1, 200, 2):
            waves = m**2 + (n / ratio) ** 2
            term = 16.0 / (math.pi**6 * m * n * waves**2)
            term *= math.sin(m * math.pi * x) * math.sin(n * math.pi / 2)
            deflection += term
            moment += term * math.pi**2 * (m**2 + POISSON * (n / ratio) ** 2)
    return deflection, moment


@pytest.mark.parametrize("ratio", PRINTED)
def test_a_supported_plate_is_as_printed(ratio: float) -> None:
    alpha, beta = PRINTED[ratio]
    found = supported_plate(ratio)
    assert found.deflection * ROARK == pytest.approx(alpha, rel=6e-3)
    assert found.across_short * 6.0 == pytest.approx(beta, rel=6e-3)


@pytest.mark.parametrize("ratio", PRINTED)
def test_a_supported_plate_is_the_double_series(ratio: float) -> None:
    deflection, moment = navier(ratio)
    found = supported_plate(ratio)
    assert found.deflection == pytest.approx(deflection, rel=1e-3)
    assert found.across_short == pytest.approx(moment, rel=1e-3)


@pytest.mark.parametrize("place", [0.05, 0.2, 0.5])
def test_a_supported_plate_sags_less_beside_its_edge(place: float) -> None:
    assert supported_deflection_at(1.3, place) == pytest.approx(navier(1.3, place)[0], rel=1e-3)


@pytest.mark.parametrize("ratio", CLAMPED)
def test_a_clamped_plate_is_as_tabled(ratio: float) -> None:
    deflection, edge, short, long = CLAMPED[ratio]
    found = clamped_plate(ratio)
    assert found.deflection == pytest.approx(deflection, abs=6e-6)
    assert found.long_edge == pytest.approx(edge, abs=8e-5)
    assert found.across_short == pytest.approx(short, abs=8e-5)
    assert found.across_long == pytest.approx(long, abs=8e-5)


def test_a_long_plate_is_a_strip() -> None:
    assert supported_plate(25.0).deflection == pytest.approx(5 / 384, rel=1e-4)
    assert clamped_plate(25.0).deflection == pytest.approx(1 / 384, rel=1e-2)
    assert clamped_plate(25.0).long_edge == pytest.approx(-1 / 12, rel=1e-2)


def test_rigidity_grows_with_the_cube_of_thickness() -> None:
    assert rigidity(6960.0, 6.0) == pytest.approx(6960.0 * 216.0 / 10.92)
    assert rigidity(6960.0, 12.0) == pytest.approx(8 * rigidity(6960.0, 6.0))
