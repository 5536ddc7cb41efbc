"""A shelf that carries slides and is not fixed down: from which moving mass its rear lifts.

The statics are the equations of the shelf mount; what they found stands in the fitted drawer's workings.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from drawerwright.model.fitted import FittedDrawer

_DECIMALS = 6


@dataclass(frozen=True, slots=True)
class LooseShelf:
    """Masses [kg]: `shelf`, what moves, and from how much that moves a loose shelf lifts at the rear.

    `fixed`: True where it is screwed or locked down, False where it is loose, None where nobody said.
    """

    shelf: float
    moving: float
    lifts_at: float
    fixed: bool | None
    working: str
    source: str

    @property
    def lifts(self) -> bool:
        """Whether it lifts with the drawer all the way out, if it lies loose."""
        return self.moving > self.lifts_at


def loose_shelf_of(fitted: FittedDrawer) -> LooseShelf | None:
    """The shelf under a drawer that is mounted on one; None for every other drawer."""
    if fitted.slide is None or fitted.mass is None or fitted.slide.mount != "shelf":
        return None
    found = fitted.workings["shelf_lifts_at"]
    return LooseShelf(
        shelf=fitted.workings["shelf_mass"].value,
        moving=fitted.mass.moving,
        lifts_at=found.value,
        fixed=fitted.cabinet.shelf_fixed if fitted.cabinet is not None else None,
        working=f"{found.formula} = {found.figures}",
        source=found.source,
    )


def loose_shelf_document(shelf: LooseShelf) -> dict[str, Any]:
    """The shelf as JSON, masses in kg."""
    return {
        "fixed": shelf.fixed,
        "shelf": round(shelf.shelf, _DECIMALS) + 0.0,
        "moving": round(shelf.moving, _DECIMALS) + 0.0,
        "lifts_at": round(shelf.lifts_at, _DECIMALS) + 0.0,
        "lifts_if_loose": shelf.lifts,
    }
