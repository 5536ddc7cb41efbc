"""What a fitted drawer and its slide family tell of the slide's mechanics, and what they leave out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from drawerwright.carry.frame import from_rear_end
from drawerwright.carry.sections import member_bending
from drawerwright.carry.telescope import Slides
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY
from drawerwright.model.fitted import ChosenSlide, Masses, Mounting

UNKNOWN: Final = float("nan")
SLIDES_A_DRAWER: Final = 2


@dataclass(frozen=True, slots=True)
class SlideData:
    """One slide of a pair: places from the rear end of its cabinet member [mm], EI [N mm²]; NaN: not known.

    `missing` names the family's keys that would be needed and are not told.
    """

    member: float
    travel: float
    weight: float
    lower: tuple[float, float]
    upper: tuple[float, float]
    screws: tuple[float, float]
    bending: tuple[float, float, float]
    roller_give: float
    play: float
    mount_give: float
    missing: tuple[str, ...]

    @property
    def has_forces(self) -> bool:
        """Whether the forces of the carriages can be told."""
        return "carriages" not in self.missing

    @property
    def has_screws(self) -> bool:
        """Whether the places are known at which the cabinet member is held."""
        return not np.isnan(self.screws[0])

    @property
    def has_sag(self) -> bool:
        """Whether all that makes up the sag is told."""
        return self.has_forces and self.has_screws and not {"stiffness", "roller"} & set(self.missing)


def slide_data(slide: ChosenSlide, mounting: Mounting, mass: Masses) -> SlideData:
    """Everything known of one slide of the pair that a drawer runs on; it carries half of the moving mass."""
    family, length = slide.family, slide.length
    screws, bending = screw_places(slide, mounting), member_bending(family)
    absent = {
        "carriages": family.carriages is None,
        "stiffness": bending is None,
        "roller": family.roller is None,
        "shelf_holes" if slide.mount == "shelf" else "holes": screws is None,
        "soft_close": family.soft_close is None,
    }
    lower, upper = family.carriages_on(length.member) or ((UNKNOWN, UNKNOWN), (UNKNOWN, UNKNOWN))
    roller = family.roller
    return SlideData(
        member=length.member,
        travel=family.travel_of(length),
        weight=mass.moving * STANDARD_GRAVITY / SLIDES_A_DRAWER,
        lower=lower,
        upper=upper,
        screws=screws or (UNKNOWN, UNKNOWN),
        bending=bending or (UNKNOWN, UNKNOWN, UNKNOWN),
        roller_give=UNKNOWN if roller is None else 1.0 / roller.stiffness,
        play=UNKNOWN if roller is None else roller.play,
        mount_give=0.0 if family.mount_stiffness is None else 1.0 / family.mount_stiffness,
        missing=tuple(key for key, is_absent in absent.items() if is_absent),
    )


def screw_places(slide: ChosenSlide, mounting: Mounting) -> tuple[float, float] | None:
    """The rearmost and the foremost place [mm from the rear end] at which the cabinet member is held.

    A rear bracket holds the member at its rear end. None where fewer than two places are known.
    """
    if slide.mount == "rear-bracket":
        return 0.0, mounting.member - slide.family.front_fix
    depths = mounting.shelf_holes if slide.mount == "shelf" else mounting.holes
    places = [from_rear_end(depth, mounting) for depth in depths]
    if len(places) < 2 or max(places) - min(places) <= 0.0:
        return None
    return min(places), max(places)


def together(data: Sequence[SlideData]) -> Slides:
    """Slides side by side, one array a value."""

    def column(values: Sequence[float]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        return np.array(values, dtype=np.float64)

    return Slides(
        member=column([one.member for one in data]),
        travel=column([one.travel for one in data]),
        weight=column([one.weight for one in data]),
        lower_rear=column([one.lower[0] for one in data]),
        lower_front=column([one.lower[1] for one in data]),
        upper_rear=column([one.upper[0] for one in data]),
        upper_front=column([one.upper[1] for one in data]),
        screw_rear=column([one.screws[0] for one in data]),
        screw_front=column([one.screws[1] for one in data]),
        cabinet_bending=column([one.bending[0] for one in data]),
        intermediate_bending=column([one.bending[1] for one in data]),
        drawer_bending=column([one.bending[2] for one in data]),
        roller_give=column([one.roller_give for one in data]),
        play=column([one.play for one in data]),
        mount_give=column([one.mount_give for one in data]),
    )
