"""How an applied front is fixed and set, put into words for the page: names and values."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drawerwright.model.fitted import FittedDrawer, FrontFixing, Point
from drawerwright.pack.figures import NOUGHT, hardware_text, length_text, lengths_text, longest_text
from drawerwright.pack.shown import Shown

Row = tuple[str, str]

SET_THE_FRONT: Final = "Set the front"
ADJUSTERS_HAVE: Final = "Then the adjusters have"
AS_PULLED: Final = "as the drawer is pulled"
"""Whose left and right are meant, on the front's back too."""


def front_rows(fitted: FittedDrawer, shown: Shown) -> tuple[Row, ...]:
    """Names and values of the front's screws, its handle and how it is set; none where it is not applied."""
    fixing = fitted.fixing
    if fixing is None:
        return ()
    rows: list[Row] = []
    if fixing.holes:
        most = longest_text(fixing.longest_screw, shown)
        rows += [
            ("Screws through the subfront", f"{len(fixing.holes)}, no longer than {most}"),
            (
                "In the subfront, from its middle, above the box's lower edge",
                places_text(fixing.holes, shown),
            ),
            (
                "In the front's back, from its middle, above its lower edge",
                places_text(fixing.holes_in_front, shown),
            ),
        ]
    if fixing.handle:
        name = "Handle borings" if len(fixing.handle) > 1 else "Knob boring"
        bore = hardware_text(fixing.handle_bore, shown)
        rows.append((f"{name} Ø {bore}, from the front's middle, up", places_text(fixing.handle, shown)))
    if fitted.drawer.box.front == "applied":
        rows.append((SET_THE_FRONT, set_text(fitted, fixing, shown)))
        rows.append((ADJUSTERS_HAVE, room_text(fixing, shown)))
    return tuple(rows)


def places_text(places: Sequence[Point], shown: Shown) -> str:
    """Places that form a grid as distances across and up; any others one by one [mm].

    Signs would be read mirrored by whoever stands behind a front: hands are told, as the drawer is pulled.
    """
    across = sorted({round(x, 3) for x, _ in places})
    up = sorted({round(y, 3) for _, y in places})
    if len(across) * len(up) == len(places):
        return f"{_across_text(across, shown)}; {lengths_text(up, shown)} up"
    told = "; ".join(f"{_from_middle(x, shown)}, {length_text(y, shown)} up" for x, y in places)
    return f"{told}; {AS_PULLED}"


def _across_text(across: Sequence[float], shown: Shown) -> str:
    """Distances from the middle; those that lie alike to both hands stand once, with ±."""
    if all(any(abs(x + other) < NOUGHT for other in across) for x in across):
        halves = [x for x in across if x > NOUGHT]
        middle = ["0"] if len(halves) * 2 < len(across) else []
        return ", ".join([*middle, *(f"± {length_text(x, shown)}" for x in halves)]) + " across"
    return ", ".join(_from_middle(x, shown) for x in across) + f", {AS_PULLED}"


def _from_middle(x: float, shown: Shown) -> str:
    """How far from the middle, and to which hand of whoever pulls the drawer."""
    if abs(x) < NOUGHT:
        return "middle"
    return f"{'left' if x < 0 else 'right'} {length_text(abs(x), shown)}"


def low_text(fixing: FrontFixing, shown: Shown) -> str:
    """How much lower than its even place the front is fixed."""
    return "even" if fixing.low_by < NOUGHT else f"{length_text(fixing.low_by, shown)} low"


def set_text(fitted: FittedDrawer, fixing: FrontFixing, shown: Shown) -> str:
    """How low the front is set, and where it then stands in depth: as far in as the members put it."""
    told = low_text(fixing, shown)
    inset = fitted.drawer.front.style == "inset"
    if inset:
        told += f", on shims of {length_text(fitted.drawer.front.gap - fixing.low_by, shown)}"
    if fixing.deep_by < NOUGHT:
        return f"{told}; its depth is where the members stand"
    even = "flush" if inset else "clear of the cabinet's edge"
    return f"{told}; the members put it {length_text(fixing.deep_by, shown)} back of {even}"


def room_text(fixing: FrontFixing, shown: Shown) -> str:
    """What the adjusters can still do each way, from the front's even place; closed ways are named."""
    told = (
        ("up", fixing.room_up),
        ("down", fixing.room_down),
        ("out", fixing.room_out),
        ("inwards", fixing.room_in),
    )
    open_ways = [f"{length_text(room, shown)} {way}" for way, room in told if room >= NOUGHT]
    closed = [way for way, room in told if room < NOUGHT]
    ways = ", ".join(open_ways) or "nothing"
    return f"{ways}; nothing {' or '.join(closed)}" if closed and open_ways else ways
