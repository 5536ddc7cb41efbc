"""Remarks of `slides check`: each where, what, why it matters in the shop, and what would do."""

from __future__ import annotations

from typing import Any

import pytest

from drawerwright.catalogue import Remark, check_family, families_from_mappings
from drawerwright.catalogue.family_left_out import left_out_words

LENGTH: dict[str, Any] = {"nominal": 500, "holes": [0, 32, 224, 448], "slots": [16], "shelf_holes": [60, 400]}
LEAST: dict[str, Any] = {"id": "plain", "capacity": "45 kg", "inside_width_deduction": 42}
MOVING: dict[str, Any] = {
    "carriages": {"lower": [130, 370], "upper": [130, 370]},
    "carriages_for": 500,
    "stiffness": {"cabinet": 1.2e9, "intermediate": 1.0e9, "drawer": 1.6e9},
    "roller": {"stiffness": 4000, "play": 0.1},
    "soft_close": {"capture": 50, "pull_in": 8, "spring": 0.2, "damping": 0.1, "drag": 0.008},
}
BRACKET = {"rear_bracket": {"centre": 14, "reach": [0, 45]}}
OUTSIDE: dict[str, Any] = {
    "carriage": "side-mounted", "inside_width_deduction": 57.4, "min_gap": 12.3, "width_band": [-0.4, 0.8],
}  # fmt: skip


def remarks(**keys: Any) -> list[Remark]:
    (family,) = families_from_mappings([{**LEAST, "length": [LENGTH], **keys}])
    return check_family(family)


def odd(**keys: Any) -> dict[str, Remark]:
    return {remark.where: remark for remark in remarks(**keys) if remark.kind == "implausible"}


def length(**keys: Any) -> dict[str, Any]:
    return {"length": [{**LENGTH, **keys}]}


def moving(key: str, **values: Any) -> dict[str, Any]:
    return {**MOVING, key: {**MOVING[key], **values}}


def lengths(first: dict[str, Any], second: dict[str, Any]) -> dict[str, Any]:
    return {"length": [{**LENGTH, **first}, {"nominal": 550, "holes": [0, 32, 480], **second}]}


