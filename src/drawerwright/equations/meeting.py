"""Meeting: what will be there, built and measured with its errors, against what the slide wants.

A built value is the size cut for plus an error; a true opening is the reading plus an error. `fit` runs
these with errors of 0; a study of chance pins the sizes and samples the errors. Margins [mm] unless said:
negative is broken.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Cure, Q, equation
from drawerwright.equations.sources import FAMILY, GEOMETRY, PRACTICE, PRACTICE_FAMILY, TOOL

CONCEALED = "concealed"
STABILISED = 2

_NO_BOX = Cure("room_in_box", -1, "A wider opening: this one leaves no box.")
_TOO_NARROW = Cure(
    "too_narrow",
    1,
    "Make the box narrower by {too_narrow}, or, on locking brackets, lay spacers of half of it against each "
    "side.",
)


@equation("mm", source=GEOMETRY)
def true_opening_width(opening_width: Q, error_opening_width: Q) -> Q:
    """Width of the opening as it is."""
    return opening_width + error_opening_width


@equation("mm", source=GEOMETRY)
def built_inside_width(inside_width: Q, error_inside_width: Q) -> Q:
    """Inside width of the box as built."""
    return inside_width + error_inside_width


@equation("mm", source=GEOMETRY)
def built_outside_width(outside_width: Q, error_inside_width: Q, error_side: Q) -> Q:
    """Outside width of the box as built."""
    return outside_width + error_inside_width + 2 * error_side


@equation("mm", source=GEOMETRY)
def built_front_end(front_end: Q, error_member_depth: Q) -> Q:
    """Depth of the member's front end as mounted."""
    return front_end + error_member_depth


@equation("mm", source=GEOMETRY)
def true_opening_depth(opening_depth: Q, error_opening_depth: Q) -> Q:
    """Depth as it is."""
    return opening_depth + error_opening_depth


@equation("mm", source=GEOMETRY)
def built_box_height(box_height: Q, error_box_height: Q) -> Q:
    """Height of the box as built."""
    return box_height + error_box_height


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    check=CheckRule(
        "side-thickness",
        says="With {side_thickness} sides the gap is {side_gap} each side; the slide wants {least_side_gap}.",
        cure="A narrower box (by thinner sides, where its inside width is kept), or a family that has more "
        "room beside the box.",
    ),
)
def side_gap_margin(true_opening_width: Q, built_outside_width: Q, least_side_gap: Q) -> Q:
    """Gap left each side over the family's least."""
    return (true_opening_width - built_outside_width) / 2 - least_side_gap


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    check=CheckRule(
        "cabinet-depth",
        says="Depth {opening_depth}; the slide's cabinet member starts at {front_end}, is {member} long and "
        "wants {rear_clearance} behind it.",
        cure="A shorter slide and box, or more depth.",
    ),
)
def depth_margin(
    true_opening_depth: Q,
    built_front_end: Q,
    member: Q,
    rear_clearance: Q,
    box_ahead: Q,
    box_length: Q,
) -> Q:
    """Depth left behind the slide and its rear clearance (or behind the box, where that is longer)."""
    return true_opening_depth - built_front_end - np.maximum(member + rear_clearance, box_length - box_ahead)


@equation("mm", source=PRACTICE_FAMILY, carriage=CONCEALED)
def wider_than_cut_for__concealed(
    true_opening_width: Q, inside_width_deduction: Q, built_inside_width: Q, side_spacers: Q
) -> Q:
    """Opening less deduction less inside width between the spacers: what the pair has to give way by."""
    return true_opening_width - inside_width_deduction - (built_inside_width - 2 * side_spacers)


@equation("mm", source=PRACTICE_FAMILY, carriage="side-mounted")
def wider_than_cut_for__side_mounted(
    true_opening_width: Q, inside_width_deduction: Q, built_outside_width: Q, design_side: Q
) -> Q:
    """Opening less the room of both slides less the outside width: what the pair has to give way by."""
    return true_opening_width - inside_width_deduction - (built_outside_width - 2 * design_side)


@equation("mm", source=PRACTICE_FAMILY)
def too_wide(wider_than_cut_for: Q, widest_at_slide: Q, measured_width: Q, band_high: Q) -> Q:
    """How much the opening is wider at the slides than the pair runs in."""
    return wider_than_cut_for + widest_at_slide - measured_width - band_high


@equation("mm", source=PRACTICE_FAMILY)
def too_narrow(wider_than_cut_for: Q, narrowest_at_slide: Q, measured_width: Q, band_low: Q) -> Q:
    """How much the opening is narrower at the slides than the pair runs in."""
    return band_low - wider_than_cut_for - narrowest_at_slide + measured_width


