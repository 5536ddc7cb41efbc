"""What is bored, notched and mounted, put into words for the page: names and values, in the order of work."""

from __future__ import annotations

from collections.abc import Iterator

from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.model.fitted import ChosenSlide, FittedDrawer, FrontSizes, Latch, Mounting
from drawerwright.pack.across import shelf_places, used_width_text
from drawerwright.pack.figures import (
    MOUNT_WORDS,
    NOUGHT,
    hardware_text,
    holes_text,
    length_text,
    millimetres,
)
from drawerwright.pack.packing import packing_words, rear_packing_words
from drawerwright.pack.part_work import BOTTOM_PLAY, joint_words
from drawerwright.pack.shown import Shown

Row = tuple[str, str]


def bore_rows(fitted: FittedDrawer, shown: Shown) -> tuple[Row, ...]:
    """Names and values of everything bored or mounted for one drawer; none where it does not fit."""
    slide, mounting = fitted.slide, fitted.mounting
    if slide is None or mounting is None:
        return ()
    rows = [*_cabinet_rows(fitted, mounting, shown), *_back_rows(fitted, slide, shown)]
    if fitted.drawer.existing_box is None:
        rows.insert(0, ("Corners", joint_words(fitted, shown)))
        if fitted.drawer.box.bottom != "under":
            rows.insert(1, ("Bottom", f"to the floor of its grooves; {BOTTOM_PLAY}"))
    rows += _bracket_rows(slide, shown)
    if fitted.front is not None and fitted.front.style != "none":
        rows.append(("Front", _front_place(fitted.front, shown)))
    return tuple(rows)


def _cabinet_rows(fitted: FittedDrawer, mounting: Mounting, shown: Shown) -> Iterator[Row]:
    framed = fitted.drawer.construction == "face-frame"
    face = "the frame's face" if framed else "the cabinet's edge"
    if used := used_width_text(fitted, shown):
        yield "Opening less what is lost", used
    if mounting.screw_line is not None:
        moved = f" (moved up {length_text(mounting.moved_up, shown)})" if mounting.moved_up > 0.05 else ""
        yield "Screw line above the cabinet floor", holes_text((mounting.screw_line,), shown) + moved
    if mounting.holes:
        yield f"Holes, depth from {face}", holes_text(mounting.holes, shown)
    if mounting.holes and mounting.holes != mounting.holes_from_side_edge:
        yield "Holes, from the side's front edge", holes_text(mounting.holes_from_side_edge, shown)
    if mounting.slots:
        yield f"Slots first, depth from {face}", holes_text(mounting.slots, shown)
    if mounting.slots and mounting.slots != mounting.slots_from_side_edge:
        yield "Slots, from the side's front edge", holes_text(mounting.slots_from_side_edge, shown)
    if mounting.shelf_holes:
        yield "Shelf screws, depth", holes_text(mounting.shelf_holes, shown)
    if (places := shelf_places(fitted)) is not None:
        apart = length_text(fitted.opening.width, shown)
        told = f"{_both(*places, shown)}; {apart} over both"
        yield "Members' outer faces, in from the cabinet sides", told
    if mounting.packing_left > 0 or mounting.packing_right > 0:
        both = _both(mounting.packing_left, mounting.packing_right, shown)
        yield "Packing behind the members", f"{both}; {packing_words(fitted, mounting, shown)}"
    if mounting.rear_packing_left > 0 or mounting.rear_packing_right > 0:
        both = _both(mounting.rear_packing_left, mounting.rear_packing_right, shown)
        words = rear_packing_words(fitted, mounting, shown)
        yield "Packing under the members' rear ends alone", f"{both}; {words}"
    left, right = mounting.rear_bracket_left, mounting.rear_bracket_right
    if left is not None and right is not None:
        yield "Rear bracket, centre from the cabinet side", _both(left, right, shown)
    if mounting.rear_bracket_height is not None:
        yield "Rear bracket above the cabinet floor", length_text(mounting.rear_bracket_height, shown)
    if mounting.reach is not None and left is not None:
        yield "Rear bracket reaches behind the member", length_text(mounting.reach, shown)


def _both(left: float, right: float, shown: Shown) -> str:
    if abs(left - right) < 0.05:
        return f"{length_text(left, shown)} left and right"
    return f"left {length_text(left, shown)}, right {length_text(right, shown)}"


def seat_shift(slide: ChosenSlide, latch: Latch) -> float:
    """How far the seat lies inside the box side's inner face [mm]: spacers, and what they leave over."""
    return sum(slide.side_spacers) + latch.side


def _back_rows(fitted: FittedDrawer, slide: ChosenSlide, shown: Shown) -> Iterator[Row]:
    """Hook bores and notches; a back that stands above the bottom is bored by its own lower edge."""
    cuts = None if fitted.latch is None else rear_cuts(fitted)
    if fitted.latch is None or cuts is None:
        return
    rear = slide.family.rear
    shift = seat_shift(slide, fitted.latch)
    lifted = cuts.lifted > NOUGHT
    end = "each end of the back" if fitted.drawer.existing_box is None else "each side's inside face"
    up, above = (cuts.bore_y, "the back's lower edge") if lifted else (rear.bore_up, "the bottom's underside")
    yield (
        "Hook bores in the back",
        (
            f"Ø {hardware_text(rear.bore, shown)}, {hardware_text(rear.bore_depth, shown)} deep;"
            f" {hardware_text(cuts.half - cuts.bore_x, shown)} from {end},"
            f" {hardware_text(up, shown)} above {above}"
        ),
    )
    if cuts.notch_height > 0:
        wide = hardware_text(rear.notch_width + shift, shown)
        yield (
            "Notches in the back, both corners",
            f"{wide} wide, {hardware_text(cuts.notch_height, shown)} high",
        )


def _bracket_rows(slide: ChosenSlide, shown: Shown) -> Iterator[Row]:
    for spacers, where in ((slide.side_spacers, "box side"), (slide.subfront_spacers, "subfront")):
        if spacers:
            thick = " + ".join(millimetres(spacer) for spacer in spacers)
            yield f"Spacers, bracket to {where}", f"{thick} mm, left and right"
    if slide.family.bracket_holes and slide.family.carriage == "concealed":
        inward, backward = sum(slide.side_spacers), sum(slide.subfront_spacers)
        places = "; ".join(
            f"{hardware_text(x + inward, shown)}, {hardware_text(y + backward, shown)}"
            for x, y in slide.family.bracket_holes
        )
        name = f"Bracket pilots at {slide.family.bracket_angle:g}°: from the side, back from the subfront"
        yield name, places


def _front_place(front: FrontSizes, shown: Shown) -> str:
    """Where the front lies, edge by edge, over the opening or inside it."""
    edges = (("left", front.left), ("right", front.right), ("top", front.top), ("bottom", front.bottom))
    if front.style == "inset":
        return "gaps " + ", ".join(f"{edge} {length_text(-value, shown)}" for edge, value in edges)
    return "over the opening " + ", ".join(f"{edge} {length_text(value, shown)}" for edge, value in edges)


def mount_words(fitted: FittedDrawer) -> str:
    """How the members are mounted, in words; empty where nothing fits."""
    return "" if fitted.slide is None else MOUNT_WORDS[fitted.slide.mount]
