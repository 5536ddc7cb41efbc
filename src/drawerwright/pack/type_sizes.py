"""Which type size a column of words wants: estimated from the letters' widths, so that it is set in one go.

The compiler measures what it sets and takes a smaller size where the estimate was too bold; a good estimate
saves it from measuring every row at several sizes, which costs most of its time and memory.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from drawerwright.drawing.fonts import CAP_HEIGHT, Weight, text_width

MM_PER_POINT: Final = 25.4 / 72
"""Typographic point of page description languages: 72 to the inch, exact."""

SIZES: Final = (
    (9.4, 1.0),
    (9.0, 1.0),
    (8.6, 1.0),
    (8.2, 1.0),
    (7.8, 1.0),
    (7.8, 0.65),
    (7.4, 0.65),
    (7.1, 0.55),
    (6.8, 0.45),
)
"""Type sizes [pt] from the largest, each with the share of the gaps between rows that is kept."""
GAPS: Final[Mapping[str, float]] = {
    "parts": 0.0,
    "bores": 1.6,
    "working": 1.6,
    "checks": 1.7,
    "fine": 1.5,
    "changes": 1.7,
    "rejected": 1.6,
    "notes": 1.5,
}
"""Gaps between the rows of each kind of group [mm]."""
TITLE: Final = 9.5
TITLE_GAP: Final = 1.4
GROUP_GAP: Final = 4.2
"""Title of a group [pt], white under it and between groups [mm]."""
CHANGE_BY: Final = 1.7
CHANGE_SAYS: Final = 1.15
"""A change that makes a drawer fit: by how much, and of what, as shares of the size around it."""
LEADING: Final = 0.42
"""White between the lines of a row [em]."""
BOLD: Final = 0.97
"""The estimate is taken a little small: a size too large is put right by the compiler, too small it stays."""

_TAG: Final = 7.6

Run = tuple[str, Weight]


def lines_of(runs: Sequence[Run], width: float, size: float) -> int:
    """How many lines of `width` [mm] the words of some runs take at `size` [pt]."""
    em = size * MM_PER_POINT
    lines, used = 1, 0.0
    for text, weight in runs:
        space = text_width(" ", em, weight)
        for word in text.split(" "):
            wide = text_width(word, em, weight)
            if used > 0.0 and used + wide > width:
                lines, used = lines + 1, 0.0
            used += wide + space
    return lines


def _block(runs: Sequence[Run], width: float, size: float) -> float:
    """Height of some lines [mm]."""
    lines = lines_of(runs, width, size)
    return (lines * CAP_HEIGHT + (lines - 1) * LEADING) * size * MM_PER_POINT


def row_height(kind: str, row: Mapping[str, Any], width: float, size: float) -> float:
    """Height of one row [mm] at `size` [pt]; kinds are those of `GAPS`."""
    em = size * MM_PER_POINT
    match kind:
        case "parts":
            one = CAP_HEIGHT * em + 1.6
            head = CAP_HEIGHT * _TAG * MM_PER_POINT + 1.6
            return head + len(row["parts"]) * one
        case "bores":
            return _block([(row["name"], "regular"), (row["value"], "semibold")], width, size)
        case "working":
            return _block([(row["title"], "regular"), (row["figures"], "semibold")], width, size)
        case "fine":
            return 1.12 * CAP_HEIGHT * em
        case "checks":
            return 1.0 + (1.12 * CAP_HEIGHT + 0.45) * em + _block([(row["says"], "regular")], width, size)
        case "changes":
            says = _block([(row["says"], "regular")], width, size * CHANGE_SAYS)
            return 1.0 + (CHANGE_BY * CAP_HEIGHT + 0.45) * em + says
        case "rejected":
            first: list[Run] = [(row["slide"], "semibold"), (row["because"], "regular")]
            return _block(first, width - 7.0 - text_width(row["lengths"], em, "semibold"), size)
        case _:
            return 1.0 + _block([(f"{row['who']}.", "semibold"), (row["says"], "regular")], width, size)


def height_of(groups: Sequence[Mapping[str, Any]], width: float, step: int) -> float:
    """Height of titled groups of rows [mm] at one step of `SIZES`."""
    size, tight = SIZES[step]
    total = GROUP_GAP * max(len(groups) - 1, 0)
    for group in groups:
        rows = group["rows"]
        total += TITLE * CAP_HEIGHT * MM_PER_POINT + TITLE_GAP + GAPS[group["kind"]] * tight * (len(rows) - 1)
        total += sum(row_height(group["kind"], row, width, size) for row in rows)
    return total


def first_step(groups: Sequence[Mapping[str, Any]], width: float, height: float) -> int:
    """The step of `SIZES` at which groups of rows will probably find room in `width` × `height` [mm]."""
    low, high = 0, len(SIZES) - 1
    while low < high:
        middle = (low + high) // 2
        if height_of(groups, width, middle) * BOLD <= height:
            high = middle
        else:
            low = middle + 1
    return low
