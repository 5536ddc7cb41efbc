"""Odd entries about where the members stand: behind the front, on the cabinet, on a frame, in the opening."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drawerwright.catalogue.family_remark import Figures, Oddity
from drawerwright.model.family import SlideFamily

_SETBACK: Final = 37.0
"""Depth of the first row hole [mm]: common practice, the 32 mm system."""

_FRAME: Final = 19.0
"""A usual face frame's thickness [mm]: common practice, no source."""

_STANDS_OFF: Final = 6.0
_MUCH_ROOM: Final = 50.0
_HIGH_SCREW: Final = 60.0
_LITTLE_REACH: Final = 5.0
_RATIOS: Final = (1.0, 5.0)
_HEAVY_SHARE: Final = 0.2

CONCEALED_ONLY: Final = (
    "design_subfront",
    "latch_tolerance",
    "spacers",
    "heights.rear_bracket",
    "heights.on_shelf",
    "rear",
    "bracket_holes",
    "bracket_angle",
    "rear_bracket",
    "front_fix",
    "side_strain",
    "width_to_length",
)
"""Keys that nothing asks for where the slides stand beside the box."""

_SAYS_NOTHING: Final = (
    "latch_tolerance",
    "spacers",
    "rear",
    "bracket_holes",
    "bracket_angle",
    "rear_bracket",
)


def front_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Whether the depth adjuster can bring an overlay and an inset front home."""
    low, high = family.adjust.depth
    off = family.box_ahead - family.front_overlay
    told = figures.mm(family.box_ahead)
    if off + high < 0.0:
        yield (
            "box_ahead",
            told,
            (
                f"{told} ahead of a member {figures.mm(family.front_overlay)} deep sets an overlay front "
                f"{figures.mm(-off)} inside the cabinet's edge; the depth adjuster gives {figures.mm(high)}"
            ),
            "Every overlay front would strike the cabinet before the drawer is home.",
            "Hang one box on one slide and measure from the member's front end to the face of the subfront.",
        )
    elif off > _STANDS_OFF:
        yield (
            "box_ahead",
            told,
            (
                f"{told} ahead of a member {figures.mm(family.front_overlay)} deep leaves an overlay front "
                f"{figures.mm(off)} off the cabinet"
            ),
            "A gap that wide shows from the side, and no adjuster draws a front further in than home.",
            "Hang one box on one slide and measure from the member's front end to the face of the subfront.",
        )
    out = family.box_ahead - family.front_inset
    if min(out + high, -out - low) < 0.0:
        yield (
            "front_inset",
            figures.mm(family.front_inset),
            (
                f"{figures.mm(family.front_inset)} behind an inset front leaves its face "
                f"{figures.mm(abs(out))} "
                f"{'out of' if out > 0 else 'behind'} the cabinet's; the depth adjuster moves it "
                f"{figures.places((low, high))}"
            ),
            "No inset front of the family could be brought flush.",
            f"As much as box_ahead, {told}, or what the adjuster can make up for.",
        )


def mounting_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Row holes, frame, rear bracket, and the room that the family wants."""
    if any(length.holes for length in family.lengths) and abs(family.setback - _SETBACK) > 1.0:
        told = figures.mm(family.setback)
        yield (
            "setback",
            told,
            f"{told} is not the {figures.mm(_SETBACK)} of the 32 mm system (common practice)",
            (
                "Cabinet sides bored on that system have their row at 37: the member's holes would miss "
                "it by "
                f"{figures.mm(abs(family.setback - _SETBACK))}, and the front stand off by as much."
            ),
            (
                "From the cabinet's front edge to the first hole, the member at its place behind an overlay "
                "front."
            ),
        )
    if family.carriage == "concealed" and family.front_overlay + family.front_fix > _FRAME:
        told = figures.mm(family.front_fix)
        yield (
            "front_fix",
            told,
            (
                f"{told} behind a front end {figures.mm(family.front_overlay)} deep is past a frame of "
                f"{figures.mm(_FRAME)}"
            ),
            "On every usual face frame the front screw would meet air, and the sheet asks for a block.",
            "From the member's front end to the middle of its foremost screw hole.",
        )
    yield from _rear_bracket_oddities(family, figures)
    for key, value in family.clearance:
        if value > _MUCH_ROOM:
            told = figures.mm(value)
            yield (
                f"clearance.{key}",
                told,
                f"{told} is much room to leave {key if key == 'under' or key == 'over' else 'behind'}",
                "Every box comes out lower, or a slide shorter, than the opening would hold.",
                "The least that the slide itself wants; 14 under and 7 over are common practice.",
            )
    if family.heights.screw_line > _HIGH_SCREW:
        told = figures.mm(family.heights.screw_line)
        yield (
            "heights.screw_line",
            told,
            f"{told} above the box's lower edge is high for a member's screws",
            "Row holes are chosen by it: the drawer would hang a row too low.",
            "From the lower edge of the box side up to the middle of the member's screws.",
        )
    if not _RATIOS[0] <= family.width_to_length <= _RATIOS[1]:
        told = f"{family.width_to_length:g}"
        yield (
            "width_to_length",
            told,
            f"{told} is no ratio at which a drawer begins to rack",
            "Too small, every drawer is to be watched; too large, a wide one that jams is called good.",
            "2.5, common practice without a source.",
        )
    mass = family.hardware_mass
    if mass is not None and (mass == 0.0 or mass > _HEAVY_SHARE * family.capacity):
        told = figures.kg(mass)
        yield (
            "hardware_mass",
            told,
            f"{told} of moving metal does not go with a capacity of {figures.kg(family.capacity)}",
            (
                "It counts in what moves: too much refuses loads that would hold, none lets a little too "
                "much in."
            ),
            "Weigh a pair and take the part that comes out with the drawer, about two thirds of it.",
        )


