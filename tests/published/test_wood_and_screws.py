"""Wood Handbook: stiffness of panels and wood, screws drawn out of them.

FPL-GTR-190: Table 12-1. FPL-GTR-282 as digitised: eq. (8-10) p. 8-10 in both systems
of units, Table 8-9 shanks, Table 5-3a. Particleboard screws: formula from memory
in both systems; edge over face "75 to 80 per cent" is read (McNatt, Forest Products Laboratory survey).
"""

from __future__ import annotations

import pytest

from drawerwright.catalogue.boards import board
from drawerwright.catalogue.strength import cabinet_strength, strengths
from drawerwright.equations.mechanics.screws import (
    SHANKS,
    withdrawal_from_board,
    withdrawal_from_wood,
)

POUND = 4.4482216152605
INCH = 25.4


def test_a_screw_in_hard_maple_holds_the_same_in_both_systems_of_units() -> None:
    in_pounds = 15_700 * 0.63**2 * (4.17 / INCH) * (12.7 / INCH)
    assert withdrawal_from_wood(0.63, 4.17, 12.7) == pytest.approx(2275, abs=1)
    assert withdrawal_from_wood(0.63, 4.17, 12.7) == pytest.approx(in_pounds * POUND, rel=1e-3)


def test_end_grain_holds_three_quarters_from_memory() -> None:
    assert withdrawal_from_wood(0.63, 4.17, 12.7, "end") == pytest.approx(0.75 * 2275, abs=1)


@pytest.mark.parametrize(("surface", "factor", "held"), [("face", 2655, 1165), ("edge", 2055, 901)])
def test_a_screw_in_particleboard_holds_the_same_in_both_systems_of_units(
    surface: str, factor: float, held: float
) -> None:
    diameter, length = 4.17 / INCH, 15.9 / INCH
    in_pounds = factor * diameter**0.5 * (length - diameter / 3) ** 1.25 * 0.70**2
    found = withdrawal_from_board(0.70, 4.17, 15.9, surface)  # type: ignore[arg-type]
    assert found == pytest.approx(held, abs=1)
    assert found == pytest.approx(in_pounds * POUND, rel=1e-3)


def test_an_edge_of_particleboard_holds_three_quarters_to_four_fifths_of_its_face() -> None:
    ratio = withdrawal_from_board(0.7, 4.17, 16.0, "edge") / withdrawal_from_board(0.7, 4.17, 16.0)
    assert 0.75 <= ratio <= 0.80


def test_a_screw_that_is_no_deeper_than_its_tip_holds_nothing() -> None:
    assert withdrawal_from_board(0.7, 4.17, 1.0) == 0.0
    assert withdrawal_from_wood(0.6, 4.17, -1.0) == 0.0


@pytest.mark.parametrize(("gauge", "shank"), [(6, 3.51), (8, 4.17), (10, 4.83)])
def test_shanks_are_those_of_the_handbook(gauge: int, shank: float) -> None:
    assert SHANKS[gauge] == shank


@pytest.mark.parametrize(
    ("name", "modulus", "rupture", "gravity"),
    [
        ("plywood", (6.96, 8.55), (33.72, 42.61), (0.4, 0.6)),
        ("particleboard", (2.76, 4.14), (15.17, 24.13), (0.6, 0.8)),
        ("mdf", (3.59, 3.59), (35.85, 35.85), (0.7, 0.9)),
        ("hardboard", (3.10, 5.52), (31.02, 56.54), (0.9, 1.0)),
        ("osb", (4.41, 6.28), (21.80, 34.70), (0.5, 0.8)),
    ],
)
def test_panels_take_the_low_end_of_table_12_1(
    name: str, modulus: tuple[float, float], rupture: tuple[float, float], gravity: tuple[float, float]
) -> None:
    found = strengths()[name]
    assert found.modulus == pytest.approx(modulus[0] * 1000)
    assert found.rupture == pytest.approx(rupture[0])
    assert found.gravity == gravity[0]
    assert (board(name).lowest, board(name).highest) == pytest.approx([1000 * one for one in gravity])


@pytest.mark.parametrize(
    ("name", "modulus", "gravity"),
    [
        ("sugar-maple", 12.6, 0.63), ("red-maple", 11.3, 0.54), ("black-cherry", 10.3, 0.50),
        ("white-oak", 12.3, 0.68), ("red-oak", 12.5, 0.63), ("yellow-poplar", 10.9, 0.42),
        ("black-walnut", 11.6, 0.55), ("yellow-birch", 13.9, 0.62), ("american-beech", 11.9, 0.64),
        ("white-ash", 12.0, 0.60),
    ],
)  # fmt: skip
def test_wood_is_that_of_the_species_table(name: str, modulus: float, gravity: float) -> None:
    found = strengths()[name]
    assert found.modulus == pytest.approx(modulus * 1000)
    assert found.gravity == gravity
    assert board(name).density == pytest.approx(1120 * gravity, abs=1)


def test_a_cabinet_is_taken_to_be_of_the_stock_that_holds_a_screw_least() -> None:
    common = [strengths()[name] for name in ("particleboard", "plywood", "mdf")]
    board_ = cabinet_strength()
    assert withdrawal_from_board(board_.gravity, 4.17, 14.5) == min(
        withdrawal_from_wood(one.gravity, 4.17, 14.5)
        if one.screws == "wood"
        else withdrawal_from_board(one.gravity, 4.17, 14.5)
        for one in common
    )
