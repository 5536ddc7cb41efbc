from __future__ import annotations

import json
import math
from typing import Any

import pytest
from pydantic import ValidationError

from drawerwright.errors import Problem
from drawerwright.model.family import SlideFamily
from drawerwright.model.faults import known_keys, problems_of

CONTRACT = {
    "id": "plain-16", "title": "…", "units": "mm", "invented": True, "extension": "full",
    "carriage": "concealed", "capacity": "45 kg", "capacity_of": "moving", "inside_width_deduction": 42,
    "design_side": 16, "design_subfront": 16, "min_gap": 4.5, "latch_tolerance": {"side": 0.8, "along": 1.0},
    "width_band": [-1.0, 1.5], "spacers": [3], "clearance": {"under": 14, "over": 7, "rear": 3},
    "front_overlay": 2, "front_inset": 3, "box_ahead": 3, "setback": 37,
    "heights": {"screw_line": 10, "rear_bracket": 10, "on_shelf": 12}, "bottom_recess": 13,
    "rear": {"notch_width": 35, "notch_height": 13, "bore": 6, "bore_depth": 10, "bore_in": 7, "bore_up": 11},
    "bracket_holes": [[12, 9], [28, 9], [12, 25]], "bracket_angle": 75,
    "rear_bracket": {"centre": 14, "reach": [0, 45]}, "front_fix": 8,
    "adjust": {"side": [-1.5, 1.5], "height": [0.0, 3.0], "depth": [0.0, 4.0]},
    "adjust_step": {"side": 0.25, "height": 0.25, "depth": 0.25}, "side_strain": 0.5,
    "carriages": {"lower": [130, 370], "upper": [130, 370]}, "carriages_for": 500,
    "stiffness": {"cabinet": 1.2e9, "intermediate": 1.0e9, "drawer": 1.6e9},
    "roller": {"stiffness": 4000, "play": 0.1},
    "soft_close": {"capture": 50, "pull_in": 8, "spring": 0.2, "damping": 0.1, "drag": 0.008},
    "length": [
        {"nominal": 500, "member": 500, "box": 500, "travel": 500, "capacity": "45 kg", "price": 0,
         "holes": [0, 32, 224, 256, 416], "slots": [16], "shelf_holes": [60, 400], "rear_slot": True}
    ],
}  # fmt: skip
LEAST: dict[str, Any] = {
    "id": "plain", "capacity": "45 kg", "inside_width_deduction": 42, "length": [{"nominal": 500}],
}  # fmt: skip
CHANNEL = [[22, 8], [0, 8], [0, 0], [22, 0]]
CROSSING = [[0, 0], [20, 0], [20, 20], [10, 20], [10, -5]]
WEAK = {"yield": 300, "ultimate": 280}


def family(**keys: Any) -> SlideFamily:
    return SlideFamily.model_validate({**LEAST, **keys})


def problems(**keys: Any) -> list[Problem]:
    with pytest.raises(ValidationError) as refused:
        family(**keys)
    return problems_of(refused.value, SlideFamily)


def test_every_key_of_the_contract_is_read() -> None:
    whole = SlideFamily.model_validate(CONTRACT)
    assert whole.capacity == 45.0
    assert whole.adjust.height == (0.0, 3.0)
    assert whole.carriages is not None
    assert whole.carriages.upper == (130.0, 370.0)
    assert whole.rear_bracket is not None
    assert whole.rear_bracket.reach == (0.0, 45.0)
    assert whole.bracket_holes == ((12.0, 9.0), (28.0, 9.0), (12.0, 25.0))
    assert whole.soft_close is not None
    assert whole.soft_close.drag == 0.008
    assert whole.lengths[0].holes == (0.0, 32.0, 224.0, 256.0, 416.0)
    assert whole.lengths[0].price == 0.0


def test_what_a_family_leaves_out_is_as_in_the_contract() -> None:
    least, whole = family(), SlideFamily.model_validate(CONTRACT)
    left_out = {
        "id", "title", "invented", "rear_bracket", "carriages", "carriages_for", "stiffness", "roller",
        "soft_close", "lengths",
    }  # fmt: skip
    for key in set(SlideFamily.model_fields) - left_out:
        assert getattr(least, key) == getattr(whole, key), key
    assert least.rear_bracket is least.carriages is least.stiffness is least.soft_close is None


def test_a_length_is_as_long_as_its_name_unless_told() -> None:
    length = family(length=[{"nominal": 450}]).lengths[0]
    assert (length.nominal, length.member, length.box) == (450.0, 450.0, 450.0)
    assert length.travel is length.capacity is length.price is None
    assert length.rear_slot


