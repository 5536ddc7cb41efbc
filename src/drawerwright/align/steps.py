"""Turns of a stack as moves for a person: in the order of work, with what is expected after each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawerwright.align.aligned import Gaps, Move, Side, Step
from drawerwright.align.front_geometry import Array
from drawerwright.align.stack import MeasuredFront, Stack
from drawerwright.align.whole_marks import Marks
from drawerwright.align.words import move_words
from drawerwright.model.gaps import GAP_NAMES, AdjusterName
from drawerwright.units import ShownUnits


@dataclass(frozen=True)
class Turn:
    """One move with the turn of each column of its front's adjusters (6,) [mm]."""

    move: Move
    columns: Array


def turns_of(front: MeasuredFront, marks: Marks, units: ShownUnits = "mm") -> tuple[Turn, ...]:
    """Moves of one front (6,) in the order of the mounting sheet: height, tilt, depth, then sideways."""
    found: list[Turn] = []
    side = tuple(_sides(front, marks, units))
    found += [turn for turn in side if turn.move.side != "both"]
    found += _hands(front, "height", marks, 1, units)
    found += _both(front, "tilt", marks, 5, units)
    found += _hands(front, "depth", marks, 3, units)
    found += [turn for turn in side if turn.move.side == "both"]
    return tuple(found)


def _sides(front: MeasuredFront, marks: Marks, units: ShownUnits) -> Iterator[Turn]:
    """Side adjusters: those that stand too unlike each the shorter way, then both together."""
    step = float(front.adjusters.step[0])
    left, right = (by + int(marks[0]) for by in front.adjusters.evening)
    both = min(left, right, key=abs) if left * right > 0 else 0
    turns: tuple[tuple[Side, int, float], ...] = (
        ("left", left - both, 0.5),
        ("right", right - both, 0.5),
        ("both", both, 1.0),
    )
    for side, count, share in turns:
        if count:
            columns = np.zeros(6)
            columns[0] = count * step * share
            yield Turn(_move(side, "side", count, step, units), columns)


def _both(
    front: MeasuredFront, adjuster: AdjusterName, marks: Marks, column: int, units: ShownUnits
) -> Iterator[Turn]:
    if marks[column]:
        step = float(front.adjusters.step[column])
        yield Turn(
            _move("both", adjuster, int(marks[column]), step, units), _columns(front, marks, (column,))
        )


def _hands(
    front: MeasuredFront, adjuster: AdjusterName, marks: Marks, first: int, units: ShownUnits
) -> Iterator[Turn]:
    left, right = int(marks[first]), int(marks[first + 1])
    steps = front.adjusters.step[first], front.adjusters.step[first + 1]
    if left and left == right and steps[0] == steps[1]:
        yield Turn(
            _move("both", adjuster, left, float(steps[0]), units), _columns(front, marks, (first, first + 1))
        )
        return
    hands: tuple[Side, Side] = ("left", "right")
    for place, hand in enumerate(hands):
        count = int(marks[first + place])
        if count:
            yield Turn(
                _move(hand, adjuster, count, float(steps[place]), units),
                _columns(front, marks, (first + place,)),
            )


def _columns(front: MeasuredFront, marks: Marks, which: tuple[int, ...]) -> Array:
    columns = np.zeros(6)
    for column in which:
        columns[column] = marks[column] * front.adjusters.step[column]
    return columns


def _move(side: Side, adjuster: AdjusterName, marks: int, step: float, units: ShownUnits) -> Move:
    mm = float(marks * step)
    return Move(side, adjuster, marks, mm, move_words(side, adjuster, marks, mm, units))


def steps_of(
    stack: Stack,
    turns: Sequence[Sequence[Turn]],
    values: Array,
    told: NDArray[np.bool_],
    order: Sequence[int],
) -> tuple[tuple[tuple[Step, ...], ...], Array]:
    """Steps of each front, the lowest first, and all readings (12 n,) [mm] when every step is done.

    `values` are the readings before and `told` which of them are known; `order` is that in which the fronts
    are turned, by their places.
    """
    values = values.copy()
    found: list[tuple[Step, ...]] = [()] * len(stack.fronts)
    for at in order:
        front = stack.fronts[at]
        steps = []
        for turn in turns[at]:
            values += stack.turning[:, 6 * at : 6 * at + 6] @ turn.columns
            steps.append(Step(front.id, turn.move, gaps_at(stack, at, values, told)))
        found[at] = tuple(steps)
    return tuple(found), values


def gaps_at(stack: Stack, at: int, values: Array, told: NDArray[np.bool_]) -> Gaps:
    """Readings of the front at that place by name; None where they are not known."""
    shown: dict[str, float | None] = {}
    for name in GAP_NAMES:
        row = stack.row(at, name)
        shown[name] = float(values[row]) if told[row] else None
    return shown  # type: ignore[return-value]
