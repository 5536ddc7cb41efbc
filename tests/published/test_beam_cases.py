"""Tabled beams: overhangs, cantilevers, a stepped one, settled supports.

Overhanging beam under a load on its overhang: becalc.com, "Overhanging beam, uniformly distributed load on
overhang"; under a load at its tip: mechengcalculations.com, beam 12. The others are formulas from memory. All
values were found a second time by frame analysis to six digits. E = 200 GPa, I = 5,000 mm⁴, 400 mm between
the supports, an overhang of 150 mm, 0.5 N/mm, 80 N.
"""

from __future__ import annotations

import numpy as np
import pytest

from drawerwright.equations.mechanics.beams import (
    TwoLoads,
    bending_at_loads,
    bent_line,
    spread_load_moments,
    spread_load_tip,
    support_forces,
)

MODULUS, INERTIA = 200e3, 5000.0
EI = MODULUS * INERTIA
SPAN, OVERHANG, SPREAD, LOAD = 400.0, 150.0, 0.5, 80.0
TIP = np.array([SPAN + OVERHANG])
CLAMPED = 0.001
"""Two supports so near each other [mm] that a beam cannot turn over them."""


def a(value: float) -> np.ndarray:
    return np.array([value])


def cantilever(tip: float, *, ei: float = EI, **loads: object) -> float:
    """Deflection at the tip of a beam that is clamped at 0."""
    return float(bent_line(a(tip), -CLAMPED, 0.0, stiffness=ei, **loads)[0])  # type: ignore[arg-type]


def test_a_load_spread_over_the_overhang_alone_bends_its_tip_down() -> None:
    spreads = [(SPAN, SPAN + OVERHANG, SPREAD)]
    tip = bent_line(TIP, 0.0, SPAN, spreads=spreads, stiffness=EI)
    assert tip == pytest.approx(-0.144141, abs=6e-7)


def test_a_load_on_the_overhang_pulls_the_rear_support_down() -> None:
    beam = TwoLoads(a(0.0), a(SPAN), a(SPAN / 2), a(SPAN + OVERHANG / 2), a(0.0), a(SPREAD * OVERHANG))
    rear, front = support_forces(beam)
    assert rear == pytest.approx(-14.0625)
    assert front == pytest.approx(75.0 + 14.0625)


def test_a_load_spread_over_the_whole_beam_bends_a_short_overhang_up() -> None:
    tip = spread_load_tip(a(SPREAD), a(SPAN), a(OVERHANG), a(0.0)) / EI
    assert tip == pytest.approx(0.055859, abs=6e-7)
    spreads = [(0.0, SPAN + OVERHANG, SPREAD)]
    assert bent_line(TIP, 0.0, SPAN, spreads=spreads, stiffness=EI) == pytest.approx(tip, rel=1e-9)


def test_a_load_spread_over_the_whole_beam_is_shared_by_its_supports() -> None:
    whole = SPREAD * (SPAN + OVERHANG)
    beam = TwoLoads(a(0.0), a(SPAN), a(SPAN / 4), a((SPAN + OVERHANG) / 2), a(0.0), a(whole))
    rear, front = support_forces(beam)
    assert rear == pytest.approx(85.9375)
    assert front == pytest.approx(189.0625)


def test_moments_of_a_spread_load_are_those_of_its_overhangs_and_span() -> None:
    rear, front, between = spread_load_moments(a(SPREAD), a(SPAN), a(OVERHANG), a(0.0))
    assert rear == pytest.approx(0.0)
    assert front == pytest.approx(-SPREAD * OVERHANG**2 / 2)
    assert between == pytest.approx(85.9375**2 / (2 * SPREAD))


def test_a_load_at_the_tip_of_an_overhang() -> None:
    beam = TwoLoads(a(0.0), a(SPAN), a(SPAN / 2), TIP, a(0.0), a(LOAD))
    _, tip = bending_at_loads(beam, *support_forces(beam))
    assert tip / EI == pytest.approx(-0.33)


def test_a_cantilever_under_a_load_on_its_outer_part() -> None:
    assert cantilever(400.0, spreads=[(250.0, 400.0, SPREAD)]) == pytest.approx(-1.160547, rel=1e-5)


def test_a_cantilever_under_a_load_on_its_inner_part() -> None:
    assert cantilever(400.0, spreads=[(0.0, 250.0, SPREAD)]) == pytest.approx(-0.439453, rel=1e-5)


def test_a_stepped_cantilever_is_its_inner_part_whole_with_the_outer_part_exchanged() -> None:
    inner, length = MODULUS * 12_000.0, 400.0
    outer_stiff = cantilever(OVERHANG, ei=inner, loads=[(OVERHANG, LOAD)])
    outer_soft = cantilever(OVERHANG, loads=[(OVERHANG, LOAD)])
    tip = cantilever(length, ei=inner, loads=[(length, LOAD)]) - outer_stiff + outer_soft
    assert tip == pytest.approx(-0.763611, rel=1e-5)


def test_settled_supports_turn_the_overhang() -> None:
    settled = bent_line(
        TIP, 0.0, SPAN, loads=[(SPAN + OVERHANG, LOAD)], stiffness=EI, at_rear=-0.3, at_front=-1.1
    )
    assert settled == pytest.approx(-1.73)
