"""Remarks on a slide family that can be read: what is odd, what is missing, what was left to a default.

A remark stops nothing; what contradicts itself is refused by the reader instead. The bounds of what is
plausible are by judgement, without a source.
"""

from __future__ import annotations

from typing import Final

from drawerwright.catalogue.box_oddities import back_oddities, bracket_oddities
from drawerwright.catalogue.family_left_out import defaulted, missing
from drawerwright.catalogue.family_remark import Figures, Remark, Search
from drawerwright.catalogue.length_oddities import length_oddities, run_of_lengths_oddities
from drawerwright.catalogue.member_oddities import front_oddities, mounting_oddities, side_mounted_oddities
from drawerwright.catalogue.motion_oddities import closing_oddities, rolling_oddities
from drawerwright.catalogue.seat_oddities import adjuster_oddities, latch_oddities, width_oddities
from drawerwright.model.family import SlideFamily
from drawerwright.units import ShownUnits

_OF_ALL: Final[tuple[Search, ...]] = (
    width_oddities,
    adjuster_oddities,
    front_oddities,
    mounting_oddities,
    run_of_lengths_oddities,
    length_oddities,
    rolling_oddities,
    closing_oddities,
)
_OF_CONCEALED: Final[tuple[Search, ...]] = (latch_oddities, back_oddities, bracket_oddities)
_OF_SIDE_MOUNTED: Final[tuple[Search, ...]] = (side_mounted_oddities,)


def check_family(family: SlideFamily, units: ShownUnits = "mm") -> list[Remark]:
    """All remarks on a family: what is implausible, then what is missing, then what was defaulted."""
    figures = Figures(units)
    own = _OF_CONCEALED if family.carriage == "concealed" else _OF_SIDE_MOUNTED
    odd = [
        Remark("implausible", *oddity) for search in (*_OF_ALL, *own) for oddity in search(family, figures)
    ]
    return [*odd, *missing(family), *defaulted(family, figures)]
