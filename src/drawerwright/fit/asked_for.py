"""The slide that a drawer asks for by name: whether it is there, and which candidates it means."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from difflib import get_close_matches

import numpy as np

from drawerwright.errors import Fault, InputError
from drawerwright.fit.drawer_values import DrawerValues
from drawerwright.fit.slide_rows import SlideRows
from drawerwright.fit.trial import Mask
from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Drawer

MISTYPED = 0.75
"""How alike two names must be for the one to be the other mistyped, by `difflib`'s measure. Own choice."""


def is_asked_for(drawer: Drawer, family: SlideFamily, length: object) -> bool:
    """Whether a candidate is of the family, and of the length, that the drawer names."""
    nominal = drawer.slide_nominal
    return family.id == drawer.slide_family and (nominal is None or family.length_of(nominal) is length)


def slides_allowed(drawers: Sequence[DrawerValues], rows: SlideRows) -> Mask:
    """(d, c): the slides that each drawer asks for; all where it asks for none."""
    mask = np.ones((len(drawers), len(rows.candidates)), dtype=bool)
    for row, one in enumerate(drawers):
        if one.drawer.slide_family is not None:
            mask[row] = [is_asked_for(one.drawer, *candidate) for candidate in rows.candidates]
    return mask


def check_slides_asked_for(
    drawers: Sequence[Drawer],
    families: Sequence[SlideFamily],
    *,
    where: Callable[[int], str] | None = None,
) -> None:
    """Raise InputError naming every drawer that asks for a family or length that is not there.

    `where` gives the place at which the drawer of that position, from 0, names its slide: file and line, for
    instance. What one place asks for on behalf of several drawers is told once.
    """
    known = {family.id: family for family in families}
    faults = []
    for position, drawer in enumerate(drawers):
        in_vain = _asked_in_vain(drawer, known)
        if in_vain is not None:
            place = f"drawer {drawer.id} slide" if where is None else where(position)
            faults.append(Fault(place, f'"{drawer.slide}"', *in_vain))
    if faults:
        raise InputError(dict.fromkeys(faults))


def _asked_in_vain(drawer: Drawer, known: Mapping[str, SlideFamily]) -> tuple[str, str] | None:
    """What is wrong with the slide that a drawer names, and what would do; None where it is there."""
    if drawer.slide_family is None:
        return None
    family, nominal = known.get(drawer.slide_family), drawer.slide_nominal
    if family is None:
        takes = [one.id for one in known.values() if _takes_sides(one, drawer.side)]
        near = get_close_matches(drawer.slide_family, takes, 1, MISTYPED) or ["auto"]
        return f"is not among the slide families: {', '.join(known) or 'none'}", f'"{near[0]}"'
    if nominal is None or family.length_of(nominal) is not None:
        return None
    lengths = ", ".join(f"{length.nominal:g}" for length in family.lengths)
    near_length = min(family.lengths, key=lambda one: abs(one.nominal - nominal))
    return f"is not a length of {family.id}: {lengths}", f'"{family.id}/{near_length.nominal:g}"'


def _takes_sides(family: SlideFamily, thickness: float) -> bool:
    """Whether sides so thick [mm] leave its least gap: one that they do not is no advice, however alike."""
    if family.carriage == "side-mounted":
        return True
    return thickness <= family.inside_width_deduction / 2 - family.min_gap
