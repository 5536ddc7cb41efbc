"""Cabinet elevation: the drawers of one cabinet from the front, their fronts, gaps, rows and screw lines.

Axes [mm]: x to the right from the middle of the cabinet, y up from the cabinet floor.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drawerwright.drawing.dimensioning import column_offset, row_offset
from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.geometry import Bounds, Placement
from drawerwright.drawing.pens import DIMENSION_SIZE, DOT_RADIUS, NOTE_SIZE, Tone
from drawerwright.drawing.primitives import Circle, Lines, Text, line, rectangle
from drawerwright.drawing.scene import Dimension, LabelSide, Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.verdict_marks import verdict_mark
from drawerwright.drawing.views.standing import CABINET_BOARD, FRAME_RAIL, Standing, standing
from drawerwright.drawing.views.stops import nearest_miss, stop_in_height, stop_words
from drawerwright.drawing.wording import on_grid
from drawerwright.model.fitted import VERDICT_WORDS, FittedDrawer
from drawerwright.model.job import Cabinet

_SLIGHT = 0.05
_ON_ROW = 0.05
_TICK = 7.0
_MARK_SHARE: Final = 1 / 60


@dataclass(frozen=True, slots=True)
class _Place:
    """One drawer and where its opening's axes lie in the elevation."""

    stand: Standing
    dx: float
    dy: float

    @property
    def fitted(self) -> FittedDrawer:
        """The drawer."""
        return self.stand.fitted

    @property
    def opening(self) -> Bounds:
        """The measured opening; in its widest reading where there is a front, which is laid out by that."""
        stand = self.stand
        half = (stand.widest if stand.has_front else stand.clear_right - stand.clear_left) / 2
        middle = stand.clear_middle + self.dx
        return Bounds(middle - half, self.dy, middle + half, self.dy + stand.fitted.opening.height)

    @property
    def style(self) -> str:
        """How the front covers the opening; `none` also where nothing fits."""
        return self.fitted.front.style if self.fitted.front is not None else "none"

    @property
    def front(self) -> Bounds | None:
        """The front; None where none is made."""
        if not self.stand.has_front:
            return None
        (left, right), (low, high) = self.stand.front_edges, self.stand.front_heights
        return Bounds(left + self.dx, low + self.dy, right + self.dx, high + self.dy)


@dataclass(frozen=True, slots=True)
class _Elevation:
    """The drawers from the lowest up, half the cabinet's inside width, and how high it is drawn [mm]."""

    places: tuple[_Place, ...]
    half: float
    top: float
    cabinet: Cabinet | None

    @property
    def outer(self) -> float:
        """Half the cabinet's outside width, as drawn."""
        return self.half + CABINET_BOARD

    @property
    def beside(self) -> float:
        """How far from the middle dimensions begin: beyond cabinet and fronts."""
        fronts = [place.front for place in self.places]
        return max(self.outer, *(max(-each.left, each.right) for each in fronts if each is not None), 0.0)


def cabinet_elevation(fitted_drawers: Sequence[FittedDrawer], *, units: Units = "mm") -> Scene:
    """All drawers of one cabinet from the front, closed; what does not fit is dashed in the accent.

    Raises:
        ValueError: there is no drawer, or they stand in different cabinets.
    """
    if not fitted_drawers:
        raise ValueError("an elevation needs at least one drawer")
    names = {each.drawer.cabinet for each in fitted_drawers}
    if len(names) > 1 or (None in names and len(fitted_drawers) > 1):
        listed = ", ".join(
            f"{each.id} in {each.drawer.cabinet or 'none that is told'}" for each in fitted_drawers
        )
        raise ValueError(f"an elevation shows the drawers of one cabinet: {listed}")
    view = _laid_out(fitted_drawers)
    drawn: list[Primitive] = [*_cabinet(view)]
    for place in view.places:
        drawn += _drawer(view, place, units)
    drawn += _rows(view)  # over the fronts: an overlay front covers the edges that the rows are told on
    drawn += [*_front_heights(view), *_opening_heights(view), *_widths(view)]
    name = fitted_drawers[0].drawer.cabinet or fitted_drawers[0].id
    return in_units(Scene("elevation", f"Cabinet {name}", _alt(view, name), tuple(drawn)), units)


