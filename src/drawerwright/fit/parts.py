"""The parts to cut for one drawer, from the sheet's values."""

from __future__ import annotations

from collections.abc import Mapping

from drawerwright.model.fitted import Part
from drawerwright.model.job import Drawer

_ALL_ROUND = ("top", "bottom", "left", "right")
_HANDS = ("left", "right")
# Lengths of short pieces, and wood past a screw [mm]: from memory, a shop's own offcuts do as well.
_REAR_PIECE = 60.0
_BLOCK_HEIGHT = 60.0
_PAST_SCREW = 12.0
# Decimals: a difference of readings such as 564.4 − 562 leaves no crumbs of the machine's numbers.
_EXACT = 6


def parts_of(drawer: Drawer, values: Mapping[str, float]) -> tuple[Part, ...]:
    """Parts of box, front and packing [mm]; an existing box is not cut again."""
    return (
        *_box(drawer, values),
        *_inner(drawer, values),
        *_front(drawer, values),
        *_packing(values),
        *_blocks(values),
    )


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


def _inner(drawer: Drawer, values: Mapping[str, float]) -> tuple[Part, ...]:
    """Walls of a cut-out: they stand on the bottom. The back is cut whole and sawn after boring."""
    if drawer.cut_out is None or drawer.existing_box is not None:
        return ()
    height = values["inner_height"]
    return (
        Part("inner side", 2, values["inner_side_length"], height, values["side_thickness"], "length"),
        Part("inner back", 1, values["inner_back_length"], height, values["back_thickness"], "length"),
    )


def _front(drawer: Drawer, values: Mapping[str, float]) -> tuple[Part, ...]:
    if drawer.front.style == "none":
        return ()
    size = (values["front_width"], values["front_height"], values["front_thickness"])
    edging = drawer.front.edging
    return (Part("front", 1, *size, "length", _ALL_ROUND if edging else (), edging),)


def _packing(values: Mapping[str, float]) -> tuple[Part, ...]:
    """Strips between cabinet side and member, as long as the member and as high as its screws want.

    Where the opening is wider at the back, a short piece more under the rear end of each member.
    """
    height = 2 * values["screw_line_up"]
    return tuple(
        Part(f"{name} {hand}", 1, length, height, round(values[f"{quantity}_{hand}"], _EXACT), "length")
        for name, quantity, length in (
            ("packing", "packing", values["member"]),
            ("rear packing", "rear_packing", _REAR_PIECE),
        )
        for hand in _HANDS
        if values[f"{quantity}_{hand}"] > 0
    )


def _blocks(values: Mapping[str, float]) -> tuple[Part, ...]:
    """Blocks behind the stiles, where the members' front screws would miss the frame.

    A block fills from the cabinet side to the frame's inside edge and reaches past the screw.
    """
    grip = values.get("frame_grip_margin", 0.0)
    if grip >= 0:
        return ()
    return tuple(
        Part(f"block behind stile {hand}", 1, _BLOCK_HEIGHT, _PAST_SCREW - grip, thickness, "length")
        for hand in _HANDS
        if (thickness := values[f"overhang_{hand}"] + values[f"lost_{hand}"]) > 0
    )
