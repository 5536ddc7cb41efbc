"""Blocks behind the stiles of a face frame: they take front screws of members that miss the frame."""

from __future__ import annotations

from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.figures import length_text
from drawerwright.pack.shown import Shown


def front_screw_text(fitted: FittedDrawer, shown: Shown) -> str:
    """Depth of the members' front screws behind the face of the frame; "" where nothing is hung."""
    if fitted.mounting is None or fitted.slide is None:
        return ""
    return length_text(fitted.mounting.front_end + fitted.slide.family.front_fix, shown)


def blocks_wanted(fitted: FittedDrawer) -> bool:
    """Whether the front screws miss the frame, so that blocks take them."""
    grip = any(one.id == "frame-grip" and one.state == "watch" for one in fitted.checks)
    return grip and fitted.mounting is not None and fitted.drawer.frame is not None


def blocks_short(fitted: FittedDrawer, shown: Shown) -> str:
    """Thickness, height and depth of the blocks for a table; "" where none are wanted."""
    frame = fitted.drawer.frame
    if frame is None or not blocks_wanted(fitted):
        return ""
    thick = f"L {length_text(frame.left, shown)}, R {length_text(frame.right, shown)} thick"
    back = length_text(frame.thickness, shown)
    return f"blocks {thick}{_middle(fitted, shown)}, {back} to past {front_screw_text(fitted, shown)} deep"


def blocks_text(fitted: FittedDrawer, shown: Shown) -> str:
    """Where the blocks go, in words; "" where none are wanted."""
    frame = fitted.drawer.frame
    if frame is None or not blocks_wanted(fitted):
        return ""
    thick = f"L {length_text(frame.left, shown)}, R {length_text(frame.right, shown)} thick"
    return (
        f"{thick}, from the cabinet side to flush with the stile's inner edge{_middle(fitted, shown)}; from "
        f"the back of the frame, at {length_text(frame.thickness, shown)}, past the screw at "
        f"{front_screw_text(fitted, shown)} behind the face of the frame"
    )


def _middle(fitted: FittedDrawer, shown: Shown) -> str:
    line = None if fitted.mounting is None else fitted.mounting.screw_line
    return "" if line is None else f", middle {length_text(line, shown)} up"
