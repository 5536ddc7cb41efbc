"""Racking: how far play in the rollers lets a drawer stand askew, against the gaps at its sides."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from drawerwright.carry.slide_data import SlideData
from drawerwright.carry.words import Words, check_of
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import BoxSizes, Check

SOURCE: Final = (
    "geometry: play over roller spacing, both carriages; the play sideways is taken to be the play told; "
    "when a stabiliser is due: common practice, no source"
)


@dataclass(frozen=True, slots=True)
class Racking:
    """How askew a drawer may stand [°, mm].

    `yaw` turns it as seen from above and takes `sideways` of the `side_gap` at each end of the box; `roll`
    lifts one side by `lifted`. `ratio`: how many times as wide as long the box is.
    """

    yaw_deg: float
    roll_deg: float
    sideways: float
    lifted: float
    side_gap: float
    ratio: float
    allowed_ratio: float
    stabiliser: bool

    @property
    def stabiliser_due(self) -> bool:
        """Whether the drawer is wider for its length than the family allows, and none is fitted."""
        return self.ratio > self.allowed_ratio and not self.stabiliser


def racking_of(data: SlideData, box: BoxSizes, family: SlideFamily, *, stabiliser: bool) -> Racking | None:
    """Racking of a drawer; None where places or play of its rollers are not known."""
    if not data.has_forces or "roller" in data.missing:
        return None
    yaw = data.play / (data.lower[1] - data.lower[0]) + data.play / (data.upper[1] - data.upper[0])
    # Both carriages of one slide may stand high and those of the other low.
    lifted = 2.0 * data.play
    return Racking(
        yaw_deg=math.degrees(yaw),
        roll_deg=math.degrees(math.atan2(lifted, max(box.inside_width, 1.0))),
        sideways=yaw * box.length / 2.0,
        lifted=lifted,
        side_gap=box.side_gap,
        ratio=box.outside_width / box.length,
        allowed_ratio=family.width_to_length,
        stabiliser=stabiliser,
    )


def racking_check(racking: Racking, words: Words) -> Check:
    """What the play leaves of the side gap; it watches where a stabiliser is due."""
    room = racking.side_gap - racking.sideways
    due = racking.stabiliser_due
    says = (
        f"Play lets the box stand askew by {racking.yaw_deg:.2f}°: its ends swing sideways by "
        f"{words.length(racking.sideways, 2)} of a gap of {words.length(racking.side_gap)}. It is "
        f"{racking.ratio:.2f} times as wide as long; beyond {racking.allowed_ratio:g} a stabiliser is due"
    )
    says += ", and one is fitted." if racking.stabiliser else "."
    return check_of(
        "racking",
        room,
        "mm",
        says,
        working=f"side gap − swing = {racking.side_gap:.2f} − {racking.sideways:.2f} = {room:.2f} mm",
        source=SOURCE,
        cure="Fit a stabiliser, and one handle in the middle."
        if due
        else "More gap at the sides, or rollers with less play.",
        watch_below=math.inf if due else None,
    )
