"""Checks that say yes or no are shown with mark and word alone; those that measure keep their margin."""

from __future__ import annotations

import pytest

from drawerwright.model.check_names import YES_OR_NO
from drawerwright.model.fitted import Check
from drawerwright.pack.check_margins import check_margin_text, check_working_text, named_margin
from drawerwright.pack.shown import Shown

MM = Shown()


@pytest.mark.parametrize("check_id", sorted(YES_OR_NO))
@pytest.mark.parametrize("margin", [0.0, 1.0, -1.0])
def test_a_yes_or_no_has_neither_margin_nor_working(check_id: str, margin: float) -> None:
    check = Check(check_id, "ok", margin, "", "…", "2 × 1 − 1 = 1", "")
    assert check_margin_text(check_id, margin, "", MM) == ""
    assert check_working_text(check) == ""
    assert not any(letter.isdigit() for letter in named_margin(check_id, margin, "", MM))


def test_a_mount_that_lacks_a_length_tells_it_and_one_that_goes_tells_none() -> None:
    assert check_margin_text("mount", -38.0, "mm", MM) == "−38.0 mm"
    assert named_margin("mount", -38.0, "mm", MM) == "Mount −38.0 mm"
    assert check_margin_text("mount", 0.0, "mm", MM) == ""
    assert check_working_text(Check("mount", "ok", 0.0, "mm", "…", "0 mm", "")) == ""


def test_every_other_check_keeps_its_margin_and_working() -> None:
    check = Check("latch-side", "ok", 0.8, "mm", "…", "1 − 0.2 = 0.8 mm", "")
    assert named_margin("latch-side", 0.8, "mm", MM) == "Brackets 0.8 mm"
    assert check_working_text(check) == "1 − 0.2 = 0.8 mm"
    assert check_margin_text("width-to-length", 1.4, "", MM) == "1.4"
