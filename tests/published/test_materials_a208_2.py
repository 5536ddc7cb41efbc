"""Medium-density fibreboard against ANSI A208.2, as printed in a buyers' guide of the trade (2014, 2015).

Panel average within 0.125 mm (0.005 in) of the specified thickness; variance from the panel average 0.125
mm. The page's text loses the signs ± and ≤; they are supplied. Any place of a panel is therefore within
0.25 mm.
"""

from __future__ import annotations

import pytest

from drawerwright.catalogue import material_named


@pytest.mark.parametrize(("name", "specified"), [("16 mdf", 16.0), ("3/4 mdf", 19.05), ("1/4 mdf", 6.35)])
def test_fibreboard_lies_within_the_average_and_the_variance_together(name: str, specified: float) -> None:
    board = material_named(name)
    assert board.thickness == specified
    assert (board.lowest, board.highest) == pytest.approx(
        (specified - 0.125 - 0.125, specified + 0.125 + 0.125)
    )
    assert "A208.2" in board.limits_source
