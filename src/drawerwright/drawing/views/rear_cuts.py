"""Hook bores and notches of a box back: where the slide's rear end meets the wood.

They stay where the slide is: measured from the seat of the box's inside face, half of (opening width less
the family's deduction) from the middle, not from the face as made.
"""

from __future__ import annotations

from dataclasses import dataclass

from drawerwright.drawing.views.standing import needed_parts, part_size, standing
from drawerwright.model.fitted import FittedDrawer


@dataclass(frozen=True, slots=True)
class RearCuts:
    """Cuts in one half of a back [mm]: x from the middle, y above the back's own lower edge.

    The other half is its mirror. `half` is half the back's length, `lifted` how far its lower edge stands
    above that of the sides. A notch of height 0 is none: the back stands above the member.
    """

    half: float
    height: float
    lifted: float
    bore_x: float
    bore_y: float
    bore: float
    bore_depth: float
    notch_inner: float
    notch_outer: float
    notch_height: float


def rear_cuts(fitted: FittedDrawer) -> RearCuts | None:
    """Bores and notches of a drawer's back; None where the slides run beside the box.

    Raises:
        ValueError: the drawer does not fit.
    """
    parts = needed_parts(fitted)
    stand = standing(fitted)
    if not stand.concealed:
        return None
    box, rear = parts.box, parts.slide.family.rear
    length, height, _ = part_size(fitted, "back", (box.inside_width, box.height, box.back))
    lifted = box.height - height
    return RearCuts(
        half=length / 2,
        height=height,
        lifted=lifted,
        bore_x=stand.seat - rear.bore_in,
        bore_y=box.bottom_recess + rear.bore_up - lifted,
        bore=rear.bore,
        bore_depth=rear.bore_depth,
        notch_inner=stand.seat - rear.notch_width,
        notch_outer=min(length / 2, box.inside_width / 2),
        notch_height=max(rear.notch_height - lifted, 0.0),
    )
