"""Pulled open against its stop: how hard a full drawer is stopped, and what the rollers get of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from drawerwright.carry.slide_data import SLIDES_A_DRAWER, SlideData
from drawerwright.carry.telescope import Drawn
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY
from drawerwright.model.fitted import BoxSizes

FALL: Final = 152.4
LOAD_SHARE: Final = 0.2
"""Of the drawer's load: the weight that falls by `FALL` [mm] and draws the drawer against its stop. Federal
specification AA-F-358J, 4.6.2, read: 20 % of the load, from within 6 in of full extension."""
STOP_GIVE: Final = 3.0
"""How far the stop, its buffer and the members give [mm]; own choice, no source."""
SOURCE: Final = (
    "energy; speed as by the out-stop test of AA-F-358J 4.6.2, read (20 % of the load, 6 in); "
    "the stop's give and the height of the load: own choice, no source"
)


@dataclass(frozen=True, slots=True)
class Slam:
    """One stop at full travel: speed [mm/s], give [mm], deceleration [in g], forces [N] of one slide.

    `force` is the largest along the slide, by a stop that grows stiffer evenly; `upper_front` and
    `lower_front` are the forces of those groups with what the load's height adds.
    """

    speed: float
    give: float
    deceleration: float
    force: float
    upper_front: float | None
    lower_front: float | None
    source: str = SOURCE


def slam_of(data: SlideData, drawn: Drawn, box: BoxSizes, moving: float, *, give: float = STOP_GIVE) -> Slam:
    """A drawer of a moving mass [kg] drawn against its stop by a falling weight.

    The load's middle is taken at half the height of the box above the slide.
    """
    speed = math.sqrt(2.0 * LOAD_SHARE * STANDARD_GRAVITY * FALL / 1e3 / (1.0 + LOAD_SHARE)) * 1e3
    # A spring that stops m from v over the way d is stiffest at its end: F = m v²/d.
    force = moving / SLIDES_A_DRAWER * (speed / 1e3) ** 2 / (give / 1e3)
    decelerates = force * SLIDES_A_DRAWER / (moving * STANDARD_GRAVITY) if moving > 0.0 else 0.0
    if not data.has_forces:
        return Slam(speed, give, decelerates, force, None, None)
    turning = force * box.height / 2.0
    return Slam(
        speed=speed,
        give=give,
        deceleration=decelerates,
        force=force,
        upper_front=float(drawn.upper_front[-1]) + turning / (data.upper[1] - data.upper[0]),
        lower_front=float(drawn.lower_front[-1]) + turning / (data.lower[1] - data.lower[0]),
    )
