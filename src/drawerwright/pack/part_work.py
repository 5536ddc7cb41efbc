"""What is still cut, bored or banded on a part before the box is put together, in words.

Where inches are wanted they stand beside the mm, but not of bits and grooves: those follow what they take.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.model.fitted import BoxSizes, FittedDrawer, Part
from drawerwright.pack.figures import inches, length_text, millimetres, wide_enough
from drawerwright.pack.front_rows import AS_PULLED, places_text
from drawerwright.pack.packing import packing_screws_text
from drawerwright.pack.shown import MILLIMETRES, Shown
from drawerwright.units import is_just_inches

_BANDED: Final = {
    "top": "upper edge",
    "bottom": "lower edge",
    "left": "left end",
    "right": "right end",
}
_ALL_ROUND: Final = 4
BOTTOM_PLAY: Final = "take 0.5 to 1 mm off its length and width, so that the box pulls up"
"""A bottom is listed to the floor of its grooves; glue and swelling want play. Common practice, no source."""


def edges_text(part: Part) -> str:
    """The edges that are banded, in words; empty where none is."""
    if len(part.edged) == _ALL_ROUND:
        return "all round"
    return ", ".join(_BANDED.get(edge, edge) for edge in part.edged)


def joint_depth(fitted: FittedDrawer) -> float:
    """How deep the corner joints are let in [mm]; 0 where the joint is not let in."""
    worked = fitted.workings.get("joint_depth")
    if fitted.drawer.box.joint not in ("rabbet", "dovetail") or worked is None:
        return 0.0
    return worked.value


def joint_words(fitted: FittedDrawer, shown: Shown = MILLIMETRES) -> str:
    """The corner joint, with how deep it is let in."""
    joint, depth = fitted.drawer.box.joint, length_text(joint_depth(fitted), shown)
    return {
        "butt": "butt joints, screwed",
        "dowel": "dowel joints",
        "rabbet": f"rabbets {depth} deep in the ends of the sides",
        "dovetail": f"half-blind dovetails, tails of the sides {depth} into front and back",
    }[joint]


def part_work(part: Part, fitted: FittedDrawer, shown: Shown = MILLIMETRES) -> str:
    """Joints, grooves, notches and bores of one part; empty where there is nothing to do, or nothing fits.

    In mm, with inches in brackets where `shown` has any.
    """
    if fitted.box is None or fitted.slide is None:
        return ""
    how = replace(shown, units="both") if shown.with_inches else shown
    return "; ".join(
        [
            *_packing(part),
            *_joint(part, fitted, how),
            *_groove(part, fitted, fitted.box, how),
            *_rear(part, fitted, how),
            *_front(part, fitted, how),
            *_sawn_out(part, fitted, fitted.box, how),
        ]
    )


def _packing(part: Part) -> Iterator[str]:
    """Where a strip of packing goes, and what its thickness asks of the member's screws."""
    if part.part.startswith("packing "):
        yield f"behind the member, its middle on the screw line; {packing_screws_text(part.thickness)}"
    if part.part.startswith("rear packing "):
        under = "under the member's rear end, its middle on the screw line"
        yield f"{under}; {packing_screws_text(part.thickness)}"


def _is_box_front(fitted: FittedDrawer) -> bool:
    """Whether the front closes the box itself, with no subfront behind it."""
    return fitted.drawer.box.front == "integral" and fitted.drawer.existing_box is None


def _joint(part: Part, fitted: FittedDrawer, how: Shown) -> Iterator[str]:
    depth = length_text(joint_depth(fitted), how)
    match fitted.drawer.box.joint, part.part:
        case "rabbet", "side":
            yield f"rabbets {depth} deep at both ends"
        case "dovetail", "side":
            yield f"tails {depth} long at both ends"
        case "dovetail", "subfront" | "back":
            yield f"half-blind sockets {depth} deep at both ends"
        case "dowel", "side" | "subfront" | "back":
            yield "dowel holes at both ends"
        case "dovetail", "front" if _is_box_front(fitted):
            yield f"half-blind sockets {depth} deep in its back for both sides"
        case "dowel", "front" if _is_box_front(fitted):
            yield "dowel holes in its back for both sides"


