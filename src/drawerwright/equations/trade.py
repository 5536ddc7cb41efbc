"""The trade's sheet: every equation of fit, ordered on demand."""

from __future__ import annotations

from drawerwright.equations import meeting, mounting, parts, sizing, woodwork
from drawerwright.equations.equation import collect
from drawerwright.equations.given import ERRORS, GIVEN
from drawerwright.equations.sheet import Sheet

__all__ = ["CHECK_ORDER", "CONDITIONS", "ERRORS", "GIVEN", "LAYERS", "SHEET"]

LAYERS = (sizing, parts, meeting, mounting, woodwork)

CHECK_ORDER = (
    "side-thickness",
    "latch-side",
    "box-length",
    "latch-along",
    "cabinet-depth",
    "opening-width",
    "opening-height",
    "opening-taper",
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
    "notch",
    "bracket-screw",
    "front-screw",
    "width-to-length",
)
"""Check ids in the order in which they are told; of several stops the first is the reason given."""

CONDITIONS: dict[str, tuple[str, ...]] = {
    "construction": ("frameless", "face-frame"),
    "style": ("overlay", "inset", "none"),
    "mount": ("side", "packed", "rear-bracket", "shelf"),
    "sized": ("inside", "outside", "existing"),
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
    "front_screw": ("told", "not-told"),
}
"""What an equation may depend on, and the words for it."""

SHEET = Sheet([item for layer in LAYERS for item in collect(layer)], GIVEN)
