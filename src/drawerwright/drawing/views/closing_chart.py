"""Chart of a closing unit over mass and tilt: where drawers close softly, slam, or stall.

The scene is in millimetres of paper. Each area has a hatching and a word of its own, never a colour alone. A
strip of closing above the first tilt that stalls is drawn as stalling: it is thin, and nothing to rely on.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from drawerwright.carry.closing import Closing
from drawerwright.carry.closing_chart import STATES, ChartState, ClosingChart
from drawerwright.carry.closing_checks import SOFT
from drawerwright.carry.words import Words
from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, DOT_RADIUS, LABEL_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Circle, Lines, Polyline, Text, line, rectangle
from drawerwright.drawing.scene import Hatch, Primitive, Scene
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.units import KG_PER_POUND, format_mass

WIDTH: Final = 132.0
HEIGHT: Final = 84.0
"""The chart's field on paper [mm]. Own choice."""
WORDS: Final[dict[ChartState, str]] = {
    "closes": "closes softly",
    "slams": "slams",
    "stalls": "does not stay shut",
}
HATCHINGS: Final[dict[ChartState, tuple[tuple[float, float], ...]]] = {
    "closes": ((0.0, 3.4),),
    "slams": ((45.0, 1.5), (135.0, 1.5)),
    "stalls": ((45.0, 2.1),),
}
"""Angle [degrees] and spacing [mm] of each area's hatching. Own choice."""
_ROOM_FOR_WORDS: Final = 7.0
_WORD_INSIDE: Final = 18.0
_WORD_PLACES: Final = 33
_TICK: Final = 1.6
_MOST_TICKS: Final = 8
_SWATCH: Final = (9.0, 4.6)
_FOOT: Final = -15.0
_ELBOW: Final = (5.0, 4.5)
_SHOULDER: Final = 3.0
_LEGEND_APART: Final = 3.0
_CLEAR: Final = 0.8


@dataclass(frozen=True, slots=True)
class _Field:
    """Where masses [kg] and tilts [degrees] stand on paper; `width` and `height` of the field [mm]."""

    chart: ClosingChart
    width: float = WIDTH
    height: float = HEIGHT

    def x(self, mass: float) -> float:
        """Place of a mass from the left edge [mm]."""
        low, high = float(self.chart.masses[0]), float(self.chart.masses[-1])
        return self.width * (mass - low) / (high - low)

    def y(self, tilt: float) -> float:
        """Place of a tilt above the lower edge [mm]."""
        low, high = float(self.chart.tilts[0]), float(self.chart.tilts[-1])
        return self.height * (tilt - low) / (high - low)


def closing_chart(
    chart: ClosingChart,
    closing: Closing | None = None,
    *,
    units: Units = "mm",
    size: tuple[float, float] = (WIDTH, HEIGHT),
) -> Scene:
    """The chart as a drawing; `closing` marks one drawer in it, where it lies inside the field.

    `size`: width and height of the field on paper [mm].
    """
    field = _Field(chart, *size)
    slam_edge, stall_edge = edges_of(chart)
    xs = [field.x(float(mass)) for mass in chart.masses]
    low, high = [0.0] * len(xs), [field.height] * len(xs)
    slams, stalls = ([field.y(tilt) for tilt in edge] for edge in (slam_edge, stall_edge))
    bands: dict[ChartState, tuple[list[float], list[float]]] = {
        "slams": (low, slams),
        "closes": (slams, stalls),
        "stalls": (stalls, high),
    }
    drawn: list[Primitive] = []
    for state, (bottom, top) in bands.items():
        drawn += _area(state, xs, bottom, top)
    drawn += [*_edge(field, xs, slams), *_edge(field, xs, stalls)]
    drawn.append(rectangle(Bounds(0.0, 0.0, field.width, field.height), "outline"))
    drawn += _axes(field, units)
    marked = _marked(field, closing, units)
    taken = [room.grown(_CLEAR) for room in _rooms(marked)]
    drawn += [word for state, band in bands.items() for word in _word(field, state, xs, *band, taken)]
    drawn += _legend(field)
    drawn += marked
    return Scene("closing-chart", "Closing over mass and lean", _alt(chart, closing, units), tuple(drawn))


def edges_of(chart: ClosingChart) -> tuple[list[float], list[float]]:
    """By mass, the tilt [degrees] above which nothing slams, and from which it no longer stays shut.

    Found between two rows of the grid by the speed at home and by the push that is left; where a rebound
    decides, at the tilt at which the pull no longer beats what holds it back, if that lies between them.
    """
    slam_edge, stall_edge = [], []
    rows, tilts = len(chart.tilts), [float(one) for one in chart.tilts]
    for column in range(len(chart.masses)):
        states = [STATES[int(one)] for one in chart.states[:, column]]
        first = next((row for row in range(rows) if states[row] != "slams"), rows)
        after = next((row for row in range(first, rows) if states[row] == "stalls"), rows)
        speeds, reach = chart.home_speed[:, column], chart.reach[:, column]
        limit = float(chart.limit_tilts[column])
        slam_edge.append(_between(tilts, first, [SOFT - float(one) for one in speeds], limit))
        stalls = _between(tilts, after, [float(one) for one in reach], limit)
        stall_edge.append(max(stalls, slam_edge[-1]))
    return slam_edge, stall_edge


