"""A cabinet: what the drawers in it share. Keys as in the job file; lengths mm, masses kg."""

from __future__ import annotations

from pydantic import model_validator

from drawerwright.errors import Problem, Problems
from drawerwright.model.quantities import Clearance, Mass, Name, Record, Size, Truth


class CabinetSize(Record):
    """Outside size of a cabinet that stands free [mm]."""

    width: Size
    height: Size
    depth: Size


class Partition(Record):
    """Thickness of a side that a cabinet shares with its neighbour [mm]; 0: the side is its own."""

    left: Clearance = 0.0
    right: Clearance = 0.0


class Cabinet(Record):
    """What drawers of one cabinet share [mm, kg]; `first_row`: lowest row hole above the cabinet floor.

    `inside_height` closes the sum of its openings; `rail` stands between two of them where no floor is told;
    `partition`: fronts cover half of a shared side, less half the gap.
    """

    id: Name
    inside_width: Size | None = None
    inside_height: Size | None = None
    rail: Clearance = 0.0
    partition: Partition = Partition()
    first_row: Clearance | None = None
    pitch: Size = 32.0
    freestanding: Truth = False
    size: CabinetSize | None = None
    mass: Mass | None = None
    interlock: Truth | None = None
    shelf_fixed: Truth | None = None

    @model_validator(mode="after")
    def _stands_free(self) -> Cabinet:
        missing = [key for key in ("size", "mass") if self.freestanding and getattr(self, key) is None]
        if missing:
            example = {"size": "{ width = 800, height = 900, depth = 500 }", "mass": '"45 kg"'}
            raise Problems(
                Problem((key,), "", f"is missing: a freestanding cabinet needs its {key}", example[key])
                for key in missing
            )
        return self
