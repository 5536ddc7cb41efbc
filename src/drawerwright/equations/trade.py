"""The trade's sheet: every equation of fit, ordered on demand."""

from __future__ import annotations

from drawerwright.equations import (
    column,
    cut_out,
    existing_box,
    front_setting,
    latching,
    meeting,
    mounting,
    out_of_true,
    parts,
    shelf,
    sizing,
    way_out,
    woodwork,
)
from drawerwright.equations.equation import collect
from drawerwright.equations.given import ERRORS, GIVEN
from drawerwright.equations.sheet import Sheet

__all__ = ["CHECK_ORDER", "CONDITIONS", "ERRORS", "GIVEN", "LAYERS", "SHEET"]

LAYERS = (
    sizing,
    parts,
    meeting,
    latching,
    mounting,
    front_setting,
    woodwork,
    existing_box,
    column,
    shelf,
    out_of_true,
    way_out,
    cut_out,
)

CHECK_ORDER = (
    "side-thickness",
    "latch-side",
    "box-length",
    "latch-along",
    "cabinet-depth",
    "opening-width",
    "opening-height",
    "opening-taper",
    "opening-lean",
    "opening-square",
    "readings-agree",
    "way-out",
    "capacity",
    "mount",
    "shelf-holes",
    "shelf-fixed",
    "rear-bracket",
    "frame-grip",
    "frame-sum",
    "front-reach",
    "front-gap",
    "hook-bore",
    "box-measured",
    "box-bore",
    "box-notch",
    "box-recess",
    "cut-out",
    "notch",
    "slide-height",
    "bracket-screw",
    "front-screw",
    "width-to-length",
    "column",
)
"""Check ids in the order in which they are told; of several stops the first is the reason given."""

CONDITIONS: dict[str, tuple[str, ...]] = {
    "construction": ("frameless", "face-frame"),
    "style": ("overlay", "inset", "none"),
    "mount": ("side", "packed", "rear-bracket", "shelf"),
    "sized": ("inside", "outside", "existing"),
    "box": ("new", "existing"),
    "carriage": ("concealed", "side-mounted"),
    "length": ("slide", "existing"),
    "rows": ("grid", "free"),
    "height": ("any", "kept", "told", "existing"),
    "readings": ("one", "several", "labelled"),
    "front": ("applied", "integral"),
    "joint": ("butt", "dowel", "rabbet", "dovetail"),
    "bottom": ("groove-4", "groove-3", "under"),
    "load": ("told", "preset"),
    "cabinet": ("told", "not-told"),
    "bracket_screw": ("told", "not-told"),
    "old_bores": ("told", "not-told"),
    "old_notches": ("told", "not-told"),
    "old_recess": ("told", "not-told"),
    "column": ("alone", "lowest", "between", "highest"),
    "front_screw": ("told", "not-told"),
    "heights": ("plain", "labelled"),
    "diagonals": ("told", "not-told"),
    "rear": ("as-is", "packed"),
    "way": ("told", "not-told"),
    "shape": ("plain", "cut-out", "cut-out-at"),
    "stabiliser": ("none", "fitted"),
}
"""What an equation may depend on, and the words for it."""

SHEET = Sheet([item for layer in LAYERS for item in collect(layer)], GIVEN)
