"""ISO 2768-1:1989, table 1: permissible deviations for linear dimensions.

Source: two open copies of the table, which agree with each other; typed here row by row from them.
"""

from __future__ import annotations

import pytest

from drawerwright.catalogue.tolerances import ToleranceClass, general_tolerance

#        over, up to,  f, m, c, v
TABLE_1 = [
    (0.5, 3, 0.05, 0.1, 0.2, None),
    (3, 6, 0.05, 0.1, 0.3, 0.5),
    (6, 30, 0.1, 0.2, 0.5, 1),
    (30, 120, 0.15, 0.3, 0.8, 1.5),
    (120, 400, 0.2, 0.5, 1.2, 2.5),
    (400, 1000, 0.3, 0.8, 2, 4),
    (1000, 2000, 0.5, 1.2, 3, 6),
    (2000, 4000, None, 2, 4, 8),
]
CLASSES: tuple[ToleranceClass, ...] = ("f", "m", "c", "v")


@pytest.mark.parametrize("row", TABLE_1)
def test_every_cell_of_the_table(row: tuple[float, ...]) -> None:
    over, up_to, *deviations = row
    for tolerance_class, deviation in zip(CLASSES, deviations, strict=True):
        assert general_tolerance(up_to, tolerance_class) == deviation
        assert general_tolerance((over + up_to) / 2, tolerance_class) == deviation


def test_outside_the_table_there_is_none() -> None:
    assert general_tolerance(0.4, "m") is None
    assert general_tolerance(4000.1, "m") is None
