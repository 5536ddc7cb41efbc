"""Slides as candidates: each length of each family is a column of the table that drawers are tried on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import Q
from drawerwright.model.family import SlideFamily, SlideLength

# Metal that moves with a box, of a pair, per metre of slide; from memory, for families that do not tell.
HARDWARE_KG_PER_METRE = 1.6


@dataclass(frozen=True, slots=True)
class SpacerChoices:
    """What can be laid between bracket and wood, fewest first: (c or 1, s) sums [mm], counts."""

    stacks: tuple[tuple[tuple[float, ...], ...], ...]
    sums: Q
    counts: Q


@dataclass(frozen=True, slots=True)
class SlideRows:
    """Candidates of one carriage: family and length by column; numbers as (1, c) or, all alike, (1, 1).

    Row holes are several of a length: (1, c, k), padded with nan.
    """

    carriage: str
    candidates: tuple[tuple[SlideFamily, SlideLength], ...]
    orders: NDArray[np.intp]
    values: dict[str, Q]
    spacers: SpacerChoices


_MOST_KEPT = 8
_KEPT: dict[tuple[int, ...], tuple[tuple[SlideFamily, ...], tuple[SlideRows, ...]]] = {}


def slide_rows(families: Sequence[SlideFamily]) -> tuple[SlideRows, ...]:
    """Candidates grouped by carriage; `orders` is a candidate's place in the files.

    The tables of the last few sets of families are kept: a server fits one drawer after the other.
    """
    key = tuple(id(family) for family in families)
    kept = _KEPT.get(key)
    if kept is None:
        while len(_KEPT) >= _MOST_KEPT:
            _KEPT.pop(next(iter(_KEPT)), None)
        # The families are held beside their table, so that no other can take their identity.
        kept = _KEPT[key] = (tuple(families), _tables(families))
    return kept[1]


def _tables(families: Sequence[SlideFamily]) -> tuple[SlideRows, ...]:
    everything = [(family, length) for family in families for length in family.lengths]
    groups = []
    for carriage in ("concealed", "side-mounted"):
        found = [(place, *item) for place, item in enumerate(everything) if item[0].carriage == carriage]
        if found:
            groups.append(_group(carriage, found))
    return tuple(groups)


def _group(carriage: str, found: Sequence[tuple[int, SlideFamily, SlideLength]]) -> SlideRows:
    by_family: dict[str, dict[str, float]] = {}
    rows = []
    for _, family, length in found:
        if family.id not in by_family:
            by_family[family.id] = _family_values(family)
        rows.append({**by_family[family.id], **_length_values(family, length)})
    values = {}
    for name in rows[0]:
        column = np.array([[row[name] for row in rows]])
        values[name] = column[:, :1] if (column == column[0, 0]).all() else column
    values["row_holes"] = _row_holes([length for _, _, length in found])
    return SlideRows(
        carriage,
        tuple((family, length) for _, family, length in found),
        np.array([place for place, _, _ in found], dtype=np.intp),
        values,
        _spacer_choices([family for _, family, _ in found]),
    )


def _row_holes(lengths: Sequence[SlideLength]) -> Q:
    """Round holes and slots of every length, (1, c, k) [mm], padded with nan."""
    told = [(*length.holes, *length.slots) for length in lengths]
    table = np.full((1, len(told), max(map(len, told))), np.nan)
    for at, holes in enumerate(told):
        table[0, at, : len(holes)] = holes
    return table


def _family_values(family: SlideFamily) -> dict[str, float]:
    bracket = family.rear_bracket
    return {
        "inside_width_deduction": family.inside_width_deduction,
        "design_side": family.design_side,
        "design_subfront": family.design_subfront,
        "least_side_gap": family.min_gap,
        "latch_tolerance_side": family.latch_tolerance.side,
        "latch_tolerance_along": family.latch_tolerance.along,
        "band_low": family.width_band[0],
        "band_high": family.width_band[1],
        "clearance_under": family.clearance.under,
        "clearance_over": family.clearance.over,
        "rear_clearance": family.clearance.rear,
        "member_overlay": family.front_overlay,
        "member_inset": family.front_inset,
        "box_ahead": family.box_ahead,
        "setback": family.setback,
        "screw_line_up": family.heights.screw_line,
        "rear_bracket_up": family.heights.rear_bracket,
        "on_shelf": family.heights.on_shelf,
        "bottom_recess": family.bottom_recess,
        "notch_width": family.rear.notch_width,
        "notch_height": family.rear.notch_height,
        "bracket_angle": family.bracket_angle,
        "bore": family.rear.bore,
        "bore_depth": family.rear.bore_depth,
        "bore_in": family.rear.bore_in,
        "bore_up": family.rear.bore_up,
        "bracket_centre": bracket.centre if bracket else 0.0,
        "reach_low": bracket.reach[0] if bracket else 0.0,
        "reach_high": bracket.reach[1] if bracket else 0.0,
        "front_fix": family.front_fix,
        "adjust_depth_low": family.adjust.depth[0],
        "adjust_depth_high": family.adjust.depth[1],
        "adjust_height_low": family.adjust.height[0],
        "adjust_height_high": family.adjust.height[1],
        "width_to_length": family.width_to_length,
        "counts_moving": 1.0 if family.capacity_of == "moving" else 0.0,
    }


def _length_values(family: SlideFamily, length: SlideLength) -> dict[str, float]:
    estimate = HARDWARE_KG_PER_METRE * length.member / 1000
    return {
        "capacity": family.capacity_at(length),
        "member": length.member,
        "carried_length": length.box,
        "travel": family.travel_of(length),
        "shelf_hole_count": float(len(length.shelf_holes)),
        "takes_rear_bracket": 1.0 if length.rear_slot and family.rear_bracket is not None else 0.0,
        "hardware_mass": estimate if family.hardware_mass is None else family.hardware_mass,
    }


def _spacer_choices(families: Sequence[SlideFamily]) -> SpacerChoices:
    stacks = [_stacks(family.spacers) for family in families]
    if all(one == stacks[0] for one in stacks):
        stacks = stacks[:1]
    most = max(len(one) for one in stacks)
    sums = np.full((len(stacks), most), np.inf)
    counts = np.full((len(stacks), most), 9.0)
    for row, choices in enumerate(stacks):
        sums[row, : len(choices)] = [sum(choice) for choice in choices]
        counts[row, : len(choices)] = [len(choice) for choice in choices]
    return SpacerChoices(tuple(stacks), sums, counts)


def _stacks(spacers: Sequence[float]) -> tuple[tuple[float, ...], ...]:
    """None, one or two spacers, repeats allowed."""
    return tuple(stack for count in range(3) for stack in combinations_with_replacement(spacers, count))
