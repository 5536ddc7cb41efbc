"""What a drawer has across, in words: the opening less what is lost, and where members on a shelf stand."""

from __future__ import annotations

from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.figures import NOUGHT, length_text
from drawerwright.pack.shown import Shown


def used_width_text(fitted: FittedDrawer, shown: Shown) -> str:
    """The opening's width less what hinges and door edges take, as a sum; empty where nothing is lost."""
    lost = fitted.drawer.lost
    taken = [(side, mm) for side, mm in (("left", lost.left), ("right", lost.right)) if mm > NOUGHT]
    if not taken:
        return ""
    measured = length_text(fitted.opening.width + lost.left + lost.right, shown)
    less = "".join(f" − {length_text(mm, shown)} lost {side}" for side, mm in taken)
    return f"{measured}{less} = {length_text(fitted.opening.width, shown)}"


def frame_proof_text(fitted: FittedDrawer) -> str:
    """What proves how far a face frame stands in, where nothing was told that does; else empty."""
    told = fitted.cabinet is not None and fitted.cabinet.inside_width is not None
    if told or fitted.drawer.frame_in_use is None:
        return ""
    return "not proved: measure the cabinet's inside width too"


def shelf_places(fitted: FittedDrawer) -> tuple[float, float] | None:
    """How far the outer faces of members on a shelf stand in from the cabinet sides, left and right [mm].

    They stand at the edges of the opening as it is used, as members on the sides do. Geometry. None where
    the members are mounted otherwise, or nothing fits.
    """
    if fitted.slide is None or fitted.slide.mount != "shelf":
        return None
    frame, lost = fitted.drawer.frame_in_use, fitted.drawer.lost
    left, right = (0.0, 0.0) if frame is None else (frame.left, frame.right)
    return left + lost.left, right + lost.right
