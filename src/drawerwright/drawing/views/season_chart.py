"""A year's chart of the gaps around a solid front: set today, smallest in the wet season, largest in the dry.

The scene is in millimetres of paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from drawerwright.align.seasons import SeasonalGap, SeasonedFront, Seasons
from drawerwright.drawing.dimensioning import spread_apart
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import CAPTION_SIZE, DOT_RADIUS, LABEL_SIZE, NOTE_SIZE, LineClass
from drawerwright.drawing.primitives import Circle, Polyline, Text, line, rectangle
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.wording import hardware

WIDTH: Final = 132.0
HEIGHT: Final = 70.0
"""The chart's field on paper [mm]. Own choice."""
_PENS: Final[tuple[LineClass, ...]] = ("outline", "hidden", "edge")
_PAGE: Final = Bounds(-14.0, -9.0, WIDTH + 56.0, HEIGHT + 9.0)
"""Wide enough for the words beside the curves in whatever lettering a reader has."""
_TICK: Final = 1.6
_APART: Final = 4.2
_STEPS: Final = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0)
_MOST_STEPS: Final = 8


def season_chart(seasons: Seasons, drawer: str) -> Scene:
    """The gaps of one drawer's front over the year, from its driest month on; gaps so small stay in mm.

    Raises:
        ValueError: the seasons have no front of that drawer.
    """
    front = next((one for one in seasons.fronts if one.drawer == drawer), None)
    if front is None:
        raise ValueError(f"no front of drawer {drawer} was looked at over the seasons")
    top = _top(front, seasons.limit)
    drawn: list[Primitive] = [rectangle(Bounds(0.0, 0.0, WIDTH, HEIGHT), "outline")]
    drawn += _months()
    drawn += _lengths(top)
    drawn += _limit(seasons.limit, top)
    drawn += _curves(front.gaps, top)
    drawn.append(Text((0.0, HEIGHT), _heading(seasons), CAPTION_SIZE, weight="semibold", shift=(0.0, 3.0)))
    title = f"Gaps of {drawer} over the year"
    return Scene("season-chart", title, _alt(front, seasons), tuple(drawn), page=_PAGE)


def _heading(seasons: Seasons) -> str:
    return f"Gaps in mm: {seasons.species.id}, {seasons.cut}-sawn, {seasons.across} across the grain"


def _alt(front: SeasonedFront, seasons: Seasons) -> str:
    told = "; ".join(
        f"{gap.edge} gap set to {gap.set_today:.1f} mm today, {gap.smallest:.1f} mm in the wet season, "
        f"{gap.largest:.1f} mm in the dry"
        for gap in front.gaps
    )
    return f"Chart over twelve months of {front.drawer}, {seasons.species.id}: {told}"


def _top(front: SeasonedFront, limit: float) -> float:
    largest = max(*(gap.largest for gap in front.gaps), *(gap.set_today for gap in front.gaps), limit)
    step = _step(largest)
    return (math.floor(largest / step) + 1) * step


def _step(largest: float) -> float:
    return next((one for one in _STEPS if largest / one <= _MOST_STEPS), _STEPS[-1])


def _y(gap: float, top: float) -> float:
    return HEIGHT * gap / top


def _x(month: int) -> float:
    return WIDTH * month / 12


def _months() -> Iterator[Primitive]:
    for month in range(13):
        yield line((_x(month), 0.0), (_x(month), _TICK), "fine")
    for month, word in ((0, "driest month"), (6, "dampest month"), (12, "a year on")):
        yield Text((_x(month), 0.0), word, LABEL_SIZE, "middle", tone="mid", shift=(0.0, -4.2))


def _lengths(top: float) -> Iterator[Primitive]:
    step = _step(top)
    for number in range(round(top / step) + 1):
        y = _y(number * step, top)
        yield line((0.0, y), (_TICK, y), "fine")
        said = hardware(number * step)
        yield Text((0.0, y), said, LABEL_SIZE, "end", tone="mid", shift=(-1.6, -0.35 * LABEL_SIZE))


def _limit(limit: float, top: float) -> Iterator[Primitive]:
    y = _y(limit, top)
    yield line((0.0, y), (WIDTH, y), "accent")
    yield Text(
        (WIDTH / 2, y),
        f"never under {hardware(limit)} mm",
        NOTE_SIZE,
        "middle",
        shift=(0.0, -3.4),
        backed=True,
    )


def _curves(gaps: Sequence[SeasonalGap], top: float) -> Iterator[Primitive]:
    drawn = sorted(zip(gaps, _PENS, strict=False), key=lambda pair: pair[0].months[0])
    ends = [_y(gap.months[0], top) for gap, _ in drawn]
    places = spread_apart(ends, [NOTE_SIZE] * len(ends), _APART - NOTE_SIZE)
    for (gap, pen), place in zip(drawn, places, strict=True):
        months = [*gap.months, gap.months[0]]
        yield Polyline(tuple((_x(at), _y(value, top)) for at, value in enumerate(months)), pen)
        yield Circle((WIDTH / 2, _y(gap.months[6], top)), DOT_RADIUS, "fine", fill="ink", on_paper=True)
        said = f"{gap.edge}: set {hardware(round(gap.set_today, 1))} mm today"
        yield Text((WIDTH, place), said, NOTE_SIZE, shift=(8.0, -0.35 * NOTE_SIZE))
        yield line((WIDTH + 1.5, place), (WIDTH + 7.0, place), pen)