def _between(tilts: Sequence[float], row: int, margin: Sequence[float], limit: float) -> float:
    """The tilt between a row and the one under it where a margin passes 0; else the nearest to the limit."""
    if row == 0:
        return tilts[0]
    if row == len(tilts):
        return tilts[-1]
    below, above = margin[row - 1], margin[row]
    if (below < 0.0) == (above < 0.0):
        return min(max(limit, tilts[row - 1]), tilts[row])
    return tilts[row - 1] + below / (below - above) * (tilts[row] - tilts[row - 1])


def _area(
    state: ChartState, xs: Sequence[float], bottom: Sequence[float], top: Sequence[float]
) -> Iterator[Primitive]:
    """The hatching of one area, column by column range in which it has any height."""
    for start, stop in _runs([high - low > 1e-9 for low, high in zip(bottom, top, strict=True)]):
        # An area that begins between two columns begins where the edges meet, at the column before.
        start, stop = max(start - 1, 0), min(stop + 1, len(xs))
        if stop - start < 2:
            continue
        outline = [(xs[k], bottom[k]) for k in range(start, stop)]
        outline += [(xs[k], top[k]) for k in reversed(range(start, stop))]
        for angle, spacing in HATCHINGS[state]:
            yield Hatch(tuple(outline), angle, spacing, layer=state)


def _runs(flags: Sequence[bool]) -> Iterator[tuple[int, int]]:
    """Start and stop of every run of flags that are set."""
    start: int | None = None
    for place, flag in enumerate([*flags, False]):
        if flag and start is None:
            start = place
        elif not flag and start is not None:
            yield start, place
            start = None


def _edge(field: _Field, xs: Sequence[float], ys: Sequence[float]) -> list[Primitive]:
    """The line between two areas, where it runs inside the field."""
    segments = [
        ((xs[k], ys[k]), (xs[k + 1], ys[k + 1]))
        for k in range(len(xs) - 1)
        if not (ys[k] == ys[k + 1] and ys[k] in (0.0, field.height))
    ]
    return [Lines(tuple(segments), "cut")] if segments else []


def _word(
    field: _Field,
    state: ChartState,
    xs: Sequence[float],
    bottom: Sequence[float],
    top: Sequence[float],
    taken: Sequence[Bounds],
) -> list[Primitive]:
    """The area's word where the area is highest and nothing else is written.

    None where it has no room, for the legend tells it.
    """
    places = np.linspace(_WORD_INSIDE, field.width - _WORD_INSIDE, _WORD_PLACES)
    low, high = np.interp(places, xs, bottom), np.interp(places, xs, top)
    room = [float(np.min((high - low)[max(k - 2, 0) : k + 3])) for k in range(_WORD_PLACES)]
    for place in sorted(range(_WORD_PLACES), key=lambda k: -room[k]):
        if room[place] < _ROOM_FOR_WORDS:
            break
        at = (float(places[place]), float(low[place] + high[place]) / 2 - NOTE_SIZE * 0.35)
        word = Text(at, WORDS[state], NOTE_SIZE, "middle", "semibold", backed=True)
        if not any(word.extent.overlaps(other) for other in taken):
            return [word]
    return []


def _axes(field: _Field, units: Units) -> list[Primitive]:
    pounds = shown_in(units).in_inches
    per_unit = float(KG_PER_POUND) if pounds else 1.0
    masses, tilts = field.chart.masses, field.chart.tilts
    ticks: list[tuple[Point, Point]] = []
    drawn: list[Primitive] = []
    for value in ticks_between(float(masses[0]) / per_unit, float(masses[-1]) / per_unit):
        x = field.x(value * per_unit)
        ticks.append(((x, 0.0), (x, -_TICK)))
        drawn.append(Text((x, -_TICK - LABEL_SIZE), _number(value), LABEL_SIZE, "middle"))
    for value in ticks_between(float(tilts[0]), float(tilts[-1])):
        y = field.y(value)
        ticks.append(((0.0, y), (-_TICK, y)))
        drawn.append(Text((-_TICK - 1.0, y - LABEL_SIZE * 0.35), f"{_number(value)}°", LABEL_SIZE, "end"))
    if tilts[0] < 0.0 < tilts[-1]:
        drawn.append(line((0.0, field.y(0.0)), (field.width, field.y(0.0)), "centre"))
    unit = "lb" if pounds else "kg"
    drawn.append(Lines(tuple(ticks), "edge"))
    drawn.append(Text((field.width, -8.4), f"moving mass, {unit}", NOTE_SIZE, "end"))
    drawn.append(
        Text((0.0, field.height + 2.4), "lean to the front, degrees (minus: to the back)", NOTE_SIZE)
    )
    words = Words("in" if pounds else "mm")
    push, soft = words.speed(field.chart.push), words.speed(SOFT)
    pushed = f"pushed at {push} into its unit; soft up to {soft} (own choice)"
    drawn.append(Text((field.width, field.height + 2.4), pushed, LABEL_SIZE, "end", tone="fine"))
    return drawn


