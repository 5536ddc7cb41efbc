"""What stands round a drawer and in it: an open door, things in its way out, pipes that its back goes round.

Lengths mm, angles in degrees. Sides are left and right as one stands before the cabinet.
"""

from __future__ import annotations

from typing import Literal

from pydantic import model_validator

from drawerwright.errors import Problem, Problems
from drawerwright.model.quantities import Band, Degrees, Length, Name, Record, Size, Thickness

Hand = Literal["left", "right"]

FLATTEST, WIDEST = 10.0, 180.0
"""Least and greatest angle that an open door may have: under the one it is as good as shut."""


class Door(Record):
    """A door before the drawer, as it stands when it is open as far as it goes.

    `opens` is its angle [°]; `stands_in` how far its inner face, at the hinges, stands into the opening [mm],
    None: hung on the opening's very edge with the hinge in its outer face; `width` of its leaf, None: as
    wide as the opening.
    """

    hinge: Hand
    opens: Degrees = 90.0
    thickness: Thickness = 19.0
    stands_in: Length | None = None
    width: Size | None = None

    @model_validator(mode="after")
    def _opens_at_all(self) -> Door:
        if not FLATTEST <= self.opens <= WIDEST:
            says = f"is not how far a door opens: {FLATTEST:g} to {WIDEST:g} degrees"
            raise Problems([Problem(("opens",), f"{self.opens:g}", says, "opens = 95")])
        return self


class InTheWay(Record):
    """Something beside the way out: a hinge, a neighbour's handle, an appliance [mm].

    It `stands_in` from that side's edge of the opening; `bottom` and `top` are its heights above the
    opening's bottom, None: as low or as high as the drawer; `depth` its two ends, counted into the cabinet
    (negative before it), None: all along the way.
    """

    what: Name
    side: Hand
    stands_in: Size
    bottom: Length | None = None
    top: Length | None = None
    depth: Band | None = None

    @model_validator(mode="after")
    def _stands_upright(self) -> InTheWay:
        if self.bottom is not None and self.top is not None and self.bottom >= self.top:
            says = f"is not above its bottom, {self.bottom:g} mm"
            raise Problems([Problem(("top",), f"{self.top:g} mm", says, "bottom = 60, top = 130")])
        return self


class CutOut(Record):
    """Room for pipes, from the back of the box inwards: clear `width` and `depth` [mm].

    `from_left`: from the inside of the box's left side, seen from the front; None: in the middle.
    """

    width: Size
    depth: Size
    from_left: Size | None = None
