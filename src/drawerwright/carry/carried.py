"""What the study of carrying finds: forces in N, sag in mm, masses in kg, arrays over the travel."""

from __future__ import annotations

from dataclasses import dataclass

from drawerwright.carry.bottom import Bottom
from drawerwright.carry.capacities import Capacity
from drawerwright.carry.closing import Closing
from drawerwright.carry.fixings import Fixing
from drawerwright.carry.loose_shelf import LooseShelf
from drawerwright.carry.racking import Racking
from drawerwright.carry.rollers import Rollers
from drawerwright.carry.sections import MemberStress
from drawerwright.carry.sides import Sides
from drawerwright.carry.slamming import Slam
from drawerwright.carry.slide_data import SlideData
from drawerwright.carry.telescope import Drawn
from drawerwright.carry.tipping import Tipping
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer


@dataclass(frozen=True, slots=True)
class Slide:
    """What a drawer's slide does: `drawn` over the travel, one position after the other, (m,) arrays.

    Of what the family does not tell the numbers are None, or NaN in arrays; `data.missing` names it.
    """

    chosen: ChosenSlide
    data: SlideData
    drawn: Drawn
    rollers: Rollers | None
    stresses: tuple[MemberStress, ...]
    racking: Racking | None
    bottom: Bottom | None
    fixings: tuple[Fixing, ...]
    slam: Slam
    sides: Sides | None
    closing: Closing | None
    shelf: LooseShelf | None

    @property
    def most_loaded(self) -> Drawn:
        """The slide of the pair that gets more of the load; without an offset either."""
        return self.drawn if self.sides is None else self.sides.drawn[self.sides.most]


@dataclass(frozen=True, slots=True)
class CarriedDrawer:
    """One drawer: `load` is the moving mass [kg], None where nothing is known of it.

    `slide` None: nothing fits; `nearest` is then the slide that came nearest, where forces and sag on it can
    be told, the drawer as it would be there.
    """

    fitted: FittedDrawer
    load: float | None
    capacities: tuple[Capacity, ...]
    slide: Slide | None
    tipping: Tipping | None
    checks: tuple[Check, ...]
    nearest: Slide | None = None

    @property
    def id(self) -> str:
        """The drawer's id in its job."""
        return self.fitted.id

    @property
    def figured(self) -> Slide | None:
        """The slide that figures are told of: its own, else the one that came nearest; None: neither."""
        return self.slide or self.nearest

    @property
    def limit(self) -> Capacity | None:
        """The lowest of the capacities; the one told first of equal ones."""
        return min(self.capacities, key=lambda one: one.moving, default=None)

    @property
    def missing(self) -> tuple[str, ...]:
        """Names of the slide family's keys that would be needed and are not told."""
        return () if self.figured is None else self.figured.data.missing


@dataclass(frozen=True, slots=True)
class CarriedJob:
    """The drawers of a job, in the job's order."""

    title: str
    drawers: tuple[CarriedDrawer, ...]
