"""Long papers in several documents of about the same length."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import TypeVar

Thing = TypeVar("Thing")


def in_parts(things: Sequence[Thing], most: int) -> tuple[Sequence[Thing], ...]:
    """The things in order, in as few parts as hold at most `most` each; nothing is one empty part."""
    count = max(math.ceil(len(things) / most), 1)
    edges = [round(len(things) * number / count) for number in range(count + 1)]
    return tuple(things[low:high] for low, high in pairwise(edges))


def part_names(stem: str, count: int) -> tuple[str, ...]:
    """Names of the documents: the stem alone for one, numbered with as many figures as sort rightly."""
    if count == 1:
        return (stem,)
    figures = max(len(str(count)), 2)
    return tuple(f"{stem}-{number:0{figures}d}" for number in range(1, count + 1))
