"""Part sizes [mm] and masses [kg] of box and front. The parts close on the box: nothing is left for play.

What varies from drawer to drawer is multiplied last: over many openings the rest is then one small row.
"""

from __future__ import annotations

from drawerwright.equations.equation import Q, equation
from drawerwright.equations.sources import FAMILY, GEOMETRY, PRACTICE, PRACTICE_FAMILY, STATICS

CUBIC_METRE = 1e9
SQUARE_METRE = 1e6
GROOVED = ("groove-4", "groove-3")
SHAPED = ("cut-out", "cut-out-at")


@equation("mm", source=GEOMETRY, front="applied")
def box_body_length__applied(box_length: Q) -> Q:
    """Length of the box behind the front, its own front included."""
    return box_length


@equation("mm", source=PRACTICE_FAMILY, front="integral")
def box_body_length__integral(box_length: Q, design_subfront: Q) -> Q:
    """Length of the box behind an integral front: shorter by the subfront that is not there."""
    return box_length - design_subfront


@equation("mm", source=GEOMETRY, front="applied")
def box_front_thickness__applied(subfront_thickness: Q) -> Q:
    """What of the box's length its own front takes."""
    return subfront_thickness


@equation("mm", source=GEOMETRY, front="integral")
def box_front_thickness__integral(subfront_thickness: Q) -> Q:
    """An integral front has no subfront."""
    return 0 * subfront_thickness


@equation("mm", source=GEOMETRY)
def inside_length(box_body_length: Q, box_front_thickness: Q, back_thickness: Q) -> Q:
    """Clear length inside the box."""
    return box_body_length - box_front_thickness - back_thickness


@equation("mm", source=GEOMETRY, joint=("butt", "dowel", "rabbet"))
def side_length__full(box_body_length: Q) -> Q:
    """Length of a box side: front and back stand between the sides."""
    return box_body_length


@equation("mm", source=GEOMETRY, joint="dovetail", front="applied")
def side_length__dovetail(box_body_length: Q, subfront_thickness: Q, back_thickness: Q, joint_depth: Q) -> Q:
    """Length of a box side with half-blind tails let into front and back."""
    return box_body_length - subfront_thickness - back_thickness + 2 * joint_depth


@equation("mm", source=GEOMETRY, joint="dovetail", front="integral")
def side_length__dovetail_integral(box_body_length: Q, back_thickness: Q, joint_depth: Q) -> Q:
    """Length of a box side with half-blind tails let into the front itself and into the back."""
    return box_body_length - back_thickness + 2 * joint_depth


@equation("mm", source=GEOMETRY, joint=("butt", "dowel"))
def cross_length__between(inside_width: Q) -> Q:
    """Length of subfront and back, between the sides."""
    return inside_width


@equation("mm", source=GEOMETRY, joint="rabbet")
def cross_length__rabbet(inside_width: Q, joint_depth: Q) -> Q:
    """Length of subfront and back, let into the rabbets of the sides."""
    return inside_width + 2 * joint_depth


@equation("mm", source=GEOMETRY, joint="dovetail")
def cross_length__dovetail(outside_width: Q) -> Q:
    """Length of subfront and back, as wide as the box."""
    return outside_width


@equation("mm", source=GEOMETRY, bottom="groove-4")
def back_height__grooved(box_height: Q) -> Q:
    """Height of the back: the bottom runs in a groove all round."""
    return box_height


@equation("mm", source=GEOMETRY, bottom=("groove-3", "under"))
def back_height__on_bottom(box_height: Q, bottom_recess: Q, bottom_thickness: Q) -> Q:
    """Height of a back that stands on the bottom."""
    return box_height - bottom_recess - bottom_thickness


@equation("mm", source=GEOMETRY, bottom=GROOVED)
def subfront_height__grooved(box_height: Q) -> Q:
    """Height of the subfront."""
    return box_height


@equation("mm", source=GEOMETRY, bottom="under")
def subfront_height__on_bottom(box_height: Q, bottom_recess: Q, bottom_thickness: Q) -> Q:
    """Height of a subfront that stands on the bottom."""
    return box_height - bottom_recess - bottom_thickness


@equation("mm", source=GEOMETRY, bottom=GROOVED)
def bottom_width__grooved(inside_width: Q, groove_depth: Q) -> Q:
    """Width of the bottom, in the grooves of both sides."""
    return inside_width + 2 * groove_depth


@equation("mm", source=GEOMETRY, bottom="under")
def bottom_width__under(inside_width: Q) -> Q:
    """Width of a bottom fixed under front and back, between the sides."""
    return inside_width


