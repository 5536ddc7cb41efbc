"""Slides side by side as JSON: `drawerwright/compare/1`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drawerwright.fit.compare import ComparedDrawer, Comparison, price_of, shown_slide
from drawerwright.model.fitted import FittedDrawer

SCHEMA = "drawerwright/compare/1"
_DECIMALS = 6
NO_DRAWINGS: Mapping[str, str] = {}


def compare_document(comparison: Comparison, drawings: Mapping[str, str] = NO_DRAWINGS) -> dict[str, Any]:
    """Lengths in mm, masses in kg, prices in the user's money; `drawings`: file name by drawer id."""
    return {
        "schema": SCHEMA,
        "title": comparison.title,
        "slides": [
            {"slide": slide, "fitting": comparison.fitting(place), "cost": _maybe(comparison.cost(place))}
            for place, slide in enumerate(comparison.slides)
        ],
        "drawers": [_drawer(one, comparison.slides, drawings) for one in comparison.drawers],
    }


def _drawer(one: ComparedDrawer, slides: tuple[str, ...], drawings: Mapping[str, str]) -> dict[str, Any]:
    return {
        "id": one.drawer.id,
        "quantity": one.drawer.quantity,
        "drawing": drawings.get(one.drawer.id),
        "answers": [_answer(slide, answer) for slide, answer in zip(slides, one.answers, strict=True)],
        "differing": [
            {
                "id": check.id,
                "unit": check.unit,
                "margins": [_maybe(margin) for margin in check.margins],
                "states": list(check.states),
            }
            for check in one.differing
        ],
    }


def _answer(slide: str, answer: FittedDrawer) -> dict[str, Any]:
    taken, box, mass = shown_slide(answer), answer.box, answer.mass
    fits = answer.slide is not None
    return {
        "slide": slide,
        "verdict": answer.verdict,
        "nominal": None if taken is None else _n(taken.length.nominal),
        "mount": None if taken is None else taken.mount,
        "spacers": None
        if taken is None or not fits
        else {
            "side": [_n(one) for one in taken.side_spacers],
            "subfront": [_n(one) for one in taken.subfront_spacers],
        },
        "box": None
        if box is None
        else {
            "outside_width": _n(box.outside_width),
            "inside_width": _n(box.inside_width),
            "height": _n(box.height),
            "length": _n(box.length),
            "side_gap": _n(box.side_gap),
        },
        "travel": _n(taken.family.travel_of(taken.length)) if taken is not None and fits else None,
        "capacity": _maybe(answer.capacity),
        "moving": None if mass is None else _n(mass.moving),
        "price": _maybe(price_of(answer)),
        "stops": [check.id for check in answer.checks if check.state == "stop"],
        "watches": [check.id for check in answer.checks if check.state == "watch"],
    }


def _n(value: float) -> float:
    # Adding 0.0 turns a negative zero into a plain one.
    return round(value, _DECIMALS) + 0.0


def _maybe(value: float | None) -> float | None:
    return None if value is None else _n(value)