def ticks_between(low: float, high: float) -> list[float]:
    """Round numbers from low to high, at most some eight of them: steps of 1, 2 or 5 times a power of ten."""
    rough = (high - low) / _MOST_TICKS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(one * power for one in (1.0, 2.0, 5.0, 10.0) if one * power >= rough * (1 - 1e-9))
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(k * step, 9) + 0.0 for k in range(first, last + 1)]


def _number(value: float) -> str:
    return f"{value:g}".replace("-", "−")


def _legend(field: _Field) -> list[Primitive]:
    """Every area's hatching and word, in a row under the axis, or in several under a narrow field."""
    drawn: list[Primitive] = []
    wide, tall = _SWATCH
    order: tuple[ChartState, ...] = ("slams", "closes", "stalls")
    wides = [wide + 2.0 + text_width(WORDS[state], NOTE_SIZE) for state in order]
    apart = max((field.width - sum(wides)) / len(order), _LEGEND_APART)
    x, top = 0.0, _FOOT
    for state, takes in zip(order, wides, strict=True):
        if x > 0.0 and x + takes > field.width + _LEGEND_APART:
            x, top = 0.0, top - tall - _LEGEND_APART
        swatch = Bounds(x, top - tall, x + wide, top)
        drawn.append(rectangle(swatch, "edge"))
        drawn += [Hatch(swatch.corners, angle, spacing, layer=state) for angle, spacing in HATCHINGS[state]]
        drawn.append(Text((x + wide + 2.0, top - tall + 1.3), WORDS[state], NOTE_SIZE))
        x += takes + apart
    return drawn


def _marked(field: _Field, closing: Closing | None, units: Units) -> list[Primitive]:
    """One drawer in the chart: a dot and what happens to it; its mass alone where more finds no room."""
    if closing is None:
        return []
    x, y = field.x(closing.moving), field.y(closing.tilt_deg)
    if not (0.0 <= x <= field.width and 0.0 <= y <= field.height):
        return []
    mass = format_mass(closing.moving, shown_in(units).units)
    whole = f"this drawer: {mass}, {WORDS[state_of(closing)]}"
    right, up = x < field.width / 2, y < field.height / 2
    room = (field.width - x if right else x) - _ELBOW[0] - _SHOULDER - 1.0
    words = next((one for one in (whole, mass) if text_width(one, CAPTION_SIZE, "semibold") <= room), mass)
    elbow = (x + (_ELBOW[0] if right else -_ELBOW[0]), y + (_ELBOW[1] if up else -_ELBOW[1]))
    rest = (elbow[0] + (_SHOULDER if right else -_SHOULDER), elbow[1])
    foot = (rest[0] + (1.0 if right else -1.0), rest[1] - CAPTION_SIZE * 0.35)
    return [
        Polyline(((x, y), elbow, rest), "leader"),
        Text(foot, words, CAPTION_SIZE, "start" if right else "end", "semibold", backed=True),
        Circle((x, y), DOT_RADIUS * 2.2, "cut", fill="paper", on_paper=True),
    ]


def _rooms(marked: Sequence[Primitive]) -> Iterator[Bounds]:
    """What the mark of a drawer takes: its words, its dot, and the line between them."""
    for one in marked:
        if isinstance(one, Text):
            yield one.extent
        elif isinstance(one, Circle):
            x, y = one.centre
            yield Bounds(x - one.radius, y - one.radius, x + one.radius, y + one.radius)
        elif isinstance(one, Polyline):
            xs, ys = zip(*one.points, strict=True)
            yield Bounds(min(xs), min(ys), max(xs), max(ys))


def state_of(closing: Closing) -> ChartState:
    """The area that one pushed drawer's answer belongs to."""
    if (closing.pushed.slam_speed or 0.0) > SOFT:
        return "slams"
    return "closes" if closing.pushed.closes else "stalls"


def _alt(chart: ClosingChart, closing: Closing | None, units: Units) -> str:
    shown = shown_in(units).units
    low, high = (format_mass(float(one), shown) for one in (chart.masses[0], chart.masses[-1]))
    says = (
        f"Chart of closing for {low} to {high} moving mass and {_number(float(chart.tilts[0]))} to "
        f"{_number(float(chart.tilts[-1]))} degrees of lean to the front"
    )
    total = chart.states.size
    shares = [
        f"{WORDS[state]} in {100 * int((chart.states == number).sum()) / total:.0f} % of it"
        for number, state in enumerate(STATES)
    ]
    says = f"{says}: {', '.join(shares)}"
    if closing is None:
        return says
    mass = format_mass(closing.moving, shown)
    return f"{says}; this drawer of {mass} at {_number(closing.tilt_deg)} degrees {WORDS[state_of(closing)]}"
