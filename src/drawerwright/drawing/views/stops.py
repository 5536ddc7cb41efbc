"""What does not go: the next longer slide that was rejected, or what stopped every slide.

Drawn dashed in the accent, with a word, so that "why not longer" is answered by the picture.
"""

from __future__ import annotations

import math

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import NOTE_SIZE
from drawerwright.drawing.primitives import Polyline, Text, line, rectangle
from drawerwright.drawing.scene import Leader, Primitive
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.drawing.views.standing import Standing
from drawerwright.drawing.wording import shown, shown_length
from drawerwright.model.check_names import check_name_within
from drawerwright.model.fitted import MOUNT_WORDS, Rejected
from drawerwright.units import EIGHTH, HARDLY, KG_PER_POUND

_DRAWN_STRIP = 32.0
_OFF = frozenset({"opening-width", "latch-side", "latch-along", "frame-sum", "box-length"})
"""Checks that a length fails by lying beside a band, on either side of it: it may be too much as well."""


def longer_rejected(stand: Standing) -> Rejected | None:
    """The next longer slide of the same family and mount that the cabinet's depth stopped."""
    parts = stand.parts
    if parts is None:
        return None
    slide = parts.slide
    longer = [
        each
        for each in stand.fitted.rejected
        if each.because == "cabinet-depth"
        and each.mount == slide.mount
        and each.family == slide.family.id
        and each.nominal > slide.length.nominal
    ]
    return min(longer, key=lambda each: each.nominal, default=None)


def longer_end(stand: Standing) -> float | None:
    """Depth that the next longer slide would reach, the clearance behind it left out; None without one."""
    rejected = longer_rejected(stand)
    if rejected is None or stand.parts is None:
        return None
    return stand.depth - rejected.margin - stand.parts.slide.family.clearance.rear


def longer_in_plan(stand: Standing, units: Units) -> list[Primitive]:
    """The rejected longer slide's end at the right-hand side, through the cabinet back, with a note."""
    rejected, end = longer_rejected(stand), longer_end(stand)
    if rejected is None or end is None or stand.parts is None:
        return []
    outer, inner = (-x for x in stand.member_strip)
    start = stand.parts.mounting.front_end + stand.parts.mounting.member
    corners = ((outer, start), (outer, end), (inner, end), (inner, start))
    over = _lacking(rejected.margin, "mm", units)
    if not shown_in(units).with_inches:
        over = over.removesuffix(" mm")
    return [
        Polyline(corners, "accent"),
        Leader(
            (outer, end),
            (6.0, 1.6),
            2.0,
            f"{shown_length(rejected.nominal)}: {over} too long",
            tone="accent",
            dot=False,
            bend=(stand.outer_right, end),
        ),
    ]


def longer_in_side(stand: Standing) -> list[Primitive]:
    """The rejected longer slide's end in the side section."""
    end = longer_end(stand)
    if end is None or stand.parts is None:
        return []
    low, high = stand.member_heights
    start = stand.parts.mounting.front_end + stand.parts.mounting.member
    return [Polyline(((start, high), (end, high), (end, low), (start, low)), "accent")]


def nearest_miss(stand: Standing) -> Rejected | None:
    """What stopped the slide that the answer names as the one that came nearest."""
    nearest = stand.fitted.nearest
    if stand.parts is not None or nearest is None:
        return None
    wanted = (nearest.family.id, nearest.length.nominal, nearest.mount)
    return next(
        (each for each in stand.fitted.rejected if (each.family, each.nominal, each.mount) == wanted), None
    )


def stop_words(miss: Rejected, units: Units) -> tuple[str, str]:
    """What stopped it, in two short lines; a mount other than the usual one is told."""
    name = f"{miss.family} / {shown_length(miss.nominal)}"
    if miss.mount != "side":
        name += f" {MOUNT_WORDS[miss.mount]}"
    lacks = lacking_words(miss.because, miss.margin, miss.unit, units)
    return (f"stopped by {check_name_within(miss.because)}", f"{name}: {lacks}")


def lacking_words(check: str, margin: float, unit: str, units: Units) -> str:
    """By how much a check stops, and which way: "23.4 mm short"; `margin` [unit] is negative."""
    return f"{_lacking(margin, unit, units).rstrip()} {'off' if check in _OFF else 'short'}"


def _lacking(margin: float, unit: str, units: Units) -> str:
    """What is missing, rounded away from 0 as every margin is, so that as much more is enough."""
    own = shown_in(units)
    if unit == "kg":
        kg = margin / float(KG_PER_POUND) if own.in_inches else margin
        return f"{_tenths(kg)} {'lb' if own.in_inches else 'kg'}"
    if unit != "mm":
        return f"{shown_length(-margin)} {unit}"
    if not own.with_inches or abs(margin) < EIGHTH:
        return f"{_tenths(margin)} mm"
    inches = shown(margin, "in", down=True).removeprefix("\u2212")
    return inches if own.in_inches else f"{_tenths(margin)} mm ({inches})"


def _tenths(margin: float) -> str:
    return shown_length(-math.floor(margin * 10 + float(HARDLY)) / 10)


def stop_in_plan(stand: Standing, units: Units) -> list[Primitive]:
    """What stopped the nearest slide, in the plan of the bare opening."""
    miss = nearest_miss(stand)
    if miss is None:
        return []
    drawn: list[Primitive] = []
    if miss.because == "cabinet-depth":
        need = stand.depth - miss.margin
        for side in (-1.0, 1.0):
            a, b = sorted((side * (stand.half - 5.0), side * (stand.half - 5.0 - _DRAWN_STRIP)))
            drawn.append(rectangle(Bounds(a, 0.0, b, need), "accent"))
    elif miss.unit == "mm" and miss.because in ("side-thickness", "opening-width", "latch-side", "frame-sum"):
        for x in (-stand.half, stand.half):
            inward = x - (1.0 if x > 0 else -1.0) * max(-miss.margin, 2.0)
            drawn.append(line((inward, 0.0), (inward, stand.depth), "accent"))
    first, second = stop_words(miss, units)
    at = (0.0, stand.depth / 2)
    drawn.append(Text(at, first, NOTE_SIZE, "middle", "semibold", "accent", (0.0, 0.8), backed=True))
    drawn.append(Text(at, second, NOTE_SIZE, "middle", "regular", "accent", (0.0, -3.0), backed=True))
    return drawn


def stop_in_height(stand: Standing, left: float, right: float, units: Units) -> list[Primitive]:
    """A dashed line at the height that the nearest slide would need, between two x or depths."""
    miss = nearest_miss(stand)
    if miss is None or miss.because != "opening-height":
        return []
    need = stand.fitted.opening.height - miss.margin
    return [
        line((left, need), (right, need), "accent"),
        Text((right, need), f"{shown(need, units)} wanted", anchor="end", tone="accent", shift=(-1.0, 1.0)),
    ]
