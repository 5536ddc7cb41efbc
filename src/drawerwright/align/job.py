"""Lining up all measured fronts of a job."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.adjusters import TURNED
from drawerwright.align.aligned import AlignedFront, AlignedJob, Target, TravelFound
from drawerwright.align.assumed import rubs
from drawerwright.align.front_geometry import Array
from drawerwright.align.left_over import SLIGHT, LeftContext, poses_left, shapes_left
from drawerwright.align.line import Line, check_line, line_of
from drawerwright.align.measured import Travel, stacks_of
from drawerwright.align.moves import best_turns, free_turns, held_fronts, question_of
from drawerwright.align.next_reading import next_reading
from drawerwright.align.order import order_turns
from drawerwright.align.pose import Found, find_state, pose_of, readings_told
from drawerwright.align.shape import find_shapes
from drawerwright.align.stack import Stack
from drawerwright.align.steps import gaps_at, steps_of, turns_of
from drawerwright.align.travel import refine_travel
from drawerwright.align.warnings import (
    closes_words,
    deciding,
    first_words,
    further_turns,
    held_words,
    level_ends,
    rubs_words,
    warnings_of,
)
from drawerwright.align.whole_marks import Marks, whole_turns
from drawerwright.catalogue.gap_grades import GradeName, usual_grade
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import FrontGaps, Hand, Setting
from drawerwright.units import ShownUnits

Progress: TypeAlias = Callable[[int, int], None]
"""Called with stacks done and stacks in all."""

_OFTEN = 100
_AT_END = 1e-6
"""An adjuster is at its end within this share of a mark."""


@dataclass(frozen=True)
class _Wanted:
    """What all stacks of a job are moved to, and how it is told."""

    target: Target
    line: Line
    words: LeftContext


def align_job(
    fitted: FittedJob,
    gaps: Sequence[FrontGaps],
    *,
    target: Target = "even",
    line: Line | None = None,
    grade: GradeName | None = None,
    travel: Travel | None = None,
    first_round: Sequence[FrontGaps] = (),
    units: ShownUnits = "mm",
    progress: Progress | None = None,
    where: str = "line",
) -> AlignedJob:
    """What to turn at every front that was measured, so that its gaps come to the target.

    `target`: "even" makes gaps alike, "house" as designed, "line" meets the readings of `line` [mm] and makes
    the others alike. `grade`: how uneven a gap may be left. `travel`: true moves of a mark [mm], where they
    are better known than from the family. `first_round`: readings before the moves that were told for them
    were made; the true moves of a mark follow from both. `where` places faults of `line`. Raises InputError.
    """
    if target == "line" or line:
        target = "line"
        check_line(line or {}, {told.drawer: told for told in gaps}, where)
    wanted = _Wanted(target, line or {}, LeftContext(grade or usual_grade(), units))
    found: tuple[TravelFound, ...] = ()
    if first_round:
        gaps, found = _after_first(fitted, first_round, gaps, wanted)
    known = {(one.drawer, (hand, one.adjuster)): one.mm for one in found for hand in one.hands}
    stacks = stacks_of(fitted, gaps, {**known, **(travel or {})})
    aligned: dict[str, AlignedFront] = {}
    place = {told.drawer: number for number, told in enumerate(gaps)}
    for done, stack in enumerate(stacks):
        if progress is not None and done % _OFTEN == 0:
            progress(done, len(stacks))
        names = [front.id for front in stack.fronts]
        for front in _align(stack, wanted, from_the_top=place[names[0]] > place[names[-1]]):
            aligned[front.drawer] = front
    if progress is not None:
        progress(len(stacks), len(stacks))
    return AlignedJob(target, tuple(aligned[told.drawer] for told in gaps), found)


@dataclass(frozen=True)
class Turned:
    """How a stack's adjusters (6 n,) are to be turned, in marks.

    `short`: best turns within their ends less those without ends; `further`: what those at their end would
    have to be turned on by, for what the readings tell; `ends` 1 at the high end, -1 at the low one.
    `held` (n,): fronts that a gap which nobody measured keeps from being turned further.
    """

    marks: Marks
    short: Array
    further: Array
    ends: NDArray[np.int64]
    held: NDArray[np.bool_]


def turn_stack(stack: Stack, found: Found, target: Target, line: Line | None = None) -> Turned:
    """How to turn the adjusters of a stack, from its state as found."""
    wanted = line_of(stack, line) if line else None
    step = np.concatenate([front.adjusters.step for front in stack.fronts])
    marks = np.zeros(len(step), dtype=np.int64)
    short = np.zeros(len(step))
    ends = np.zeros(len(step), dtype=np.int64)
    held = np.zeros(len(stack.fronts), dtype=np.bool_)
    for deep in (False, True):
        question = question_of(stack, found, target, wanted, gaps_by=marks * step if deep else None)
        free = free_turns(question)
        best = best_turns(question, free)
        marks[question.columns] = whole_turns(question, best)
        short[question.columns] = best - free
        for at in held_fronts(question, free):  # what these lack, a reading may bring: no end keeps it
            held[at] = True
            short[6 * at : 6 * at + 3] = 0.0
        ends[question.columns] = (best > question.high - _AT_END).astype(int) - (
            best < question.low + _AT_END
        )
    further = [
        further_turns(front, found.is_told(at), -short[6 * at : 6 * at + 6], ends[6 * at : 6 * at + 6])
        for at, front in enumerate(stack.fronts)
    ]
    return Turned(marks, short, np.concatenate(further), ends, held)


def _align(stack: Stack, wanted: _Wanted, *, from_the_top: bool) -> tuple[AlignedFront, ...]:
    """The fronts of one stack, from the lowest up; turned in the order in which they were told."""
    units = wanted.words.units
    places = range(len(stack.fronts))
    order = places[::-1] if from_the_top else places
    found = find_state(stack)
    values, told = readings_told(stack, found)
    turning = turn_stack(stack, found, wanted.target, wanted.line)
    marks = turning.marks
    turns = tuple(turns_of(front, marks[6 * at : 6 * at + 6], units) for at, front in enumerate(stack.fronts))
    ordered = order_turns(stack, turns, values, told, order)
    turns, tight = ordered.turns, ordered.tight
    reordered = ordered.fronts != tuple(order)
    steps, after = steps_of(stack, turns, values, told, ordered.fronts)
    shapes = find_shapes(stack)
    fronts = []
    for at, front in enumerate(stack.fronts):
        pose, uncertainty = pose_of(found, at)
        part = slice(6 * at, 6 * at + 6)
        turned = marks[part] * front.adjusters.step
        expected = gaps_at(stack, at, after, told)
        tight_left = {
            name: value for name, value in expected.items()
            if value is not None and not name.startswith("out_") and rubs(stack, at, name, value)
        }  # fmt: skip
        decides = tuple(
            dict.fromkeys(TURNED[one][0] for one in deciding(front, turned, turning.further[part]))
        )
        words = replace(wanted.words, rubs=bool(tight_left))
        left = [*shapes_left(stack, shapes, at, words)]
        if wanted.target != "line":
            leans = shapes.fronts[at].leans.is_plain(SLIGHT)
            short = turning.short[part] * front.adjusters.step
            high_told = bool(found.is_told(at)[1])
            ended = level_ends(short[1] - short[2], turning.ends[part][1:3], high_told)
            left += poses_left(
                stack, found, turned, short, at, words, leans=leans, ended=ended, decides=decides
            )
        fronts.append(
            AlignedFront(
                drawer=front.id,
                pose=pose,
                uncertainty=uncertainty,
                measured=gaps_at(stack, at, values, told),
                moves=tuple(turn.move for turn in turns[at]),
                steps=steps[at],
                expected=expected,
                left_over=tuple(left),
                next_reading=next_reading(stack, found, at, units),
                warnings=(
                    *warnings_of(stack, found, at, turned, turning.further[part], units),
                    *(first_words(stack, at, ordered.fronts) if reordered else ()),
                    *(held_words(stack, at, units) if turning.held[at] else ()),
                    *closes_words(tight[at], units),
                    *rubs_words(tight_left, units),
                ),
                decides=decides,
                held=bool(turning.held[at]),
                turn=ordered.fronts.index(at),
            )
        )
    return tuple(fronts)


def _after_first(
    fitted: FittedJob, first: Sequence[FrontGaps], second: Sequence[FrontGaps], wanted: _Wanted
) -> tuple[list[FrontGaps], tuple[TravelFound, ...]]:
    """Second readings with where the adjusters stand now, and the true travel of a mark.

    What was turned in between is told by the settings of both rounds, or else was told by us.
    """
    now = {told.drawer: told for told in second}
    then = {told.drawer: told for told in first}
    travels: list[TravelFound] = []
    for stack in stacks_of(fitted, first, {}):
        if not all(front.id in now for front in stack.fronts):
            continue
        marks = turn_stack(stack, find_state(stack), wanted.target, wanted.line).marks
        told = [
            _turned_for(front.adjusters.evening, marks[6 * at : 6 * at + 6])
            for at, front in enumerate(stack.fronts)
        ]
        turned = []
        for front, ours in zip(stack.fronts, told, strict=True):
            before, after = then[front.id].settings, now[front.id].settings
            made = {
                key: after.get(key, before.get(key, 0.0) + ours[key]) - before.get(key, 0.0) for key in ours
            }
            turned.append(made)
            stands = {key: before.get(key, 0.0) + by for key, by in made.items()}
            now[front.id] = replace(now[front.id], settings=stands)
        again = Stack(tuple(replace(front, told=now[front.id]) for front in stack.fronts))
        travels += refine_travel(stack, again, turned)
    return [now[one.drawer] for one in second], tuple(travels)


def _turned_for(evening: tuple[int, int], marks: Marks) -> dict[Setting, float]:
    """Marks by hand and adjuster from those of one front's columns (6,)."""
    left: Hand = "left"
    right: Hand = "right"
    return {
        (left, "side"): float(evening[0] + marks[0]),
        (right, "side"): float(evening[1] + marks[0]),
        (left, "height"): float(marks[1]),
        (right, "height"): float(marks[2]),
        (left, "depth"): float(marks[3]),
        (right, "depth"): float(marks[4]),
        (left, "tilt"): float(marks[5]),
        (right, "tilt"): float(marks[5]),
    }
