"""All panels of one drawer that are cut or bored, by name, each a scene at true size."""

from __future__ import annotations

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.views.bottom_panel import bottom
from drawerwright.drawing.views.box_side import box_side
from drawerwright.drawing.views.cabinet_back import cabinet_back
from drawerwright.drawing.views.cabinet_side import cabinet_side
from drawerwright.drawing.views.cross_pieces import box_back, subfront
from drawerwright.drawing.views.front_panel import front_panel
from drawerwright.drawing.views.standing import fitted_parts
from drawerwright.model.fitted import FittedDrawer


def panels(
    fitted: FittedDrawer, units: Units = "mm", *, with_cabinet_sides: bool = True
) -> tuple[tuple[str, Scene], ...]:
    """Name and scene of every panel to cut, bore or mark out, in the order of work; none where nothing fits.

    An existing box is not cut again; its back is listed all the same, for the hook bores and notches.
    `with_cabinet_sides` false leaves out the cabinet sides: `cabinet_sides` draws those of a whole column.
    """
    parts = fitted_parts(fitted)
    if parts is None:
        return ()
    existing = fitted.drawer.existing_box is not None
    concealed = parts.slide.family.carriage == "concealed"
    found: list[tuple[str, Scene]] = []
    if with_cabinet_sides and parts.mounting.holes_from_side_edge:
        found.append(("cabinet side left", cabinet_side(fitted, "left", units)))
        found.append(("cabinet side right", cabinet_side(fitted, "right", units)))
    if parts.mounting.rear_bracket_height is not None:
        found.append(("cabinet back", cabinet_back(fitted, units)))
    if concealed or not existing:
        found.append(("box back", box_back(fitted, units)))
    if not existing:
        found.append(("box side left", box_side(fitted, "left", units)))
        found.append(("box side right", box_side(fitted, "right", units)))
        if fitted.drawer.box.front == "applied":
            found.append(("subfront", subfront(fitted, units)))
        found.append(("bottom", bottom(fitted, units)))
    if fitted.front is not None and fitted.front.style != "none":
        found.append(("front", front_panel(fitted, units)))
    return tuple(found)
