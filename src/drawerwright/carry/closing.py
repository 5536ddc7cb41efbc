"""Does a drawer close: let go where the unit catches it, and pushed at hand speed; how hard it pulls open.

The closing unit is that of the pair, as its family tells it. The equation of motion is in `closing_motion`,
what is held against a limit in `closing_checks`. Not modelled: a damper whose force grows with the square of
speed, the inertia of rollers, oil that thickens in the cold, air shut in behind the drawer.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, Final

from drawerwright.carry.closing_checks import closing_checks
from drawerwright.carry.closing_motion import Moving, Outcome, Run
from drawerwright.carry.words import Words
from drawerwright.equations.mechanics.closing import (
    ClosingUnit,
    free_speed,
    least_speed,
    limit_tilt,
    opening_force,
)
from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SoftClose
from drawerwright.model.fitted import Check
from drawerwright.units import ShownUnits

HAND_SPEED: Final = 300.0
"""Speed at which a hand lets a drawer run into its unit [mm/s]. Own choice; no source."""
STEEPEST: Final = 15.0
"""Largest tilt that is computed [degrees]: beyond it nothing is a cabinet out of level. Own choice."""
FASTEST: Final = 5000.0
"""Largest push that is computed [mm/s]. Own choice."""
HEAVIEST: Final = 1e300
"""Largest mass that is computed [kg]: beyond it forces leave what a float holds."""
HARDER: Final = 1.02
"""How much harder than the least push that gets home one is aimed: no hand aims finer. Own choice."""
HARDER_BY: Final = 1.0
"""… and by how much besides [mm/s]. Own choice."""
KEPT: Final = 1024
"""How many closings are kept, so that drawers alike share one."""
_MM: Final = 1000.0
_DECIMALS: Final = 6
_EXAMPLES: Final = {"moving mass": "27", "travel": "500", "tilt": "1.5", "push": "300", "opening": "120"}


@dataclass(frozen=True, slots=True)
class Homeward:
    """How one run ends [mm, s, mm/s, J].

    `time` runs from capture to the first touch of home, `settled` until it rests there. `stall_at` is the
    opening that stays, None where it closes. `slam_speed` is of the first touch, also where the drawer
    springs back and stays open.
    """

    outcome: Outcome
    time: float | None
    settled: float | None
    slam_speed: float | None
    slam_energy: float | None
    stall_at: float | None
    rebounds: int
    bounced_out: bool
    damper_force: float
    damper_work: float
    drag_work: float

    @property
    def closes(self) -> bool:
        """Whether it comes home and stays there."""
        return self.outcome == "shut"


@dataclass(frozen=True, slots=True)
class Closing:
    """Answers of the closing unit for one moving mass [kg, mm, mm/s, s, N, degrees].

    `let_go` begins at rest at the capture, and is what the unit does by itself: `closes`, `time`,
    `slam_speed` and `stall_at` are of it. `pushed` runs from `start` at `push`. `arrives_at` is the least
    speed at `start` that gets home; `least_push` the same, None where the drawer would not stay there, pushed
    a little harder than that. `opening_force` is the pull where the unit lets go of the drawer, its
    spring cocked; `opening_start` the pull off home. `limit_tilt`: up to it (positive: leaning forward) a
    drawer at rest anywhere in the unit is drawn home; 90 where it would be lifted upright.
    """

    moving: float
    tilt_deg: float
    push: float
    start: float
    capture: float
    travel: float
    pushed: Homeward
    let_go: Homeward
    arrives_at: float
    least_push: float | None
    opening_force: float
    opening_start: float
    limit_tilt: float
    checks: tuple[Check, ...] = ()

    @property
    def closes(self) -> bool:
        """Whether the drawer that is let go comes home and stays there."""
        return self.let_go.closes

    @property
    def time(self) -> float | None:
        """From capture to home [s], let go; None where it does not close."""
        return self.let_go.time if self.closes else None

    @property
    def slam_speed(self) -> float | None:
        """Speed with which the drawer that is let go meets home [mm/s]; None where it never does."""
        return self.let_go.slam_speed

    @property
    def stall_at(self) -> float | None:
        """Opening at which the drawer that is let go stays [mm]; None where it closes."""
        return self.let_go.stall_at


def closing_of(
    moving_kg: float,
    soft_close: SoftClose | None,
    *,
    travel: float,
    tilt_deg: float = 0.0,
    push: float = HAND_SPEED,
    from_open: float | None = None,
    units: ShownUnits = "mm",
) -> Closing | None:
    """How a drawer of a moving mass [kg] closes; None where the family tells of no closing unit.

    `travel` [mm]; `tilt_deg` [degrees] positive where the cabinet leans forward, so that closing goes uphill;
    `push` [mm/s] is the closing speed at the opening `from_open` [mm], None: where the unit catches it.
    `units` of the sentences. Raises InputError where a mass, tilt, push or opening is beyond reason.
    """
    _require_reason(moving_kg, travel, tilt_deg, push, from_open)
    if soft_close is None:
        return None
    found = _found(float(moving_kg), soft_close, float(travel), float(tilt_deg), float(push), from_open)
    return replace(found, checks=closing_checks(found, Words(units)))


@lru_cache(maxsize=KEPT)
def _found(
    moving_kg: float,
    soft_close: SoftClose,
    travel: float,
    tilt_deg: float,
    push: float,
    from_open: float | None,
) -> Closing:
    """The answers without their checks; the same for drawers alike, whose runs are made once."""
    unit, tilt = unit_of(soft_close), math.radians(tilt_deg)
    caught = min(unit.capture, travel / _MM)
    start = caught if from_open is None else from_open / _MM
    moving = Moving(moving_kg, tilt, unit, travel / _MM)
    let_go, arrives = moving.run(caught, 0.0), _arrives_at(moving, start, caught)
    stays = let_go.outcome if arrives == 0.0 and start == caught else _harder(moving, start, arrives)
    return Closing(
        moving=moving_kg,
        tilt_deg=tilt_deg,
        push=push,
        start=start * _MM,
        capture=soft_close.capture,
        travel=travel,
        pushed=_homeward(moving.run(start, push / _MM), moving_kg),
        let_go=_homeward(let_go, moving_kg),
        arrives_at=arrives * _MM,
        least_push=arrives * _MM if stays == "shut" else None,
        opening_force=max(float(opening_force(moving_kg, tilt, unit, at)) for at in (0.0, caught)),
        opening_start=float(opening_force(moving_kg, tilt, unit, 0.0)),
        limit_tilt=math.degrees(float(limit_tilt(moving_kg, unit.pull_in, unit.drag))),
    )


def _harder(moving: Moving, start: float, arrives: float) -> Outcome:
    """What comes of a push as near above the least that gets home as a hand can aim."""
    return moving.run(start, arrives * HARDER + HARDER_BY / _MM).outcome


def unit_of(soft_close: SoftClose) -> ClosingUnit:
    """The family's closing unit in SI."""
    return ClosingUnit(
        capture=soft_close.capture / _MM,
        pull_in=soft_close.pull_in,
        spring=soft_close.spring * _MM,
        damping=soft_close.damping * _MM,
        drag=soft_close.drag,
    )