@equation("mm", source=GEOMETRY, bottom="groove-4")
def bottom_length__groove_4(inside_length: Q, groove_depth: Q) -> Q:
    """Length of the bottom, in the grooves of front and back."""
    return inside_length + 2 * groove_depth


@equation("mm", source=GEOMETRY, bottom="groove-3")
def bottom_length__groove_3(inside_length: Q, groove_depth: Q, back_thickness: Q) -> Q:
    """Length of the bottom, in the groove of the front and under the back."""
    return inside_length + groove_depth + back_thickness


@equation("mm", source=GEOMETRY, bottom="under")
def bottom_length__under(box_body_length: Q) -> Q:
    """Length of a bottom under front and back."""
    return box_body_length


@equation("kg", source=STATICS)
def sides_mass(side_length: Q, box_height: Q, side_thickness: Q, side_density: Q) -> Q:
    """Mass of both box sides."""
    return 2 * side_length * side_thickness * side_density / CUBIC_METRE * box_height


@equation("kg", source=STATICS)
def subfront_mass(cross_length: Q, subfront_height: Q, box_front_thickness: Q, subfront_density: Q) -> Q:
    """Mass of the subfront."""
    return cross_length * subfront_height * box_front_thickness * subfront_density / CUBIC_METRE


@equation("kg", source=STATICS)
def back_mass(cross_length: Q, back_height: Q, back_thickness: Q, back_density: Q) -> Q:
    """Mass of the back."""
    return cross_length * back_height * back_thickness * back_density / CUBIC_METRE


@equation("kg", source=STATICS)
def bottom_mass(bottom_length: Q, bottom_width: Q, bottom_thickness: Q, bottom_density: Q) -> Q:
    """Mass of the bottom."""
    return bottom_length * bottom_thickness * bottom_density / CUBIC_METRE * bottom_width


@equation("kg", source=STATICS, shape="plain")
def box_mass__plain(sides_mass: Q, subfront_mass: Q, back_mass: Q, bottom_mass: Q) -> Q:
    """Mass of the box."""
    return sides_mass + (subfront_mass + back_mass) + bottom_mass


@equation("kg", source=STATICS, shape=SHAPED)
def box_mass__cut_out(
    sides_mass: Q, subfront_mass: Q, back_mass: Q, bottom_mass: Q, inner_mass: Q, sawn_out_mass: Q
) -> Q:
    """Mass of a box with a cut-out: what is sawn out goes, inner sides and inner back come."""
    return sides_mass + (subfront_mass + back_mass) + bottom_mass + inner_mass - sawn_out_mass


@equation("kg", source=STATICS)
def front_mass(front_width: Q, front_height: Q, front_thickness: Q, front_density: Q) -> Q:
    """Mass of the front."""
    return front_width * front_height * front_thickness * front_density / CUBIC_METRE


@equation("kg", source="the preset's source, or as told", load="preset", shape="plain")
def contents__preset(
    contents_per_area: Q,
    contents_per_volume: Q,
    inside_width: Q,
    inside_length: Q,
    box_height: Q,
    bottom_recess: Q,
    bottom_thickness: Q,
) -> Q:
    """Contents by a published test load, on the bottom or in the volume of the drawer."""
    return (
        contents_per_area * inside_width * inside_length / SQUARE_METRE
        + contents_per_volume
        * inside_width
        * inside_length
        * (box_height - bottom_recess - bottom_thickness)
        / CUBIC_METRE
    )


@equation("kg", source="the preset's source, or as told", load="preset", shape=SHAPED)
def contents__preset_cut_out(
    contents_per_area: Q,
    contents_per_volume: Q,
    inside_width: Q,
    inside_length: Q,
    inner_back_length: Q,
    cut_out_depth: Q,
    inner_height: Q,
) -> Q:
    """Contents by a published test load, without the room that the cut-out and its walls take."""
    return (contents_per_area / SQUARE_METRE + contents_per_volume * inner_height / CUBIC_METRE) * (
        inside_width * inside_length - inner_back_length * cut_out_depth
    )


@equation("kg", source="as told", load="told")
def contents__told(contents_told: Q) -> Q:
    """Contents as told."""
    return contents_told


@equation("kg", source=PRACTICE)
def moving_mass(box_mass: Q, front_mass: Q, hardware_mass: Q, contents: Q) -> Q:
    """Mass that moves: box, front, hardware and contents."""
    return box_mass + front_mass + hardware_mass + contents


@equation("kg", source=FAMILY)
def counted_mass(contents: Q, moving_mass: Q, counts_moving: Q) -> Q:
    """Mass that the capacity is of."""
    return contents + counts_moving * (moving_mass - contents)
