"""A year's chart of the gaps around a solid front: set today, smallest in the wet season, largest in the dry.

The scene is in millimetres of paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
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
_BESIDE: Final = 56.0
"""Wide enough for the words beside the curves in whatever lettering a reader has."""
NARROW: Final = 62.0
"""Width of the field where little room is left: its lettering is read on a phone then [mm]. Own choice."""
_TICK: Final = 1.6
_APART: Final = 4.2
_STEPS: Final = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0)
_MOST_STEPS: Final = 8


@dataclass(frozen=True, slots=True)
class _Field:
    """Where curves are drawn: `width` [mm on paper] for the year, `top` [mm of gap] for the whole height."""

    width: float
    top: float

    def x(self, month: int) -> float:
        """A month's place."""
        return self.width * month / 12

    def y(self, gap: float) -> float:
        """A gap's place."""
        return HEIGHT * gap / self.top


def season_chart(seasons: Seasons, drawer: str, *, narrow: bool = False) -> Scene:
    """The gaps of one drawer's front over the year, from its driest month on; gaps so small stay in mm.

    `narrow`: the words stand under the curves instead of beside them, and species and cut are left to what
    stands around the chart.

    Raises:
        ValueError: the seasons have no front of that drawer.
    """
    front = next((one for one in seasons.fronts if one.drawer == drawer), None)
    if front is None:
        raise ValueError(f"no front of drawer {drawer} was looked at over the seasons")
    field = _Field(NARROW if narrow else WIDTH, _top(front, seasons.limit))
    under = _APART * len(front.gaps) if narrow else 0.0
    page = Bounds(-14.0, -9.0 - under, field.width + (11.0 if narrow else _BESIDE), HEIGHT + 9.0)
    heading = "Gaps in mm" if narrow else _heading(seasons)
    drawn: list[Primitive] = [rectangle(Bounds(0.0, 0.0, field.width, HEIGHT), "outline")]
    drawn += _months(field)
    drawn += _lengths(field)
    drawn += _limit(seasons.limit, field)
    drawn += _curves(front.gaps, field)
    drawn += _words_under(front.gaps) if narrow else _words_beside(front.gaps, field)
    drawn.append(Text((0.0, HEIGHT), heading, CAPTION_SIZE, weight="semibold", shift=(0.0, 3.0)))
    title = f"Gaps of {drawer} over the year"
    return Scene("season-chart", title, _alt(front, seasons), tuple(drawn), page=page)


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


def _months(field: _Field) -> Iterator[Primitive]:
    for month in range(13):
        yield line((field.x(month), 0.0), (field.x(month), _TICK), "fine")
    for month, word in ((0, "driest month"), (6, "dampest month"), (12, "a year on")):
        yield Text((field.x(month), 0.0), word, LABEL_SIZE, "middle", tone="mid", shift=(0.0, -4.2))


def _lengths(field: _Field) -> Iterator[Primitive]:
    step = _step(field.top)
    for number in range(round(field.top / step) + 1):
        y = field.y(number * step)
        yield line((0.0, y), (_TICK, y), "fine")
        said = hardware(number * step)
        yield Text((0.0, y), said, LABEL_SIZE, "end", tone="mid", shift=(-1.6, -0.35 * LABEL_SIZE))


def _limit(limit: float, field: _Field) -> Iterator[Primitive]:
    y = field.y(limit)
    yield line((0.0, y), (field.width, y), "accent")
    yield Text(
        (field.width / 2, y),
        f"never under {hardware(limit)} mm",
        NOTE_SIZE,
        "middle",
        shift=(0.0, -3.4),
        backed=True,
    )


def _by_height(gaps: Sequence[SeasonalGap]) -> list[tuple[SeasonalGap, LineClass]]:
    """Gaps with their pens, the one that is smallest in the driest month first."""
    return sorted(zip(gaps, _PENS, strict=False), key=lambda pair: pair[0].months[0])


def _curves(gaps: Sequence[SeasonalGap], field: _Field) -> Iterator[Primitive]:
    for gap, pen in _by_height(gaps):
        months = [*gap.months, gap.months[0]]
        yield Polyline(tuple((field.x(at), field.y(value)) for at, value in enumerate(months)), pen)
        yield Circle((field.x(6), field.y(gap.months[6])), DOT_RADIUS, "fine", fill="ink", on_paper=True)


def _words_beside(gaps: Sequence[SeasonalGap], field: _Field) -> Iterator[Primitive]:
    drawn = _by_height(gaps)
    ends = [field.y(gap.months[0]) for gap, _ in drawn]
    places = spread_apart(ends, [NOTE_SIZE] * len(ends), _APART - NOTE_SIZE)
    for (gap, pen), place in zip(drawn, places, strict=True):
        yield Text((field.width, place), _words(gap), NOTE_SIZE, shift=(8.0, -0.35 * NOTE_SIZE))
        yield line((field.width + 1.5, place), (field.width + 7.0, place), pen)


def _words_under(gaps: Sequence[SeasonalGap]) -> Iterator[Primitive]:
    for row, (gap, pen) in enumerate(reversed(_by_height(gaps)), 1):
        y = -6.2 - _APART * row
        yield line((0.0, y), (8.0, y), pen)
        yield Text((10.0, y), _words(gap), NOTE_SIZE, shift=(0.0, -0.35 * NOTE_SIZE))


def _words(gap: SeasonalGap) -> str:
    return f"{gap.edge}: set {hardware(round(gap.set_today, 1))} mm today"
