"""A member's rolled section: its stiffness, and the stress that its bending moment comes to."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal, TypeAlias

import numpy as np

from drawerwright.carry.telescope import Drawn
from drawerwright.carry.words import Words, check_of
from drawerwright.equations.mechanics.cold_work import bending_yield
from drawerwright.equations.mechanics.effective_width import effective_section
from drawerwright.equations.mechanics.midlines import elements_of
from drawerwright.equations.mechanics.rolled_sections import SectionProperties, section_properties
from drawerwright.model.family import Profile, SlideFamily
from drawerwright.model.fitted import Check

Member: TypeAlias = Literal["cabinet", "intermediate", "drawer"]
MEMBERS: Final[tuple[Member, ...]] = ("cabinet", "intermediate", "drawer")

_TELL: Final = 1.1
"""From how many times the stress on it is told how far off yielding is. Own choice."""
SOURCE: Final = (
    "elastic bending; effective width and cold work: AISI S100, its clauses partly from memory; section and "
    "steel are the slide family's data"
)


@dataclass(frozen=True, slots=True)
class MemberSection:
    """The whole section, its bending stiffness [N mm²], and the section modulus that counts at yield [mm³].

    `yields` [N/mm²] is raised by cold work where `cold_worked`; None where the steel is not told.
    """

    member: Member
    whole: SectionProperties
    bending: float
    modulus: float | None
    yields: float | None
    cold_worked: bool


@dataclass(frozen=True, slots=True)
class MemberStress:
    """Largest moment of a member over the travel [N mm], where [mm of extension], and its stress [N/mm²]."""

    section: MemberSection
    moment: float
    at: float
    stress: float
    yields: float

    @property
    def share(self) -> float:
        """Stress over yield strength [1]."""
        return self.stress / self.yields


@lru_cache(maxsize=256)
def member_section(profile: Profile) -> MemberSection:
    """The section of one member, about its horizontal axis: the member is held upright by its rollers."""
    elements = elements_of(profile.points, profile.radii, profile.thickness)
    whole, steel = section_properties(elements, profile.thickness), profile.steel
    bending = steel.modulus * whole.ix
    if steel.yields is None:
        return MemberSection(profile.member, whole, bending, None, None, False)
    yields, worked = bending_yield(elements, profile.thickness, steel.yields, steel.ultimate, steel.modulus)
    left = [
        effective_section(elements, profile.thickness, yields, steel.modulus, top_pressed=top)
        for top in (True, False)
    ]
    modulus = min(min(one.modulus_above, one.modulus_below) for one in left)
    return MemberSection(profile.member, whole, bending, modulus, yields, worked)


def sections_of(family: SlideFamily) -> dict[Member, MemberSection]:
    """The sections that a family tells, by member."""
    return {profile.member: member_section(profile) for profile in family.profiles}


def member_bending(family: SlideFamily) -> tuple[float, float, float] | None:
    """EI of the cabinet, intermediate and drawer member [N mm²]: as measured, else of their sections."""
    if family.stiffness is not None:
        told = family.stiffness
        return told.cabinet, told.intermediate, told.drawer
    found = sections_of(family)
    if any(member not in found for member in MEMBERS):
        return None
    return found["cabinet"].bending, found["intermediate"].bending, found["drawer"].bending


def stresses_of(family: SlideFamily, drawn: Drawn) -> tuple[MemberStress, ...]:
    """Largest stress of every member whose section and yield strength are told."""
    moments = {
        "cabinet": drawn.cabinet_moment,
        "intermediate": drawn.intermediate_moment,
        "drawer": drawn.drawer_moment,
    }
    found = []
    for member, section in sections_of(family).items():
        if section.modulus is None or section.yields is None or not np.isfinite(moments[member]).all():
            continue
        place = int(np.argmax(moments[member]))
        moment = float(moments[member][place])
        at = float(drawn.extension[place])
        found.append(MemberStress(section, moment, at, moment / section.modulus, section.yields))
    return tuple(found)


def strength_check(stresses: tuple[MemberStress, ...], words: Words) -> Check:
    """Yield strength over stress of the member that comes nearest to it."""
    worst = max(stresses, key=lambda one: one.share)
    spare = worst.yields - worst.stress
    raised = ", raised by cold work" if worst.section.cold_worked else ""
    beyond = f", {worst.share:.3g} times what it bears before it yields" if spare < 0.0 else ""
    left = 1.0 / worst.share if worst.stress > 0.0 else math.inf
    times = f", at {math.floor(left * 10.0) / 10.0:g} times the stress" if _TELL <= left < math.inf else ""
    return check_of(
        "member-strength",
        spare,
        "N/mm²",
        f"The {worst.section.member} member is stressed to {worst.stress:.0f} N/mm² at "
        f"{words.length(worst.at)} out{beyond}; its steel yields at {worst.yields:.0f} N/mm²{raised}{times}. "
        "No safety factor is inside; webs under rollers and twisting are not looked at.",
        working=(
            f"yield − moment / section modulus = {worst.yields:.1f} − {worst.moment:.0f} / "
            f"{worst.section.modulus:.1f} = {spare:.1f} N/mm²"
        ),
        source=SOURCE,
        cure="Less in the drawer, or a slide of stronger members.",
    )
