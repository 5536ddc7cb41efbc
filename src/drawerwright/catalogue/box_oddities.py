"""Odd entries about what is bored and cut in the box: hook bore, notch, recess, locking bracket."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drawerwright.catalogue.family_remark import Figures, Oddity
from drawerwright.model.family import SlideFamily

_BOTTOM: Final = 6.0
"""The bottom that a job takes unless told [mm]."""

_BORES: Final = (3.0, 15.0)
_FAR_FROM_CORNER: Final = 80.0
_SPLITS: Final = 4.0
_SLANT: Final = 45.0


def back_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Notch and hook bore of the box back."""
    rear, back = family.rear, family.design_side
    if rear.bore_depth >= back:
        yield (
            "rear.bore_depth",
            figures.mm(rear.bore_depth),
            f"{figures.mm(rear.bore_depth)} goes through a back of {figures.mm(back)}",
            (
                "The hook's bore would come out inside the drawer, and the sheet stops every back of that "
                "thickness."
            ),
            f"The length of the hook and a little: at most {figures.mm(back - 2)} for that back.",
        )
    least = rear.bore / 2
    if rear.bore_up < least:
        yield (
            "rear.bore_up",
            figures.mm(rear.bore_up),
            (
                f"a bore of {figures.mm(rear.bore)} at {figures.mm(rear.bore_up)} breaks out at the bottom's "
                "underside"
            ),
            (
                "The hook would stand in the bottom's groove or in the open: nothing holds the rear of the "
                "drawer."
            ),
            "From the bottom's underside to the middle of the hook, the drawer standing on its slides.",
        )
    elif rear.bore_up - least < _BOTTOM:
        yield (
            "rear.bore_up",
            figures.mm(rear.bore_up),
            (
                f"a bore of {figures.mm(rear.bore)} at {figures.mm(rear.bore_up)} cuts into a bottom of "
                f"{figures.mm(_BOTTOM)}"
            ),
            "The drill runs into the bottom's edge and wanders; every drawer with an ordinary bottom stops.",
            f"At least {figures.mm(least + _BOTTOM)}; it counts from the bottom's underside, not its top.",
        )
    if rear.notch_height > family.bottom_recess:
        yield (
            "rear.notch_height",
            figures.mm(rear.notch_height),
            f"{figures.mm(rear.notch_height)} cuts above the recess of {figures.mm(family.bottom_recess)}",
            "The notch would cut the edge of the bottom or its groove, and the bottom loses its hold there.",
            "No higher than bottom_recess; both are 13 in common practice.",
        )
    if rear.bore_in > rear.notch_width:
        yield (
            "rear.bore_in",
            figures.mm(rear.bore_in),
            f"{figures.mm(rear.bore_in)} lies beyond the notch, {figures.mm(rear.notch_width)} wide",
            "The hook stands on the member, and the member runs in the notch: the bore would miss the hook.",
            "From the inside face of the side to the middle of the hook; 7 from memory.",
        )
    if not _BORES[0] <= rear.bore <= _BORES[1]:
        yield (
            "rear.bore",
            figures.mm(rear.bore),
            f"{figures.mm(rear.bore)} is no diameter of a hook's bore",
            "Too small, the hook does not go in; too large, it lets the rear of the drawer drop and rattle.",
            "The hook's own diameter and a little: 6 in common practice.",
        )


def bracket_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Pilot holes of the locking bracket, in from the side's inside face and back from the subfront."""
    where, holes = "bracket_holes", family.bracket_holes
    wrong_way = [hole for hole in holes if min(hole) < 0.0]
    for hole in wrong_way:
        told = figures.places(hole)
        outside = "the side" if hole[0] < 0.0 else "the subfront"
        yield (
            where,
            told,
            f"{told} lies in {outside}: a negative place is measured on the other hand or the wrong way",
            "Both hands are made from one list: the left template would be bored into the wood of the box.",
            "Both counted into the box: in from the side's inside face, back from the subfront's inner face.",
        )
    if holes and not wrong_way:
        across, back = max(hole[0] for hole in holes), max(hole[1] for hole in holes)
        if back > across:
            yield (
                where,
                f"{figures.mm(back)} back, {figures.mm(across)} in",
                f"reach {figures.mm(back)} back but only {figures.mm(across)} in: the two may be swapped",
                "A bracket lies along the subfront. With its places swapped, the template fits neither hand.",
                "Each as [in from the side's inside face, back from the subfront's inner face].",
            )
    for hole in holes:
        told = figures.places(hole)
        if max(hole) > _FAR_FROM_CORNER:
            yield (
                where,
                told,
                f"{told} is far from the corner where a bracket sits",
                "The pilot hole would miss the bracket.",
                "Counted from the corner of side and subfront, not from the middle of the box.",
            )
        elif 0.0 <= min(hole) < _SPLITS:
            yield (
                where,
                told,
                f"{told} is close upon the wood of the corner",
                "There is no room for a drill's chuck, and the screw splits the edge.",
                "To the middle of the screw hole, with spacers left out.",
            )
    if len(holes) < 2:
        yield (
            where,
            f"{len(holes)}",
            f"{len(holes)} in all: a bracket takes two screws at least",
            "On a single screw the bracket turns under the pull of the drawer and unlatches.",
            "Every hole that the template bores, such as [[12, 9], [28, 9], [12, 25]].",
        )
    if family.bracket_angle < _SLANT:
        told = f"{family.bracket_angle:g}°"
        yield (
            "bracket_angle",
            told,
            f"{told} from the face is very slanted",
            (
                "It is counted from the face: 90 is straight in. So slanted, a screw runs along under the "
                "surface."
            ),
            "75 and 15 are often mistaken for one another: the larger one is meant.",
        )