def _laid_out(fitted_drawers: Sequence[FittedDrawer]) -> _Elevation:
    """Every drawer with the middle of its cabinet's inside at x = 0."""
    stands = sorted((standing(each) for each in fitted_drawers), key=lambda each: each.fitted.opening.floor)
    places = tuple(
        _Place(each, -(each.inner_left + each.inner_right) / 2, each.fitted.opening.floor) for each in stands
    )
    cabinet = fitted_drawers[0].cabinet
    inside = max(each.inner_right - each.inner_left for each in stands)
    if cabinet is not None and cabinet.inside_width is not None:
        inside = cabinet.inside_width
    tops = [place.opening.top for place in places]
    return _Elevation(places, inside / 2, max(tops), cabinet)


def _alt(view: _Elevation, name: str) -> str:
    drawers = "; ".join(
        f"{place.fitted.id} {VERDICT_WORDS[place.fitted.verdict]}" for place in reversed(view.places)
    )
    return f"Elevation of cabinet {name}, from the top: {drawers}"


def _cabinet(view: _Elevation) -> list[Primitive]:
    """Floor and sides, open at the top, which nobody measured; stiles and rails of a face frame."""
    framed = next((place for place in view.places if place.stand.frame_thickness), None)
    above = view.top + (FRAME_RAIL if framed else CABINET_BOARD) * 0.8
    drawn: list[Primitive] = [
        line((x, -CABINET_BOARD), (x, above), "edge") for x in (-view.outer, view.outer)
    ]
    drawn.append(line((-view.outer, -CABINET_BOARD), (view.outer, -CABINET_BOARD), "edge"))
    if framed is None:
        drawn += [line((x, 0.0), (x, above), "fine") for x in (-view.half, view.half)]
        drawn.append(line((-view.half, 0.0), (view.half, 0.0), "fine"))
    else:
        opening = framed.opening
        drawn += [line((x, -CABINET_BOARD), (x, above), "fine") for x in (opening.left, opening.right)]
    return drawn


def _rows(view: _Elevation) -> list[Primitive]:
    """The grid of row holes as ticks on both sides of the cabinet; none where no row is told."""
    if view.cabinet is None or view.cabinet.first_row is None:
        return []
    first, pitch = view.cabinet.first_row, view.cabinet.pitch
    heights = [first + pitch * k for k in range(int(max(view.top - first, 0.0) / pitch) + 1)]
    inset = (CABINET_BOARD - _TICK) / 2
    ticks = tuple(
        ((sign * (view.half + inset), y), (sign * (view.half + inset + _TICK), y))
        for y in heights
        for sign in (-1.0, 1.0)
    )
    return [Lines(ticks, "fine")]


def _drawer(view: _Elevation, place: _Place, units: Units) -> list[Primitive]:
    """One drawer: its front, its opening, its screw line, its id and verdict."""
    fitted, opening, front = place.fitted, place.opening, place.front
    drawn: list[Primitive] = []
    if front is not None:
        drawn.append(rectangle(front, "outline", "paper", line_inside=True))
    if fitted.verdict == "does-not-fit":
        drawn.append(rectangle(opening, "accent"))
        here = Placement(dx=place.dx, dy=place.dy)
        edges = (opening.left - place.dx, opening.right - place.dx)
        drawn += [each.placed(here) for each in stop_in_height(place.stand, *edges, units)]
    else:
        drawn.append(rectangle(opening, "hidden" if place.style == "overlay" else "outline"))
    drawn += _screw_line(view, place, units)
    return drawn + _verdict(view, place, units)


def _screw_line(view: _Elevation, place: _Place, units: Units) -> list[Primitive]:
    """The screw line through both cabinet sides, with its height above the floor and the row it lies on."""
    mounting = place.fitted.mounting
    if mounting is None or mounting.screw_line is None:
        return []
    y = mounting.screw_line
    says = f"screws {on_grid(y, units)}"
    drawn: list[Primitive] = [line((-view.outer, y), (view.outer, y), "centre")]
    if view.cabinet is not None and view.cabinet.first_row is not None:
        row = (y - view.cabinet.first_row) / view.cabinet.pitch
        if abs(row - round(row)) * view.cabinet.pitch < _ON_ROW and round(row) >= 0:
            says += f", row hole {round(row) + 1}"
            middle = view.half + CABINET_BOARD / 2
            drawn += [
                Circle((x, y), DOT_RADIUS, "fine", fill="ink", on_paper=True) for x in (-middle, middle)
            ]
    at = (min(view.half, place.opening.right), y)
    return [*drawn, Text(at, says, NOTE_SIZE, "end", tone="fine", shift=(-1.2, 0.8))]


