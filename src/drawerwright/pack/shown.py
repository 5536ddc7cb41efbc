"""How lengths are shown on papers: as on the drawings that stand on them."""

from __future__ import annotations

from drawerwright.drawing.shown import MILLIMETRES, Parts, Shown

__all__ = ["MILLIMETRES", "Parts", "Shown"]
