"""How a drawer moves until it rests: an equation of motion in phases, each ended by an event.

SI: m, s, kg, N, radians; `x` is the remaining opening, closing speed is positive. Within a phase the drawer
moves one way and the unit holds it or does not, so the friction's sign stands still and the equation is
smooth: a sign that switches inside a step would chatter. Events: capture, escape, shut, stop at fully open,
rest. At rest statics decide whether it stays or turns.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Final, Literal

from drawerwright.carry.closing_steps import Ending, State, step_on
from drawerwright.equations.mechanics.closing import ClosingUnit
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY

Outcome = Literal["shut", "stalls", "open", "too-slow"]

RESTITUTION: Final = 0.2
"""Share of the speed that a stop gives back. Own choice out of 0 to 0.3; no source."""
LATCHED: Final = 0.005
"""A rebound slower than this [m/s] stays at its stop. Own choice."""
CREEP: Final = 1e-5
"""A drawer that slows down past this speed [m/s] is called at rest: it would approach its place for ever."""
TIME_OUT: Final = 30.0
"""After so long [s] it is given up. Own choice."""
MOST_PHASES: Final = 40
_FIRST: Final = 1e-9
_TOLERANCE: Final = 1e-8
_HAIR: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Run:
    """One way home, or not: times from capture [s], speeds [m/s], openings [m], energies [J].

    `shut_after` and `slam_speed` are of the first touch of home, None where it never comes there; `rests_at`
    is the opening at the end. `bounced_out`: the rebound left the unit. `path` holds time, opening and speed
    of every step of the solver.
    """

    outcome: Outcome
    shut_after: float | None
    slam_speed: float | None
    settled_after: float | None
    rests_at: float
    rebounds: int
    bounced_out: bool
    damper_force: float
    damper_work: float
    drag_work: float
    path: tuple[tuple[float, float, float], ...]


@dataclass(slots=True)
class _Course:
    """What is known so far of a run."""

    time: float = 0.0
    captured: float | None = None
    shut: float | None = None
    slam: float | None = None
    rebounds: int = 0
    bounced_out: bool = False
    fastest_held: float = 0.0
    damper_work: float = 0.0
    rolled: float = 0.0
    path: list[tuple[float, float, float]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Moving:
    """A drawer of a mass [kg] on a way tilted by `tilt` [rad], with its unit and its travel [m]."""

    mass: float
    tilt: float
    unit: ClosingUnit
    travel: float
    restitution: float = RESTITUTION

    @property
    def friction(self) -> float:
        """Rolling drag [N]."""
        return self.unit.drag * self.mass * STANDARD_GRAVITY * math.cos(self.tilt)

    def drive(self, opening: float) -> float:
        """Force homewards [N] without friction and damper."""
        return self.unit.pull(opening) - self.mass * STANDARD_GRAVITY * math.sin(self.tilt)

    def way_from_rest(self, opening: float) -> int:
        """1 where it starts homewards, -1 outwards, 0 where friction holds it; stops hold it too."""
        drive, held = self.drive(opening), self.friction + CREEP * self.unit.damping + _HAIR
        if drive > held and opening > 0.0:
            return 1
        return -1 if -drive > held and opening < self.travel else 0

    def run(self, opening: float, speed: float) -> Run:
        """From an opening [m] (at most the travel) with a closing speed [m/s], until it rests."""
        course = _Course()
        x, v = opening, speed
        held = x <= self.unit.capture
        if held:
            course.captured = 0.0
        for _ in range(MOST_PHASES):
            way = self.way_from_rest(x) if abs(v) <= CREEP else int(math.copysign(1, v))
            if way == 0:
                return self._ended(course, x, "open" if x >= self.travel else "stalls")
            if abs(v) <= CREEP:
                v = way * _FIRST
            if held != (x < self.unit.capture or (x == self.unit.capture and way > 0)):
                held = not held  # it starts on the edge of the unit and leaves or enters it at once
            x, v, event = self._phase(course, x, v, way, held=held)
            if event == "capture":
                held = True
                course.captured = course.time if course.captured is None else course.captured
            elif event == "escape":
                held = False
                course.bounced_out = course.shut is not None
            elif event == "shut":
                if course.shut is None:
                    course.shut, course.slam = course.time, v
                if self.restitution * v >= LATCHED:
                    course.rebounds += 1
                    v = -self.restitution * v
                elif self.way_from_rest(0.0) == 0:
                    return self._ended(course, 0.0, "shut")
                else:
                    v = 0.0  # it leans so far that it does not stay
            elif event == "stop":
                v = -self.restitution * v if -self.restitution * v >= LATCHED else 0.0
            elif event == "rest":
                v = 0.0
            else:
                break
        return self._ended(course, x, "too-slow")

    def _phase(
        self, course: _Course, x: float, v: float, way: int, *, held: bool
    ) -> tuple[float, float, str]:
        """On to the next event: opening, speed and the event's name ("" at the time-out)."""
        names, endings = self._endings(way, held=held)
        mass, unit = self.mass, self.unit
        constant = -way * self.friction - mass * STANDARD_GRAVITY * math.sin(self.tilt)
        pull, spring = (unit.pull_in, unit.spring) if held else (0.0, 0.0)
        damping = unit.damping if held and way > 0 else 0.0

        def motion(at: float, state: State) -> tuple[float, float, float]:
            x, v, _ = state.tolist()
            brake = damping * v
            return -v, (pull + spring * x - brake + constant) / mass, brake * v

        found = step_on(motion, course.time, TIME_OUT, (x, v, 0.0), endings, (_TOLERANCE, _TOLERANCE * 1e-3))
        course.path += [(t, float(y[0]), float(y[1])) for t, y in zip(found.times, found.states, strict=True)]
        end = found.states[-1]
        course.time = found.times[-1]
        if damping:
            course.fastest_held = max(course.fastest_held, *(float(y[1]) for y in found.states))
        course.damper_work += float(end[2])
        name = "" if found.ending is None else names[found.ending]
        place = {"capture": unit.capture, "escape": unit.capture, "shut": 0.0, "stop": self.travel}
        ends = place.get(name, float(end[0]))
        course.rolled += abs(ends - x)
        return ends, float(end[1]), name

    def _endings(self, way: int, *, held: bool) -> tuple[tuple[str, ...], tuple[Ending, ...]]:
        """Names of what can end a phase, and the functions that fall through 0 there."""
        if way > 0:
            name, level = ("shut", 0.0) if held else ("capture", self.unit.capture)
        elif held and self.unit.capture < self.travel:
            name, level = "escape", self.unit.capture
        else:
            name, level = "stop", self.travel
        return (name, "rest"), (
            Ending(lambda state: way * (state[0] - level)),
            Ending(lambda state: way * state[1] - CREEP),
        )

    def _ended(self, course: _Course, opening: float, outcome: Outcome) -> Run:
        since = course.captured if course.captured is not None else 0.0
        return Run(
            outcome=outcome,
            shut_after=None if course.shut is None else course.shut - since,
            slam_speed=course.slam,
            settled_after=course.time - since if outcome == "shut" else None,
            rests_at=opening,
            rebounds=course.rebounds,
            bounced_out=course.bounced_out,
            damper_force=course.fastest_held * self.unit.damping,
            damper_work=course.damper_work,
            drag_work=course.rolled * self.friction,
            path=tuple(course.path),
        )
