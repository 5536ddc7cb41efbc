"""The bottom at true size, seen from above. Axes [mm]: x from the middle, y from its front edge."""

from __future__ import annotations

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Hole
from drawerwright.drawing.scene import Dimension, Leader, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.bottom_screws import BOTTOM_HOLE, screw_places
from drawerwright.drawing.views.cut_outs import cut_out_in_bottom
from drawerwright.drawing.views.panel_marks import banding, cross_lines, outline, overall, side_word
from drawerwright.drawing.views.standing import needed_parts, part_size
from drawerwright.drawing.wording import bored, shown, size_words
from drawerwright.model.fitted import FittedDrawer


def bottom(fitted: FittedDrawer, units: Units = "mm") -> Scene:
    """The bottom panel: its outline, and screw holes where front or back stand on it.

    Raises:
        ValueError: the drawer does not fit.
    """
    box = needed_parts(fitted).box
    clear = box.length - box.subfront - box.back
    along, across, _ = part_size(fitted, "bottom", (clear, box.inside_width, box.bottom))
    half = across / 2
    area = Bounds(-half, 0.0, half, along)
    drawn: list[Primitive] = [outline(area), *banding(fitted, "bottom", area, units)]
    drawn += overall(-half, half, 0.0, along, "bottom_width", "bottom_length")
    drawn += cut_out_in_bottom(fitted, half, along)
    front, back = screw_places(fitted, "front"), screw_places(fitted, "back")
    for places, edge, side in ((front, 0.0, -1.0), (back, along, 1.0)):
        for place in places:
            drawn.append(Hole(place, BOTTOM_HOLE, None, "screw holes up into front and back"))
            drawn += cross_lines(place, BOTTOM_HOLE / 2 + 3.0)
        if places:
            x, y = places[0]
            inset = abs(y - edge)
            drawn.append(
                Dimension(
                    "bottom_screw_in", inset, (-half, edge), (x, y), "vertical", -half, -column_offset(0),
                    label_side="end" if side < 0 else "start", text=shown(inset, units, 2),
                )
            )  # fmt: skip
    shown_row = front or back
    if shown_row:
        (x1, y), x2 = shown_row[0], shown_row[-1][0]
        edge = 0.0 if front else along
        offset = -row_offset(0) if front else row_offset(1)
        step = (x2 - x1) / (len(shown_row) - 1)
        text = f"{len(shown_row) - 1} × {shown(step, units, 2)}"
        drawn += [
            Dimension(
                "bottom_screw_first", x1 + half, (-half, edge), (x1, y), "horizontal", edge, offset,
                label_side="start", text=shown(x1 + half, units, 2),
            ),
            Dimension(
                "bottom_screw_row", x2 - x1, (x1, y), (x2, y), "horizontal", edge, offset, text=text
            ),
            Leader(
                (x2, y), (-5.0, 7.0 if front else -7.0), -2.0,
                f"{len(front) + len(back)} × Ø {bored(BOTTOM_HOLE, units)}, through",
                "screws up into " + " and ".join(
                    word for word, row in (("front", front), ("back", back)) if row
                ),
                dot=False,
            ),
        ]  # fmt: skip
    drawn.append(side_word((0.0, 0.0), "front edge, seen from above", (0.0, 3.5)))
    return in_units(
        Scene(
            "bottom-panel",
            f"Bottom, drawer {fitted.id}",
            f"Bottom {size_words(across, along, units)}",
            tuple(drawn),
        ),
        units,
    )
