"""What is still cut, bored or banded on a part before the box is put together, in words [mm]."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.model.fitted import BoxSizes, FittedDrawer, Part
from drawerwright.pack.figures import millimetres, wide_enough
from drawerwright.pack.front_rows import AS_PULLED, places_text
from drawerwright.pack.packing import packing_screws_text
from drawerwright.pack.shown import Shown

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


def joint_words(fitted: FittedDrawer) -> str:
    """The corner joint, with how deep it is let in."""
    joint, depth = fitted.drawer.box.joint, millimetres(joint_depth(fitted))
    return {
        "butt": "butt joints, screwed",
        "dowel": "dowel joints",
        "rabbet": f"rabbets {depth} deep in the ends of the sides",
        "dovetail": f"half-blind dovetails, tails of the sides {depth} into front and back",
    }[joint]


def part_work(part: Part, fitted: FittedDrawer) -> str:
    """Joints, grooves, notches and bores of one part; empty where there is nothing to do, or nothing fits."""
    if fitted.box is None or fitted.slide is None:
        return ""
    return "; ".join(
        [
            *_packing(part),
            *_joint(part, fitted),
            *_groove(part, fitted, fitted.box),
            *_rear(part, fitted),
            *_front(part, fitted),
            *_sawn_out(part, fitted, fitted.box),
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


def _joint(part: Part, fitted: FittedDrawer) -> Iterator[str]:
    depth = millimetres(joint_depth(fitted))
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


def _groove(part: Part, fitted: FittedDrawer, box: BoxSizes) -> Iterator[str]:
    how = fitted.drawer.box.bottom
    if part.part == "bottom":
        yield {
            "groove-4": f"into the grooves all round; {BOTTOM_PLAY}",
            "groove-3": f"into three grooves, screwed to the back; {BOTTOM_PLAY}",
        }.get(how, "screwed under the box")
    grooved = {"groove-4": ("side", "subfront", "back"), "groove-3": ("side", "subfront")}.get(how, ())
    groove = f"groove {wide_enough(box.bottom)} wide, {millimetres(box.groove_depth)} deep,"
    if part.part in grooved:
        yield f"{groove} {millimetres(box.bottom_recess)} above the lower edge"
    if part.part == "front" and _is_box_front(fitted) and grooved and fitted.front is not None:
        # The front reaches below its box: its own lower edge is what the saw's fence runs along.
        below = box.lower_edge - fitted.opening.floor + fitted.front.bottom
        up = millimetres(box.bottom_recess + below)
        yield f"{groove} {up} above the lower edge, between the box sides"


def _rear(part: Part, fitted: FittedDrawer) -> Iterator[str]:
    cuts = rear_cuts(fitted) if part.part == "back" else None
    if cuts is None:
        return
    if cuts.notch_height > 0:
        width = millimetres(cuts.notch_outer - cuts.notch_inner)
        yield f"notches {width} × {millimetres(cuts.notch_height)} at the lower corners"
    yield (
        f"hook bores Ø {millimetres(cuts.bore)}, {millimetres(cuts.bore_depth)} deep,"
        f" {millimetres(cuts.half - cuts.bore_x)} from each end, {millimetres(cuts.bore_y)} up"
    )


def _front(part: Part, fitted: FittedDrawer) -> Iterator[str]:
    """Holes of the subfront, pilots and handle borings of the front."""
    holes = fitted.fixing.holes if fitted.fixing is not None else ()
    if part.part == "subfront" and holes:
        yield f"{len(holes)} holes for the front's screws"
    if part.part != "front":
        return
    if fitted.fixing is not None and holes:
        places = places_text(fitted.fixing.holes_in_front, Shown())
        yield f"{len(holes)} pilot holes in its back, from the middle {places}"
    handle = fitted.drawer.front.handle
    if handle is not None and fitted.drawer.existing_box is None:
        up = millimetres(part.width / 2 if handle.up is None else handle.up)
        many = f"handle borings {millimetres(handle.spacing)} apart" if handle.spacing > 0 else "knob boring"
        yield f"{many}, Ø {millimetres(handle.bore)}, {up} above the lower edge"


def _sawn_out(part: Part, fitted: FittedDrawer, box: BoxSizes) -> Iterator[str]:
    """What a cut-out takes from back and bottom, from the left as the drawer is pulled."""
    cut = fitted.cut_out
    if cut is None or part.part not in ("back", "bottom"):
        return
    wide = millimetres(cut.width)
    # What stands in grooves or joints lies outside the box's inside faces, alike at both ends.
    across = part.length if part.part == "back" else part.width
    left = millimetres(cut.back_left + (across - box.inside_width) / 2)
    if part.part == "back":
        yield f"then saw out {wide}, {left} from its left end {AS_PULLED}"
    else:
        deep = millimetres(cut.bottom_cut)
        yield f"saw out {wide} wide, {deep} from the rear edge, {left} from its left edge {AS_PULLED}"
