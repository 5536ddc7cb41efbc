"""Screws up through the bottom into pieces that stand on it: the same places for bottom and piece.

x [mm] from the middle of the box; y from the bottom's front edge.
"""

from __future__ import annotations

import math
from typing import Final

from drawerwright.drawing.views.joints import End, corner
from drawerwright.drawing.views.standing import needed_parts, part_size
from drawerwright.model.fitted import FittedDrawer

BOTTOM_HOLE: Final = 4.0
"""Hole through the bottom for its screws [mm]. Common practice, no source."""
EDGE_PILOT: Final = 2.5
"""Pilot hole in the lower edge of the piece that stands on the bottom [mm]. Common practice, no source."""
EDGE_PILOT_DEPTH: Final = 20.0
"""Depth of that pilot hole [mm]. Common practice, no source."""
_FROM_SIDE = 60.0
_PITCH = 150.0


def screw_places(fitted: FittedDrawer, end: End) -> tuple[tuple[float, float], ...]:
    """Screw holes in the bottom under one piece, left to right; none where it does not stand on the bottom.

    The first stand `_FROM_SIDE` inside the box sides, clear of the slides' notches, the others between.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    kind = fitted.drawer.box.bottom
    stands = kind == "under" or (kind == "groove-3" and end == "back")
    at = corner(fitted, end)
    if not stands or not at.thickness or fitted.drawer.existing_box is not None:
        return ()
    length = part_size(fitted, "bottom", (box.length, 0.0, 0.0))[0]
    y = at.thickness / 2 if end == "front" else length - at.thickness / 2
    half = max(box.inside_width / 2 - _FROM_SIDE, box.inside_width / 6)
    steps = max(math.ceil(2 * half / _PITCH - 1e-9), 1)
    return tuple((-half + 2 * half * k / steps, y) for k in range(steps + 1))
