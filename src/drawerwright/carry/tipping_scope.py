"""Whether the numbers of a published scope are met. It decides nothing: whoever makes a unit answers for it.

Scope of the safety standard for clothing storage units, 16 CFR 1261.2, which takes in ASTM F2057-23: free
standing, at least 27 in high, 30 lb, 3.2 ft³ enclosed (read: 16 CFR 1261.2 and CPSC business guidance).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.carry.tipping_weights import TippingDrawer
from drawerwright.carry.words import Words
from drawerwright.model.cabinet import CabinetSize

HEIGHT: Final = 686.0
"""27 in, in mm as the standard prints it; read."""
MASS: Final = 13.6
"""30 lb in kg; read."""
LITRES: Final = 90.6
"""3.2 ft³ in dm³; read."""
SOURCE: Final = "16 CFR 1261.2 and ASTM F2057-23, scope; read at the CPSC and the standard's publisher"
OUTSIDE: Final = "Built-in kitchen cabinets are out of its scope."
NO_CLAIM: Final = "This is no statement that a unit meets any standard."


@dataclass(frozen=True, slots=True)
class Scope:
    """The three numbers of the scope [mm, kg, dm³] and what they come to.

    `litres` counts the drawers alone: what else the cabinet encloses was not told. `numbers_met` is None
    where the drawers alone do not reach the volume, so that the rest of the cabinet would decide.
    """

    height: float
    mass: float
    litres: float
    numbers_met: bool | None
    says: str
    source: str = SOURCE


def scope_of(size: CabinetSize, mass: float, drawers: Sequence[TippingDrawer], words: Words) -> Scope:
    """The scope's numbers of a cabinet of this size and mass [kg, without drawers] with its empty drawers."""
    whole = mass + sum(weight.mass for one in drawers for weight in one.own)
    litres = sum(one.litres for one in drawers)
    low, light, small = size.height < HEIGHT, whole < MASS, litres < LITRES
    if low or light:
        met: bool | None = False
        why = " and ".join(
            told
            for wrong, told in (
                (low, f"{words.length(size.height)} high, under {words.length(HEIGHT)}"),
                (light, f"{words.mass(whole)}, under {words.mass(MASS)}"),
            )
            if wrong
        )
        says = f"Outside the scope of the rule for clothing storage units by its numbers: {why}."
    elif small:
        met = None
        says = (
            f"Height and mass are in the scope of the rule for clothing storage units; its drawers enclose "
            f"{litres:.0f} of {LITRES:g} dm³, the rest of the cabinet was not told."
        )
    else:
        met = True
        says = (
            f"Height, mass and volume are in the scope of the rule for clothing storage units "
            f"({words.length(HEIGHT)}, {words.mass(MASS)}, {LITRES:g} dm³): if clothes are kept in it, have "
            "it tested by the standard itself."
        )
    return Scope(size.height, whole, litres, met, f"{says} {OUTSIDE} {NO_CLAIM}")
