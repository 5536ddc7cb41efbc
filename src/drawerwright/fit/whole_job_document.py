"""The whole job's choice as JSON: what `fit` adds to its document under `whole_job`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drawerwright.fit.whole_job import Pair, Tally, WholeJobChoice

_DECIMALS = 6


def with_whole_job(document: Mapping[str, Any], choice: WholeJobChoice) -> dict[str, Any]:
    """The document of a fitted job with the choice ahead of its drawers."""
    head = {key: document[key] for key in ("schema", "title")}
    return {**head, "whole_job": whole_job_document(choice), **document}


def whole_job_document(choice: WholeJobChoice) -> dict[str, Any]:
    """Lengths in mm, cost in the user's money, rounded to 1e-6."""
    return {
        "aim": choice.aim,
        "value": _n(choice.value),
        "bound": _n(choice.bound),
        "proven": choice.proven,
        "ties_proven": choice.ties_proven,
        **_tally(choice.chosen),
        "free_choice": _tally(choice.free),
        "box_length_lost": {"sum": _n(choice.lost), "most": _n(choice.most_lost)},
        "travel_lost": {"most": _n(choice.most_travel_lost)},
        "moved": [
            {
                "drawer": one.drawer,
                "quantity": one.count,
                "free": _slide(one.free),
                "taken": _slide(one.taken),
                "lost": _n(one.lost),
                "travel_lost": _n(one.travel_lost),
            }
            for one in choice.moved
        ],
    }


def _tally(tally: Tally) -> dict[str, Any]:
    return {
        "lengths": len(tally.pairs),
        "cost": None if tally.cost is None else _n(tally.cost),
        "boring_patterns": tally.boring_patterns,
        "fence_settings": tally.fence_settings,
        "slides": [{**_slide(pair), "pairs": count} for pair, count in tally.pairs],
    }


def _slide(pair: Pair) -> dict[str, Any]:
    family, nominal = pair
    return {"family": family, "nominal": _n(nominal)}


def _n(value: float) -> float:
    return round(value, _DECIMALS) + 0.0