CASES = [
    ({"inside_width_deduction": 40}, "inside_width_deduction", "40 mm leaves 4 mm beside the design side"),
    ({"inside_width_deduction": 49}, "inside_width_deduction", "leaves 8.5 mm"),
    ({**OUTSIDE, "inside_width_deduction": 61}, "inside_width_deduction", "stands in 12.7 mm"),
    ({"capacity": "300 kg"}, "capacity", "300 kg is much"),
    ({"capacity": "2 kg"}, "capacity", "2 kg is little"),
    ({"width_band": [0.5, 1.5]}, "width_band", "leaves out 0"),
    ({"width_band": [-5, 5]}, "width_band", "10 mm off"),
    ({"width_band": [-0.1, 0.1]}, "width_band", "narrower than a tape reads"),
    ({"latch_tolerance": {"side": 3, "along": 1}}, "latch_tolerance.side", "as much as a spacer is thick"),
    ({"latch_tolerance": {"side": 1, "along": 3.2}}, "latch_tolerance.along", "as much as a spacer is thick"),
    ({"latch_tolerance": {"side": 0, "along": 1}}, "latch_tolerance.side", "exactly on its seat"),
    (
        {"spacers": [], "latch_tolerance": {"side": 1, "along": 4}},
        "latch_tolerance.along",
        "4 mm off its seat lengthways",
    ),
    ({"spacers": [3, 12]}, "spacers", "12 mm is thick"),
    ({"adjust": {"depth": [1, 4]}}, "adjust.depth", "leaves out 0"),
    ({"adjust": {"side": [-8, 8]}}, "adjust.side", "a long way"),
    ({"adjust_step": {"side": 5}}, "adjust_step.side", "longer than the whole travel, 3 mm"),
    ({"side_strain": 4}, "side_strain", "more than the side adjusters can differ, 3 mm"),
    ({"rear": {"bore_depth": 16}}, "rear.bore_depth", "16 mm goes through a back of 16 mm"),
    ({"rear": {"bore_up": 2}}, "rear.bore_up", "breaks out"),
    ({"rear": {"bore_up": 8}}, "rear.bore_up", "cuts into a bottom of 6 mm"),
    ({"rear": {"notch_height": 20}}, "rear.notch_height", "20 mm cuts above the recess of 13 mm"),
    ({"rear": {"bore_in": 40}}, "rear.bore_in", "beyond the notch, 35 mm wide"),
    ({"rear": {"bore": 25, "bore_up": 20}}, "rear.bore", "no diameter"),
    ({"bracket_holes": [[-12, 9], [28, 9]]}, "bracket_holes", "lies in the side"),
    ({"bracket_holes": [[12, -9], [28, 9]]}, "bracket_holes", "lies in the subfront"),
    ({"bracket_holes": [[9, 12], [9, 28], [20, 12]]}, "bracket_holes", "may be swapped"),
    ({"bracket_holes": [[12, 9], [260, 9]]}, "bracket_holes", "far from the corner"),
    ({"bracket_holes": [[12, 2], [28, 9]]}, "bracket_holes", "close upon the wood"),
    ({"bracket_holes": [[12, 9]]}, "bracket_holes", "1 in all"),
    ({"bracket_angle": 15}, "bracket_angle", "15° from the face"),
    ({"front_overlay": 10, "box_ahead": 3}, "box_ahead", "7 mm inside the cabinet's edge"),
    ({"box_ahead": 12}, "box_ahead", "10 mm off the cabinet"),
    ({"front_inset": 9}, "front_inset", "6 mm behind the cabinet's"),
    ({"front_inset": 0, "box_ahead": 3}, "front_inset", "3 mm out of the cabinet's"),
    ({"setback": 28}, "setback", "28 mm is not the 37 mm"),
    ({"front_fix": 25}, "front_fix", "past a frame of 19 mm"),
    ({"rear_bracket": {"centre": 14, "reach": [0, 2]}}, "rear_bracket.reach", "ends before the 3 mm"),
    ({"rear_bracket": {"centre": 14, "reach": [30, 33]}}, "rear_bracket.reach", "leaves 3 mm"),
    ({"rear_bracket": {"centre": 140}}, "rear_bracket.centre", "beyond the notch"),
    ({**BRACKET, **length(rear_slot=False)}, "rear_bracket", "no length takes one"),
    ({"clearance": {"under": 80}}, "clearance.under", "80 mm is much room to leave under"),
    ({"clearance": {"rear": 80}}, "clearance.rear", "80 mm is much room to leave behind"),
    ({"heights": {"screw_line": 90}}, "heights.screw_line", "90 mm above the box's lower edge"),
    ({"width_to_length": 0.4}, "width_to_length", "0.4 is no ratio"),
    ({"hardware_mass": "20 kg"}, "hardware_mass", "20 kg of moving metal"),
    ({"hardware_mass": 0}, "hardware_mass", "0 kg of moving metal"),
    ({**OUTSIDE, "rear": {"bore": 6}}, "rear", "says nothing"),
    ({**OUTSIDE, "spacers": [3]}, "spacers", "says nothing"),
    ({**OUTSIDE, **BRACKET}, "rear_bracket", "says nothing"),
    (lengths({"capacity": "40 kg"}, {}), "length 550 capacity", "45 kg is more than the 40 kg of length 500"),
    (lengths({"price": 30}, {"price": 28}), "length 550 price", "28 is less than the 30 of length 500"),
    ({"length": [{"nominal": 21}]}, "length 21 nominal", "inches read as millimetres?"),
    (length(capacity="50 kg"), "length 500 capacity", "more than the family's 45 kg"),
    (length(member=551), "length 500 member", "much longer than the box, 500 mm"),
    (length(box=601), "length 500 box", "much longer than the member, 500 mm"),
    (length(box=470), "length 500 box", "is not what the length is called"),
    (length(travel=520), "length 500 travel", "beyond the box, 500 mm"),
    (length(travel=400), "length 500 travel", "leaves 100 mm of the box inside"),
    ({"extension": "over", **length(travel=500)}, "length 500 travel", "not beyond the box"),
    ({"extension": "over", **length(travel=900)}, "length 500 travel", "beyond reason"),
    ({"extension": "three-quarter", **length(travel=480)}, "length 500 travel", "not about three quarters"),
    ({"extension": "three-quarter", **length(travel=520)}, "length 500 travel", "beyond the box"),
    (length(holes=[32, 64, 448]), "length 500 holes", "the first is at 32 mm"),
    (length(holes=[0, 50, 448]), "length 500 holes", "[50] mm off the 32 mm grid"),
    (length(holes=[0]), "length 500 holes", "a single one"),
    (length(holes=[0, 32, 128]), "length 500 holes", "the rear half"),
    (length(member=484, holes=[0, 448]), "length 500 holes", "1 mm from the member's rear end"),
    (length(slots=[35]), "length 500 slots", "35 mm runs into a round hole"),
    (length(shelf_holes=[60]), "length 500 shelf_holes", "a single one"),
    (length(shelf_holes=[0, 400]), "length 500 shelf_holes", "at the very end"),
    (moving("carriages", lower=[100, 370]), "length 500 carriages.lower", "leave their rail"),
    (moving("carriages", upper=[130, 400]), "length 500 carriages.upper", "leave their rail"),
    (moving("carriages", upper=[240, 300]), "length 500 carriages.upper", "stand 60 mm apart"),
    (moving("stiffness", drawer=1.6e3), "stiffness.drawer", "1600 N mm² is no bending stiffness"),
    (moving("roller", stiffness=4), "roller.stiffness", "4 N/mm is no stiffness"),
    (moving("roller", play=2), "roller.play", "2 mm of play"),
    (moving("soft_close", pull_in=3), "soft_close.pull_in", "the rolling drag of a full drawer, 3.53 N"),
    (moving("soft_close", drag=0.2), "soft_close.drag", "0.2 of the load"),
    (moving("soft_close", damping=0), "soft_close.damping", "damps nothing"),
    (moving("soft_close", capture=250), "soft_close.capture", "more than a third of the shortest travel"),
]  # fmt: skip


