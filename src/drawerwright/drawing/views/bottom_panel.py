"""The bottom at true size, seen from above. Axes [mm]: x from the middle, y from its front edge."""

from __future__ import annotations

from collections.abc import Iterator

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Hole
from drawerwright.drawing.scene import Dimension, Leader, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.bottom_screws import BOTTOM_HOLE, Row, screw_places, screw_rows
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
                    label_side="end" if side < 0 else "start", text=shown(inset, units),
                )
            )  # fmt: skip
    for rows, edge, offset in _rows_to_tell(fitted, along):
        drawn += _along_the_edge(rows, half, edge, offset, units)
    if front or back:
        tip = (front or back)[-1]
        drawn.append(
            Leader(
                tip, (-5.0, 7.0 if front else -7.0), -2.0,
                f"{len(front) + len(back)} × Ø {bored(BOTTOM_HOLE, units)}, through",
                "screws up into " + " and ".join(
                    word for word, row in (("front", front), ("back", back)) if row
                ),
                dot=False,
            )
        )  # fmt: skip
    drawn.append(side_word((0.0, 0.0), "front edge, seen from above", (0.0, 3.5)))
    return in_units(
        Scene(
            "bottom-panel",
            f"Bottom, drawer {fitted.id}",
            f"Bottom {size_words('bottom', across, along, units)}",
            tuple(drawn),
        ),
        units,
    )


def _rows_to_tell(fitted: FittedDrawer, along: float) -> Iterator[tuple[tuple[Row, ...], float, float]]:
    """Rows of screws whose places are told, at which edge and how far from it; the like of another is not."""
    front, back = screw_rows(fitted, "front"), screw_rows(fitted, "back")
    if front:
        yield front, 0.0, -row_offset(0)
    if back and [[x for x, _ in row] for row in back] != [[x for x, _ in row] for row in front]:
        yield back, along, row_offset(1)


def _along_the_edge(
    rows: tuple[Row, ...], half: float, edge: float, offset: float, units: Units
) -> list[Dimension]:
    """From the bottom's end to a row's first screw, and along the row; a second row from the right end."""
    drawn: list[Dimension] = []
    for row in rows:
        turned = len(rows) > 1 and row is rows[-1]
        first, last = (row[-1], row[0]) if turned else (row[0], row[-1])
        start = half if turned else -half
        inset = abs(first[0] - start)
        ends = ((start, edge), first) if not turned else (first, (start, edge))
        drawn.append(
            Dimension(
                "bottom_screw_first", inset, *ends, "horizontal", edge, offset,
                label_side="end" if turned else "start", text=shown(inset, units),
            )
        )  # fmt: skip
        if len(row) > 1:
            length = abs(last[0] - first[0])
            text = f"{len(row) - 1} × {shown(length / (len(row) - 1), units)}"
            drawn.append(
                Dimension("bottom_screw_row", length, row[0], row[-1], "horizontal", edge, offset, text=text)
            )
    return drawn