def _arrives_at(moving: Moving, start: float, caught: float) -> float:
    """Least closing speed [m/s] at `start` [m] that gets home: rolled back from what the unit wants."""
    held = min(start, caught)
    wanted = least_speed(moving.mass, moving.tilt, moving.unit, held)
    return float(free_speed(wanted, held - start, moving.tilt, moving.unit.drag))


def _homeward(run: Run, mass: float) -> Homeward:
    slam = run.slam_speed
    return Homeward(
        outcome=run.outcome,
        time=run.shut_after,
        settled=run.settled_after,
        slam_speed=None if slam is None else slam * _MM,
        slam_energy=None if slam is None else mass * slam**2 / 2.0,
        stall_at=None if run.outcome == "shut" else run.rests_at * _MM,
        rebounds=run.rebounds,
        bounced_out=run.bounced_out,
        damper_force=run.damper_force,
        damper_work=run.damper_work,
        drag_work=run.drag_work,
    )


def _require_reason(
    moving_kg: float, travel: float, tilt_deg: float, push: float, from_open: float | None
) -> None:
    """Refuse what no drawer is, all of it together."""
    ranges = [
        ("moving mass", moving_kg, "kg", 0.0 < moving_kg <= HEAVIEST, f"above 0, up to {HEAVIEST:g} kg"),
        ("travel", travel, "mm", 0.0 < travel < math.inf, "above 0 mm"),
        ("tilt", tilt_deg, "degrees", abs(tilt_deg) <= STEEPEST, f"up to {STEEPEST:g} degrees either way"),
        ("push", push, "mm/s", 0.0 <= push <= FASTEST, f"from 0 to {FASTEST:g} mm/s"),
    ]
    if from_open is not None:
        allowed = f"above 0, up to the travel of {travel:g} mm"
        ranges.append(("opening", from_open, "mm", 0.0 < from_open <= travel, allowed))
    faults = [
        Fault(where, f"{value:g} {unit}", f"is out of range: {allowed}", _EXAMPLES[where])
        for where, value, unit, good, allowed in ranges
        if not good
    ]
    if faults:
        raise InputError(faults)


def closing_document(closing: Closing) -> dict[str, Any]:
    """The answers as JSON: mm, s, mm/s, N, J, degrees, rounded to 1e-6.

    At the top what the drawer does that is let go; in `pushed` the same of the pushed one.
    """
    return {
        **_run_document(closing.let_go),
        "from_open": _n(min(closing.capture, closing.travel)),
        "tilt": _n(closing.tilt_deg),
        "pushed": {
            "push": _n(closing.push),
            "from_open": _n(closing.start),
            **_run_document(closing.pushed),
            "least_push": _n(closing.least_push),
        },
        "opening_force": _n(closing.opening_force),
        "opening_start": _n(closing.opening_start),
        "limit_tilt": _n(closing.limit_tilt),
    }


def _run_document(run: Homeward) -> dict[str, Any]:
    return {
        "closes": run.closes,
        "time": _n(run.time if run.closes else None),
        "slam_speed": _n(run.slam_speed),
        "stall_at": _n(run.stall_at),
        "outcome": run.outcome,
        "settled": _n(run.settled),
        "slam_energy": _n(run.slam_energy),
        "rebounds": run.rebounds,
        "bounced_out": run.bounced_out,
        "damper_force": _n(run.damper_force),
        "damper_work": _n(run.damper_work),
    }


def _n(value: float | None) -> float | None:
    return None if value is None else round(value, _DECIMALS) + 0.0
