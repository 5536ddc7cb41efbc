"""What moves against what may move: every capacity as a mass that moves, the lowest named."""

from __future__ import annotations

from collections.abc import Sequence

from drawerwright.carry.carried import Capacity
from drawerwright.carry.words import Words, check_of
from drawerwright.equations.sources import FAMILY
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer, Masses


def rating(slide: ChosenSlide, mass: Masses, words: Words) -> Capacity:
    """The rating of the pair: the length's own, else the family's."""
    family, length = slide.family, slide.length
    name = "family-rating" if length.capacity is None else "length-rating"
    whose = "the family" if length.capacity is None else f"length {length.nominal:g}"
    rated = family.capacity_at(length)
    if family.capacity_of == "contents":
        says = f"{words.mass(rated)} of contents, as {whose} is rated, and the drawer's own mass"
        return Capacity(name, rated + mass.moving - mass.contents, says, FAMILY)
    return Capacity(name, rated, f"{words.mass(rated)}, as {whose} is rated", FAMILY)


def load_check(load: float, capacities: Sequence[Capacity], words: Words) -> Check:
    """Capacity that is left over what moves [kg]."""
    limit = min(capacities, key=lambda one: one.moving)
    spare = limit.moving - load
    left = f"{words.mass(spare)} to spare" if spare >= 0.0 else f"{words.mass(-spare)} too much"
    return check_of(
        "load",
        spare,
        "kg",
        f"{words.mass(load)} move; the lowest capacity is {limit.says}: {left}.",
        working=f"capacity − moving mass = {limit.moving:.2f} − {load:.2f} = {spare:.2f} kg",
        source=limit.source,
        cure="Less in the drawer, or a slide that carries more.",
    )


def load_of_unfitted(fitted: FittedDrawer) -> tuple[float, Capacity] | None:
    """Moving mass and capacity of a drawer that fits nothing, by the slide that came nearest.

    Only where its capacity check tells them of the moving mass; else None.
    """
    slide = fitted.nearest
    check = next((one for one in fitted.checks if one.id == "capacity"), None)
    if slide is None or check is None or slide.family.capacity_of != "moving":
        return None
    rated = slide.family.capacity_at(slide.length)
    name = "family-rating" if slide.length.capacity is None else "length-rating"
    says = f"that of the nearest slide, {slide.family.id}/{slide.length.nominal:g}"
    return rated - check.margin, Capacity(name, rated, says, FAMILY)
