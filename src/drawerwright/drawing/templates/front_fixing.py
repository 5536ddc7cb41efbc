"""Template for fixing the front: its back and the subfront behind it are seen the same way, from behind.

One paper serves both. Laid to the edges of the front's back it gives the pilot places of the screws and
the handle's borings; laid to the ends and the lower edge of the box, inside the box, it gives the holes
through the subfront. Axes [mm]: x from the front's middle as seen from behind (the drawer's right hand is
at the left), y above the front's lower edge.
"""

from __future__ import annotations

from collections.abc import Sequence

from drawerwright.drawing.primitives import Text, line
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.templates.breaking import Broken, broken
from drawerwright.drawing.templates.marks import (
    HAND_SIZE,
    datum,
    datum_words,
    drawer_words,
    label,
    marked_hole,
    title_block,
)
from drawerwright.drawing.views.fixing import FIXING_HOLE, BackOfFront, back_of_front
from drawerwright.drawing.wording import bored, hardware, shown
from drawerwright.model.fitted import FittedDrawer


def front_fixing(fitted: FittedDrawer, ids: Sequence[str] | None = None, units: Units = "mm") -> Scene:
    """Screw places, handle borings, and both sets of datum edges at true size; broken where it is empty.

    Raises:
        ValueError: the drawer does not fit, or has no front that is screwed on.
    """
    back = back_of_front(fitted)
    handle = [x for x, _ in back.handle]
    lie = broken(
        -back.half, back.half, [*(x for x, _ in back.screws), *handle, back.inside_left, back.inside_right]
    )
    left, right = lie.edges
    top = back.height
    drawn: list[Primitive] = [
        datum((left, 0.0), (left, top)),
        datum((right, 0.0), (right, top)),
    ]
    for start, end in lie.stretches():
        drawn += [
            datum((start, 0.0), (end, 0.0)),
            line((start, top), (end, top), "outline", "top of the front"),
        ]
    drawn += lie.breaks(0.0, top)
    drawn += _box(back, lie)
    drawn += _holes(back, lie, units)
    drawn += _words(back, lie)
    longest = hardware(back.longest_screw, units)
    says = [
        drawer_words(fitted, ids),
        "seen from behind, left and right as the drawer is pulled",
        "on the back of the front: to its edges; on the subfront, inside the box: to the dashed lines",
        f"subfront: Ø {bored(FIXING_HOLE, units)} through; screws up to {longest}",
        f"fix the front {hardware(back.low_by, units)} low; its depth is where the members stand",
    ]
    drawn += title_block(left, right, top + 6.0, None, "Front fixing", says)
    return Scene(
        "template-front-fixing",
        f"Front fixing, {drawer_words(fitted, ids)}",
        f"Template at true size for the back of the front and the inside of the subfront: {len(back.screws)} "
        f"screw places, {len(back.handle)} handle borings",
        tuple(drawn),
    )


def _box(back: BackOfFront, lie: Broken) -> list[Primitive]:
    """Inside faces of the box sides, lower edge of the subfront, and the bottom's upper face."""
    layer = "edges of the box"
    ends = (lie.place(back.inside_left), lie.place(back.inside_right))
    high = min(back.box_high, back.height)
    drawn: list[Primitive] = [line((x, back.box_low), (x, high), "hidden", layer) for x in ends]
    for start, end in lie.stretches():
        a, b = max(start, ends[0]), min(end, ends[1])
        if b > a:
            drawn += [line((a, y), (b, y), "hidden", layer) for y in (back.box_low, back.floor)]
    return drawn


def _holes(back: BackOfFront, lie: Broken, units: Units) -> list[Primitive]:
    """Crosses with their distances: from the front's nearer end, and up from its lower edge."""
    drawn: list[Primitive] = []
    groups = (
        (back.screws, FIXING_HOLE, "screw holes through the subfront", ""),
        (back.handle, back.handle_bore, "handle borings", "handle "),
    )
    for places, diameter, operation, what in groups:
        for x, y in places:
            at = (lie.place(x), y)
            drawn += marked_hole(at, diameter, None, operation)
            drawn.append(label(at, f"{what}{shown(y, units)} up", (0.0, 7.6)))
            nearest = "middle" if abs(x) < 0.05 else f"{shown(back.half - abs(x), units)} from end"
            drawn.append(label(at, nearest, (0.0, -10.0)))
    return drawn


def _words(back: BackOfFront, lie: Broken) -> list[Primitive]:
    """Names of the datums, and the hands: seen from behind the drawer's right is at the left."""
    left, right = lie.edges
    inside = lie.place(back.inside_left)
    return [
        datum_words((left, 0.0), "lower edge of the front", (2.0, 2.0)),
        datum_words((right, back.height), "end of the front", (-2.0, -3.4), "end"),
        datum_words((left, back.height), "end of the front", (2.0, -3.4)),
        datum_words((inside, back.box_low), "lower edge of the subfront", (2.0, 1.6)),
        datum_words((inside, back.floor), "upper face of the bottom; box side", (2.0, 1.6)),
        Text((left + 3.0, back.height - 16.0), "RIGHT", HAND_SIZE, weight="semibold"),
        Text((right - 3.0, back.height - 16.0), "LEFT", HAND_SIZE, "end", "semibold"),
    ]
