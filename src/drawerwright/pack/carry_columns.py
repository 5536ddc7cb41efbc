"""Groups of figures in two columns under the diagrams; what finds no room there goes under the checks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, TypeAlias

from drawerwright.pack.layout import Layout
from drawerwright.pack.type_sizes import SIZES, first_step, height_of

Groups: TypeAlias = Sequence[dict[str, Any]]

CAREFUL: Final = 0.96
"""Share of a room that is filled by the estimate: whole groups are put where they surely find room."""


def part_groups(figures: Groups, beside: Groups, room: tuple[float, float], layout: Layout) -> dict[str, Any]:
    """The figures in a first and a second column of `room` [mm], the rest behind the groups beside.

    The largest type at which whole groups find room counts; with each the step of its type size.
    """
    for step in range(len(SIZES)):
        for rest in range(len(figures), -1, -1):
            more = [*beside, *figures[rest:]]
            beside_step = first_step(more, layout.beside_width, layout.beside_height)
            if rest < len(figures) and beside_step > step:
                break
            split = _split(figures[:rest], room, step)
            if split is not None:
                return _parted(figures[:split], figures[split:rest], more, step, beside_step)
    last = len(SIZES) - 1
    half = len(figures) // 2
    beside_step = first_step(beside, layout.beside_width, layout.beside_height)
    return _parted(figures[:half], figures[half:], beside, last, beside_step)


def _split(figures: Groups, room: tuple[float, float], step: int) -> int | None:
    """How many groups go to the first column, so that both are about as long; None where one is too long."""
    width, height = room[0], room[1] * CAREFUL
    longest = [
        max(height_of(figures[:at], width, step), height_of(figures[at:], width, step))
        for at in range(len(figures) + 1)
    ]
    at = min(range(len(longest)), key=lambda at: (longest[at], -at))
    return at if longest[at] <= height else None


def _parted(first: Groups, second: Groups, beside: Groups, step: int, beside_step: int) -> dict[str, Any]:
    return {
        "first": list(first),
        "second": list(second),
        "beside": list(beside),
        "figures_step": step,
        "beside_step": beside_step,
    }
