"""Screws up through the bottom into pieces that stand on it: the same places for bottom and piece.

A cut-out leaves two pieces of the back: each has a row of its own, so no screw stands in what is sawn out.
x [mm] from the middle of the box; y from the bottom's front edge.
"""

from __future__ import annotations

import math
from typing import Final, TypeAlias

from drawerwright.drawing.views.cut_outs import cut_out_of
from drawerwright.drawing.views.joints import End, corner
from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.drawing.views.standing import needed_parts, part_size
from drawerwright.model.fitted import FittedDrawer

BOTTOM_HOLE: Final = 4.0
"""Hole through the bottom for its screws [mm]. Common practice, no source."""
EDGE_PILOT: Final = 2.5
"""Pilot hole in the lower edge of the piece that stands on the bottom [mm]. Common practice, no source."""
EDGE_PILOT_DEPTH: Final = 20.0
"""Depth of that pilot hole [mm]. Common practice, no source."""
FROM_SAWN: Final = 12.0
"""Least distance of a screw from the end that a cut-out leaves [mm]. Common practice, no source."""
_FROM_SIDE = 60.0
_PITCH = 150.0
_LEAST_APART = 40.0

Row: TypeAlias = tuple[tuple[float, float], ...]
"""Screw places [mm] of one piece, left to right."""


def screw_rows(fitted: FittedDrawer, end: End) -> tuple[Row, ...]:
    """Screw holes in the bottom under front or back, a row for each piece of it, the left one first.

    None where it does not stand on the bottom. The first stand `_FROM_SIDE` inside the box sides, clear of
    the slides' notches, the others between. A piece that a cut-out leaves too short for that has one screw,
    in the middle of what notch and hook bore leave clear; none where that is less than twice `FROM_SAWN`.

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
    inner = box.inside_width / 2
    away = cut_out_of(fitted) if end == "back" else None
    if away is None:
        half = max(inner - _FROM_SIDE, inner / 3)
        spans = [(-half, half)]
    else:
        cuts = rear_cuts(fitted)
        clear = inner if cuts is None else min(cuts.notch_inner, cuts.bore_x - cuts.bore / 2)
        left, right = (_beside_cut_out(inner, edge, clear) for edge in (-away.left, away.right))
        spans = [(-high, -low) for low, high in left] + list(right)
    return tuple(tuple((x, y) for x in _spread(low, high)) for low, high in spans)


def screw_places(fitted: FittedDrawer, end: End) -> Row:
    """All screw holes in the bottom under front or back, left to right; none where it does not stand on it.

    Raises:
        ValueError: the drawer does not fit.
    """
    return tuple(place for row in screw_rows(fitted, end) for place in row)


def _beside_cut_out(inner: float, sawn: float, clear: float) -> tuple[tuple[float, float], ...]:
    """First and last place on the piece from the sawn end to the box side, outwards from the middle [mm].

    `clear` is how far out notch and hook bore leave the wood whole.
    """
    first, last = sawn + FROM_SAWN, inner - _FROM_SIDE
    if last - first >= _LEAST_APART:
        return ((first, last),)
    middle = (sawn + clear) / 2
    return ((middle, middle),) if middle - sawn >= FROM_SAWN else ()


def _spread(low: float, high: float) -> tuple[float, ...]:
    """Places from one to the other, no further apart than `_PITCH`; one where they are the same."""
    if high - low < 1e-9:
        return (low,)
    steps = max(math.ceil((high - low) / _PITCH - 1e-9), 1)
    return tuple(low + (high - low) * k / steps for k in range(steps + 1))
