"""How a front moves on its two brackets, to first order: adjusters move its pose, its pose moves its gaps.

Axes as in the public contract, about the front's centre: x to the right, y up, z out towards the viewer,
angles right-handed in radians. Against exact rotations of a front 600 by 180 the linear gaps are off by less
than 0.01 mm up to 2 mm and 4 mrad; tests hold it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, GapName

Array: TypeAlias = NDArray[np.float64]

POSE: Final = ("x", "y", "z", "roll", "yaw", "pitch")
"""Coordinates of a pose, in the order of its array (6,): three in mm, three in rad."""

COLUMNS: Final = ("side", "height_left", "height_right", "depth_left", "depth_right", "tilt")
"""Adjusters of one front in the order of their array (6,): both sides move alike, and so do both tilts."""


@dataclass(frozen=True)
class FrontGeometry:
    """What a front's moves hang on [mm].

    `length` from the hooks at the rear to the brackets; `base` between the brackets; `off_middle` their
    middle right of the front's centre; `above` the front's centre above where the brackets hold the box.
    """

    width: float
    height: float
    length: float
    base: float
    off_middle: float = 0.0
    above: float = 0.0

    @cached_property
    def corners(self) -> dict[str, tuple[float, float]]:
        """Each reading's place on the front (x, y), from its centre."""
        return {name: self._corner(name) for name in GAP_NAMES}

    def _corner(self, name: GapName) -> tuple[float, float]:
        x = self.width / 2 if "right" in name else -self.width / 2
        y = self.height / 2 if "top" in name else -self.height / 2
        return x, y

    @cached_property
    def gap_changes(self) -> Array:
        """Change of each reading (12,) with the pose (6,): array (12, 6), rows as the gaps are named."""
        rows = np.zeros((len(GAP_NAMES), 6))
        for row, name in zip(rows, GAP_NAMES, strict=True):
            x, y = self.corners[name]
            edge = name.partition("_")[0]
            if edge == "out":
                row[[2, 4, 5]] = 1.0, -x, y
            elif edge in ("left", "right"):
                row[[0, 3]] = (1.0, -y) if edge == "left" else (-1.0, y)
            else:
                row[[1, 3]] = (1.0, x) if edge == "bottom" else (-1.0, -x)
        return rows

    @cached_property
    def pose_changes(self) -> Array:
        """Change of the pose (6,) with the adjusters (6,): array (6, 6), columns as `COLUMNS`, per mm turned.

        The rear turns on its hooks and the brackets hold the box lengthways: a side move yaws, a lift leans
        the top in, left against right rolls or yaws. All of it turns about the middle of the box, so a front
        fixed off it moves with its lever. Geometry of small angles.
        """
        length, base, off, above = self.length, self.base, self.off_middle, self.above
        side = [1.0, 0.0, off / length, 0.0, 1.0 / length, 0.0]
        columns = [side]
        for hand in (-1.0, 1.0):
            roll = hand / base
            lift = 0.5 - roll * off
            pitch = -0.5 / length
            columns.append([-roll * above, lift, pitch * above, roll, 0.0, pitch])
        for hand in (-1.0, 1.0):
            yaw = -hand / base
            columns.append([0.0, 0.0, 0.5 + yaw * off, 0.0, yaw, 0.0])
        columns.append([0.0, 0.0, above / length, 0.0, 0.0, 1.0 / length])
        return np.array(columns).T

    @cached_property
    def turning(self) -> Array:
        """Change of each reading (12,) with the adjusters (6,): array (12, 6)."""
        return self.gap_changes @ self.pose_changes


def front_geometry(fitted: FittedDrawer) -> FrontGeometry:
    """The geometry of a fitted drawer's front; without an applied one, of the box's own front.

    A drawer that does not fit is taken with its opening's sizes: its readings can still be told.
    """
    drawer, opening, box, front = fitted.drawer, fitted.opening, fitted.box, fitted.front
    slide = fitted.slide if fitted.slide is not None else fitted.nearest
    applied = front is not None and front.style != "none" and front.width > 0.0
    if front is not None and applied:
        width, height = front.width, front.height
        middle = (drawer.lost.right - drawer.lost.left + front.right - front.left) / 2
        centre = opening.floor - front.bottom + height / 2
    elif box is not None:
        width, height, middle = box.outside_width, box.height, 0.0
        centre = box.lower_edge + height / 2
    else:
        width, height, middle = opening.width, opening.height, 0.0
        centre = opening.floor + height / 2
    holes = slide.family.bracket_holes if slide is not None else ()
    bracket = sum(place[0] for place in holes) / len(holes) if holes else 0.0
    inside = box.inside_width if box is not None else width
    held = box.lower_edge + box.bottom_recess if box is not None else centre
    length = box.length if box is not None else slide.length.box if slide is not None else opening.depth
    return FrontGeometry(
        width=width,
        height=height,
        length=length,
        base=max(inside - 2 * bracket, inside / 2),
        off_middle=-middle,
        above=centre - held,
    )