@equation("mm", source=PRACTICE_FAMILY)
def other_end_too_wide(wider_than_cut_for: Q, narrowest_at_slide: Q, measured_width: Q, band_high: Q) -> Q:
    """How much the opening is wider than the pair runs in at the end where it is narrower."""
    return wider_than_cut_for + narrowest_at_slide - measured_width - band_high


@equation("mm", source=PRACTICE_FAMILY)
def wider_end_beyond_band(narrowest_at_slide: Q, widest_at_slide: Q, band_low: Q, band_high: Q) -> Q:
    """How much one end is too wide once the other has just the width that the pair runs in."""
    return widest_at_slide - narrowest_at_slide - (band_high - band_low)


@equation("mm", source=PRACTICE_FAMILY)
def no_width_serves(too_narrow: Q, wider_end_beyond_band: Q) -> Q:
    """Positive where one end is too narrow, and a narrower box would leave the other too wide."""
    return np.minimum(too_narrow, wider_end_beyond_band)


@equation("mm", source=GEOMETRY, carriage=CONCEALED)
def room_in_box__concealed(inside_width: Q, notch_width: Q, inside_length: Q) -> Q:
    """What is left of the back between its two notches, and of the box between front and back."""
    return np.minimum(inside_width - 2 * notch_width, inside_length)


@equation("mm", source=GEOMETRY, carriage="side-mounted")
def room_in_box__side_mounted(inside_width: Q, side_thickness: Q, inside_length: Q) -> Q:
    """Inside width over one more side, and inside length: less is no box."""
    return np.minimum(inside_width - side_thickness, inside_length)


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    readings="one",
    check=CheckRule(
        "opening-width",
        says="The opening is {wider_than_cut_for:wider|narrower} than the box is cut for; the pair runs from "
        "{band_low} to {band_high}.",
        cures=(
            _NO_BOX,
            Cure(
                "too_wide",
                1,
                "Pack the members out by {too_wide} in all, or make the box wider by it.",
            ),
            _TOO_NARROW,
        ),
    ),
)
def width_band_margin__one(wider_than_cut_for: Q, band_low: Q, band_high: Q, room_in_box: Q) -> Q:
    """How far the opening stays inside the band in which the pair runs; a box must be left."""
    return np.minimum(np.minimum(wider_than_cut_for - band_low, band_high - wider_than_cut_for), room_in_box)


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    readings=("several", "labelled"),
    check=CheckRule(
        "opening-width",
        says="The opening reads {narrowest_at_slide} to {widest_at_slide} at the slides; the pair runs from "
        "{band_low} to {band_high} off the width that the box is cut for.",
        cures=(
            _NO_BOX,
            Cure(
                "no_width_serves",
                1,
                "Make the box narrower by {too_narrow} and pack the wider end by {wider_end_beyond_band} in "
                "all, or measure again which end it is.",
            ),
            Cure(
                "other_end_too_wide",
                1,
                "Both ends are too wide: pack the members by {too_wide} in all at the wider one, by "
                "{other_end_too_wide} in all at the other.",
            ),
            Cure(
                "too_wide",
                1,
                "Pack the wider end by {too_wide} in all, or measure again which end it is.",
            ),
            _TOO_NARROW,
        ),
    ),
)
def width_band_margin__readings(
    wider_than_cut_for: Q,
    narrowest_at_slide: Q,
    widest_at_slide: Q,
    measured_width: Q,
    band_low: Q,
    band_high: Q,
    room_in_box: Q,
) -> Q:
    """Nearest that a reading comes to the ends of the band in which the pair runs."""
    return np.minimum(
        np.minimum(
            wider_than_cut_for + (narrowest_at_slide - measured_width) - band_low,
            band_high - wider_than_cut_for - (widest_at_slide - measured_width),
        ),
        room_in_box,
    )


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    readings="one",
    check=CheckRule("opening-taper", says="One width reading: no taper is known. Measure front and back."),
)
def taper_margin__one(band_high: Q, measured_width: Q) -> Q:
    """Taper that the pair could still run in."""
    return band_high + 0 * measured_width


