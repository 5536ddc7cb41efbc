"""What lining up gives back: poses as found, moves, steps, what is left. Lengths mm, angles degrees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from drawerwright.model.gaps import AdjusterName, GapName, Hand

Target: TypeAlias = Literal["even", "house", "line"]
Side: TypeAlias = Literal["left", "right", "both"]
Gaps: TypeAlias = Mapping[GapName, float | None]


@dataclass(frozen=True, slots=True)
class Pose:
    """Where a front stands from centred, square and flush: mm and degrees; None: the readings do not tell."""

    x: float | None
    y: float | None
    z: float | None
    roll: float | None
    yaw: float | None
    pitch: float | None


@dataclass(frozen=True, slots=True)
class Move:
    """Turn one adjuster: `marks` and `mm` to the right, up or out where positive; `says` for a person."""

    side: Side
    adjuster: AdjusterName
    marks: int
    mm: float
    says: str


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do, in the order of work, and what the gaps of the front should then be."""

    drawer: str
    move: Move
    expected: Gaps


@dataclass(frozen=True, slots=True)
class LeftOver:
    """What no adjuster cures: its size and standard uncertainty [mm], and what would cure it.

    `grade`: the strictest gap grade that allows it, "" where none does. `leave`: whether it may stay.
    """

    what: str
    size: float
    uncertainty: float
    cure: str
    grade: str
    leave: bool


@dataclass(frozen=True, slots=True)
class NextReading:
    """The one further reading that would make the moves surest, and by how much [mm], before and after."""

    drawer: str
    reading: GapName
    before: float
    after: float
    says: str


@dataclass(frozen=True, slots=True)
class AlignedFront:
    """One front: as found, what to turn, what then is expected, what is left.

    `decides`: adjusters that end only because, untold, they are taken as delivered. `held`: a gap
    that nobody measured keeps it from being turned further. `turn`: its place in the
    order in which the fronts of its column are turned, from 0.
    """

    drawer: str
    pose: Pose
    uncertainty: Pose
    measured: Gaps
    moves: tuple[Move, ...]
    steps: tuple[Step, ...]
    expected: Gaps
    left_over: tuple[LeftOver, ...]
    next_reading: NextReading | None
    warnings: tuple[str, ...]
    decides: tuple[AdjusterName, ...] = ()
    held: bool = False
    turn: int = 0


@dataclass(frozen=True, slots=True)
class TravelFound:
    """The move of one mark of an adjuster [mm], its standard uncertainty, and the family's."""

    drawer: str
    hands: tuple[Hand, ...]
    adjuster: AdjusterName
    mm: float
    uncertainty: float
    family: float


@dataclass(frozen=True, slots=True)
class AlignedJob:
    """All fronts that were measured, in the order of the readings, and the target they are moved to.

    `travel`: true moves of a mark, where two rounds of readings told them.
    """

    target: Target
    fronts: tuple[AlignedFront, ...]
    travel: tuple[TravelFound, ...] = ()
