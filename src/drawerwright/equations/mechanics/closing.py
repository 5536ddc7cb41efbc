"""A drawer drawn home by a spring against a damper: closed forms, and speeds over many masses and tilts.

SI inside: m, s, kg, N, radians. `x` is the remaining opening, closing speed is positive, and `tilt` is
positive where the cabinet leans forward, so that closing goes uphill. While the unit holds the drawer it
pulls with `pull_in + spring x`; its damper resists closing alone, with `damping` times speed (viscous flow at
low speed: NPTEL, fluid mechanics, lecture 8). Rolling drag is `drag` times the load square to the way. Where
`Reals` stands, numbers or arrays may be given; they are broadcast.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from drawerwright.equations.equation import Q
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY

Reals: TypeAlias = float | Q

STEPS: Final = 400
"""Into how many steps the way home is cut where speeds are found over a grid. Own choice."""


@dataclass(frozen=True, slots=True)
class ClosingUnit:
    """A closing unit in SI: capture [m], pull-in [N], spring [N/m], damping [N s/m], rolling drag [1]."""

    capture: float
    pull_in: float
    spring: float
    damping: float
    drag: float

    def pull(self, opening: float) -> float:
        """Force of the spring [N] at an opening [m], 0 beyond capture."""
        return self.pull_in + self.spring * opening if opening <= self.capture else 0.0

    def work(self, opening: float) -> float:
        """What the spring gives from an opening [m] home [J]."""
        held = min(opening, self.capture)
        return self.pull_in * held + self.spring * held**2 / 2


def rolling_drag(mass: Reals, tilt: Reals, drag: float) -> Q:
    """Rolling drag [N] of a mass [kg] on a way tilted by `tilt` [rad]."""
    return np.asarray(drag * STANDARD_GRAVITY * mass * np.cos(tilt))


def uphill(mass: Reals, tilt: Reals) -> Q:
    """Part of the weight [N] that acts along the way, against closing where positive."""
    return np.asarray(STANDARD_GRAVITY * mass * np.sin(tilt))


def limit_tilt(mass: Reals, pull_in: float, drag: float) -> Q:
    """Tilt [rad] up to which a drawer at rest anywhere in the unit is drawn home.

    Solves `pull_in = m g sin θ + drag m g cos θ`: the last of the way counts, where the spring pulls least.
    π/2 where it would be lifted upright; negative where even a level drawer stays.
    """
    friction = np.arctan(drag)
    share = pull_in * np.cos(friction) / (mass * STANDARD_GRAVITY)
    return np.where(share >= 1.0, np.pi / 2, np.arcsin(np.minimum(share, 1.0)) - friction)


def free_speed(speed: Reals, way: Reals, tilt: Reals, drag: float) -> Q:
    """Speed [m/s] after rolling `way` [m] on; 0 where it has stopped before."""
    slower = 2.0 * STANDARD_GRAVITY * (drag * np.cos(tilt) + np.sin(tilt)) * way
    return np.sqrt(np.maximum(speed**2 - slower, 0.0))


def least_speed(mass: Reals, tilt: Reals, unit: ClosingUnit, start: float, steps: int = STEPS) -> Q:
    """Least closing speed [m/s] at the opening `start` [m] (at most capture) that still gets home.

    Steps from home outwards, where the least energy is none: `½ m v²` grows by what damper (by the mean of a
    step's two speeds), drag and gravity take in a step less what the spring gives. 0 where the spring alone
    is enough all the way.
    """
    step = start / steps
    against = rolling_drag(mass, tilt, unit.drag) + uphill(mass, tilt)
    speed: Q = np.zeros(np.shape(against), dtype=np.float64)
    if unit.spring >= 0.0 and np.all(against <= unit.pull_in):
        return speed  # the pull beats what holds it from the last of the way outwards
    half = step * unit.damping / 2.0
    for k in range(steps):
        wanted = mass * speed**2 / 2.0 + half * speed + step * (against - unit.pull((k + 0.5) * step))
        speed = np.where(
            wanted > 0.0, (half + np.sqrt(half**2 + 2.0 * mass * np.maximum(wanted, 0.0))) / mass, 0.0
        )
    return speed


def speed_at_home(
    mass: Reals, tilt: Reals, speed: Reals, unit: ClosingUnit, start: Reals, steps: int = STEPS
) -> tuple[Q, Q]:
    """Speed [m/s] with which it meets home, and the opening [m] at which it stalls (0: it gets home).

    From `start` [m] (at most capture) with a closing `speed`. Energy is stepped over the way, the damper by
    the mean of a step's two speeds, which is exact for a damper alone; where that cannot be, by the speed at
    its end, which is stable however stiff the damper. A step that energy cannot pay is the stall.
    """
    step = np.asarray(start) / steps
    against = rolling_drag(mass, tilt, unit.drag) + uphill(mass, tilt)
    mass, against, begun, step = np.broadcast_arrays(mass, against, speed, step)
    fast, stalled = begun.astype(np.float64), np.zeros(begun.shape)
    brake = step * unit.damping
    for k in range(steps):
        middle = (steps - k - 0.5) * step
        left = mass * fast**2 / 2.0 + step * (unit.pull_in + unit.spring * middle - against)
        stalled = np.where((left < 0.0) & (stalled == 0.0), middle, stalled)
        mean = left - brake * fast / 2.0
        damped = np.where(mean > 0.0, brake / 2.0, brake)
        energy = np.where(stalled > 0.0, 0.0, np.maximum(np.where(mean > 0.0, mean, left), 0.0))
        fast = (np.sqrt(damped**2 + 2.0 * mass * energy) - damped) / mass
    return fast, stalled


def rebound_reach(mass: Reals, tilt: Reals, speed: Reals, unit: ClosingUnit) -> Q:
    """Opening [m] reached by what leaves home outwards at `speed` [m/s]; infinite where it runs on.

    Outwards nothing damps: `½ m v²` pays for spring and drag, and gravity helps it where the cabinet leans
    forward. The lesser root of `½ k x² + (pull_in + drag - uphill) x = ½ m v²`.
    """
    holding = np.asarray(unit.pull_in + rolling_drag(mass, tilt, unit.drag) - uphill(mass, tilt))
    energy = np.asarray(mass * np.square(speed) / 2.0)
    root = holding**2 + 2.0 * unit.spring * energy
    # The form that loses no digits where the spring is soft: x = 2 E / (h + √(h² + 2 k E)).
    bottom = holding + np.sqrt(root)
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = 2.0 * energy / bottom
    return np.where(energy == 0.0, 0.0, np.where(bottom > 0.0, reach, np.inf))


def opening_force(mass: Reals, tilt: Reals, unit: ClosingUnit, opening: float) -> Q:
    """Force [N] that pulls the drawer slowly on at an opening [m]: spring (re-cocked), drag, less gravity.

    Negative: it rolls out of itself there.
    """
    return unit.pull(opening) + rolling_drag(mass, tilt, unit.drag) - uphill(mass, tilt)
