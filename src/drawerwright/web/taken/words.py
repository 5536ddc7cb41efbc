"""Slides that changed, in the words of the page: which drawers, what they take, what that does to the box."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.model.fitted import MOUNT_WORDS, ChosenSlide, FittedDrawer
from drawerwright.units import ShownUnits, format_length
from drawerwright.web.schedule.rows import computed
from drawerwright.web.taken.changes import Figure, SlideChange, slide_key

MOST_NAMES: Final = 12
"""Names of drawers in one line, the rest is counted. Own choice."""
RUN: Final = 3
"""As many that stand one behind the other become "A1 to A3"."""


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """Drawers that change alike: `now` what they take, `before` what they took, `boxes` what that does.

    `figures`: of a slide that stays, what changed in its data; `family`: whose data.
    """

    drawers: str
    many: bool
    now: str
    before: str
    boxes: tuple[str, ...]
    figures: tuple[Figure, ...] = ()
    family: str = ""


def lines_of(changes: Sequence[SlideChange], units: ShownUnits) -> list[ChangeLine]:
    """A line for each kind of change, in the order of the job."""
    groups: dict[tuple[object, ...], list[SlideChange]] = {}
    for one in changes:
        groups.setdefault((slide_text(one.before), _now(one), one.figures), []).append(one)
    return [_line(those, units) for those in groups.values()]


def names_in_line(changes: Iterable[SlideChange]) -> str:
    """Drawers in one line: those that stand one behind the other as "A1 to A3"."""
    runs: list[list[SlideChange]] = []
    for one in changes:
        if runs and runs[-1][-1].row == one.row - 1:
            runs[-1].append(one)
        else:
            runs.append([one])
    words: list[str] = []
    for run in runs:
        if len(run) >= RUN:
            words.append(f"{run[0].drawer} to {run[-1].drawer}")
        else:
            words += [one.drawer for one in run]
    if len(words) > MOST_NAMES:
        words[MOST_NAMES:] = [f"{len(words) - MOST_NAMES} more"]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def slide_text(fitted: FittedDrawer | None) -> str:
    """The slide of a drawer as it is told in a job; "none" without one."""
    return "none" if fitted is None or fitted.slide is None else slide_told(fitted.slide)


def slide_told(slide: ChosenSlide) -> str:
    """A slide by family and length, as a job tells it."""
    nominal = format_length(slide.length.nominal, "mm").removesuffix(" mm")
    return f"{slide.family.id}/{nominal}"


def _now(one: SlideChange) -> str:
    """What a drawer takes now; how it is mounted and spaced, where the slide alone says nothing new."""
    before, now = one.before.slide, None if one.now is None else one.now.slide
    if now is None or before is None:
        return "none"
    if slide_told(now) != slide_told(before) or slide_key(now) == slide_key(before):
        return slide_told(now)
    spacers = len(now.side_spacers) + len(now.subfront_spacers)
    return f"{slide_told(now)} {MOUNT_WORDS[now.mount]}, spacers {spacers or 'none'}"


def _line(those: Sequence[SlideChange], units: ShownUnits) -> ChangeLine:
    first = those[0]
    family = first.before.slide.family.id if first.before.slide is not None else ""
    boxes = [words for one in those if (words := _box(one, units))]
    if len(boxes) > MOST_NAMES:
        boxes[MOST_NAMES:] = [f"and {len(boxes) - MOST_NAMES} boxes more"]
    return ChangeLine(
        names_in_line(those),
        len(those) > 1,
        _now(first),
        slide_text(first.before),
        tuple(boxes),
        first.figures,
        family,
    )


def _box(one: SlideChange, units: ShownUnits) -> str:
    """The box before and now; empty where it is the same, or was none."""
    before = computed(one.before, units).box
    now = "" if one.now is None else computed(one.now, units).box
    return f"{one.drawer}: box {before}, now {now}" if before and now and before != now else ""
