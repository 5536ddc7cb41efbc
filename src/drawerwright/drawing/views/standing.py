"""Where everything stands in a cabinet, from a fitted drawer: what all its views share.

Axes of the views [mm]: x to the right from the middle of the opening, `depth` into the cabinet from its
front edge (or the face frame's face), y up from the opening's bottom edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.geometry import Bounds
from drawerwright.model.fitted import BoxSizes, ChosenSlide, FittedDrawer, Mounting

CABINET_BOARD: Final = 16.0
"""Thickness in which cabinet sides and bottom are drawn; nobody measured it. Common practice, no source."""
CABINET_BACK: Final = 8.0
"""Thickness in which the cabinet back is drawn. Common practice, no source."""
FRAME_RAIL: Final = 38.0
"""Height in which the rails of a face frame are drawn. Common practice, no source."""
MEMBER_BELOW: Final = 10.0
"""How far the drawn member hangs below the box's lower edge. Invented: no family tells its profile."""
FLOOR_IN_SIGHT: Final = 60.0
"""A cabinet floor lower than this below the opening is left out of the views."""


@dataclass(frozen=True, slots=True)
class FittedParts:
    """Slide, box and mounting of a drawer that fits, without the None of one that does not."""

    slide: ChosenSlide
    box: BoxSizes
    mounting: Mounting


def fitted_parts(fitted: FittedDrawer) -> FittedParts | None:
    """Slide, box and mounting, or None where the drawer does not fit."""
    if fitted.slide is None or fitted.box is None or fitted.mounting is None:
        return None
    return FittedParts(fitted.slide, fitted.box, fitted.mounting)


def needed_parts(fitted: FittedDrawer) -> FittedParts:
    """Slide, box and mounting of a drawer whose panels are to be bored.

    Raises:
        ValueError: the drawer does not fit, so there is nothing to cut or bore.
    """
    parts = fitted_parts(fitted)
    if parts is None:
        raise ValueError(f"drawer {fitted.id} does not fit: there is nothing to cut or bore")
    return parts


