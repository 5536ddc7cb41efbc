"""The drawers of one cabinet together: whether openings, fronts, gaps and screw lines agree.

All lengths in mm; heights above the cabinet floor.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drawerwright.model.fitted import State


@dataclass(frozen=True, slots=True)
class ColumnRow:
    """One drawer of a column.

    `front_bottom` and `front_top`: edges of its front, None without one; `gap_above` to the front above it.
    `lower_edge` and `box_height`: None where no slide fits. `screw_line`: None where none is on a cabinet
    side; `moved_up`: by how much the box stands higher than it must, to bring that line onto a row of holes.
    """

    drawer: str
    row: int
    floor: float
    opening: float
    front_bottom: float | None
    front_top: float | None
    gap_above: float | None
    lower_edge: float | None
    box_height: float | None
    screw_line: float | None
    moved_up: float | None


@dataclass(frozen=True, slots=True)
class ColumnMove:
    """The one move that puts every screw line on a row: the opening of `row`, and all above it, up `by`."""

    row: int
    by: float


@dataclass(frozen=True, slots=True)
class ColumnRemark:
    """What is to be said of a column: `margin` negative where it is broken, which a person must look at."""

    id: str
    state: State
    margin: float
    says: str


@dataclass(frozen=True, slots=True)
class FittedColumn:
    """Two or more drawers of a cabinet, lowest first.

    Sums: `openings`, what stands `between` them, `fronts`, `gaps` between those, and the `overlays` beyond
    the lowest and highest opening. `closes_by`: openings, what is between and overlays, less fronts and gaps:
    0 where all is covered; positive, so much is left open at the top. Fronts, gaps, overlays and `closes_by`
    are None where a drawer has no front. `room_above`: inside height of the cabinet over the highest opening,
    None where it is not told.
    """

    cabinet: str
    rows: tuple[ColumnRow, ...]
    openings: float
    between: float
    fronts: float | None
    gaps: float | None
    overlays: float | None
    closes_by: float | None
    room_above: float | None
    move: ColumnMove | None
    remarks: tuple[ColumnRemark, ...]
