"""A drawer as the numbers that the equations ask for, alone or stacked with others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from drawerwright.catalogue.boards import board, box_board, front_board
from drawerwright.catalogue.contents import contents_preset
from drawerwright.catalogue.drawer_materials import Part, material_of
from drawerwright.catalogue.materials import Materials
from drawerwright.equations.equation import Q
from drawerwright.equations.trade import ERRORS
from drawerwright.fit.columns import Overlaps
from drawerwright.fit.situation import situation_of
from drawerwright.fit.way_out import door_values, stacked_things
from drawerwright.model.job import Cabinet, Drawer

# Share of the wood that a corner joint is let in; from memory, a shop's own setting differs.
_RABBET_OF_SIDE = 1 / 2
_TAILS_OF_SUBFRONT = 2 / 3
_SHELF = "particleboard"

NO_ERRORS: dict[str, Q] = {name: np.zeros((1, 1)) for name in ERRORS}


@dataclass(frozen=True, slots=True)
class DrawerValues:
    """One drawer ready for the sheet: its conditions, its numbers [mm, kg], the box heights kept."""

    drawer: Drawer
    cabinet: Cabinet | None
    situation: Mapping[str, str]
    values: Mapping[str, float]
    kept_heights: tuple[float, ...]
    overlaps: Overlaps
    materials: Materials | None

    @property
    def as_side(self) -> tuple[str, ...]:
        """The thicknesses that are not told and go with the sides'."""
        told = {"subfront_thickness": self.drawer.subfront, "back_thickness": self.drawer.box.back}
        return tuple(name for name, thickness in told.items() if thickness is None)


def drawer_values(
    drawer: Drawer, cabinet: Cabinet | None, overlaps: Overlaps, materials: Materials | None = None
) -> DrawerValues:
    """The numbers of one drawer; `overlaps` of its front beyond the opening's edges [mm].

    `materials`: those that the job was read with, the shipped ones without.
    """
    situation = {**situation_of(drawer, cabinet), "column": overlaps.standing}
    return DrawerValues(
        drawer,
        cabinet,
        situation,
        {
            **_opening(drawer),
            **_wood(drawer),
            **_densities(drawer, materials),
            **_front(drawer, overlaps),
            **_cabinet(drawer, cabinet),
            **_existing(drawer),
            **_contents(drawer),
        },
        drawer.box.heights,
        overlaps,
        materials,
    )


def stack(drawers: Sequence[DrawerValues]) -> dict[str, Q]:
    """Drawers of one situation as arrays (d, 1); kept heights as (d, 1, k), padded with nan."""
    names = tuple(drawers[0].values)
    table = np.array([[one.values[name] for name in names] for one in drawers], dtype=np.float64)
    columns = {name: table[:, index : index + 1] for index, name in enumerate(names)}
    most = max(len(one.kept_heights) for one in drawers)
    if most:
        kept = np.full((len(drawers), 1, most), np.nan)
        for index, one in enumerate(drawers):
            kept[index, 0, : len(one.kept_heights)] = one.kept_heights
        columns["kept_heights"] = kept
    if drawers[0].situation["way"] == "told":
        columns |= stacked_things([one.drawer for one in drawers])
    return columns


def _opening(drawer: Drawer) -> dict[str, float]:
    width = drawer.opening.width
    front, back = width.front, width.back
    at_slide = (front, back) if front is not None and back is not None else width.values
    if drawer.pack_rear and front is not None and back is not None and back > front:
        at_slide = (front, front)  # the members stand as far apart at the back as at the front
    height, diagonals = drawer.opening.height, drawer.opening.diagonals
    return {
        "measured_width": width.smallest,
        "widest_width": width.largest,
        "narrowest_at_slide": min(at_slide),
        "widest_at_slide": max(at_slide),
        "taper": back - front if front is not None and back is not None else 0.0,
        "lost_left": drawer.lost.left,
        "lost_right": drawer.lost.right,
        "opening_height": drawer.opening.height.smallest,
        "tallest_height": drawer.opening.height.largest,
        "opening_depth": drawer.opening.depth.smallest,
        "deepest_depth": drawer.opening.depth.largest,
        "opening_floor": drawer.opening.floor,
        "height_lean": (height.right or 0.0) - (height.left or 0.0),
        "diagonal_to_right": diagonals[0] if diagonals is not None else 0.0,
        "diagonal_to_left": diagonals[1] if diagonals is not None else 0.0,
        **door_values(drawer),
    }


