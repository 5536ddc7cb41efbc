"""Every template that a drawer wants, in the order of work."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.templates.box_back import box_back
from drawerwright.drawing.templates.front_fixing import front_fixing
from drawerwright.drawing.templates.locking_bracket import locking_bracket
from drawerwright.drawing.templates.row_holes import row_holes
from drawerwright.drawing.views.cabinet_side import Hand
from drawerwright.drawing.views.standing import fitted_parts, standing
from drawerwright.model.fitted import FittedDrawer

HANDS: Final[tuple[Hand, Hand]] = ("left", "right")


def templates(
    fitted: FittedDrawer, ids: Sequence[str] | None = None, units: Units = "mm"
) -> tuple[tuple[str, Scene], ...]:
    """Name and scene of each paper template of one drawer; none where nothing fits."""
    parts = fitted_parts(fitted)
    if parts is None:
        return ()
    found: list[tuple[str, Scene]] = []
    if parts.mounting.screw_line is not None and parts.mounting.holes_from_side_edge:
        found += [(f"row holes {hand}", row_holes(fitted, hand, ids, units)) for hand in HANDS]
    if standing(fitted).concealed:
        found.append(("box back", box_back(fitted, ids, units)))
        if parts.slide.family.bracket_holes:
            found += [
                (f"locking bracket {hand}", locking_bracket(fitted, hand, ids, units)) for hand in HANDS
            ]
    if fitted.fixing is not None and fitted.fixing.holes:
        found.append(("front fixing", front_fixing(fitted, ids, units)))
    return tuple(found)
