"""The public JSON of lining up."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any, Final

from drawerwright.align.aligned import AlignedFront, AlignedJob, Gaps, Move, Pose

SCHEMA: Final = "drawerwright/align/1"
_DECIMALS: Final = 6


def align_document(aligned: AlignedJob) -> dict[str, Any]:
    """The document `drawerwright/align/1`; lengths mm, angles degrees, rounded to 1e-6."""
    return {
        "schema": SCHEMA,
        "target": aligned.target,
        "fronts": [_front(one) for one in aligned.fronts],
        "travel": [
            {
                "drawer": one.drawer,
                "side": "both" if len(one.hands) > 1 else one.hands[0],
                "adjuster": one.adjuster,
                "mm": _n(one.mm),
                "uncertainty": _n(one.uncertainty),
                "family": _n(one.family),
            }
            for one in aligned.travel
        ],
    }


def _front(one: AlignedFront) -> dict[str, Any]:
    return {
        "drawer": one.drawer,
        "pose": _pose(one.pose),
        "uncertainty": _pose(one.uncertainty),
        "measured": _gaps(one.measured),
        "moves": [_move(move) for move in one.moves],
        "steps": [
            {"drawer": step.drawer, **_move(step.move), "expected": _gaps(step.expected)}
            for step in one.steps
        ],
        "expected": _gaps(one.expected),
        "left_over": [
            {
                "what": left.what,
                "size": _n(left.size),
                "unit": "mm",
                "uncertainty": _n(left.uncertainty),
                "cure": left.cure,
                "grade": left.grade,
                "leave": left.leave,
            }
            for left in one.left_over
        ],
        "next_reading": None
        if one.next_reading is None
        else {
            "drawer": one.next_reading.drawer,
            "reading": one.next_reading.reading,
            "before": _n(one.next_reading.before),
            "after": _n(one.next_reading.after),
            "says": one.next_reading.says,
        },
        "warnings": list(one.warnings),
    }


def _pose(pose: Pose) -> dict[str, float | None]:
    return {name: None if value is None else _n(value) for name, value in asdict(pose).items()}


def _gaps(gaps: Gaps) -> dict[str, float | None]:
    return {name: None if value is None else _n(value) for name, value in gaps.items()}


def _move(move: Move) -> dict[str, Any]:
    return {
        "side": move.side,
        "adjuster": move.adjuster,
        "marks": move.marks,
        "mm": _n(move.mm),
        "says": move.says,
    }


def _n(value: float) -> float:
    """A number as the document holds it; 0 has no sign."""
    return round(value, _DECIMALS) + 0.0