def _groove(part: Part, fitted: FittedDrawer, box: BoxSizes, how: Shown) -> Iterator[str]:
    kind = fitted.drawer.box.bottom
    if part.part == "bottom":
        yield {
            "groove-4": f"into the grooves all round; {BOTTOM_PLAY}",
            "groove-3": f"into three grooves, screwed to the back; {BOTTOM_PLAY}",
        }.get(kind, "screwed under the box")
    grooved = {"groove-4": ("side", "subfront", "back"), "groove-3": ("side", "subfront")}.get(kind, ())
    groove = f"groove {_wide(box.bottom, how)} wide, {length_text(box.groove_depth, how)} deep,"
    if part.part in grooved:
        yield f"{groove} {length_text(box.bottom_recess, how)} above the lower edge"
    if part.part == "front" and _is_box_front(fitted) and grooved and fitted.front is not None:
        # The front reaches below its box: its own lower edge is what the saw's fence runs along.
        below = box.lower_edge - fitted.opening.floor + fitted.front.bottom
        up = length_text(box.bottom_recess + below, how)
        yield f"{groove} {up} above the lower edge, between the box sides"


def _wide(thickness: float, how: Shown) -> str:
    """A groove's width: that of the board as measured, never the fraction next to it."""
    wide = wide_enough(thickness)
    return f"{wide} ({inches(thickness, how)} in)" if how.with_inches and is_just_inches(thickness) else wide


def _rear(part: Part, fitted: FittedDrawer, how: Shown) -> Iterator[str]:
    cuts = rear_cuts(fitted) if part.part == "back" else None
    if cuts is None:
        return
    if cuts.notch_height > 0:
        width = length_text(cuts.notch_outer - cuts.notch_inner, how)
        yield f"notches {width} × {length_text(cuts.notch_height, how)} at the lower corners"
    yield (
        f"hook bores Ø {millimetres(cuts.bore)}, {millimetres(cuts.bore_depth)} deep,"
        f" {length_text(cuts.half - cuts.bore_x, how)} from each end, {length_text(cuts.bore_y, how)} up"
    )


def _front(part: Part, fitted: FittedDrawer, how: Shown) -> Iterator[str]:
    """Holes of the subfront, pilots and handle borings of the front."""
    holes = fitted.fixing.holes if fitted.fixing is not None else ()
    if part.part == "subfront" and holes:
        yield f"{len(holes)} holes for the front's screws"
    if part.part != "front":
        return
    if fitted.fixing is not None and holes:
        places = places_text(fitted.fixing.holes_in_front, how)
        yield f"{len(holes)} pilot holes in its back, from the middle {places}"
    handle = fitted.drawer.front.handle
    if handle is not None and fitted.drawer.existing_box is None:
        up = length_text(part.width / 2 if handle.up is None else handle.up, how)
        many = (
            f"handle borings {length_text(handle.spacing, how)} apart"
            if handle.spacing > 0
            else "knob boring"
        )
        yield f"{many}, Ø {millimetres(handle.bore)}, {up} above the lower edge"


def _sawn_out(part: Part, fitted: FittedDrawer, box: BoxSizes, how: Shown) -> Iterator[str]:
    """What a cut-out takes from back and bottom, from the left as the drawer is pulled."""
    cut = fitted.cut_out
    if cut is None or part.part not in ("back", "bottom"):
        return
    wide = length_text(cut.width, how)
    # What stands in grooves or joints lies outside the box's inside faces, alike at both ends.
    across = part.length if part.part == "back" else part.width
    left = length_text(cut.back_left + (across - box.inside_width) / 2, how)
    if part.part == "back":
        yield f"then saw out {wide}, {left} from its left end {AS_PULLED}"
    else:
        deep = length_text(cut.bottom_cut, how)
        yield f"saw out {wide} wide, {deep} from the rear edge, {left} from its left edge {AS_PULLED}"
