"""Plywood against PS 1 (US voluntary product standard for construction and industrial plywood).

Limits of unsanded and touch-sanded panels, inches, with the thickness printed on the label: the table of
performance categories of a plywood trade association (APA Europe). Tolerances: the same association's
summary of PS 1-19: sanded, 3/4 in and less ±1/64 in, thicker ±3 %; unsanded, touch-sanded and overlaid,
13/16 in and less ±1/32 in, thicker ±5 %. Two sanded 3/4 in panels within tolerance may differ by 1/32 in.
"""

from __future__ import annotations

import pytest

from drawerwright.catalogue import material_named, shipped_materials

INCH = 25.4
TABLE = {
    "1/4": (0.219, 0.281, 0.225),
    "11/32": (0.313, 0.375, 0.322),
    "3/8": (0.344, 0.406, 0.354),
    "7/16": (0.406, 0.469, 0.418),
    "15/32": (0.438, 0.500, 0.451),
    "1/2": (0.469, 0.531, 0.483),
    "19/32": (0.563, 0.625, 0.578),
    "5/8": (0.594, 0.656, 0.609),
    "23/32": (0.688, 0.750, 0.703),
    "3/4": (0.719, 0.781, 0.734),
    "13/16": (0.781, 0.844, 0.788),
    "7/8": (0.831, 0.919, 0.849),
    "1": (0.950, 1.050, 0.970),
    "1-1/8": (1.069, 1.181, 1.091),
    "1-1/4": (1.188, 1.313, 1.213),
}


@pytest.mark.parametrize("category", TABLE)
def test_an_unsanded_panel_lies_within_the_limits_of_its_category(category: str) -> None:
    lowest, highest, label = TABLE[category]
    panel = material_named(f"{category} sheathing ply")
    assert panel.lowest is not None
    assert panel.highest is not None
    # The table prints three decimals.
    assert panel.lowest / INCH == pytest.approx(lowest, abs=0.0006)
    assert panel.highest / INCH == pytest.approx(highest, abs=0.0006)
    assert panel.thickness / INCH == pytest.approx(label, abs=1e-9)


def test_every_category_of_the_table_is_there_and_no_other() -> None:
    (kind,) = [kind for kind in shipped_materials().kinds if kind.name == "sheathing ply"]
    assert [one.nominal.removesuffix(" in") for one in kind.thickness] == list(TABLE)


def test_a_sanded_three_quarter_panel_is_held_to_a_sixty_fourth() -> None:
    panel = material_named("3/4 sanded ply")
    assert (panel.lowest, panel.highest) == pytest.approx((0.734375 * INCH, 0.765625 * INCH))
    assert panel.highest - panel.lowest == pytest.approx(INCH / 32)


def test_a_sanded_half_inch_panel_is_held_to_a_sixty_fourth() -> None:
    panel = material_named("1/2 sanded ply")
    assert (panel.lowest, panel.highest) == pytest.approx((12.303125, 13.096875))


def test_a_sanded_panel_over_three_quarters_is_held_to_3_per_cent() -> None:
    panel = material_named("7/8 sanded ply")
    assert (panel.lowest, panel.highest) == pytest.approx((0.97 * 22.225, 1.03 * 22.225))


def test_the_sixty_fourth_is_0_4_mm_and_the_thirty_second_0_8() -> None:
    tolerances = shipped_materials().tolerances
    assert round(tolerances["ps1-sanded"].plus, 1) == 0.4
    assert round(tolerances["ps1-unsanded"].minus, 1) == 0.8


def test_ply_sold_as_three_quarters_is_usually_23_32() -> None:
    # As articles for the trade say (read second-hand): 23/32 in, 18.26 mm; 1/32 in under the name is common.
    assert material_named("3/4 ply").thickness == pytest.approx(18.26, abs=0.005)
    for name in ("1/4 ply", "3/8 ply", "1/2 ply", "5/8 ply", "3/4 ply"):
        assert material_named(name).thinner == pytest.approx(INCH / 32)
