"""Drawers that are alike but for their names: what their slides do is found once."""

from __future__ import annotations

from collections.abc import Hashable

from drawerwright.model.fitted import FittedDrawer


def alike_key(one: FittedDrawer) -> Hashable:
    """The same for drawers whose slides do the same: everything told and fitted of them, but for their names.

    Id, note, number, cabinet and row may differ; what follows from the place in a column, its front and
    heights, is in the sizes that were fitted.
    """
    drawer = one.drawer.model_copy(update={"id": "", "note": "", "quantity": 1, "cabinet": None, "row": None})
    cabinet = None if one.cabinet is None else one.cabinet.model_copy(update={"id": ""})
    fitted = (one.opening, one.slide, one.box, one.mounting, one.front, one.mass, one.fixing, one.cut_out)
    return drawer, cabinet, fitted
