"""Columns: whether the openings of one cabinet stand clear of each other. Margins [mm]; it only watches."""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Q, equation
from drawerwright.equations.sources import GEOMETRY

_CURE = "Openings overlap: measure floors and heights again, and number the rows from the bottom."
_ABOVE = CheckRule(
    "column",
    says="The opening ends {column_margin} under the next one above.",
    cure=_CURE,
    only_watches=True,
)
_BELOW = CheckRule(
    "column",
    says="The opening begins {column_margin} over the next one below.",
    cure=_CURE,
    only_watches=True,
)
_BOTH = CheckRule(
    "column",
    says="Between this opening and the nearest of its cabinet {column_margin} is left.",
    cure=_CURE,
    only_watches=True,
)


@equation("mm", source=GEOMETRY, column="lowest", check=_ABOVE)
def column_margin__lowest(row_above_floor: Q, opening_floor: Q, opening_height: Q) -> Q:
    """What is left between an opening and the one above it."""
    return row_above_floor - (opening_floor + opening_height)


@equation("mm", source=GEOMETRY, column="highest", check=_BELOW)
def column_margin__highest(opening_floor: Q, row_below_top: Q) -> Q:
    """What is left between an opening and the one below it."""
    return opening_floor - row_below_top


@equation("mm", source=GEOMETRY, column="between", check=_BOTH)
def column_margin__between(row_above_floor: Q, opening_floor: Q, opening_height: Q, row_below_top: Q) -> Q:
    """The less of what is left above and below an opening."""
    return np.minimum(row_above_floor - (opening_floor + opening_height), opening_floor - row_below_top)
