"""What moves against what may move: every capacity as a mass that moves, the lowest of them named."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.carry.fixings import Fixing
from drawerwright.carry.rollers import Rollers
from drawerwright.carry.sections import SOURCE as STRENGTH_SOURCE
from drawerwright.carry.sections import MemberStress
from drawerwright.carry.words import Words, check_of
from drawerwright.equations.sources import FAMILY
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer, Masses

_RATINGS: Final = ("family-rating", "length-rating")


@dataclass(frozen=True, slots=True)
class Capacity:
    """One limit of what may move [kg]: `name` for programs, `says` for people.

    A rating by contents is told with the drawer's own mass added. `modified`: it rests on a test whose load,
    or something else, was not the standard's own.
    """

    name: str
    moving: float
    says: str
    source: str
    modified: bool = False


def rating(slide: ChosenSlide, mass: Masses, words: Words) -> Capacity:
    """The rating of the pair: the length's own, else the family's."""
    family, length = slide.family, slide.length
    own = length.capacity is not None
    whose = f"length {length.nominal:g}" if own else "the family"
    rated = family.capacity_at(length)
    if family.capacity_of == "contents":
        says = f"{words.mass(rated)} of contents, as {whose} is rated, and the drawer's own mass"
        return Capacity(_RATINGS[own], rated + mass.moving - mass.contents, says, FAMILY)
    return Capacity(_RATINGS[own], rated, f"{words.mass(rated)}, as {whose} is rated", FAMILY)


def evidence(slide: ChosenSlide, words: Words) -> Iterator[Capacity]:
    """The highest load of each kind, modified or not, at which this length passed a test.

    A capacity that is claimed beyond every test is claimed by nobody: the higher of both kinds is the limit.
    """
    told = [
        one
        for one in slide.family.evidence
        if one.nominal is None or abs(one.nominal - slide.length.nominal) < 0.05
    ]
    if not told:
        return
    best = max(told, key=lambda one: (one.load, not one.modified))
    kind = "modified test" if best.modified else "test"
    cycles = f" over {best.cycles} cycles" if best.cycles is not None else ""
    yield Capacity(
        "test",
        best.load,
        f"{words.mass(best.load)}, passed in a {kind} by {best.standard}{cycles}",
        best.source or FAMILY,
        best.modified,
    )


def strength(stresses: Sequence[MemberStress], moving: float, words: Words) -> Iterator[Capacity]:
    """The mass at which the first member yields."""
    share = max((one.share for one in stresses), default=0.0)
    if share > 0.0:
        mass = moving / share
        yield Capacity(
            "member-strength", mass, f"{words.mass(mass)}, at which a member yields", STRENGTH_SOURCE
        )


def roller_force(
    rollers: Rollers | None, carries: float | None, moving: float, words: Words
) -> Iterator[Capacity]:
    """The mass at which the most loaded roller group carries what it may."""
    if rollers is not None and carries is not None and rollers.largest > 0.0:
        mass = moving * carries / rollers.largest
        yield Capacity("roller-force", mass, f"{words.mass(mass)}, at which rollers carry their most", FAMILY)


def mounting(fixings: Sequence[Fixing], moving: float, words: Words) -> Iterator[Capacity]:
    """The mass at which the rearmost fixing of the cabinet member is drawn out."""
    for fixing in fixings:
        if fixing.id == "screw-mount" and fixing.ratio is not None:
            mass = moving * fixing.ratio
            says = f"{words.mass(mass)}, at which the rearmost fixing is drawn out"
            yield Capacity("screw-mount", mass, says, fixing.source)


def spare_words(spare: float, words: Words) -> str:
    """What is left of a capacity [kg], rounded as its margin is: what counts is never told as more."""
    if spare >= 0.0:
        return f"{words.mass_at_least(spare)} to spare"
    return f"{words.mass_at_least(spare).replace('−', '')} too much"


def load_check(load: float, capacities: Sequence[Capacity], words: Words) -> Check:
    """Capacity that is left over what moves [kg]."""
    limit = min(capacities, key=lambda one: one.moving)
    spare = limit.moving - load
    return check_of(
        "load",
        spare,
        "kg",
        f"{words.mass(load)} move; the lowest capacity is {limit.says}: {spare_words(spare, words)}.",
        working=f"capacity − moving mass = {limit.moving:.2f} − {load:.2f} = {spare:.2f} kg",
        source=limit.source,
        cure="Less in the drawer, or a slide that carries more.",
    )


def load_of_unfitted(fitted: FittedDrawer, words: Words) -> tuple[float, Capacity] | None:
    """Moving mass and capacity of a drawer that fits nothing, by the slide that came nearest.

    Only where its capacity check tells them of the moving mass; else None.
    """
    slide = fitted.nearest
    check = next((one for one in fitted.checks if one.id == "capacity"), None)
    if slide is None or check is None or slide.family.capacity_of != "moving":
        return None
    rated = slide.family.capacity_at(slide.length)
    says = f"{words.mass(rated)}, that of the nearest slide, {slide.family.id}/{slide.length.nominal:g}"
    return rated - check.margin, Capacity(_RATINGS[slide.length.capacity is not None], rated, says, FAMILY)
