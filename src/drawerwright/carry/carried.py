"""What the study of carrying finds: forces in N, sag in mm, masses in kg, arrays over the travel."""

from __future__ import annotations

from dataclasses import dataclass

from drawerwright.carry.slide_data import SlideData
from drawerwright.carry.telescope import Drawn
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer


@dataclass(frozen=True, slots=True)
class Capacity:
    """One limit of what may move [kg]: `name` for programs, `says` for people; `modified`: see the study.

    A rating by contents is told with the drawer's own mass added.
    """

    name: str
    moving: float
    says: str
    source: str
    modified: bool = False


@dataclass(frozen=True, slots=True)
class CarriedDrawer:
    """One drawer: `load` is the moving mass [kg], None where nothing is known of it.

    `slide` None: nothing fits; `drawn` is over the travel, one position after the other, (m,) arrays.
    """

    fitted: FittedDrawer
    slide: ChosenSlide | None
    load: float | None
    capacities: tuple[Capacity, ...]
    data: SlideData | None
    drawn: Drawn | None
    missing: tuple[str, ...]
    checks: tuple[Check, ...]

    @property
    def id(self) -> str:
        """The drawer's id in its job."""
        return self.fitted.id

    @property
    def limit(self) -> Capacity | None:
        """The lowest of the capacities; the one told first of equal ones."""
        return min(self.capacities, key=lambda one: one.moving, default=None)


@dataclass(frozen=True, slots=True)
class CarriedJob:
    """The drawers of a job, in the job's order."""

    title: str
    drawers: tuple[CarriedDrawer, ...]