def _rear_bracket_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    bracket = family.rear_bracket
    if bracket is None or family.carriage == "side-mounted":
        return
    low, high = bracket.reach
    told = figures.places(bracket.reach)
    room = high - max(low, family.clearance.rear)
    if room < 0.0:
        yield (
            "rear_bracket.reach",
            told,
            f"{told} ends before the {figures.mm(family.clearance.rear)} that clearance.rear keeps free",
            (
                "What the bracket reaches is refused for want of depth, and what has the depth is out of its "
                "reach: "
                "no cabinet could use it."
            ),
            (
                "From the member's rear end to the cabinet back, bracket pushed in and drawn out: such as "
                "[0, 45]."
            ),
        )
    elif room < _LITTLE_REACH:
        yield (
            "rear_bracket.reach",
            told,
            f"{told} leaves {figures.mm(room)} in which a cabinet back may stand",
            "Hardly any cabinet is that deep to the millimetre: rear brackets would never be chosen.",
            (
                "From the member's rear end to the cabinet back, bracket pushed in and drawn out: such as "
                "[0, 45]."
            ),
        )
    if bracket.centre >= family.inside_width_deduction / 2 + family.rear.notch_width:
        told = figures.mm(bracket.centre)
        yield (
            "rear_bracket.centre",
            told,
            f"{told} inside the frame's edge lies beyond the notch, where no member runs",
            "The brackets would be screwed to the cabinet back beside the members.",
            "From the inside edge of the frame to the middle of the member; 14 is common practice.",
        )
    if not any(length.rear_slot for length in family.lengths):
        yield (
            "rear_bracket",
            "",
            "is told, but no length takes one: rear_slot is false in all of them",
            "Face-frame drawers fall back to packing although brackets are there.",
            "rear_slot = true in the lengths that have the slot, or no rear_bracket.",
        )


def side_mounted_oddities(family: SlideFamily, figures: Figures) -> Iterator[Oddity]:
    """Keys of a concealed slide in a family that stands beside the box."""
    for key in _SAYS_NOTHING:
        value = getattr(family, key)
        if key in family.model_fields_set and value not in (None, ()):
            yield (
                key,
                figures.any(key, value),
                'says nothing where carriage = "side-mounted"',
                (
                    "Such a slide has no bracket under the box and no hook in its back: either the key "
                    "or the "
                    "carriage is of another slide."
                ),
                f'Leave {key} out, or write carriage = "concealed".',
            )
