"""The slide that a drawer asks for by name: whether it is there, and which candidates it means."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Drawer


def is_asked_for(drawer: Drawer, family: SlideFamily, length: object) -> bool:
    """Whether a candidate is of the family, and of the length, that the drawer names."""
    nominal = drawer.slide_nominal
    return family.id == drawer.slide_family and (nominal is None or family.length_of(nominal) is length)


def check_slides_asked_for(
    drawers: Sequence[Drawer], families: Sequence[SlideFamily], *, where: str = ""
) -> None:
    """Raise InputError naming every drawer that asks for a family or length that is not there.

    `where` goes before the drawer: the file, for instance.
    """
    known = {family.id: family for family in families}
    faults = []
    for drawer in drawers:
        if drawer.slide_family is None:
            continue
        place, value = f"{where} drawer {drawer.id} slide".lstrip(), f'"{drawer.slide}"'
        family = known.get(drawer.slide_family)
        if family is None:
            near = get_close_matches(drawer.slide_family, known, 1, 0.0) or ["auto"]
            says = f"is not among the slide families: {', '.join(known) or 'none'}"
            faults.append(Fault(place, value, says, f'"{near[0]}"'))
        elif drawer.slide_nominal is not None and family.length_of(drawer.slide_nominal) is None:
            lengths = ", ".join(f"{length.nominal:g}" for length in family.lengths)
            near_length = min(family.lengths, key=lambda one: abs(one.nominal - (drawer.slide_nominal or 0)))
            says = f"is not a length of {family.id}: {lengths}"
            faults.append(Fault(place, value, says, f'"{family.id}/{near_length.nominal:g}"'))
    if faults:
        raise InputError(faults)
