"""Bores, notches, fixing and work of a part, where the shop could read them the wrong way round."""

from __future__ import annotations

from typing import Any

import pytest

from drawerwright.catalogue import families_from_mappings
from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.front_rows import places_text
from drawerwright.pack.shown import Shown

FAMILY = {
    "id": "plain-16",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500, "holes": [0, 32, 224]}],
}


def fitted(**keys: Any) -> FittedDrawer:
    told = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16, **keys}
    (drawer,) = fit_job(job_from_mapping({"drawer": [told]}), families_from_mappings([FAMILY])).drawers
    assert drawer.slide is not None
    return drawer


def test_places_that_differ_to_both_hands_name_the_hands_of_whoever_pulls() -> None:
    told = places_text([(-188.9, 40.0), (192.1, 40.0)], Shown())
    assert told == "left 188.9, right 192.1, as the drawer is pulled; 40 up"
    assert places_text([(-200.0, 40.0), (0.0, 90.0)], Shown()) == (
        "left 200, 40 up; middle, 90 up; as the drawer is pulled"
    )


@pytest.mark.parametrize(("bottom", "notched"), [("groove-4", True), ("groove-3", False), ("under", False)])
def test_notches_are_told_only_for_a_back_that_reaches_down_to_the_members(
    bottom: str, notched: bool
) -> None:
    drawer = fitted(box={"bottom": bottom})
    told = dict(bore_rows(drawer, Shown()))
    assert ("Notches in the back, both corners" in told) == notched
    cuts = rear_cuts(drawer)
    assert cuts is not None
    above = "the bottom's underside" if notched else "the back's lower edge"
    assert told["Hook bores in the back"].endswith(f"above {above}")
    if not notched:
        assert cuts.lifted > 0
        assert f" {cuts.bore_y:g} above the back's" in told["Hook bores in the back"]
