"""The equation of motion of a closing drawer against closed forms.

Sources: free rolling and the linear damper by energy and momentum; the captured drawer as the damped
oscillator `m s″ + c s′ + k s = −(F − f)`, solved as textbooks of vibration do (Rao; Den Hartog: the law
from memory, the numbers worked out here); self-closing from the balance of forces on an incline. The worked
numbers 0.46965 m/s, 0.1182 s, 0.3622 m/s and 4.3, 2.0, 0.8 degrees were computed apart from this program.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from drawerwright.carry.closing import closing_of
from drawerwright.carry.closing_motion import Moving
from drawerwright.equations.mechanics.closing import (
    ClosingUnit,
    free_speed,
    least_speed,
    limit_tilt,
    rebound_reach,
    speed_at_home,
)
from drawerwright.model.family import SoftClose

G = 9.80665


def captured(m: float, c: float, k: float, force: float, s0: float, v0: float) -> tuple[float, float]:
    """Time [s] and speed [m/s] at home of the under-damped drawer, from s0 [m] at v0 [m/s] towards home."""
    omega, zeta = math.sqrt(k / m), c / (2 * math.sqrt(k * m))
    damped, rest = omega * math.sqrt(1 - zeta**2), -force / k
    a = s0 - rest
    b = (-v0 + zeta * omega * a) / damped

    def place(t: float) -> float:
        return rest + math.exp(-zeta * omega * t) * (a * math.cos(damped * t) + b * math.sin(damped * t))

    steps = np.linspace(0.0, 20.0, 200_001)
    first = next(t for t in steps if place(t) <= 0.0)
    shut = brentq(place, first - 1e-4, first, xtol=1e-14)
    slope = math.exp(-zeta * omega * shut) * (
        (b * damped - a * zeta * omega) * math.cos(damped * shut)
        - (a * damped + b * zeta * omega) * math.sin(damped * shut)
    )
    return shut, -slope


def test_a_drawer_that_rolls_free_loses_what_drag_takes() -> None:
    """v² = v₀² − 2 drag g d: 0.5 m/s, 0.25 m at 0.006 leaves 0.46965 m/s."""
    assert free_speed(0.5, 0.25, 0.0, 0.006) == pytest.approx(0.46965, abs=2e-5)
    run = Moving(12.0, 0.0, ClosingUnit(1e-6, 0.0, 0.0, 0.0, 0.006), 0.5).run(0.25, 0.5)
    assert run.slam_speed == pytest.approx(math.sqrt(0.25 - 2 * 0.006 * G * 0.25), rel=1e-6)


@pytest.mark.parametrize(("damping", "left"), [(60.0, 0.25), (108.0, 0.05), (0.0, 0.5)])
def test_a_damper_alone_takes_damping_times_way_over_mass(damping: float, left: float) -> None:
    """m dv/dt = −c v gives dv = −c d / m: 12 kg, 0.5 m/s, 50 mm; 108 N s/m leaves 0.05 m/s."""
    unit = ClosingUnit(0.05, 0.0, 0.0, damping, 0.0)
    assert Moving(12.0, 0.0, unit, 0.5).run(0.05, 0.5).slam_speed == pytest.approx(left, rel=1e-6)
    stepped, stalled = speed_at_home(12.0, 0.0, 0.5, unit, 0.05)
    assert stepped == pytest.approx(left, rel=1e-9)
    assert stalled == 0.0


def test_a_captured_drawer_of_half_the_critical_damping_comes_home_as_worked_out() -> None:
    """12 kg, 60 N s/m, 300 N/m, 8 N, drag 0.006, let run at 0.5 m/s 300 mm out: 0.1182 s, 0.3622 m/s."""
    unit = ClosingUnit(0.05, 8.0, 300.0, 60.0, 0.006)
    assert 60.0 / (2 * math.sqrt(300.0 * 12.0)) == 0.5
    run = Moving(12.0, 0.0, unit, 0.5).run(0.3, 0.5)
    assert run.shut_after == pytest.approx(0.1182, abs=5e-5)
    assert run.slam_speed == pytest.approx(0.3622, abs=5e-5)
    time, speed = captured(12.0, 60.0, 300.0, 8.0 - 0.006 * 12.0 * G, 0.05, math.sqrt(0.25 - 0.003 * G))
    assert run.shut_after == pytest.approx(time, rel=1e-7)
    assert run.slam_speed == pytest.approx(speed, rel=1e-7)


@pytest.mark.parametrize("mass", [4.0, 12.0, 35.0, 60.0])
@pytest.mark.parametrize("tilt_deg", [-1.5, 0.0, 0.5])
@pytest.mark.parametrize("push", [0.0, 0.05, 0.4, 1.2])
def test_every_under_damped_run_is_the_oscillators(mass: float, tilt_deg: float, push: float) -> None:
    unit, tilt = ClosingUnit(0.05, 8.0, 260.0, 40.0, 0.008), math.radians(tilt_deg)
    against = 0.008 * mass * G * math.cos(tilt) + mass * G * math.sin(tilt)
    run = Moving(mass, tilt, unit, 0.5).run(0.05, push)
    time, speed = captured(mass, 40.0, 260.0, 8.0 - against, 0.05, push)
    assert run.shut_after == pytest.approx(time, rel=1e-5)
    assert run.slam_speed == pytest.approx(speed, rel=1e-6)


@pytest.mark.parametrize(("mass", "degrees"), [(10.0, 4.3), (20.0, 2.0), (40.0, 0.8)])
def test_the_tilt_that_a_unit_still_draws_home_falls_with_mass(mass: float, degrees: float) -> None:
    """8 N against m g sin θ + 0.006 m g cos θ."""
    assert math.degrees(float(limit_tilt(mass, 8.0, 0.006))) == pytest.approx(degrees, abs=0.05)
    found = closing_of(
        mass,
        SoftClose(capture=50, pull_in=8, spring=0, damping=0.02, drag=0.006),
        travel=500,
        tilt_deg=degrees,
    )
    assert found is not None
    assert found.limit_tilt == pytest.approx(degrees, abs=0.05)


@pytest.mark.parametrize("mass", [5.0, 20.0, 45.0])
def test_at_the_limit_tilt_forces_are_in_balance_and_a_hair_to_either_side_decides(mass: float) -> None:
    unit = ClosingUnit(0.05, 8.0, 0.0, 0.5, 0.006)
    limit = float(limit_tilt(mass, 8.0, 0.006))
    assert mass * G * (math.sin(limit) + 0.006 * math.cos(limit)) == pytest.approx(8.0, rel=1e-12)
    assert Moving(mass, limit - 1e-3, unit, 0.5).run(0.05, 0.0).outcome == "shut"
    assert Moving(mass, limit + 1e-3, unit, 0.5).run(0.05, 0.0).outcome == "stalls"


def test_the_least_push_against_a_steep_cabinet_is_what_the_hill_takes() -> None:
    """Without spring and damper ½ m v² = m g (sin θ + drag cos θ) d."""
    tilt, unit = math.radians(3.0), ClosingUnit(0.05, 0.0, 0.0, 0.0, 0.01)
    wanted = math.sqrt(2 * G * (math.sin(tilt) + 0.01 * math.cos(tilt)) * 0.05)
    assert least_speed(20.0, tilt, unit, 0.05) == pytest.approx(wanted, rel=1e-9)
    moving = Moving(20.0, tilt, unit, 0.5, restitution=0.0)
    assert moving.run(0.05, wanted * 1.001).slam_speed is not None
    assert moving.run(0.05, wanted * 0.999).slam_speed is None


def test_what_springs_back_goes_as_far_as_its_energy_pays_for() -> None:
    """½ 12 0.1² = 0.06 J = 8 x + ½ 300 x² + 0.006 12 g x gives x = 6.224 mm."""
    unit = ClosingUnit(0.05, 8.0, 300.0, 60.0, 0.006)
    friction = 0.006 * 12 * G
    x = (-(8 + friction) + math.sqrt((8 + friction) ** 2 + 2 * 300 * 0.06)) / 300
    assert x == pytest.approx(6.224e-3, abs=1e-6)
    assert rebound_reach(12.0, 0.0, 0.1, unit) == pytest.approx(x, rel=1e-12)
