"""Remarks on a slide family that can be read: what was left to a default, what is missing, what is odd.

A remark stops nothing. The bounds here are plausibility, by judgement, without a source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final, Literal

from drawerwright.model.family import SlideFamily, SlideLength
from drawerwright.model.quantities import Record
from drawerwright.units import show_value

Kind = Literal["defaulted", "missing", "implausible"]

_OPTIONAL: Final = frozenset(
    {
        "title", "units", "invented", "source", "rear_bracket", "hardware_mass", "carriages", "carriages_for",
        "stiffness", "profiles", "roller", "soft_close",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Remark:
    """One remark: its kind, the key it speaks of ("length 500 travel"), and what it says."""

    kind: Kind
    where: str
    says: str


def check_family(family: SlideFamily) -> list[Remark]:
    """All remarks on a family: first what is implausible, then what is missing, then what was defaulted."""
    implausible = [Remark("implausible", where, says) for where, says in _implausible(family)]
    missing = [Remark("missing", where, says) for where, says in _missing(family)]
    defaulted = [Remark("defaulted", where, says) for where, says in _defaulted(family)]
    return implausible + missing + defaulted


def _defaulted(record: Record, above: str = "") -> Iterator[tuple[str, str]]:
    for key in type(record).model_fields:
        value: Any = getattr(record, key)
        if key in _OPTIONAL or key == "lengths":
            continue
        if key not in record.model_fields_set:
            yield f"{above}{key}", f"left out: {_shown(value)} is taken (common practice)"
        elif isinstance(value, Record):
            yield from _defaulted(value, f"{above}{key}.")


def _shown(value: Any) -> str:
    if isinstance(value, Record):
        return "{ " + ", ".join(f"{key} = {_shown(one)}" for key, one in value) + " }"
    if isinstance(value, tuple):
        return "[" + ", ".join(_shown(one) for one in value) + "]"
    return f"{value:g}" if isinstance(value, float) else show_value(value)


def _missing(family: SlideFamily) -> Iterator[tuple[str, str]]:
    if not family.source:
        yield "source", "left out: say where the numbers come from"
    if family.rear_bracket is None:
        yield "rear_bracket", "left out: no mounting on a rear bracket"
    if family.hardware_mass is None:
        yield "hardware_mass", "left out: the moving metal of the pair counts as 0 kg"
    if not any(length.holes for length in family.lengths):
        yield "length holes", "none in any length: no mounting on a cabinet side"
    if not any(length.shelf_holes for length in family.lengths):
        yield "length shelf_holes", "none in any length: no mounting on a shelf"
    for key, needed in (
        ("carriages", "roller forces"),
        ("stiffness", "sag from bending"),
        ("roller", "sag and racking from the rollers"),
        ("soft_close", "closing"),
    ):
        absent = getattr(family, key) is None
        if absent and not (key == "stiffness" and family.profiles):
            yield key, f"left out: nothing is said about {needed}"


def _implausible(family: SlideFamily) -> Iterator[tuple[str, str]]:
    gap = family.inside_width_deduction / 2 - family.design_side
    if gap < family.min_gap:
        leaves = f"the design side of {family.design_side:g} leaves a gap of {gap:g}"
        yield "inside_width_deduction", f"{leaves}, less than min_gap {family.min_gap:g}"
    if family.capacity > 200.0:
        yield "capacity", f"{family.capacity:g} kg is much for a pair of concealed slides"
    for key, band in (
        ("width_band", family.width_band),
        ("adjust.side", family.adjust.side),
        ("adjust.height", family.adjust.height),
        ("adjust.depth", family.adjust.depth),
    ):
        if not band[0] <= 0.0 <= band[1]:
            yield key, f"[{band[0]:g}, {band[1]:g}] leaves out 0, where everything is as designed"
    for key in ("side", "height", "depth"):
        low, high = getattr(family.adjust, key)
        step = getattr(family.adjust_step, key)
        if low < high and step > high - low:
            yield f"adjust_step.{key}", f"a step of {step:g} is longer than the whole travel, {high - low:g}"
    if family.side_strain > family.adjust.side[1] - family.adjust.side[0]:
        yield "side_strain", f"{family.side_strain:g} is more than the side adjusters can differ"
    yield from _implausible_rear(family)
    for length in family.lengths:
        for key, says in _implausible_length(family, length):
            yield f"length {length.nominal:g} {key}".rstrip(), says


def _implausible_rear(family: SlideFamily) -> Iterator[tuple[str, str]]:
    rear = family.rear
    if rear.bore_depth >= family.design_side:
        yield "rear.bore_depth", f"{rear.bore_depth:g} goes through a back of {family.design_side:g}"
    if rear.bore_up < rear.bore / 2:
        yield (
            "rear.bore_up",
            f"a bore of {rear.bore:g} at {rear.bore_up:g} breaks out at the bottom's underside",
        )
    if rear.notch_height > family.bottom_recess:
        yield "rear.notch_height", f"{rear.notch_height:g} cuts above the recess of {family.bottom_recess:g}"
    if rear.bore_in > rear.notch_width:
        yield "rear.bore_in", f"{rear.bore_in:g} lies beyond the notch, {rear.notch_width:g} wide"


def _implausible_length(family: SlideFamily, length: SlideLength) -> Iterator[tuple[str, str]]:
    travel, box, member = family.travel_of(length), length.box, length.member
    if travel > box and family.extension != "over":
        yield "travel", f"{travel:g} is beyond the box, {box:g}, though the extension is {family.extension}"
    if travel <= box and family.extension == "over":
        yield "travel", f'{travel:g} is not beyond the box, {box:g}, though the extension is "over"'
    if family.extension == "three-quarter" and not 0.6 * box <= travel <= 0.9 * box:
        yield "travel", f"{travel:g} is not about three quarters of the box, {box:g}"
    if length.capacity is not None and length.capacity > family.capacity:
        yield "capacity", f"{length.capacity:g} kg is more than the family's {family.capacity:g} kg"
    if member > box + 50.0:
        yield "member", f"{member:g} is much longer than the box, {box:g}"
    if box > member + 100.0:
        yield "box", f"{box:g} is much longer than the member, {member:g}"
    if length.holes and length.holes[0] != 0.0:
        yield "holes", f"the first is at {length.holes[0]:g}: holes are counted from the first row hole, 0"
    off_grid = [hole for hole in length.holes if abs(hole / 32.0 - round(hole / 32.0)) > 0.005]
    if off_grid:
        yield "holes", f"{_shown(tuple(off_grid))} off the 32 mm grid"
    if len(length.holes) == 1:
        yield "holes", "a single one: a member takes two screws at least"
    yield from _implausible_carriages(family, length, travel)


def _implausible_carriages(
    family: SlideFamily, length: SlideLength, travel: float
) -> Iterator[tuple[str, str]]:
    """Rollers stay on both rails only while e/4 ≤ a and b ≤ L − e/4: the carriages run half as fast."""
    if family.carriages is None or family.carriages_for is None:
        return
    scale = length.nominal / family.carriages_for
    for name, (rear, front) in (("lower", family.carriages.lower), ("upper", family.carriages.upper)):
        if rear * scale < travel / 4 or front * scale > length.member - travel / 4:
            yield "", f"the {name} rollers leave their rail before a travel of {travel:g}"
