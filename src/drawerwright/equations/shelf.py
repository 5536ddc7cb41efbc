"""Shelves: from which moving mass a loose shelf lifts at the rear, the drawer out. Statics of a beam.

The shelf lies on two supports, each as far from its end as the row holes are from the cabinet's front edge;
it is as wide and as deep as the opening and 18 thick. What moves has its middle in the middle of the box. At
full travel it turns the shelf about the front support; the shelf's own mass holds it down.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.sources import GEOMETRY, PRACTICE, STATICS

CUBIC_METRE = 1e9
SHELF_THICKNESS = 18
LEAST_ARM = 1
BEAM = (
    "statics: moments about the shelf's front support; shelf 18 thick on supports at the row holes' setback"
)


@equation("kg", source=STATICS, mount="shelf")
def shelf_mass(measured_width: Q, opening_depth: Q, shelf_density: Q) -> Q:
    """Mass of a shelf 18 thick that fills the opening."""
    return opening_depth * SHELF_THICKNESS * shelf_density / CUBIC_METRE * measured_width


@equation("mm", source=GEOMETRY, mount="shelf")
def shelf_arm(opening_depth: Q, setback: Q) -> Q:
    """From the front support back to the middle of the shelf."""
    return opening_depth / 2 - setback


@equation("mm", source=GEOMETRY, mount="shelf")
def drawer_arm(setback: Q, front_depth: Q, box_length: Q, travel: Q) -> Q:
    """From the front support forward to the middle of the drawer, out as far as it goes."""
    return np.maximum(setback - (front_depth + box_length / 2 - travel), LEAST_ARM)


@equation("kg", source=BEAM, mount="shelf")
def shelf_lifts_at(shelf_mass: Q, shelf_arm: Q, drawer_arm: Q) -> Q:
    """Moving mass from which a loose shelf lifts at the rear."""
    return np.maximum(shelf_arm, 0) / drawer_arm * shelf_mass


@equation(
    "",
    source=PRACTICE,
    mount="shelf",
    check=CheckRule(
        "shelf-fixed",
        says="A loose shelf of {shelf_mass} lifts at the rear, the drawer out, from {shelf_lifts_at} that "
        "move; here {moving_mass} do.",
        cure="Screw or lock the shelf down; never on loose pins.",
        watch_below=1,
    ),
)
def shelf_fixed_margin(shelf_fixed: Q) -> Q:
    """1 where the shelf is fixed down, 0 where nobody said, -1 where it is loose."""
    return shelf_fixed + 0
