"""Which cabinets stand free: they may tip, and whoever shows drawers that stand in one says so."""

from __future__ import annotations

from collections.abc import Iterable

from drawerwright.model.fitted import FittedDrawer


def free_cabinets(drawers: Iterable[FittedDrawer]) -> tuple[str, ...]:
    """The cabinets of these drawers that stand free, each once, in their order."""
    free = (one.cabinet.id for one in drawers if one.cabinet is not None and one.cabinet.freestanding)
    return tuple(dict.fromkeys(free))
