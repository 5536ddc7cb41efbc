"""General tolerances of linear sizes, as drawings state them."""

from __future__ import annotations

from bisect import bisect_left
from math import isnan
from typing import Final, Literal

from drawerwright.catalogue.shipped import shipped_values

ToleranceClass = Literal["f", "m", "c", "v"]
_FILE: Final = "general-tolerances.toml"


def general_tolerance(size_mm: float, tolerance_class: ToleranceClass) -> float | None:
    """Plus and minus [mm] of a linear size [mm] by ISO 2768-1:1989, table 1; None where it gives none.

    Classes: f fine, m medium, c coarse, v very coarse. A size at a range's upper end belongs to it.
    """
    table = shipped_values(_FILE)
    place = bisect_left(table["up_to"], size_mm)
    if size_mm < table["above"] or place == len(table["up_to"]):
        return None
    tolerance = float(table["classes"][tolerance_class][place])
    return None if isnan(tolerance) else tolerance
