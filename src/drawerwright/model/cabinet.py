"""A cabinet: what the drawers in it share. Keys as in the job file; lengths mm, masses kg."""

from __future__ import annotations

from pydantic import model_validator

from drawerwright.errors import Problem, Problems
from drawerwright.model.quantities import Clearance, Mass, Name, Pitch, Record, Size, Truth


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
    `partition`: fronts cover half of a shared side, less half the gap. Where it stands free: `mass` without
    its drawers, `feet` how far its front feet stand behind its front edge, `floor_height` its floor above the
    room's (None: as high as its size leaves room).
    """

    id: Name
    inside_width: Size | None = None
    inside_height: Size | None = None
    rail: Clearance = 0.0
    partition: Partition = Partition()
    first_row: Clearance | None = None
    pitch: Pitch = 32.0
    freestanding: Truth = False
    size: CabinetSize | None = None
    mass: Mass | None = None
    feet: Clearance = 0.0
    floor_height: Clearance | None = None
    interlock: Truth | None = None
    shelf_fixed: Truth | None = None

    @model_validator(mode="after")
    def _stands_free(self) -> Cabinet:
        if self.size is not None:
            _require_inside(self, self.size)
        missing = [key for key in ("size", "mass") if self.freestanding and getattr(self, key) is None]
        if missing:
            example = {"size": "{ width = 800, height = 900, depth = 500 }", "mass": '"45 kg"'}
            raise Problems(
                Problem((key,), "", f"is missing: a freestanding cabinet needs its {key}", example[key])
                for key in missing
            )
        return self


def _require_inside(cabinet: Cabinet, size: CabinetSize) -> None:
    """Feet stand under the front half of the cabinet, and its floor lies inside it."""
    problems: list[Problem] = []
    if cabinet.feet > size.depth / 2:
        says = f"stands behind the middle of a cabinet {size.depth:g} mm deep: so it falls over"
        problems.append(Problem(("feet",), f"{cabinet.feet:g} mm", says, "feet = 40"))
    if cabinet.floor_height is not None and cabinet.floor_height >= size.height:
        says = f"is not under the top of a cabinet {size.height:g} mm high"
        problems.append(
            Problem(("floor_height",), f"{cabinet.floor_height:g} mm", says, "floor_height = 100")
        )
    if problems:
        raise Problems(problems)
