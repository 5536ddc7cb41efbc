"""Lining up all measured fronts of a job."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from drawerwright.align.aligned import AlignedFront, AlignedJob, Target
from drawerwright.align.measured import Travel, stacks_of
from drawerwright.align.moves import best_turns, question_of
from drawerwright.align.pose import find_state, pose_of, readings_told
from drawerwright.align.stack import Stack
from drawerwright.align.steps import gaps_at, steps_of, turns_of
from drawerwright.align.whole_marks import whole_turns
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import FrontGaps

Progress = Callable[[int, int], None]


def align_job(
    fitted: FittedJob,
    gaps: Sequence[FrontGaps],
    *,
    target: Target = "even",
    travel: Travel | None = None,
    progress: Progress | None = None,
) -> AlignedJob:
    """What to turn at every front that was measured, so that its gaps come to the target.

    `target`: "even" makes gaps alike, "house" as designed, "line" meets the readings in `line`. `travel`:
    true moves of a mark [mm], where they are known better than from the family. Raises InputError.
    """
    stacks = stacks_of(fitted, gaps, travel or {})
    aligned: dict[str, AlignedFront] = {}
    for done, stack in enumerate(stacks):
        if progress is not None:
            progress(done, len(stacks))
        for front in align_stack(stack, target):
            aligned[front.drawer] = front
    if progress is not None:
        progress(len(stacks), len(stacks))
    return AlignedJob(target, tuple(aligned[told.drawer] for told in gaps))


def align_stack(stack: Stack, target: Target) -> tuple[AlignedFront, ...]:
    """The fronts of one stack, from the lowest up."""
    found = find_state(stack)
    values, told = readings_told(stack, found)
    question = question_of(stack, target)
    marks = np.zeros(6 * len(stack.fronts), dtype=np.int64)
    marks[question.columns] = whole_turns(question, best_turns(question))
    turns = tuple(turns_of(front, marks[6 * at : 6 * at + 6]) for at, front in enumerate(stack.fronts))
    steps, after = steps_of(stack, turns, values, told)
    fronts = []
    for at, front in enumerate(stack.fronts):
        pose, uncertainty = pose_of(found, at)
        fronts.append(
            AlignedFront(
                drawer=front.id,
                pose=pose,
                uncertainty=uncertainty,
                measured=gaps_at(stack, at, values, told),
                moves=tuple(turn.move for turn in turns[at]),
                steps=steps[at],
                expected=gaps_at(stack, at, after, told),
                left_over=(),
                next_reading=None,
                warnings=(),
            )
        )
    return tuple(fronts)
