"""An existing box on another slide: whether its bores, notches and recess are where that slide wants them.

Margins [mm]; these checks only watch: what they find is work on the box, not a reason to leave the slide.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.sources import GEOMETRY, PRACTICE_FAMILY, TOOL

CONCEALED = "concealed"
PLAY = 0.5
"""How far a bore or the bottom may be off [mm] and stay as it is: the tool's own rule."""


@equation(
    "",
    source=TOOL,
    box="existing",
    check=CheckRule(
        "box-measured",
        says="Of the old box {measured_sizes}.",
        cure="Measure before you buy the slides: another size can want other ones.",
        only_watches=True,
    ),
)
def box_measured_margin(existing_unmeasured: Q) -> Q:
    """How many of the box's sizes are not told and taken as they would be cut, as a lack."""
    return -existing_unmeasured


@equation("mm", source=PRACTICE_FAMILY, carriage=CONCEALED, box="existing")
def bore_from_inside(bore_in: Q, bracket_off_side: Q) -> Q:
    """Hook bore from the side's inside face: it stays where the slide is, wherever that face stands."""
    return bore_in + bracket_off_side


@equation("mm", source=PRACTICE_FAMILY, carriage=CONCEALED, box="existing")
def notch_from_inside(notch_width: Q, bracket_off_side: Q) -> Q:
    """Width of the notch from the side's inside face."""
    return notch_width + bracket_off_side


@equation("mm", source=GEOMETRY, carriage=CONCEALED, box="existing", old_bores="told")
def bore_off(existing_bore_in: Q, bore_from_inside: Q, existing_bore_up: Q, bore_up: Q) -> Q:
    """How far the hook bores of the box are off their place, across or up."""
    return np.maximum(np.abs(existing_bore_in - bore_from_inside), np.abs(existing_bore_up - bore_up))


@equation(
    "mm",
    source=TOOL,
    carriage=CONCEALED,
    box="existing",
    old_bores="told",
    check=CheckRule(
        "box-bore",
        says="The hook bores are {existing_bore_in} from the sides and {existing_bore_up} up; this slide "
        "wants them {bore_from_inside} from the sides and {bore_up} up.",
        cure="Bore anew; plug the old bores first where the two run into each other.",
        only_watches=True,
    ),
)
def box_bore_margin(bore_off: Q) -> Q:
    """What is left of the play that a hook bore may be off by."""
    return PLAY - bore_off


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    carriage=CONCEALED,
    box="existing",
    old_notches="told",
    check=CheckRule(
        "box-notch",
        says="The notches are {existing_notch_width} wide and {existing_notch_height} high; this slide wants "
        "{notch_from_inside} and {notch_height}.",
        cure="Saw the notches larger.",
        only_watches=True,
    ),
)
def box_notch_margin(
    existing_notch_width: Q, notch_from_inside: Q, existing_notch_height: Q, notch_height: Q
) -> Q:
    """What the notches of the box have over what the members want."""
    return np.minimum(existing_notch_width - notch_from_inside, existing_notch_height - notch_height)


@equation("mm", source=GEOMETRY, carriage=CONCEALED, box="existing", old_recess="told")
def recess_off(existing_bottom_recess: Q, bottom_recess: Q) -> Q:
    """How much deeper the bottom's underside stands in the box than this slide wants."""
    return existing_bottom_recess - bottom_recess


@equation(
    "mm",
    source=TOOL,
    carriage=CONCEALED,
    box="existing",
    old_recess="told",
    check=CheckRule(
        "box-recess",
        says="The bottom's underside stands {existing_bottom_recess} above the sides' lower edges; this "
        "slide wants {bottom_recess}.",
        cure="Too deep: strips of the difference under the bottom, where the members run. Too shallow: the "
        "box runs higher by it, so refit the bottom higher or take it off the top edges.",
        only_watches=True,
    ),
)
def box_recess_margin(recess_off: Q) -> Q:
    """What is left of the play that the bottom may be off by."""
    return PLAY - np.abs(recess_off)
