"""Fronts to line up: stacks of plain geometry, and readings made from poses that are known."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np

from drawerwright.align.adjusters import Adjusters, adjusters_of
from drawerwright.align.front_geometry import Array, FrontGeometry
from drawerwright.align.stack import MeasuredFront, Stack
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading

FitOne = Callable[..., FittedDrawer]
INSET = {"style": "inset", "gap": 3}


def gaps_of(drawer: str = "A", settings: Mapping[Any, float] | None = None, **values: float) -> FrontGaps:
    """Readings by name [mm], all of the usual certainty."""
    told = {name: Reading(value) for name, value in values.items()}
    return FrontGaps(drawer, told, settings or {})  # type: ignore[arg-type]


def all_gaps(drawer: str, values: Sequence[float], settings: Mapping[Any, float] | None = None) -> FrontGaps:
    """All twelve readings, in their order."""
    return gaps_of(drawer, settings, **dict(zip(GAP_NAMES, values, strict=True)))


def flat_front(
    fitted: FittedDrawer, told: FrontGaps, geometry: FrontGeometry, adjusters: Adjusters | None = None
) -> MeasuredFront:
    """A front with designed gaps of 3."""
    can = adjusters if adjusters is not None else adjusters_of(fitted, told.settings, {})
    return MeasuredFront(fitted, told, geometry, can, 3.0, 3.0, 3.0)


def stack_at(
    fitted: FittedDrawer,
    geometries: Sequence[FrontGeometry],
    poses: Array,
    spread: float = 0.0,
    noise: Any = None,
) -> Stack:
    """A stack whose fronts stand at `poses` (n, 6): every reading taken, the shared ones once."""
    empty = Stack(tuple(flat_front(fitted, gaps_of(str(at)), one) for at, one in enumerate(geometries)))
    state = np.concatenate([poses.ravel(), np.zeros(len(geometries) + 1)])
    values = empty.design + empty.rows @ state
    if noise is not None:
        values = values + noise.normal(0.0, spread, len(values))
    fronts = []
    for at, geometry in enumerate(geometries):
        told = {
            name: Reading(float(values[empty.row(at, name)]), spread or 0.1)
            for name in GAP_NAMES
            if empty.row(at, name) // 12 == at
        }
        fronts.append(flat_front(fitted, FrontGaps(str(at), told), geometry))
    return Stack(tuple(fronts))


def mirrored(gaps: FrontGaps) -> FrontGaps:
    """The same front seen in a mirror: left for right."""
    swap = {"left": "right", "right": "left"}
    turned = {
        "_".join(swap.get(part, part) for part in name.split("_")): one for name, one in gaps.readings.items()
    }
    settings = {(swap[hand], adjuster): -marks if adjuster == "side" else marks
                for (hand, adjuster), marks in gaps.settings.items()}  # fmt: skip
    return FrontGaps(gaps.drawer, turned, settings)  # type: ignore[arg-type]
