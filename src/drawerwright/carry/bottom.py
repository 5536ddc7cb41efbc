"""The bottom under its contents: a plate whose edges are neither free to turn nor clamped; both are told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.carry.words import Words, check_of
from drawerwright.catalogue.strength import Strength
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY
from drawerwright.equations.mechanics.plates import (
    clamped_plate,
    rigidity,
    supported_deflection_at,
    supported_plate,
)
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import BoxSizes, Check

PLATE_SOURCE: Final = "thin plate under an even load, Poisson's ratio 0.3"


@dataclass(frozen=True, slots=True)
class Bottom:
    """A bottom [mm, N/mm²]: `pressure` of the contents, deflection in its middle, largest bending stress.

    `at_member`: deflection, edges supported, where the slide's member runs under it; `recess`: from its
    underside down to the lower edge of the sides.
    """

    short_side: float
    long_side: float
    thickness: float
    pressure: float
    supported: float
    clamped: float
    supported_stress: float
    clamped_stress: float
    at_member: float
    recess: float
    stock: Strength


def bottom_of(box: BoxSizes, family: SlideFamily, contents: float, stock: Strength) -> Bottom:
    """The bottom of a box under `contents` [kg], spread evenly between its sides."""
    across, along = box.inside_width, box.length - box.subfront - box.back
    short, long = sorted((max(across, 1.0), max(along, 1.0)))
    pressure = contents * STANDARD_GRAVITY / (short * long)
    ratio, thickness = long / short, box.bottom
    supported, clamped = supported_plate(ratio), clamped_plate(ratio)
    bend = pressure * short**4 / rigidity(stock.modulus, thickness)
    stress = 6.0 * pressure * short**2 / thickness**2
    # The member lies inside the notch; its middle is half the notch in from the side.
    place = min(family.rear.notch_width / 2.0 / across, 0.5)
    return Bottom(
        short_side=short,
        long_side=long,
        thickness=thickness,
        pressure=pressure,
        supported=supported.deflection * bend,
        clamped=clamped.deflection * bend,
        supported_stress=supported.across_short * stress,
        clamped_stress=abs(clamped.long_edge) * stress,
        at_member=supported_deflection_at(ratio, place) * bend,
        recess=box.bottom_recess,
        stock=stock,
    )


def bottom_checks(bottom: Bottom, words: Words) -> tuple[Check, ...]:
    """Stress against rupture, where that is known, and what is left above the sides' lower edge."""
    checks = [_clearance(bottom, words)]
    rupture = bottom.stock.rupture
    if rupture is not None:
        checks.insert(0, _bending(bottom, rupture, words))
    return tuple(checks)


def _bending(bottom: Bottom, rupture: float, words: Words) -> Check:
    stress = max(bottom.supported_stress, bottom.clamped_stress)
    spare = rupture - stress
    times = f", {rupture / stress:.1f} times that" if 0.0 < stress <= rupture else ""
    return check_of(
        "bottom-bending",
        spare,
        "N/mm²",
        f"The contents stress the {words.length(bottom.thickness)} bottom of {bottom.stock.title.lower()} "
        f"to {stress:.1f} N/mm²; it breaks at {rupture:.1f} N/mm²{times}. No safety factor is inside.",
        working=f"rupture − stress = {rupture:.2f} − {stress:.2f} = {spare:.2f} N/mm²",
        source=f"{PLATE_SOURCE}; {bottom.stock.source}",
        cure="A thicker bottom, or a bearer under its middle.",
    )


def _clearance(bottom: Bottom, words: Words) -> Check:
    room = bottom.recess - bottom.supported
    return check_of(
        "bottom-clearance",
        room,
        "mm",
        f"The bottom sags {words.length(bottom.clamped)} in its middle if its grooves hold it fast, "
        f"{words.length(bottom.supported)} if they let it turn, and then {words.length(bottom.at_member)} "
        f"over the slides; it lies {words.length(bottom.recess)} above the sides' lower edge.",
        working=f"bottom recess − sag = {bottom.recess:.2f} − {bottom.supported:.2f} = {room:.2f} mm",
        source=f"{PLATE_SOURCE}, edges free to turn; {bottom.stock.source}",
        cure="A thicker bottom, or a bearer under its middle: as it is, it hangs below the sides.",
    )