def _verdict(view: _Elevation, place: _Place, units: Units) -> list[Primitive]:
    """Mark, id and verdict in words; under it what stopped the nearest slide."""
    fitted = place.fitted
    area = place.front or place.opening
    radius = max(view.top, 2 * view.half) * _MARK_SHARE
    x, y = area.left + area.width * 0.12, area.centre[1]
    drop = -0.35 * DIMENSION_SIZE
    tone: Tone = "accent" if fitted.verdict == "does-not-fit" else "ink"
    after = text_width(fitted.id, DIMENSION_SIZE, "semibold") + 2.6
    words = (x + radius, y)
    drawn: list[Primitive] = [
        *verdict_mark(fitted.verdict, (x, y), radius),
        Text(words, fitted.id, DIMENSION_SIZE, weight="semibold", tone=tone, shift=(1.2, drop)),
        Text(words, VERDICT_WORDS[fitted.verdict], NOTE_SIZE, tone=tone, shift=(after, drop)),
    ]
    miss = nearest_miss(place.stand)
    if miss is not None:
        under = (1.2, drop - NOTE_SIZE * 1.3)
        why = ": ".join(stop_words(miss, units))
        drawn.append(Text(words, why, NOTE_SIZE, tone=tone, shift=under, backed=True))
    return drawn


def _front_heights(view: _Elevation) -> list[Primitive]:
    """Heights of the fronts in a chain at the left, gaps beyond, and all together outermost."""
    fronts = [place.front for place in view.places if place.front is not None]
    drawn: list[Primitive] = [
        _upright(view, "front_height", front.height, front.left, front.bottom, front.top, 0)
        for front in fronts
    ]
    drawn += _gaps(view)
    if len(fronts) > 1:
        low, high = fronts[0].bottom, fronts[-1].top
        drawn.append(_upright(view, "fronts_height", high - low, fronts[0].left, low, high, 2))
    return drawn


def _gaps(view: _Elevation) -> list[Primitive]:
    """Gaps between overlay fronts that follow each other; those of an inset front to its opening's edges."""
    spans: list[tuple[float, float, float, LabelSide]] = []
    for lower, upper in pairwise(view.places):
        under, over = lower.front, upper.front
        if under is not None and over is not None and "inset" not in (lower.style, upper.style):
            spans.append((under.left, under.top, over.bottom, "end"))
    for place in view.places:
        front, opening = place.front, place.opening
        if front is not None and place.style == "inset":
            spans.append((front.left, opening.bottom, front.bottom, "start"))
            spans.append((front.left, front.top, opening.top, "end"))
    return [
        _upright(view, "front_gap", high - low, x, min(low, high), max(low, high), 1, side)
        for x, low, high, side in spans
        if abs(high - low) >= _SLIGHT
    ]


def _opening_heights(view: _Elevation) -> list[Primitive]:
    """Heights of the openings in a chain at the right, and what stands between them."""
    openings = [place.opening for place in view.places]
    drawn: list[Primitive] = [
        _upright(view, "opening_height", each.height, each.right, each.bottom, each.top, -1)
        for each in openings
    ]
    for lower, upper in pairwise(openings):
        between = upper.bottom - lower.top
        if between >= _SLIGHT:
            drawn.append(_upright(view, "rail", between, lower.right, lower.top, upper.bottom, -2))
    return drawn


def _upright(
    view: _Elevation,
    quantity: str,
    value: float,
    x: float,
    low: float,
    high: float,
    column: int,
    side: LabelSide = "end",
) -> Dimension:
    """A vertical dimension in a column at the left (0 and up) or at the right (-1 and down).

    A gap below 0, where fronts would overlap, is in the accent.
    """
    base = -view.beside if column >= 0 else view.beside
    offset = -column_offset(column) if column >= 0 else column_offset(-1 - column)
    tone: Tone = "accent" if value < 0 else "ink"
    return Dimension(
        quantity, value, (x, low), (x, high), "vertical", base, offset, label_side=side, tone=tone
    )


def _widths(view: _Elevation) -> list[Primitive]:
    """Width of the lowest opening and of its front, under the cabinet."""
    lowest = view.places[0]
    opening, front = lowest.opening, lowest.front
    low = min(-CABINET_BOARD, front.bottom if front is not None else 0.0)
    quantity = "widest_width" if front is not None else "opening_width"
    spans = [(quantity, opening)] + ([("front_width", front)] if front is not None else [])
    return [
        Dimension(name, span.width, (span.left, low), (span.right, low), "horizontal", low, -row_offset(row))
        for row, (name, span) in enumerate(spans)
    ]