def _wood(drawer: Drawer) -> dict[str, float]:
    subfront = drawer.subfront_thickness
    told = drawer.box.joint_depth
    joint = {"rabbet": drawer.side * _RABBET_OF_SIDE, "dovetail": subfront * _TAILS_OF_SUBFRONT}
    return {
        "side_thickness": drawer.side,
        "subfront_thickness": subfront,
        "back_thickness": drawer.back_thickness,
        "bottom_thickness": drawer.box.bottom_thickness,
        "groove_depth": drawer.box.groove_depth,
        "joint_depth": joint.get(drawer.box.joint, 0.0) if told is None else told,
        "bracket_screw": drawer.box.bracket_screw or 0.0,
        "front_screw": drawer.front.screw or 0.0,
        "told_box_height": drawer.box_height or 0.0,
        "cut_out_width": drawer.cut_out.width if drawer.cut_out is not None else 0.0,
        "cut_out_depth": drawer.cut_out.depth if drawer.cut_out is not None else 0.0,
        "cut_out_from_left": (drawer.cut_out.from_left if drawer.cut_out is not None else None) or 0.0,
    }


def _densities(drawer: Drawer, materials: Materials | None) -> dict[str, float]:
    """By the material that a part names, else by the stock that boxes and fronts are taken to be of."""
    box = box_board().density
    default: dict[Part, float] = {
        "side": box,
        "subfront": box,
        "back": box,
        "bottom": box,
        "front": front_board().density,
    }
    named = {part: material_of(drawer, part, materials) for part in default}
    densities = {
        f"{part}_density": default[part] if material is None else material.density
        for part, material in named.items()
    }
    return {**densities, "shelf_density": board(_SHELF).density}


def _front(drawer: Drawer, overlaps: Overlaps) -> dict[str, float]:
    return {
        "front_thickness": drawer.front.thickness if drawer.front.style != "none" else 0.0,
        "front_gap": drawer.front.gap,
        "overlay_left": overlaps.left,
        "overlay_right": overlaps.right,
        "overlay_top": overlaps.top,
        "overlay_bottom": overlaps.bottom,
        "row_below_top": overlaps.row_below_top or 0.0,
        "row_above_floor": overlaps.row_above_floor or 0.0,
    }


def _cabinet(drawer: Drawer, cabinet: Cabinet | None) -> dict[str, float]:
    frame = drawer.frame_in_use
    fixed = {True: 1.0, False: -1.0, None: 0.0}[cabinet.shelf_fixed if cabinet else None]
    return {
        "overhang_left": frame.left if frame else 0.0,
        "overhang_right": frame.right if frame else 0.0,
        "frame_thickness": frame.thickness if frame else 0.0,
        "frame_lap": frame.lap if frame else 0.0,
        "cabinet_inside_width": (cabinet.inside_width if cabinet else None) or 0.0,
        "first_row": (cabinet.first_row if cabinet else None) or 0.0,
        "row_pitch": cabinet.pitch if cabinet else 1.0,
        "shelf_fixed": fixed,
    }


def _existing(drawer: Drawer) -> dict[str, float]:
    box = drawer.existing_box
    inside = box.inside_width if box else None
    outside = box.outside_width if box else None
    if inside is None and outside is not None:
        inside = outside - 2 * drawer.side
    if outside is None and inside is not None:
        outside = inside + 2 * drawer.side
    return {
        "existing_inside_width": inside or 0.0,
        "existing_outside_width": outside or 0.0,
        "existing_length": (box.length if box else None) or 0.0,
        "existing_height": (box.height if box else None) or 0.0,
        "existing_unmeasured": float(len(box.unmeasured)) if box else 0.0,
        "existing_bottom_recess": (box.bottom_recess if box else None) or 0.0,
        "existing_bore_in": (box.bore_in if box else None) or 0.0,
        "existing_bore_up": (box.bore_up if box else None) or 0.0,
        "existing_notch_width": (box.notch_width if box else None) or 0.0,
        "existing_notch_height": (box.notch_height if box else None) or 0.0,
    }


def _contents(drawer: Drawer) -> dict[str, float]:
    preset = contents_preset(drawer.contents.preset) if drawer.contents.preset is not None else None
    return {
        "contents_told": drawer.contents.mass,
        "contents_per_area": preset.per_area if preset else 0.0,
        "contents_per_volume": preset.per_volume if preset else 0.0,
    }
