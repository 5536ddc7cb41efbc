"""How low an applied front is set, so that its adjusters go both ways, and the gap beside it. Margins [mm].

Only the height is preset by hand. A front lies flat on its subfront, so its depth is where the members stand.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.sources import FAMILY, GEOMETRY, PRACTICE

LEAST_LEFT = 0.5
"""Gap that stays open under a front that is set low [mm]: it must not rub while it is lined up. Common
practice, no source."""
UNDER_IT = ("between", "highest")
NOTHING_UNDER_IT = ("alone", "lowest")
_SMALLER_GAP = "A smaller gap: it has to leave a front."


@equation("mm", source=FAMILY)
def half_way_up(adjust_height_low: Q, adjust_height_high: Q) -> Q:
    """How low a front is set for the height adjusters to have as far up as down."""
    return np.maximum((adjust_height_low + adjust_height_high) / 2, 0)


@equation("mm", source=PRACTICE, style="inset", front="applied")
def front_low__inset(half_way_up: Q, front_gap: Q) -> Q:
    """How low the front is set: half of the gap under it, and 0.5 at least, stay open meanwhile."""
    return np.maximum(np.minimum(half_way_up, np.minimum(front_gap / 2, front_gap - LEAST_LEFT)), 0)


@equation("mm", source=PRACTICE, style="overlay", front="applied", column=UNDER_IT)
def front_low__over_another(half_way_up: Q, front_gap: Q) -> Q:
    """How low the front is set: half of the gap to the front below, and 0.5 at least, stay open."""
    return np.maximum(np.minimum(half_way_up, np.minimum(front_gap / 2, front_gap - LEAST_LEFT)), 0)


@equation("mm", source=PRACTICE, style="overlay", front="applied", column=NOTHING_UNDER_IT)
def front_low__free(half_way_up: Q) -> Q:
    """How low the front is set: nothing that it could meet is told to stand under it."""
    return half_way_up


@equation("mm", source=GEOMETRY, style=("overlay", "inset"), front="applied")
def lifts_after(adjust_height_high: Q, front_low: Q) -> Q:
    """How far the height adjusters lift the front from its even place."""
    return adjust_height_high - front_low


@equation("mm", source=GEOMETRY, style=("overlay", "inset"), front="applied")
def lowers_after(adjust_height_low: Q, front_low: Q) -> Q:
    """How far the height adjusters lower the front from its even place."""
    return front_low - adjust_height_low


@equation(
    "mm",
    source=GEOMETRY,
    style="inset",
    front="applied",
    check=CheckRule(
        "front-gap",
        says="A gap of {front_gap} is kept beside a front of {front_width} by {front_height}. Set "
        "{front_low} low it clears the opening until it is lined up; even, the height adjusters then lift it "
        "{lifts_after} more and lower it {lowers_after}.",
        cure=_SMALLER_GAP,
    ),
)
def front_gap_margin__inset(front_gap: Q, front_width: Q, front_height: Q) -> Q:
    """Gap beside the front; a front must be left between the gaps."""
    return np.minimum(front_gap, np.minimum(front_width, front_height))


_KEPT = CheckRule(
    "front-gap",
    says="A gap of {front_gap} is kept beside a front of {front_width} by {front_height}.",
    cure=_SMALLER_GAP,
)


@equation("mm", source=GEOMETRY, style="inset", front="integral", check=_KEPT)
def front_gap_margin__inset_integral(front_gap: Q, front_width: Q, front_height: Q) -> Q:
    """Gap beside a front that is the box front; a front must be left between the gaps."""
    return np.minimum(front_gap, np.minimum(front_width, front_height))


@equation("mm", source=GEOMETRY, style="overlay", check=_KEPT)
def front_gap_margin__overlay(front_gap: Q, front_width: Q, front_height: Q) -> Q:
    """Gap to the next front; a front must be left."""
    return np.minimum(front_gap, np.minimum(front_width, front_height))
