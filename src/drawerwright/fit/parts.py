"""The parts to cut for one drawer, from the sheet's values."""

from __future__ import annotations

from collections.abc import Mapping

from drawerwright.model.fitted import Part
from drawerwright.model.job import Drawer

_ALL_ROUND = ("top", "bottom", "left", "right")


def parts_of(drawer: Drawer, values: Mapping[str, float]) -> tuple[Part, ...]:
    """Parts of box, front and packing [mm]; an existing box is not cut again."""
    return (*_box(drawer, values), *_front(drawer, values), *_packing(values))


def _box(drawer: Drawer, values: Mapping[str, float]) -> tuple[Part, ...]:
    if drawer.existing_box is not None:
        return ()
    length, height = values["cross_length"], values["box_height"]
    sides = Part("side", 2, values["side_length"], height, values["side_thickness"], "length")
    subfront = Part("subfront", 1, length, values["subfront_height"], values["subfront_thickness"], "length")
    back = Part("back", 1, length, values["back_height"], values["back_thickness"], "length")
    bottom = Part(
        "bottom", 1, values["bottom_length"], values["bottom_width"], values["bottom_thickness"], "none"
    )
    cross = (subfront, back) if drawer.box.front == "applied" else (back,)
    return (sides, *cross, bottom)


def _front(drawer: Drawer, values: Mapping[str, float]) -> tuple[Part, ...]:
    if drawer.front.style == "none":
        return ()
    size = (values["front_width"], values["front_height"], values["front_thickness"])
    edging = drawer.front.edging
    return (Part("front", 1, *size, "length", _ALL_ROUND if edging else (), edging),)


def _packing(values: Mapping[str, float]) -> tuple[Part, ...]:
    """Strips between cabinet side and member, as long as the member and as high as its screws want."""
    height = 2 * values["screw_line_up"]
    return tuple(
        Part(f"packing {hand}", 1, values["member"], height, values[f"packing_{hand}"], "length")
        for hand in ("left", "right")
        if values[f"packing_{hand}"] > 0
    )
