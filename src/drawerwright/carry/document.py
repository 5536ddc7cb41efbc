"""The public JSON of the study: `drawerwright/carry/1`."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import Any, Final

from drawerwright.carry.carried import CarriedDrawer, CarriedJob, Slide
from drawerwright.carry.closing import closing_document
from drawerwright.carry.loose_shelf import loose_shelf_document
from drawerwright.carry.parts_document import (
    bottom_document,
    check_document,
    fixing_document,
    maybe,
    number,
    numbers,
    racking_document,
    rollers_document,
    slam_document,
    stress_document,
)
from drawerwright.carry.rollers import GROUPS
from drawerwright.carry.sides import HANDS, Sides
from drawerwright.carry.telescope import TOGETHER, Drawn
from drawerwright.carry.tipping_document import tipping_document
from drawerwright.equations.mechanics.beams import Q
from drawerwright.model.fitted import ChosenSlide

SCHEMA: Final = "drawerwright/carry/1"


def carry_document(carried: CarriedJob) -> dict[str, Any]:
    """Lengths and sag in mm, forces in N, masses in kg, moments in N mm, rounded to 1e-6."""
    told = carry_document_by_drawer(carried.title, carried.drawers)
    return {**told, "drawers": list(told["drawers"])}


def carry_document_by_drawer(title: str, drawers: Iterable[CarriedDrawer]) -> dict[str, Any]:
    """The same document, its `drawers` an iterator: for those who write one after the other and keep none."""
    return {"schema": SCHEMA, "title": title, "drawers": map(partial(drawer_document, told=_Told()), drawers)}


class _Told(dict[int, tuple[Slide, dict[str, Any]]]):
    """Slides as they were written, for drawers that share one; no more than are drawn out at once."""

    def of(self, slide: Slide) -> dict[str, Any]:
        """The keys of a slide."""
        if id(slide) not in self:
            if (len(self) + 1) * len(slide.drawn.extension) > TOGETHER:
                self.clear()
            self[id(slide)] = slide, _slide(slide)
        return self[id(slide)][1]


def drawer_document(one: CarriedDrawer, told: _Told | None = None) -> dict[str, Any]:
    """One drawer; what is not known is null, and `missing` names the family's keys that would tell it.

    Of `reactions` each list is null then. Of a drawer that fits nothing all this is as on the `nearest`
    slide, where its geometry allows that; else `extension` is empty.
    """
    limit, slide = one.limit, one.slide
    figured = one.figured
    return {
        "id": one.id,
        "verdict": one.fitted.verdict,
        "load": maybe(one.load),
        "capacity": None if limit is None else number(limit.moving),
        "limited_by": None if limit is None else limit.name,
        "modified": limit is not None and limit.modified,
        "capacities": [
            {
                "name": each.name,
                "moving": number(each.moving),
                "modified": each.modified,
                "says": each.says,
                "source": each.source,
            }
            for each in one.capacities
        ],
        "slide": None if slide is None else _named(slide.chosen),
        "nearest": None if slide is not None or one.fitted.nearest is None else _named(one.fitted.nearest),
        **(_NOTHING if figured is None else (_Told() if told is None else told).of(figured)),
        "tipping": None if one.tipping is None else tipping_document(one.tipping),
        "checks": [check_document(check) for check in one.checks],
        "missing": list(one.missing),
    }


_NO_REACTIONS: Final[dict[str, None]] = dict.fromkeys(GROUPS)
_NOTHING: Final[dict[str, Any]] = {
    "extension": [],
    "sag": None,
    "sag_shares": None,
    "reactions": _NO_REACTIONS,
    "screws": None,
    "moments": None,
    "stresses": [],
    "rollers": None,
    "racking": None,
    "bottom": None,
    "fixings": [],
    "slam": None,
    "sides": None,
    "closing": None,
    "shelf": None,
}
"""The keys of a slide where nothing fits, and nothing can be told of the nearest one."""


def _slide(slide: Slide) -> dict[str, Any]:
    drawn, data = slide.drawn, slide.data
    return {
        "extension": numbers(drawn.extension),
        "sag": numbers(drawn.sag) if data.has_sag else None,
        "sag_shares": _sag_shares(drawn),
        "reactions": _reactions(drawn) if data.has_forces else _NO_REACTIONS,
        "screws": None
        if not data.has_screws
        else {
            "rear": numbers(drawn.screw_rear),
            "front": numbers(drawn.screw_front),
            "rear_from_rear_end": number(data.screws[0]),
            "front_from_rear_end": number(data.screws[1]),
        },
        "moments": None if not data.has_forces else _moments(drawn),
        "stresses": [stress_document(one) for one in slide.stresses],
        "rollers": None if slide.rollers is None else rollers_document(slide.rollers),
        "racking": None if slide.racking is None else racking_document(slide.racking),
        "bottom": None if slide.bottom is None else bottom_document(slide.bottom),
        "fixings": [fixing_document(one) for one in slide.fixings],
        "slam": slam_document(slide.slam),
        "sides": None if slide.sides is None else _sides(slide.sides, has_forces=data.has_forces),
        "closing": None if slide.closing is None else closing_document(slide.closing),
        "shelf": None if slide.shelf is None else loose_shelf_document(slide.shelf),
    }


def _named(chosen: ChosenSlide) -> dict[str, Any]:
    return {
        "family": chosen.family.id,
        "nominal": number(chosen.length.nominal),
        "mount": chosen.mount,
    }


def _sag_shares(drawn: Drawn) -> dict[str, Any]:
    """Each share over the travel, null where it cannot be told."""
    return {
        "members": _known(drawn.members_sag),
        "cabinet_member": _known(drawn.cabinet_sag),
        "intermediate_member": _known(drawn.intermediate_sag),
        "drawer_member": _known(drawn.drawer_sag),
        "rollers": _known(drawn.roller_sag),
        "play": _known(drawn.play_sag),
        "mounting": _known(drawn.mount_sag),
    }


def _reactions(drawn: Drawn) -> dict[str, Any]:
    return {name: numbers(getattr(drawn, name)) for name in GROUPS}


def _moments(drawn: Drawn) -> dict[str, Any]:
    """Largest bending moment along each member, without its sign [N mm]."""
    return {
        "cabinet": _known(drawn.cabinet_moment),
        "intermediate": numbers(drawn.intermediate_moment),
        "drawer": numbers(drawn.drawer_moment),
    }


def _sides(sides: Sides, *, has_forces: bool) -> dict[str, Any]:
    return {
        "off_centre": number(sides.off_centre),
        "apart": number(sides.apart),
        "out_of_level": maybe(sides.out_of_level),
        **{
            hand: {
                "share": number(sides.shares[hand]),
                "sag": _known(sides.drawn[hand].sag),
                "reactions": _reactions(sides.drawn[hand]) if has_forces else _NO_REACTIONS,
            }
            for hand in HANDS
        },
    }


def _known(values: Q) -> list[float] | None:
    """An array (m,) as it is written; None where a value of it is not known."""
    return numbers(values) if not (values != values).any() else None
