"""Bores, notches, fixing and work of a part, where the shop could read them the wrong way round."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from drawerwright.catalogue import families_from_mappings
from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.figures import part_text, wide_enough
from drawerwright.pack.front_rows import front_rows, places_text
from drawerwright.pack.hardware_items import KINDS, items_of
from drawerwright.pack.hardware_list import hardware_list
from drawerwright.pack.mounting_sheet import fronts_text, rows_of, steps_of
from drawerwright.pack.papers import papers
from drawerwright.pack.part_work import part_work
from drawerwright.pack.shown import Shown
from drawerwright.pack.tables import Column, Table, write_csv, write_xlsx

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


def work(drawer: FittedDrawer) -> dict[str, str]:
    return {part.part: part_work(part, drawer) for part in drawer.parts}


@pytest.mark.parametrize(
    ("joint", "told"), [("dovetail", "half-blind sockets"), ("dowel", "dowel holes in its back")]
)
def test_a_front_that_closes_the_box_has_its_joint_groove_and_handle_in_the_list(
    joint: str, told: str
) -> None:
    handle = {"spacing": 128, "bore": 5}
    drawer = fitted(box={"joint": joint, "front": "integral"}, front={"style": "overlay", "handle": handle})
    front = work(drawer)["front"]
    assert told in front
    assert drawer.box is not None
    assert drawer.front is not None
    below = drawer.box.lower_edge - drawer.opening.floor + drawer.front.bottom
    assert below > 0
    assert f"groove 6 wide, 6 deep, {drawer.box.bottom_recess + below:g} above the lower edge" in front
    assert f"handle borings 128 apart, Ø 5, {drawer.front.height / 2:g} above the lower edge" in front
    assert "pilot" not in front


def test_an_applied_front_has_its_pilot_holes_in_the_list() -> None:
    drawer = fitted(front={"style": "overlay", "overlay": {"left": 10, "right": 20, "top": 5, "bottom": 5}})
    assert drawer.fixing is not None
    front = work(drawer)["front"]
    assert f"{len(drawer.fixing.holes)} pilot holes in its back, from the middle left" in front
    assert "as the drawer is pulled" in front
    assert "groove" not in front


def test_a_quarter_inch_bottom_keeps_its_thickness_and_finds_its_groove() -> None:
    drawer = fitted(box={"bottom_thickness": 6.35})
    assert "groove 6.35 wide" in work(drawer)["side"]
    (bottom,) = (part for part in drawer.parts if part.part == "bottom")
    assert part_text(bottom, Shown()).endswith(" × 6.35")


@given(st.floats(min_value=1, max_value=30))
def test_no_groove_is_narrower_than_its_bottom(thickness: float) -> None:
    assert thickness - 1e-5 <= float(wide_enough(thickness)) < thickness + 0.011


def test_files_of_rows_have_no_crumbs_of_the_machine_s_numbers() -> None:
    columns = (
        Column("Length, mm", "length", 9),
        Column("Thickness, mm", "thickness", 9),
        Column("n", "count", 9),
    )
    table = Table("Cut", "Cut", columns, ((539.3333333333334, 3.175, 2),))
    assert write_csv(table).decode().splitlines()[1] == "539.33,3.175,2"
    sheet = load_workbook(io.BytesIO(write_xlsx(table, papers()["a4"]))).worksheets[0]
    assert [cell.value for cell in sheet[2]] == [539.33, 3.175, 2]


def test_a_cut_out_is_sawn_out_of_back_and_bottom_at_its_place() -> None:
    drawer = fitted(cut_out={"width": 150, "depth": 200, "from_left": 120})
    assert drawer.cut_out is not None
    told = work(drawer)
    assert told["back"].endswith("then saw out 150, 120 from its left end as the drawer is pulled")
    # The bottom lies 6 deep in the grooves: its left edge is 6 outside the box's inside face.
    deep = f"{drawer.cut_out.bottom_cut:g}"
    assert f"saw out 150 wide, {deep} from the rear edge, 126 from its left edge" in told["bottom"]
    assert "saw out" not in told["side"] + told["subfront"]


def test_a_stabiliser_and_packing_under_the_rear_ends_are_hardware() -> None:
    drawer = fitted(stabiliser=True)
    assert drawer.mounting is not None
    wider = replace(drawer, mounting=replace(drawer.mounting, rear_packing_left=1.2, rear_packing_right=2.0))
    items = list(items_of(wider))
    assert [(item.unit, count) for item, count in items if item.name == "stabiliser"] == [("piece", 1)]
    assert [(item.hand, item.size) for item, _ in items if item.name == "packing"] == [("L", 1.2), ("R", 2.0)]
    assert not any(item.name == "stabiliser" for item, _ in items_of(fitted()))
    assert all(item.name in KINDS for item, _ in items)


def test_packing_under_the_rear_ends_is_on_the_page_and_the_mounting_sheet() -> None:
    drawer = fitted()
    assert drawer.mounting is not None
    wider = replace(drawer, mounting=replace(drawer.mounting, rear_packing_left=1.2, rear_packing_right=2.0))
    told = dict(bore_rows(wider, Shown()))["Packing under the members' rear ends alone"]
    assert told == "left 1.2, right 2; member's screws longer by it, into the cabinet side"
    headings, (row,) = rows_of([wider], Shown())
    at = [one["name"] for one in headings].index("Packing, rear brackets, spacers")
    assert row["cells"][at].startswith("packing under the rear ends L 1.2, R 2")
    titles = [step["title"] for step in steps_of(FittedJob("", (wider,)))]
    assert "Packing and rear brackets" in titles


def test_a_front_that_closes_the_box_is_not_set_low_or_deep() -> None:
    front = {"style": "overlay", "handle": {"spacing": 128}}
    drawer = fitted(box={"front": "integral"}, front=front)
    assert "Set the front" not in dict(front_rows(drawer, Shown()))
    assert fronts_text([drawer]) == ""
    headings, _ = rows_of([drawer], Shown())
    assert "Front fixed" not in [one["name"] for one in headings]


def test_the_hardware_list_says_what_it_does_not_count() -> None:
    (remark, *_) = hardware_list(FittedJob("", (fitted(),)), Shown()).remarks
    for thing in ("Dowels", "box's corners", "its bottom"):
        assert thing in remark
