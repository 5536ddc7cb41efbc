"""Places along a slide, and depths of the public contract: one into the other, here alone.

Mechanics counts from the rear end of the cabinet member towards the viewer; the contract counts depths into
the cabinet from its front.
"""

from __future__ import annotations

from drawerwright.model.fitted import Mounting


def from_rear_end(depth: float, mounting: Mounting) -> float:
    """The place [mm] from the rear end of the cabinet member of what stands at a depth [mm]."""
    return mounting.front_end + mounting.member - depth


def depth_of(place: float, mounting: Mounting) -> float:
    """The depth [mm] of a place [mm] from the rear end of the cabinet member; negative ahead of z = 0."""
    return mounting.front_end + mounting.member - place
