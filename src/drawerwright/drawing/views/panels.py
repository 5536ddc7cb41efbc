"""All panels of one drawer that are cut or bored, by name, each a scene at true size."""

from __future__ import annotations

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.box_panels import bottom, box_back, box_side, front_panel, subfront
from drawerwright.drawing.views.cabinet_back import cabinet_back
from drawerwright.drawing.views.cabinet_side import cabinet_side
from drawerwright.drawing.views.standing import fitted_parts
from drawerwright.model.fitted import FittedDrawer


def panels(fitted: FittedDrawer) -> tuple[tuple[str, Scene], ...]:
    """Name and scene of every panel to cut, bore or mark out, in the order of work; none where nothing fits.

    An existing box is not cut again; its back is listed all the same, for the hook bores and notches.
    """
    parts = fitted_parts(fitted)
    if parts is None:
        return ()
    found: list[tuple[str, Scene]] = []
    if parts.mounting.holes_from_side_edge:
        found.append(("cabinet side left", cabinet_side(fitted, "left")))
        found.append(("cabinet side right", cabinet_side(fitted, "right")))
    if parts.mounting.rear_bracket_height is not None:
        found.append(("cabinet back", cabinet_back(fitted)))
    found.append(("box back", box_back(fitted)))
    if fitted.drawer.existing_box is None:
        found.append(("box side left", box_side(fitted, "left")))
        found.append(("box side right", box_side(fitted, "right")))
        if fitted.drawer.box.front == "applied":
            found.append(("subfront", subfront(fitted)))
        found.append(("bottom", bottom(fitted)))
    if fitted.front is not None and fitted.front.style != "none":
        found.append(("front", front_panel(fitted)))
    return tuple(found)