@pytest.mark.parametrize(
    ("extension", "travel", "is_"),
    [("full", None, 500.0), ("three-quarter", None, 375.0), ("over", 530, 530.0), ("full", 490, 490.0)],
)
def test_travel_is_told_or_follows_from_the_extension(extension: str, travel: Any, is_: float) -> None:
    length = {"nominal": 500} | ({} if travel is None else {"travel": travel})
    one = family(extension=extension, length=[length])
    assert one.travel_of(one.lengths[0]) == is_


def test_a_length_may_carry_less_than_its_family() -> None:
    one = family(length=[{"nominal": 500}, {"nominal": 700, "capacity": "80 lb"}])
    assert [one.capacity_at(length) for length in one.lengths] == [45.0, 36.2873896]
    assert one.length_of(700.0) is one.lengths[1]
    assert one.length_of(600.0) is None


def test_over_travel_has_to_be_told() -> None:
    (problem,) = problems(extension="over")
    assert problem.loc == ("length", 0, "travel")


@pytest.mark.parametrize("key", ["id", "capacity", "inside_width_deduction", "length"])
def test_a_missing_key_is_named(key: str) -> None:
    keys = {name: value for name, value in LEAST.items() if name != key}
    with pytest.raises(ValidationError) as refused:
        SlideFamily.model_validate(keys)
    (problem,) = problems_of(refused.value, SlideFamily)
    assert (problem.loc, problem.says) == ((key,), "is missing")


@pytest.mark.parametrize(
    ("keys", "loc"),
    [
        ({"id": "a/b"}, ("id",)),
        ({"id": "auto"}, ("id",)),
        ({"id": ""}, ("id",)),
        ({"id": 3}, ("id",)),
        ({"capacity": "45 mm"}, ("capacity",)),
        ({"capacity": 0}, ("capacity",)),
        ({"inside_width_deduction": 0}, ("inside_width_deduction",)),
        ({"width_band": [1.5, -1.0]}, ("width_band",)),
        ({"width_band": [1.5]}, ("width_band",)),
        ({"width_band": 1.5}, ("width_band",)),
        ({"adjust": {"side": [1, -1]}}, ("adjust", "side")),
        ({"adjust_step": {"side": 0}}, ("adjust_step", "side")),
        ({"spacers": [3, 0]}, ("spacers", 1)),
        ({"spacers": [-3]}, ("spacers", 0)),
        ({"latch_tolerance": {"side": -0.1}}, ("latch_tolerance", "side")),
        ({"bracket_angle": 0}, ("bracket_angle",)),
        ({"bracket_angle": 95}, ("bracket_angle",)),
        ({"bracket_holes": [[12]]}, ("bracket_holes",)),
        ({"setback": 1}, ("setback",)),
        ({"rear_bracket": {"reach": [-5, 45]}}, ("rear_bracket", "reach")),
        ({"rear_bracket": {"reach": [45, 0]}}, ("rear_bracket", "reach")),
        (
            {"carriages": {"lower": [370, 130], "upper": [130, 370]}, "carriages_for": 500},
            ("carriages", "lower"),
        ),
        ({"carriages": {"lower": [9, 9], "upper": [130, 370]}, "carriages_for": 500}, ("carriages", "lower")),
        ({"carriages": {"lower": [130, 370], "upper": [130, 370]}}, ("carriages_for",)),
        ({"stiffness": {"cabinet": 0, "intermediate": 1e9, "drawer": 1e9}}, ("stiffness", "cabinet")),
        ({"stiffness": {"cabinet": 1e9}}, ("stiffness", "intermediate")),
        ({"roller": {"stiffness": math.nan, "play": 0}}, ("roller", "stiffness")),
        ({"extension": "half"}, ("extension",)),
        ({"invented": 1}, ("invented",)),
        ({"length": []}, ("length",)),
        ({"length": {"nominal": 500}}, ("length",)),
        ({"length": [{"nominal": 0}]}, ("length", 0, "nominal")),
        ({"length": [{"nominal": 500, "holes": [0, 64, 32]}]}, ("length", 0, "holes")),
        ({"length": [{"nominal": 500, "holes": [0, 0]}]}, ("length", 0, "holes")),
        ({"length": [{"nominal": 500, "holes": [-32, 0]}]}, ("length", 0, "holes")),
        ({"length": [{"nominal": 500, "holes": [0, 466]}]}, ("length", 0, "holes")),
        ({"length": [{"nominal": 500, "slots": [480]}]}, ("length", 0, "slots")),
        ({"length": [{"nominal": 500, "shelf_holes": [60, 501]}]}, ("length", 0, "shelf_holes")),
        ({"length": [{"nominal": 500, "price": -1}]}, ("length", 0, "price")),
        ({"length": [{"nominal": 500, "capacity": 0}]}, ("length", 0, "capacity")),
        ({"length": [{"nominal": 500}, {"nominal": "50 cm"}]}, ("length", 1, "nominal")),
        ({"length": [{"nominal": 500, "hole": [0]}]}, ("length", 0, "hole")),
        ({"capacty": 3}, ("capacty",)),
        (
            {"profile": [{"member": "drawer", "thickness": 1.2, "points": [[0, 0]]}]},
            ("profile", 0, "points"),
        ),
        (
            {"profile": [{"member": "drawer", "thickness": 0, "points": [[0, 9], [0, 0]]}]},
            ("profile", 0, "thickness"),
        ),
        (
            {"profile": [{"member": "drawer", "thickness": 1.2, "points": CROSSING}]},
            ("profile", 0, "points", 4),
        ),
        (
            {"profile": [{"member": "drawer", "thickness": 1.2, "radii": [1, 9], "points": CHANNEL}]},
            ("profile", 0, "radii", 1),
        ),
        (
            {"profile": [{"member": "drawer", "thickness": 1.2, "radii": 9, "points": CHANNEL}]},
            ("profile", 0, "radii"),
        ),
        (
            {"profile": [{"member": "drawer", "thickness": 1, "points": CHANNEL, "steel": WEAK}]},
            ("profile", 0, "steel", "ultimate"),
        ),
        ({"roller": {"stiffness": 4000, "play": 0, "carries": 0}}, ("roller", "carries")),
        ({"evidence": [{"standard": "a test"}]}, ("evidence", 0, "load")),
        ({"sag_limit": 0}, ("sag_limit",)),
    ],
)
def test_a_contradiction_is_refused_at_its_place(keys: dict[str, Any], loc: tuple[str | int, ...]) -> None:
    found = problems(**keys)
    assert found[0].loc[: len(loc)] == loc, found
    assert found[0].try_


