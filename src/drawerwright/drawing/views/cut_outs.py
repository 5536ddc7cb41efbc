"""The cut-out for pipes in the box: what is sawn out of back and bottom, and its walls in plan.

Both panels are cut whole and bored first, so the outline stays and the cut-out has a layer of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import HATCH_SPACING_CLOSE
from drawerwright.drawing.primitives import rectangle
from drawerwright.drawing.scene import Dimension, Hatch, LabelSide, Primitive
from drawerwright.drawing.views.standing import needed_parts
from drawerwright.model.fitted import FittedDrawer

CUT_OUT: Final = "cut-out sawn after boring"


@dataclass(frozen=True, slots=True)
class CutOutAcross:
    """Where the cut-out lies across the box, seen from above: x from the middle, left is negative [mm]."""

    left: float
    right: float
    depth: float
    bottom_cut: float


def cut_out_of(fitted: FittedDrawer) -> CutOutAcross | None:
    """The cut-out of a drawer that fits; None where nothing is cut out.

    Raises:
        ValueError: the drawer does not fit.
    """
    sizes = fitted.cut_out
    if sizes is None:
        return None
    left = -needed_parts(fitted).box.inside_width / 2 + sizes.back_left
    return CutOutAcross(left, left + sizes.width, sizes.depth, sizes.bottom_cut)


def cut_out_in_back(fitted: FittedDrawer, half: float, height: float) -> list[Primitive]:
    """The piece sawn out of the back as seen from behind: the drawer's left is at the right.

    `half` of the back's length and its `height` [mm]. It is told from the drawer's left end, as on the lists.
    """
    found = cut_out_of(fitted)
    if found is None:
        return []
    away = Bounds(-found.right, 0.0, -found.left, height)
    return [
        *_sawn_out(away),
        *_across("back", away, half, 0.0, -row_offset(2)),
    ]


def cut_out_in_bottom(fitted: FittedDrawer, half: float, along: float) -> list[Primitive]:
    """The piece sawn out of the bottom's rear edge, seen from above; `along` is the bottom's length [mm]."""
    found = cut_out_of(fitted)
    if found is None:
        return []
    away = Bounds(found.left, along - found.bottom_cut, found.right, along)
    ends = ((found.right, away.bottom), (half, along))
    return [
        *_sawn_out(away),
        *_across("bottom", away, -half, along, row_offset(2)),
        Dimension("bottom_cut", found.bottom_cut, *ends, "vertical", half, column_offset(0)),
    ]


def cut_out_walls(fitted: FittedDrawer, rear: float) -> tuple[Bounds, ...]:
    """The walls in plan, left, right and across [mm]: they stand on the bottom, clear of the cut-out.

    `rear` is the depth of the box's rear end; the side pieces run to the inside face of the back.
    """
    found, box = cut_out_of(fitted), needed_parts(fitted).box
    if found is None:
        return ()
    front, back = rear - found.depth, rear - box.back
    outer_left, outer_right = found.left - box.side, found.right + box.side
    return (
        Bounds(outer_left, front, found.left, back),
        Bounds(found.right, front, outer_right, back),
        Bounds(outer_left, front - box.back, outer_right, front),
    )


def _sawn_out(away: Bounds) -> list[Primitive]:
    return [rectangle(away, "outline", "paper", CUT_OUT), Hatch(away.corners, 45.0, HATCH_SPACING_CLOSE)]


def _across(part: str, away: Bounds, end: float, base: float, offset: float) -> list[Primitive]:
    """From the drawer's left end at x = `end` to the cut-out, and how wide the cut-out is."""
    near = away.left if end < 0 else away.right
    side: LabelSide = "start" if end < 0 else "end"
    a, b = sorted((end, near))
    return [
        Dimension(
            f"{part}_cut_out_in", b - a, (a, base), (b, base), "horizontal", base, offset, label_side=side
        ),
        Dimension(
            "cut_out_width", away.width, (away.left, base), (away.right, base), "horizontal", base, offset
        ),
    ]