@dataclass(frozen=True, slots=True)
class Standing:
    """Positions [mm] in the views' axes; `left` and `right` are x, depths grow into the cabinet."""

    fitted: FittedDrawer
    parts: FittedParts | None

    @property
    def half(self) -> float:
        """Half the opening's width as used."""
        return self.fitted.opening.width / 2

    @property
    def overhangs(self) -> tuple[float, float]:
        """How far the face frame stands in from the cabinet sides, left and right; nothing without one."""
        frame = self.fitted.drawer.frame_in_use
        return (frame.left, frame.right) if frame is not None else (0.0, 0.0)

    @property
    def frame_thickness(self) -> float:
        """Thickness of the face frame; nothing without one."""
        frame = self.fitted.drawer.frame_in_use
        return frame.thickness if frame is not None else 0.0

    @property
    def side_edge(self) -> float:
        """Depth of the cabinet sides' front edges."""
        frame = self.fitted.drawer.frame_in_use
        return frame.thickness - frame.lap if frame is not None else 0.0

    @property
    def clear_left(self) -> float:
        """Left edge of the measured opening: further out than the used one by what hinges take."""
        return -self.half - self.fitted.drawer.lost.left

    @property
    def clear_right(self) -> float:
        """Right edge of the measured opening."""
        return self.half + self.fitted.drawer.lost.right

    @property
    def inner_left(self) -> float:
        """Inside face of the left cabinet side."""
        return self.clear_left - self.overhangs[0]

    @property
    def inner_right(self) -> float:
        """Inside face of the right cabinet side."""
        return self.clear_right + self.overhangs[1]

    @property
    def outer_left(self) -> float:
        """Outside face of the left cabinet side, as drawn."""
        return self.inner_left - CABINET_BOARD

    @property
    def outer_right(self) -> float:
        """Outside face of the right cabinet side, as drawn."""
        return self.inner_right + CABINET_BOARD

    @property
    def depth(self) -> float:
        """Depth of the first thing behind: the cabinet back's front face."""
        return self.fitted.opening.depth

    @property
    def back_end(self) -> float:
        """Depth of the cabinet back's rear face, as drawn."""
        return self.depth + CABINET_BACK

    @property
    def seat(self) -> float:
        """Half the distance between the seats of the box's inside faces: the slides stand by these."""
        if self.parts is None:
            return self.half
        return (self.fitted.opening.width - self.parts.slide.family.inside_width_deduction) / 2

    @property
    def concealed(self) -> bool:
        """Whether the slides lie under the box; else they run beside it."""
        return self.parts is None or self.parts.slide.family.carriage == "concealed"

    @property
    def integral(self) -> bool:
        """Whether the box's front is the front itself, and drawn."""
        return self.parts is not None and self.has_front and self.fitted.drawer.box.front == "integral"

    @property
    def box_rear(self) -> float:
        """Depth of the box back's outside face."""
        assert self.parts is not None
        return self.parts.box.front_depth + self.parts.box.length

    @property
    def body_front(self) -> float:
        """Depth where the box's wood begins: an integral front takes the subfront's place."""
        assert self.parts is not None
        box = self.parts.box
        if self.fitted.drawer.box.front == "integral":
            return box.front_depth + self.parts.slide.family.design_subfront
        return box.front_depth

    @property
    def member_strip(self) -> tuple[float, float]:
        """Outer and inner x of the left-hand member as drawn under the box, or beside it."""
        assert self.parts is not None
        if not self.concealed:
            return (-self.half + 1.0, -self.parts.box.outside_width / 2 - 1.0)
        width = self.parts.slide.family.rear.notch_width
        return (-self.seat + 2.0, -self.seat + max(width - 2.0, width * 0.6))

    @property
    def front_faces(self) -> tuple[float, float]:
        """Depths of the front's face and of its back."""
        front = self.fitted.front
        assert front is not None
        if front.style == "inset":
            return (-front.stands_out, -front.stands_out + front.thickness)
        return (-front.stands_out - front.thickness, -front.stands_out)

    @property
    def clear_middle(self) -> float:
        """Middle of the measured opening: off 0 where hinges take more on one side."""
        lost = self.fitted.drawer.lost
        return (lost.right - lost.left) / 2

    @property
    def widest(self) -> float:
        """The widest reading of the whole opening, which an overlay front is laid out by."""
        lost = self.fitted.drawer.lost
        return self.fitted.opening.widest + lost.left + lost.right

    @property
    def front_edges(self) -> tuple[float, float]:
        """Left and right x of the front."""
        front = self.fitted.front
        assert front is not None
        middle = self.clear_middle + (front.right - front.left) / 2
        return (middle - front.width / 2, middle + front.width / 2)

    @property
    def front_heights(self) -> tuple[float, float]:
        """Lower and upper edge of the front above the opening's bottom edge."""
        front = self.fitted.front
        assert front is not None
        return (-front.bottom, -front.bottom + front.height)

    @property
    def has_front(self) -> bool:
        """Whether a front is made and drawn."""
        front = self.fitted.front
        return front is not None and front.style != "none"

    @property
    def lower_edge(self) -> float:
        """Lower edge of the box above the opening's bottom edge."""
        assert self.parts is not None
        return self.parts.box.lower_edge - self.fitted.opening.floor

    @property
    def cabinet_floor(self) -> float | None:
        """Cabinet floor (not above 0) from the opening's bottom edge; None where it is out of sight."""
        floor = self.fitted.opening.floor
        return -floor if floor <= FLOOR_IN_SIGHT else None

    @property
    def member_heights(self) -> tuple[float, float]:
        """Lower and upper edge of the member in the side view, as drawn, from the opening's bottom edge."""
        assert self.parts is not None
        lower = self.lower_edge
        bottom = self.cabinet_floor if self.cabinet_floor is not None else 0.0
        if not self.concealed:
            line = lower + self.parts.slide.family.heights.screw_line
            return (line - 22.0, line + 22.0)
        return (max(lower - MEMBER_BELOW, bottom + 1.0), lower + self.parts.box.bottom_recess)


def standing(fitted: FittedDrawer) -> Standing:
    """Where everything of one drawer stands."""
    return Standing(fitted, fitted_parts(fitted))


def part_size(
    fitted: FittedDrawer, name: str, otherwise: tuple[float, float, float]
) -> tuple[float, float, float]:
    """Length, width and thickness of a part that is cut [mm]; `otherwise` where it is made already."""
    for part in fitted.parts:
        if part.part == name:
            return (part.length, part.width, part.thickness)
    return otherwise


def upright(left: float, bottom: float, right: float, top: float) -> Bounds:
    """A rectangle from its edges [mm], in whichever order they come."""
    return Bounds(min(left, right), min(bottom, top), max(left, right), max(bottom, top))