def test_the_family_that_the_cases_start_from_is_plausible() -> None:
    assert odd() == {}
    assert odd(**MOVING, **BRACKET) == {}
    assert odd(**OUTSIDE) == {}


@pytest.mark.parametrize(("keys", "where", "says"), CASES, ids=[f"{case[1]} {case[2]}" for case in CASES])
def test_what_is_implausible_is_remarked_where_it_stands(keys: dict[str, Any], where: str, says: str) -> None:
    found = [one for one in remarks(**keys) if one.kind == "implausible" and one.where == where]
    assert any(says in one.says for one in found), found


@pytest.mark.parametrize("keys", [case[0] for case in CASES], ids=[f"{case[1]} {case[2]}" for case in CASES])
def test_every_remark_says_why_it_matters_and_what_would_do(keys: dict[str, Any]) -> None:
    for one in remarks(**keys):
        assert one.why.endswith((".", "!", "?"))
        assert len(one.why) > 20
        assert one.try_
        assert one.says
        assert one.as_json() == {
            "kind": one.kind, "where": one.where, "value": one.value,
            "says": one.says, "why": one.why, "try": one.try_,
        }  # fmt: skip


def test_a_value_that_is_implausible_is_told_beside_what_is_said_of_it() -> None:
    assert odd(rear={"bore_depth": 16})["rear.bore_depth"].value == "16 mm"
    assert odd(capacity="300 kg")["capacity"].value == "300 kg"
    assert odd(width_band=[0.5, 1.5])["width_band"].value == "[0.5, 1.5] mm"


def test_inches_stand_beside_millimetres_for_who_reads_them() -> None:
    (family,) = families_from_mappings(
        [{**LEAST, "length": [LENGTH], "rear": {"bore_depth": "5/8 in"}, "design_side": 12.7}]
    )
    said = {remark.where: remark.says for remark in check_family(family, "in")}
    assert said["rear.bore_depth"] == "15.88 mm (5/8 in) goes through a back of 12.7 mm (1/2 in)"


def test_what_a_family_left_out_is_remarked_with_the_value_taken_and_what_it_means() -> None:
    defaulted = {one.where: one for one in remarks() if one.kind == "defaulted"}
    assert defaulted["setback"].says == "left out: 37 mm is taken (common practice)"
    assert "row hole" in defaulted["setback"].why
    assert "clearance" in defaulted
    partly = remarks(clearance={"under": 12, "over": 7})
    assert "clearance.rear" in {one.where for one in partly if one.kind == "defaulted"}
    assert "clearance" not in {one.where for one in partly}


def test_part_of_a_rear_bracket_that_was_left_out_is_remarked() -> None:
    assert "rear_bracket.reach" in {one.where for one in remarks(rear_bracket={"centre": 14})}


def test_lengths_whose_member_and_box_were_left_out_are_named() -> None:
    said = {one.where: one.says for one in remarks(**lengths({"member": 500, "box": 500}, {}))}
    assert said["length member"] == "left out in 550: the nominal length is taken"


def test_what_a_family_lacks_for_a_mount_or_a_study_is_remarked() -> None:
    missing = {one.where for one in remarks(length=[{"nominal": 500}]) if one.kind == "missing"}
    assert missing == {
        "source", "rear_bracket", "hardware_mass", "length holes", "length shelf_holes", "length price",
        "carriages", "stiffness", "roller", "soft_close",
    }  # fmt: skip


def test_a_side_mounted_slide_is_not_asked_for_brackets_and_hooks() -> None:
    wheres = {one.where for one in remarks(**OUTSIDE)}
    assert wheres.isdisjoint({"rear", "spacers", "latch_tolerance", "rear_bracket", "length shelf_holes"})
    assert "setback" in wheres


def test_every_default_has_words_for_what_it_means_and_none_is_left_over() -> None:
    bare = remarks(length=[{"nominal": 500}])
    nested = remarks(
        length=[{"nominal": 500}], latch_tolerance={}, clearance={}, heights={}, rear={}, rear_bracket={},
        adjust={}, adjust_step={},
    )  # fmt: skip
    assert {one.where for one in (*bare, *nested)} == left_out_words().keys()
