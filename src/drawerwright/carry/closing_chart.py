"""Over mass and tilt: where a drawer closes softly, slams, or stalls. Vectorised over the grid.

The way home is stepped by energy for all cells at once. What meets home springs back as one drawer's run has
it, and is followed until it stays: where the last of the pull is less than what holds it back, a drawer that
springs back rests a few mm open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, cast

import numpy as np
from numpy.typing import NDArray

from drawerwright.carry.closing import FASTEST, HAND_SPEED, STEEPEST, unit_of
from drawerwright.carry.closing_checks import SOFT
from drawerwright.carry.closing_motion import LATCHED, RESTITUTION
from drawerwright.equations.equation import Q
from drawerwright.equations.mechanics.closing import (
    ClosingUnit,
    least_speed,
    limit_tilt,
    rebound_reach,
    rolling_drag,
    speed_at_home,
    uphill,
)
from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SoftClose

ChartState = Literal["closes", "slams", "stalls"]

STATES: Final[tuple[ChartState, ...]] = ("closes", "slams", "stalls")
MASSES: Final = (2.0, 60.0)
"""Least and greatest moving mass of a chart [kg], unless told. Own choice."""
TILTS: Final = (-2.0, 4.0)
"""Least and greatest tilt of a chart [degrees], unless told. Own choice."""
_CELLS: Final = 49
_REBOUNDS: Final = 8
_MOST_CELLS: Final = 40_000
_MM: Final = 1000.0


@dataclass(frozen=True, slots=True, eq=False)
class ClosingChart:
    """States over masses [kg] (columns) and tilts [degrees] (rows), each ascending.

    `states` index `STATES`: "slams" meets home faster than is soft, "stalls" does not stay shut otherwise.
    `home_speed` [mm/s] is 0 where it never gets home; `reach` [mm/s]: push less the least that gets home.
    `limit_tilts` [degrees], by mass: up to it the pull at home beats drag and gravity.
    """

    masses: Q
    tilts: Q
    states: NDArray[np.int8]
    home_speed: Q
    reach: Q
    limit_tilts: Q
    push: float
    capture: float

    def state(self, row: int, column: int) -> ChartState:
        """The state of one cell."""
        return STATES[int(self.states[row, column])]


def closing_chart(
    soft_close: SoftClose,
    travel: float,
    masses: Sequence[float] | None = None,
    tilts: Sequence[float] | None = None,
    *,
    push: float = HAND_SPEED,
) -> ClosingChart:
    """What a unit does with every mass [kg] at every tilt [degrees], pushed at `push` [mm/s] into it.

    `travel` [mm] caps the capture. Without masses or tilts a grid over usual ones is taken. Raises InputError
    where a mass is not above 0, a tilt or push is beyond reason, or the grid is too large to be read.
    """
    kilograms = np.linspace(*MASSES, _CELLS) if masses is None else np.asarray(masses, dtype=np.float64)
    degrees = np.linspace(*TILTS, _CELLS) if tilts is None else np.asarray(tilts, dtype=np.float64)
    _require_reason(kilograms, degrees, push, travel)
    unit, start = unit_of(soft_close), min(soft_close.capture, travel) / _MM
    mass, tilt = np.meshgrid(kilograms, np.radians(degrees))
    speed, stalled = speed_at_home(mass, tilt, push / _MM, unit, start)
    home = np.where(stalled > 0.0, 0.0, speed)
    shut = (stalled == 0.0) & _stays(mass, tilt, home, unit, start)
    states = np.where(home > SOFT / _MM, 1, np.where(shut, 0, 2))
    return ClosingChart(
        masses=kilograms,
        tilts=degrees,
        states=cast("NDArray[np.int8]", states.astype(np.int8)),
        home_speed=home * _MM,
        reach=(push / _MM - least_speed(mass, tilt, unit, start)) * _MM,
        limit_tilts=np.degrees(limit_tilt(kilograms, unit.pull_in, unit.drag)),
        push=push,
        capture=start * _MM,
    )


def _stays(mass: Q, tilt: Q, speed: Q, unit: ClosingUnit, start: float) -> NDArray[np.bool_]:
    """Whether what meets home at `speed` [m/s] stays shut in the end.

    Where the pull at home beats drag and gravity it comes back from wherever it springs to. Elsewhere each
    rebound is followed: how far it springs, and whether it starts again there and gets home.
    """
    drag, weight = rolling_drag(mass, tilt, unit.drag), uphill(mass, tilt)
    returns = unit.pull_in > drag + weight
    stays = np.asarray(returns & (rebound_reach(mass, tilt, RESTITUTION * speed, unit) < start))
    flat = np.flatnonzero(~returns & (unit.pull_in >= weight - drag))
    if not flat.size:
        return stays
    mass, tilt, fast = mass.flat[flat], tilt.flat[flat], speed.flat[flat]
    drag, weight = drag.flat[flat], weight.flat[flat]
    moving, rests = np.ones(flat.shape, dtype=np.bool_), np.zeros(flat.shape, dtype=np.bool_)
    for _ in range(_REBOUNDS):
        latched = RESTITUTION * fast < LATCHED
        rests |= moving & latched
        out = rebound_reach(mass, tilt, RESTITUTION * fast, unit)
        moving &= ~latched & (out < start) & (unit.pull_in + unit.spring * out > drag + weight)
        if not moving.any():
            break
        fast, stalled = speed_at_home(mass, tilt, 0.0, unit, np.where(moving, out, 0.0))
        moving &= stalled == 0.0
    stays.flat[flat] = rests
    return stays


def _require_reason(masses: Q, tilts: Q, push: float, travel: float) -> None:
    """Refuse a grid that holds no drawer, all of it together."""
    faults: list[Fault] = []
    for where, values, good, allowed, try_ in (
        ("masses", masses, np.isfinite(masses) & (masses > 0.0), "numbers above 0 kg", "[5, 10, 20, 40]"),
        (
            "tilts",
            tilts,
            np.abs(tilts) <= STEEPEST,
            f"up to {STEEPEST:g} degrees either way",
            "[-1, 0, 1, 2]",
        ),
    ):
        rises = values.ndim == 1 and len(values) > 1 and bool(np.all(np.diff(values) > 0.0))
        if not rises or not bool(np.all(good)):
            says = f"are no axis of a chart: two or more, ascending, {allowed}"
            faults.append(Fault(where, str(values.tolist()[:8]), says, try_))
    if not faults and masses.size * tilts.size > _MOST_CELLS:
        says = f"make more than {_MOST_CELLS:,} cells: nobody can read them"
        faults.append(Fault("masses and tilts", f"{masses.size} × {tilts.size}", says, "49 by 49"))
    if not 0.0 <= push <= FASTEST:
        faults.append(Fault("push", f"{push:g} mm/s", f"is out of range: from 0 to {FASTEST:g} mm/s", "300"))
    if not travel > 0.0:
        faults.append(Fault("travel", f"{travel:g} mm", "is out of range: above 0 mm", "500"))
    if faults:
        raise InputError(faults)