def test_a_hole_at_the_very_end_of_the_member_is_on_it() -> None:
    assert family(length=[{"nominal": 500, "holes": [0, 465]}]).lengths[0].holes[-1] == 465.0


def test_contradictions_of_several_lengths_come_together() -> None:
    found = problems(length=[{"nominal": 500, "holes": [0, 480]}, {"nominal": 500, "slots": [470]}])
    assert {problem.loc[:3] for problem in found} == {
        ("length", 0, "holes"), ("length", 1, "nominal"), ("length", 1, "slots"),
    }  # fmt: skip


def test_profiles_stand_for_members_once_each() -> None:
    profile = {"member": "drawer", "thickness": 1.2, "points": [[0, 12], [0, 0], [22, 0]]}
    one = family(profile=[profile, {**profile, "member": "cabinet"}])
    assert [entry.member for entry in one.profiles] == ["drawer", "cabinet"]
    (problem,) = problems(profile=[profile, profile])
    assert problem.loc == ("profile", 1, "member")


def test_what_is_wrong_with_a_line_that_all_members_share_is_told_once() -> None:
    members = [
        {"member": member, "thickness": 1.2, "radii": 30, "points": CHANNEL}
        for member in ("cabinet", "intermediate", "drawer")
    ]
    (problem,) = problems(profile=members)
    assert problem.loc == ("profile", 0, "radii")
    assert "the same in profile 2 and 3" in problem.says
    other = {**members[2], "radii": 40}
    assert [one.loc for one in problems(profile=[*members[:2], other])] == [
        ("profile", 0, "radii"),
        ("profile", 2, "radii"),
    ]


def test_one_point_is_told_as_one() -> None:
    (problem,) = problems(profile=[{"member": "drawer", "thickness": 1.2, "points": [[0, 0]]}])
    assert f"{problem.value} {problem.says}".startswith("1 point cannot make a line")


def test_an_inch_family_is_converted_as_it_is_read() -> None:
    keys = {**LEAST, "units": "in", "capacity": 100, "inside_width_deduction": "1 5/8", "min_gap": 0.1875}
    keys["length"] = [{"nominal": 21, "holes": ["0", "1 1/4"]}]
    one = SlideFamily.model_validate(keys, context={"bare_unit": "in"})
    assert one.capacity == 45.359237
    assert one.inside_width_deduction == pytest.approx(41.275)
    assert one.min_gap == 4.7625
    assert one.lengths[0].member == 533.4
    assert one.lengths[0].holes == (0.0, 31.75)
    assert one.setback == 37.0


def test_the_json_schema_names_every_key_of_a_family() -> None:
    schema = SlideFamily.model_json_schema()
    assert json.loads(json.dumps(schema)) == schema
    assert set(schema["properties"]) == set(known_keys(SlideFamily, ()))
    assert set(CONTRACT) <= set(schema["properties"])
    assert set(schema["required"]) == {"id", "capacity", "inside_width_deduction", "length"}


def test_a_dumped_family_validates_to_an_equal_one() -> None:
    whole = SlideFamily.model_validate(CONTRACT)
    dumped = json.loads(json.dumps(whole.model_dump(mode="json", by_alias=True)))
    assert SlideFamily.model_validate(dumped) == whole
