"""Rules that hold between the keys of a slide length, and between the lengths of a family."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from drawerwright.equations.mechanics.midlines import midline_faults
from drawerwright.errors import Problem

if TYPE_CHECKING:
    from drawerwright.model.family import Profile, SlideFamily, SlideLength

LENGTH_TABLE = "[[length]] with nominal = 500"


def length_problems(length: SlideLength) -> list[Problem]:
    """What contradicts itself inside one length."""
    problems: list[Problem] = []
    for position, hole in enumerate(length.shelf_holes):
        if hole > length.member:
            says = f"lies beyond the member, {length.member:g} mm"
            try_ = f"at most {length.member:g}"
            problems.append(Problem(("shelf_holes", position), f"{hole:g} mm", says, try_))
    return problems


def family_problems(family: SlideFamily) -> list[Problem]:
    """What contradicts itself inside one family."""
    problems: list[Problem] = []
    if family.capacity <= 0.0:
        problems.append(Problem(("capacity",), f"{family.capacity:g} kg", "is not above 0", '"45 kg"'))
    if family.bracket_angle > 90.0:
        value = f"{family.bracket_angle:g}"
        problems.append(Problem(("bracket_angle",), value, "is above 90 degrees from the face", "75"))
    if family.setback < family.front_overlay:
        says = f"lies ahead of the member's front end, {family.front_overlay:g} mm"
        problems.append(Problem(("setback",), f"{family.setback:g} mm", says, "37"))
    if family.rear_bracket is not None and family.rear_bracket.reach[0] < 0.0:
        value = f"{family.rear_bracket.reach[0]:g} mm"
        problems.append(Problem(("rear_bracket", "reach", 0), value, "is negative", "[0, 45]"))
    if family.carriages is not None:
        for key in ("lower", "upper"):
            rear, ahead = getattr(family.carriages, key)
            if not 0.0 <= rear < ahead:
                says = "are not two places along the member, rear one first"
                problems.append(Problem(("carriages", key), f"[{rear:g}, {ahead:g}]", says, "[130, 370]"))
        if family.carriages_for is None:
            says = "is missing: carriages need the nominal length they are told for"
            problems.append(Problem(("carriages_for",), "", says, "carriages_for = 500"))
    return problems + _profile_problems(family) + _lengths_problems(family)


def _profile_problems(family: SlideFamily) -> list[Problem]:
    problems: list[Problem] = []
    members = [profile.member for profile in family.profiles]
    for position, member in enumerate(members):
        if member in members[:position]:
            place = ("profile", position, "member")
            problems.append(Problem(place, f'"{member}"', "has a profile already", "one profile a member"))
        alike = [other for other in range(position) if _same_line(family.profiles, other, position)]
        later = [
            other + 1
            for other in range(position + 1, len(members))
            if _same_line(family.profiles, position, other)
        ]
        problems += _section_problems(position, family.profiles[position], later, line=not alike)
    return problems


def _same_line(profiles: Sequence[Profile], one: int, other: int) -> bool:
    """Whether two profiles have the same middle line, so that what is wrong with it is told once."""
    a, b = profiles[one], profiles[other]
    return (a.points, a.radii, a.thickness) == (b.points, b.radii, b.thickness)


def _section_problems(position: int, profile: Profile, alike: Sequence[int], *, line: bool) -> list[Problem]:
    """What makes one profile impossible to roll, and strengths that contradict each other.

    `alike`: numbers of the later profiles of the same middle line; `line`: whether the line is to be told.
    """
    named = f" (the same in profile {' and '.join(map(str, alike))})" if alike else ""
    problems = [
        Problem(
            ("profile", position, fault.key, *(() if fault.place is None else (fault.place,))),
            _shown(profile, fault.key, fault.place),
            f"{fault.says}{named}",
            fault.try_,
        )
        for fault in (midline_faults(profile.points, profile.radii, profile.thickness) if line else ())
    ]
    steel = profile.steel
    if steel.ultimate is not None and steel.yields is not None and steel.ultimate < steel.yields:
        says = f"is below the yield strength, {steel.yields:g} N/mm²"
        place = ("profile", position, "steel", "ultimate")
        problems.append(Problem(place, f"{steel.ultimate:g} N/mm²", says, f"{steel.yields * 1.2:.0f}"))
    return problems


def _shown(profile: Profile, key: str, place: int | None) -> str:
    """What stands at a key of a profile, or at a place in its list, as it was read."""
    if key == "radii":
        radii = profile.radii
        return f"{radii[place or 0]:g} mm" if len(radii) == 1 or place is not None else f"{list(radii)}"
    return (
        f"{list(profile.points[place])}"
        if place is not None
        else f"{len(profile.points)} {'point' if len(profile.points) == 1 else 'points'}"
    )


def _lengths_problems(family: SlideFamily) -> list[Problem]:
    if not family.lengths:
        return [Problem(("length",), "", "is missing: a family has at least one length", LENGTH_TABLE)]
    problems: list[Problem] = []
    seen: dict[float, int] = {}
    ahead = family.setback - family.front_overlay
    for position, length in enumerate(family.lengths):
        place = ("length", position)
        first = seen.setdefault(round(length.nominal, 3), position)
        if first != position:
            says = "is the nominal length of an earlier length too"
            problems.append(Problem((*place, "nominal"), f"{length.nominal:g} mm", says, "each length once"))
        if family.extension == "over" and length.travel is None:
            says = 'is missing: extension "over" needs the travel of each length'
            problems.append(Problem((*place, "travel"), "", says, f"{length.box + 25:g}"))
        if length.capacity is not None and length.capacity <= 0.0:
            value = f"{length.capacity:g} kg"
            problems.append(Problem((*place, "capacity"), value, "is not above 0", '"45 kg"'))
        for key in ("holes", "slots"):
            for hole in getattr(length, key):
                if ahead + hole > length.member:
                    says = (
                        f"lies beyond the member: the first hole is {ahead:g} behind its front end, "
                        f"and it is {length.member:g} long"
                    )
                    try_ = f"at most {length.member - ahead:g}"
                    problems.append(Problem((*place, key), f"{hole:g} mm", says, try_))
    return problems
