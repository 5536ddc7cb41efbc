"""Which variants of the equations a drawer calls for, and which mounts it is tried with."""

from __future__ import annotations

from drawerwright.fit.way_out import is_told
from drawerwright.model.fitted import Mount
from drawerwright.model.job import Cabinet, Drawer, ExistingBox

_TRIED: dict[str, tuple[Mount, ...]] = {
    "frameless": ("side", "shelf"),
    "face-frame": ("rear-bracket", "packed", "shelf"),
}


def mounts_of(construction: str) -> tuple[Mount, ...]:
    """The mounts of a construction, in the order in which they are tried."""
    return _TRIED[construction]


def mounts_to_try(drawer: Drawer) -> tuple[Mount, ...]:
    """The mount that is asked for, or those of the public contract's order for the construction."""
    return _TRIED[drawer.construction] if drawer.mount == "auto" else (drawer.mount,)


def situation_of(drawer: Drawer, cabinet: Cabinet | None) -> dict[str, str]:
    """Conditions of a drawer, as the sheet words them; mount and carriage are added by the trial."""
    return {
        "construction": drawer.construction,
        "style": drawer.front.style,
        "sized": "existing"
        if drawer.existing_box and drawer.existing_box.is_wide_as_told
        else drawer.size_from,
        "box": "new" if drawer.existing_box is None else "existing",
        "length": "existing" if drawer.existing_box and drawer.existing_box.length is not None else "slide",
        "rows": "grid" if cabinet is not None and cabinet.first_row is not None else "free",
        "height": _height_of(drawer),
        "readings": _readings_of(drawer),
        "front": drawer.box.front,
        "joint": drawer.box.joint,
        "bottom": drawer.box.bottom,
        "load": "told" if drawer.contents.preset is None else "preset",
        "bracket_screw": "not-told" if drawer.box.bracket_screw is None else "told",
        "front_screw": "not-told" if drawer.front.screw is None else "told",
        "heights": "labelled" if _has_left_and_right(drawer) else "plain",
        "diagonals": "not-told" if drawer.opening.diagonals is None else "told",
        "rear": "packed" if drawer.pack_rear else "as-is",
        "way": "told" if is_told(drawer) else "not-told",
        "shape": _shape_of(drawer),
        "stabiliser": "fitted" if drawer.stabiliser else "none",
        "cabinet": "told" if cabinet is not None and cabinet.inside_width is not None else "not-told",
        **_told_of_existing_box(drawer.existing_box),
    }


def _told_of_existing_box(box: ExistingBox | None) -> dict[str, str]:
    told = {
        "old_bores": box is not None and box.bore_in is not None and box.bore_up is not None,
        "old_notches": box is not None and box.notch_width is not None and box.notch_height is not None,
        "old_recess": box is not None and box.bottom_recess is not None,
    }
    return {key: "told" if is_told else "not-told" for key, is_told in told.items()}


def _height_of(drawer: Drawer) -> str:
    if drawer.existing_box is not None and drawer.existing_box.height is not None:
        return "existing"
    if drawer.box_height is not None:
        return "told"
    return "kept" if drawer.box.heights else "any"


def _has_left_and_right(drawer: Drawer) -> bool:
    return drawer.opening.height.left is not None and drawer.opening.height.right is not None


def _shape_of(drawer: Drawer) -> str:
    if drawer.cut_out is None:
        return "plain"
    return "cut-out" if drawer.cut_out.from_left is None else "cut-out-at"


def _readings_of(drawer: Drawer) -> str:
    width = drawer.opening.width
    if width.front is not None and width.back is not None:
        return "labelled"
    return "several" if len(width.values) > 1 else "one"