@equation("mm", source=PRACTICE, readings="several")
def taper_known(narrowest_at_slide: Q, widest_at_slide: Q) -> Q:
    """Negative where readings differ and are not labelled front and back."""
    return narrowest_at_slide - widest_at_slide


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    readings="several",
    check=CheckRule(
        "opening-taper",
        says="Readings {narrowest_at_slide} and {widest_at_slide}, not said which is where.",
        cure="Say which is front and which is back: a wider back wants packing of half the difference "
        "each side.",
        only_watches=True,
        care="taper_known",
    ),
)
def taper_margin__several(narrowest_at_slide: Q, widest_at_slide: Q, band_high: Q) -> Q:
    """What is left of the band for a taper between the readings."""
    return band_high - (widest_at_slide - narrowest_at_slide)


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    check=CheckRule(
        "opening-height",
        says="The box is {box_height} high on {lower_edge}; {box_height_limit} is the limit under the "
        "opening's top edge with {clearance_over} over it.",
        cure="A lower box, or a higher opening.",
    ),
)
def height_margin(box_height_limit: Q, built_box_height: Q, error_opening_height: Q) -> Q:
    """Height left over the box and its clearance."""
    return box_height_limit + error_opening_height - built_box_height


@equation(
    "kg",
    source=FAMILY,
    check=CheckRule(
        "capacity",
        says="The capacity of {capacity} counts {counted_mass} (moving {moving_mass}, contents {contents}).",
        cure="Less in the drawer, or a slide that carries more.",
    ),
)
def capacity_margin(capacity: Q, counted_mass: Q) -> Q:
    """Capacity left."""
    return capacity - counted_mass


@equation(
    "",
    source=PRACTICE_FAMILY,
    carriage=CONCEALED,
    stabiliser="none",
    check=CheckRule(
        "width-to-length",
        says="The box is {outside_width} wide and {box_length} long; beyond {width_to_length} times as "
        "wide as long a drawer racks.",
        cure="A stabiliser between the slides and one handle in the middle.",
        only_watches=True,
    ),
)
def racking_margin__free(width_to_length: Q, outside_width: Q, box_length: Q) -> Q:
    """Ratio of width to length left."""
    return width_to_length - outside_width / box_length


@equation(
    "",
    source=TOOL,
    carriage=CONCEALED,
    stabiliser="fitted",
    check=CheckRule(
        "width-to-length",
        says="The box is {outside_width} wide and {box_length} long; a stabiliser joins the two slides, so "
        "they run together up to twice {width_to_length} times as wide as long.",
        cure="Two drawers beside each other instead, or a longer slide.",
        only_watches=True,
    ),
)
def racking_margin__stabilised(width_to_length: Q, outside_width: Q, box_length: Q) -> Q:
    """Ratio of width to length left where a stabiliser joins the slides."""
    return STABILISED * width_to_length - outside_width / box_length


@equation("mm", source=GEOMETRY, carriage=CONCEALED, bottom=("groove-3", "under"))
def bore_passes_groove__no_groove(back_thickness: Q) -> Q:
    """The back has no groove that the bore could meet."""
    return 0 * back_thickness


@equation("mm", source=TOOL, carriage=CONCEALED, bottom="groove-4")
def bore_passes_groove__groove(back_thickness: Q, groove_depth: Q, bore_depth: Q) -> Q:
    """Negative where the bore runs more than 1 past the groove's floor, over a thin web of wood."""
    return back_thickness - groove_depth - bore_depth + 1


@equation("mm", source=GEOMETRY, length="existing")
def length_off(box_length: Q, carried_length: Q) -> Q:
    """How far the box as it is is off the length that the slide carries."""
    return np.abs(box_length - carried_length)


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    length="existing",
    check=CheckRule(
        "box-length",
        says="The box is {box_length} long; this slide carries {carried_length}.",
        cure="The slide of the box's own length, or a box cut or built up to the slide's.",
    ),
)
def box_length_margin(latch_tolerance_along: Q, length_off: Q) -> Q:
    """What is left of the lengthways tolerance after the box's own length."""
    return latch_tolerance_along - length_off


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    carriage=CONCEALED,
    check=CheckRule(
        "hook-bore",
        says="Hook bore {bore}, {bore_depth} deep, {bore_up} above the bottom's underside, in a back of "
        "{back_thickness} over a bottom of {bottom_thickness}.",
        cure="Wood must stay all round the bore: a thinner bottom under it, a thicker back behind it, a "
        "higher box over it.",
        care="bore_passes_groove",
        care_says="The bore runs past the floor of the bottom's groove, over it: bore with a depth stop, or "
        "leave the groove out of the back.",
    ),
)
def hook_bore_margin(
    bore_up: Q,
    error_bore_up: Q,
    bore: Q,
    bottom_thickness: Q,
    back_thickness: Q,
    bore_depth: Q,
    box_height: Q,
    bottom_recess: Q,
) -> Q:
    """Least wood round the hook bore: over the bottom, behind it, above it."""
    return np.minimum(
        np.minimum(bore_up + error_bore_up - bore / 2 - bottom_thickness, back_thickness - bore_depth),
        box_height - bottom_recess - bore_up - error_bore_up - bore / 2,
    )
