"""A check in two short lines, as it stands in the margin beside its dimension.

The full sentence of every check stands under the sheet; here is what a person at the bench needs of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, TypeAlias

from drawerwright.drawing.shown import Shown
from drawerwright.model.check_names import check_name
from drawerwright.model.fitted import BoxSizes, Check, ChosenSlide, FittedDrawer
from drawerwright.pack.across import used_width_text
from drawerwright.pack.figures import (
    NOUGHT,
    hardware_text,
    length_text,
    lengths_text,
    longest_text,
    mass_text,
    mass_unit,
)

Words: TypeAlias = tuple[str, str]
"""What it is about, and what there is to say."""


def short_words(check: Check, fitted: FittedDrawer, shown: Shown) -> Words:
    """A check's name and one short sentence. What is to be done stands before what was found."""
    name = check_name(check.id)
    if check.state == "ok" and fitted.slide is not None and fitted.box is not None:
        found = _FINE.get(check.id)
        if found is not None:
            return name, found(fitted, fitted.slide, fitted.box, shown)
    if check.id == "opening-taper" and check.cure.startswith("Say which"):
        readings = lengths_text(sorted(set(fitted.opening.readings), reverse=True), shown)
        return name, f"of {readings}: say which is front. A wider back wants packing."
    return name, check.cure or check.says


_Said: TypeAlias = Callable[[FittedDrawer, ChosenSlide, BoxSizes, Shown], str]


def _gap(_: FittedDrawer, slide: ChosenSlide, box: BoxSizes, shown: Shown) -> str:
    least = hardware_text(slide.family.min_gap, shown)
    return f"is {length_text(box.side_gap, shown)}, the slide wants {least}."


def _brackets(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    off = fitted.latch.side if fitted.latch is not None else 0.0
    return _seated(off, ("too far out for", "too far in for"), slide.side_spacers, "left and right", shown)


def _brackets_along(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    off = fitted.latch.along if fitted.latch is not None else 0.0
    return _seated(off, ("ahead of", "behind"), slide.subfront_spacers, "on the subfront", shown)


def _seated(off: float, ways: tuple[str, str], spacers: tuple[float, ...], where: str, shown: Shown) -> str:
    packed = f" with {' + '.join(hardware_text(one, shown) for one in spacers)} spacers" if spacers else ""
    if abs(off) < NOUGHT:
        return f"stand on their seats, {where}{packed}."
    return f"{hardware_text(abs(off), shown)} {ways[off < 0]} their seats{packed}."


def _depth(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    depth, rear = length_text(fitted.opening.depth, shown), hardware_text(slide.family.clearance.rear, shown)
    return f"{depth}: room for the {hardware_text(slide.length.member, shown)} member and {rear} behind it."


def _width(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    low, high = (hardware_text(end, shown) for end in slide.family.width_band)
    readings = lengths_text(sorted({fitted.opening.width, fitted.opening.widest}), shown)
    readings = used_width_text(fitted, shown) or readings
    return f"{readings}: within {low} to {high} of what the box is cut for."


def _height(fitted: FittedDrawer, _: ChosenSlide, box: BoxSizes, shown: Shown) -> str:
    limit = fitted.workings.get("box_height_limit")
    if limit is None or limit.value - box.height < NOUGHT:
        return f"{longest_text(box.height, shown)} is all that the opening gives."
    return f"may be {longest_text(limit.value, shown)}; {longest_text(box.height, shown)} is taken."


def _taper(fitted: FittedDrawer, *_: object) -> str:
    if len(fitted.opening.readings) < 2:
        return "is not known, read once: measure front and back."
    return "is small enough from front to back."


def _capacity(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    mass = fitted.mass
    if mass is None or fitted.capacity is None:
        return ""
    counted, word = (
        (mass.contents, "contents") if slide.family.capacity_of == "contents" else (mass.moving, "moving")
    )
    unit = mass_unit(shown)
    return f"{mass_text(counted, shown)} {word} of {mass_text(fitted.capacity, shown)} {unit}."


def _reach(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    out = fitted.front.stands_out if fitted.front is not None else 0.0
    room = hardware_text(slide.family.adjust.depth[1], shown)
    where = "off the cabinet" if fitted.front is None or fitted.front.style != "inset" else "of the face"
    word = "stands" if out >= 0 else "lies back"
    return f"{word} {hardware_text(abs(out), shown)} {where}; the adjusters give {room}."


def _front_gap(fitted: FittedDrawer, _: ChosenSlide, __: BoxSizes, shown: Shown) -> str:
    kept = f"{length_text(fitted.drawer.front.gap, shown)} is kept beside the front"
    if fitted.fixing is None or fitted.drawer.front.style != "inset" or fitted.drawer.box.front == "integral":
        return f"{kept}."
    return f"{kept}; set {length_text(fitted.fixing.low_by, shown)} low it clears the opening."


def _bores(_: FittedDrawer, slide: ChosenSlide, __: BoxSizes, shown: Shown) -> str:
    rear = slide.family.rear
    deep = hardware_text(rear.bore_depth, shown)
    return f"{hardware_text(rear.bore, shown)}, {deep} deep: clear of the bottom."


def _notch(fitted: FittedDrawer, _: ChosenSlide, __: BoxSizes, shown: Shown) -> str:
    left = fitted.workings.get("left_over_notch")
    return (
        "leave enough of the back."
        if left is None
        else f"leave {length_text(left.value, shown)} of the back."
    )


def _rear_bracket(fitted: FittedDrawer, slide: ChosenSlide, _: BoxSizes, shown: Shown) -> str:
    reach = fitted.mounting.reach if fitted.mounting is not None else None
    if reach is None or slide.family.rear_bracket is None:
        return "reach the cabinet back."
    low, high = (hardware_text(end, shown) for end in slide.family.rear_bracket.reach)
    return f"reach {length_text(reach, shown)}; from {low} to {high} is allowed."


def _proportion(_: FittedDrawer, __: ChosenSlide, box: BoxSizes, shown: Shown) -> str:
    return f"{longest_text(box.outside_width, shown)} by {length_text(box.length, shown)}: no racking feared."


_FINE: Final[Mapping[str, _Said]] = {
    "side-thickness": _gap,
    "latch-side": _brackets,
    "latch-along": _brackets_along,
    "cabinet-depth": _depth,
    "opening-width": _width,
    "opening-height": _height,
    "opening-taper": _taper,
    "capacity": _capacity,
    "rear-bracket": _rear_bracket,
    "front-reach": _reach,
    "front-gap": _front_gap,
    "hook-bore": _bores,
    "notch": _notch,
    "width-to-length": _proportion,
    "mount": lambda *_: "nothing stands between side and member.",
    "shelf-holes": lambda *_: "the member has holes in its bottom.",
    "shelf-fixed": lambda *_: "is screwed or locked down.",
    "frame-grip": lambda *_: "meet the frame.",
    "frame-sum": lambda *_: "opening and overhangs close to the inside.",
}
