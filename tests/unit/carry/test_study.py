"""The study of a job: what is told, what is missing, which capacity is the lowest, what stops."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawerwright.carry import CarriedDrawer, carry_document, carry_drawer, carry_job
from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, FittedDrawer, FittedJob

Fit = Callable[..., FittedDrawer]
Family = Callable[..., SlideFamily]

MECHANICS: dict[str, Any] = {
    "carriages": {"lower": [130, 370], "upper": [130, 370]},
    "carriages_for": 500,
    "stiffness": {"cabinet": 1.2e9, "intermediate": 1.0e9, "drawer": 1.6e9},
    "roller": {"stiffness": 4000, "play": 0.1},
}
LIPPED = [[2, 12], [0, 12], [0, 0], [24, 0], [24, 12], [22, 12]]
PROFILES = [
    {
        "member": member,
        "points": LIPPED,
        "radii": 0.3,
        "thickness": 1.2,
        "steel": {"yield": 280, "ultimate": 370},
    }
    for member in ("cabinet", "intermediate", "drawer")
]


NO_REACTIONS: dict[str, Any] = {
    "upper_rear": None,
    "upper_front": None,
    "lower_rear": None,
    "lower_front": None,
}


@pytest.fixture
def carried(fit_one: Fit, family: Family) -> Callable[..., CarriedDrawer]:
    """Carry one drawer of 20 kg on a family of these keys."""

    def carry(
        keys: dict[str, Any] | None = None, asked: dict[str, Any] | None = None, **drawer: Any
    ) -> CarriedDrawer:
        one = fit_one([family(**{**MECHANICS, **(keys or {})})], **{"contents": 20, **drawer})
        return carry_drawer(one, **(asked or {}))

    return carry


Carry = Callable[..., CarriedDrawer]


def check(one: CarriedDrawer, id_: str) -> Check:
    (found,) = (check for check in one.checks if check.id == id_)
    return found


def document(*drawers: CarriedDrawer) -> dict[str, Any]:
    from drawerwright.carry import CarriedJob

    return carry_document(CarriedJob("", drawers))


def test_half_of_what_moves_lies_on_each_slide(carried: Carry) -> None:
    one = carried()
    told = document(one)["drawers"][0]
    assert one.fitted.mass is not None
    half = one.fitted.mass.moving * 9.80665 / 2
    reactions = told["reactions"]
    for carriage in ("upper", "lower"):
        sums = [
            rear + front
            for rear, front in zip(reactions[f"{carriage}_rear"], reactions[f"{carriage}_front"], strict=True)
        ]
        assert sums == pytest.approx([half] * 41, abs=2e-6)
    assert told["load"] == pytest.approx(one.fitted.mass.moving, abs=1e-6)


def test_the_travel_is_looked_at_from_closed_to_fully_out(carried: Carry) -> None:
    told = document(carried(asked={"positions": 11}))["drawers"][0]
    assert told["extension"] == pytest.approx([50.0 * step for step in range(11)])
    assert len(told["sag"]) == len(told["reactions"]["upper_rear"]) == 11


def test_carriages_of_another_length_stand_in_proportion(carried: Carry) -> None:
    one = carried(slide="plain-16/400")
    assert one.slide is not None
    assert one.slide.data.lower == pytest.approx((104.0, 296.0))


def test_a_family_that_tells_nothing_gets_nulls_and_is_told_what_is_missing(fit_one: Fit) -> None:
    one = carry_drawer(fit_one(contents=20))
    told = document(one)["drawers"][0]
    assert told["missing"] == ["carriages", "stiffness", "roller", "soft_close"]
    assert told["moments"] is told["closing"] is told["racking"] is None
    assert told["sag"] is None
    assert told["reactions"] == NO_REACTIONS
    assert told["capacity"] == 45.0
    assert told["screws"] is not None
    assert told["extension"][-1] == 500.0


def test_both_sides_of_an_uneven_load_have_nulls_where_the_family_tells_nothing(fit_one: Fit) -> None:
    told = document(carry_drawer(fit_one(contents=20), off_centre=10.0))["drawers"][0]
    for hand in ("left", "right"):
        assert told["sides"][hand]["sag"] is None
        assert told["sides"][hand]["reactions"] == NO_REACTIONS


@pytest.mark.parametrize(
    ("without", "missing", "has_forces"),
    [("stiffness", "stiffness", True), ("roller", "roller", True), ("carriages", "carriages", False)],
)
def test_each_thing_that_is_missing_costs_the_sag(
    carried: Carry, without: str, missing: str, has_forces: bool
) -> None:
    told = document(carried({without: None}))["drawers"][0]
    assert missing in told["missing"]
    assert told["sag"] is None
    assert (told["reactions"] != NO_REACTIONS) == has_forces


def test_without_holes_the_fixings_are_not_known(carried: Carry) -> None:
    lengths = [{"nominal": 500, "holes": [0]}]
    told = document(carried({"length": lengths}))["drawers"][0]
    assert "holes" in told["missing"]
    assert told["screws"] is None
    assert told["sag"] is None
    assert len(told["reactions"]["upper_rear"]) == 41
    assert told["sag_shares"]["drawer_member"] is not None
    assert told["sag_shares"]["members"] is None


@pytest.mark.parametrize(
    ("drawer", "places"),
    [
        # Holes 37 … 453 deep, the member from 2 to 502: 502 − 453 = 49, 502 − 37 = 465.
        ({}, (49.0, 465.0)),
        # Shelf holes 60 and 400 behind the member's front end.
        ({"mount": "shelf"}, (100.0, 440.0)),
        # The member's rear end in its bracket, its front screw 8 behind its front end.
        (
            {
                "construction": "face-frame",
                "mount": "rear-bracket",
                "frame": {"left": 38, "right": 38, "thickness": 19},
                "opening": {"depth": 530},
            },
            (0.0, 492.0),
        ),
    ],
)
def test_the_member_is_held_by_its_first_and_last_fixing(
    carried: Carry, drawer: dict[str, Any], places: tuple[float, float]
) -> None:
    one = carried(**drawer)
    assert one.slide is not None
    assert one.slide.data.screws == pytest.approx(places)


def test_the_lowest_of_all_capacities_counts_and_is_named(carried: Carry) -> None:
    assert carried().limit.name == "family-rating"  # type: ignore[union-attr]
    lengths = [{"nominal": 500, "holes": [0, 416], "capacity": 30}]
    limit = carried({"length": lengths}).limit
    assert limit is not None
    assert (limit.name, limit.moving) == ("length-rating", 30.0)


def test_a_rating_by_contents_leaves_the_drawers_own_mass_out(carried: Carry) -> None:
    one = carried({"capacity_of": "contents"})
    assert one.limit is not None
    assert one.fitted.mass is not None
    own = one.fitted.mass.moving - 20.0
    assert one.limit.moving == pytest.approx(45.0 + own)
    assert check(one, "load").margin == pytest.approx(25.0)


def test_rollers_that_may_carry_less_than_they_would_stop(carried: Carry) -> None:
    one = carried({"roller": {"stiffness": 4000, "play": 0.1, "carries": 100, "count": 4}})
    assert check(one, "roller-force").state == "stop"
    assert one.limit is not None
    assert one.limit.name == "roller-force"
    rollers = document(one)["drawers"][0]["rollers"]
    assert rollers["each"] == pytest.approx(rollers["largest"] / 4, abs=1e-6)
    assert check(one, "load").state == "stop"
    assert one.limit.moving == pytest.approx(one.load * 100 / rollers["largest"])  # type: ignore[operator]


def test_a_test_at_a_raised_load_is_called_modified_wherever_its_claim_shows(carried: Carry) -> None:
    evidence = [{"standard": "A156.9 grade 1", "load": "35 kg", "modified": True, "cycles": 50_000}]
    one = carried({"evidence": evidence})
    told = document(one)["drawers"][0]
    assert (told["limited_by"], told["modified"], told["capacity"]) == ("test", True, 35.0)
    assert "modified test" in check(one, "load").says
    assert all("modified" in each["says"] for each in told["capacities"] if each["name"] == "test")


def test_a_test_of_another_length_says_nothing_of_this_one(carried: Carry) -> None:
    evidence = [{"standard": "A156.9 grade 1", "load": "10 kg", "nominal": 400}]
    assert [each.name for each in carried({"evidence": evidence}).capacities] == [
        "family-rating",
        "screw-mount",
    ]


def test_the_rollers_that_leave_their_rail_stop_and_say_where(carried: Carry) -> None:
    """Groups 100 to 370 mm, 500 mm out: the rear ones reach the rail's end at 400 mm."""
    one = carried({"carriages": {"lower": [100, 370], "upper": [130, 370]}})
    told = check(one, "rollers-on-rail")
    assert told.state == "stop"
    assert told.margin == pytest.approx(100 - 125)
    assert "rear of the lower carriage from 400 mm out" in told.says


def test_rolled_members_are_held_against_their_yield_strength(carried: Carry) -> None:
    one = carried({"profile": PROFILES, "stiffness": None})
    told = document(one)["drawers"][0]
    assert told["missing"] == ["soft_close"]
    assert told["sag"] is not None
    assert {each["member"] for each in told["stresses"]} == {"cabinet", "intermediate", "drawer"}
    for each in told["stresses"]:
        assert each["stress"] == pytest.approx(each["moment"] / each["section"]["modulus"], rel=1e-6)
    assert check(one, "member-strength").unit == "N/mm²"


def test_a_stiffness_that_was_measured_goes_before_that_of_the_section(carried: Carry) -> None:
    measured, both = carried(), carried({"profile": PROFILES})
    assert measured.slide is not None
    assert both.slide is not None
    assert both.slide.drawn.sag == pytest.approx(measured.slide.drawn.sag)
    assert both.slide.stresses


def test_weak_steel_is_the_lowest_capacity(carried: Carry) -> None:
    weak = [{**profile, "steel": {"yield": 20}} for profile in PROFILES]
    one = carried({"profile": weak})
    assert one.limit is not None
    assert one.limit.name == "member-strength"
    assert check(one, "member-strength").state == "stop"


def test_a_sag_limit_is_watched_and_the_users_goes_before_the_familys(carried: Carry) -> None:
    assert [one for one in carried().checks if one.id == "sag"] == []
    assert check(carried({"sag_limit": 1}), "sag").state == "watch"
    assert check(carried({"sag_limit": 1}, {"sag_limit": 50.0}), "sag").state == "ok"


def test_a_load_off_the_middle_is_shared_unevenly(carried: Carry) -> None:
    """Slides 520 − 35 = 485 mm apart: 97 mm to the right give the right one 0.5 + 97/485 = 70 %."""
    one = carried(asked={"off_centre": 97.0})
    told = document(one)["drawers"][0]
    assert told["sides"]["right"]["share"] == pytest.approx(0.7)
    assert told["sides"]["left"]["share"] == pytest.approx(0.3)
    whole = told["reactions"]["lower_front"][-1] * 2
    assert told["sides"]["right"]["reactions"]["lower_front"][-1] == pytest.approx(0.7 * whole, abs=1e-5)
    assert told["sides"]["out_of_level"] > 0
    assert check(one, "load-sides").margin == pytest.approx(485 / 2 - 97)


def test_a_load_beyond_a_slide_lifts_the_other_and_stops(carried: Carry) -> None:
    one = carried(asked={"off_centre": -250.0})
    assert check(one, "load-sides").state == "stop"
    assert one.slide is not None
    assert one.slide.sides is not None
    assert one.slide.sides.shares["right"] < 0.0


@pytest.mark.parametrize("contents", [1e5, 1e15, 1e308])
def test_contents_heavier_than_anything_stop(fit_one: Fit, contents: float) -> None:
    one = carry_drawer(fit_one(contents=contents))
    assert one.slide is None
    assert check(one, "load").state == "stop"
    assert check(one, "load").margin == pytest.approx(-contents, rel=1e-3)
    told = document(one)["drawers"][0]
    assert told["load"] == pytest.approx(contents, rel=1e-3)
    assert told["slide"] is None
    assert told["nearest"]["family"] == "plain-16"
    assert told["sag"] is None
    assert told["reactions"] == NO_REACTIONS
    json.dumps(told, allow_nan=False)


def test_an_overloaded_drawer_is_told_how_bad_it_is_on_the_slide_that_came_nearest(
    fit_one: Fit, family: Family, carried: Carry
) -> None:
    """Forces grow with the load alone: those of a drawer that fits, times the ratio of what moves."""
    keys = {**MECHANICS, "roller": {"stiffness": 4000, "play": 0}}
    right = document(carried(keys))["drawers"][0]
    one = carry_drawer(fit_one([family(**keys)], contents=50, slide="plain-16/500"))
    told = document(one)["drawers"][0]
    assert one.slide is None
    assert told["slide"] is None
    assert told["nearest"] == right["slide"]
    assert told["load"] > told["capacity"]
    times = told["load"] / right["load"]
    for key in ("upper_front", "lower_front"):
        wanted = [force * times for force in right["reactions"][key]]
        assert told["reactions"][key] == pytest.approx(wanted, rel=1e-6)
    assert told["sag"] == pytest.approx([sag * times for sag in right["sag"]], rel=1e-4)
    assert told["extension"] == right["extension"]
    assert told.keys() == right.keys()


def test_a_drawer_that_fits_nothing_and_leaves_no_box_has_nulls(fit_one: Fit, family: Family) -> None:
    one = carry_drawer(fit_one([family(**MECHANICS)], opening={"width": 30.0}))
    told = document(one)["drawers"][0]
    assert told["slide"] is None
    assert told["nearest"] is not None
    assert told["extension"] == []
    assert told["sag"] is None
    assert told["reactions"] == NO_REACTIONS


def test_a_load_off_the_middle_is_judged_on_the_slide_that_gets_more_of_it(carried: Carry) -> None:
    keys = {"sag_limit": 4.0, "profile": PROFILES}
    middle, right = carried(keys), carried(keys, asked={"off_centre": 120.0})
    assert middle.slide is not None
    assert right.slide is not None
    assert right.slide.sides is not None
    share = right.slide.sides.shares["right"]
    assert share > 0.6
    for id_ in ("sag", "member-strength"):
        assert check(right, id_).margin < check(middle, id_).margin
    assert middle.slide.rollers is not None
    assert right.slide.rollers is not None
    assert right.slide.rollers.largest == pytest.approx(middle.slide.rollers.largest * 2.0 * share)
    left = carried(keys, asked={"off_centre": -120.0})
    assert check(left, "sag").margin == pytest.approx(check(right, "sag").margin)


def test_a_member_that_yields_is_told_how_many_times_too_much_it_bears(carried: Carry) -> None:
    held, bent = (check(carried({"profile": _thin(by)}), "member-strength") for by in (1.2, 0.35))
    assert held.state == "ok"
    assert "times the stress" in held.says
    assert bent.state == "stop"
    assert "times what it bears before it yields" in bent.says
    assert "times as much" not in held.says + bent.says


def _thin(thickness: float) -> list[dict[str, Any]]:
    return [{**profile, "thickness": thickness} for profile in PROFILES]


def test_a_mass_beyond_reason_is_refused(fit_one: Fit, family: Family) -> None:
    fitted = fit_one([family(**MECHANICS, capacity=1e12)], contents=1e11)
    with pytest.raises(InputError) as refused:
        carry_drawer(fitted)
    assert "beyond what is computed" in str(refused.value)


@pytest.mark.parametrize(
    ("asked", "where"),
    [
        ({"positions": 1}, "carry positions"),
        ({"positions": 1_000_000}, "carry positions"),
        ({"off_centre": math.nan}, "carry off-centre"),
        ({"sag_limit": 0.0}, "carry sag-limit"),
        ({"tilt_deg": 60.0}, "carry tilt"),
    ],
)
def test_a_question_that_cannot_be_answered_is_refused(
    fit_one: Fit, asked: dict[str, Any], where: str
) -> None:
    with pytest.raises(InputError) as refused:
        carry_drawer(fit_one(), **asked)
    assert [fault.where for fault in refused.value.faults] == [where]


def test_all_that_is_wrong_with_a_question_is_told_together(fit_one: Fit) -> None:
    before = [Fault("--off-centre", '"abc"', "cannot be read as a length", "100")]
    with pytest.raises(InputError) as refused:
        carry_drawer(
            fit_one(), only="zz", positions=1, tilt_deg=99.0, sag_limit=-1.0, besides=before, where="--"
        )
    wheres = [fault.where for fault in refused.value.faults]
    assert wheres == ["--off-centre", "--drawer", "--positions", "--sag-limit", "--tilt"]


@pytest.mark.parametrize("off_centre", [260.5, -900.0])
def test_a_load_beside_the_box_is_refused_with_what_is_allowed(fit_one: Fit, off_centre: float) -> None:
    """562 less 42 leaves 520 inside: 260 to either side."""
    with pytest.raises(InputError) as refused:
        carry_drawer(fit_one(id="D1"), off_centre=off_centre, where="")
    (fault,) = refused.value.faults
    assert (fault.where, fault.value) == ("off_centre", f"{off_centre:g} mm")
    assert fault.says == "lies outside the box of D1: up to 260 mm either way"
    assert carry_drawer(fit_one(id="D1"), off_centre=math.copysign(260.0, off_centre)).slide is not None


def test_of_several_boxes_the_narrowest_says_how_far_a_load_may_lie(fit_one: Fit) -> None:
    job = FittedJob("", (fit_one(id="A"), fit_one(id="B", opening={"width": 442.0}), fit_one(id="C")))
    with pytest.raises(InputError, match="outside the box of B, the narrowest: up to 200 mm either way"):
        carry_job(job, off_centre=230.0)
    assert len(carry_job(job, off_centre=200.0).drawers) == 3
    assert len(carry_job(job, off_centre=230.0, only="A").drawers) == 1


def test_an_unknown_drawer_is_refused_with_the_nearest(fit_one: Fit) -> None:
    with pytest.raises(InputError) as refused:
        carry_job(FittedJob("", (fit_one(id="B1-2"),)), only="B1-3")
    assert refused.value.faults[0].try_ == "B1-2"


def test_only_the_drawer_that_is_asked_for_is_told(fit_one: Fit) -> None:
    job = FittedJob("", (fit_one(id="A"), fit_one(id="B")))
    assert [one.id for one in carry_job(job, only="B").drawers] == ["B"]


def test_a_free_standing_cabinet_is_balanced_with_all_its_drawers(fit_many: Callable[..., FittedJob]) -> None:
    size = {"width": 600, "height": 900, "depth": 560}
    cabinet = {"id": "C", "freestanding": True, "size": size, "mass": 40}
    job = fit_many(
        {"id": "A", "cabinet": "C", "row": 1, "contents": 30},
        {"id": "B", "cabinet": "C", "row": 2, "contents": 30, "opening": {"floor": 300}},
        cabinets=[cabinet],
    )
    carried = carry_job(job, only="A")
    (one,) = carried.drawers
    assert one.tipping is not None
    assert len(one.tipping.drawers) == 2
    assert check(one, "tipping").unit == "N m"


def test_progress_is_told_drawer_by_drawer(fit_one: Fit) -> None:
    told: list[tuple[int, int]] = []
    job = FittedJob("", (fit_one(id="A"), fit_one(id="B", contents=100_000)))
    carry_job(job, progress=lambda done, total: told.append((done, total)))
    assert told == [(1, 2), (2, 2)]


def test_sentences_are_in_the_units_asked_for(fit_one: Fit, family: Family) -> None:
    fitted = fit_one([family(**MECHANICS)], contents=20)
    told = check(carry_drawer(fitted, units="in"), "load").says
    assert "lb" in told
    assert "kg" not in told


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    contents=st.floats(0, 1e6),
    capacity=st.floats(0.1, 1e7),
    width=st.floats(150, 2500),
    depth=st.floats(360, 700),
    off_centre=st.floats(-0.49, 0.49),
    play=st.floats(0, 2),
    stiffness=st.floats(1e-3, 1e15),
)
def test_no_answer_holds_what_is_no_number(
    fit_one: Fit,
    family: Family,
    contents: float,
    capacity: float,
    width: float,
    depth: float,
    off_centre: float,
    play: float,
    stiffness: float,
) -> None:
    keys = {
        **MECHANICS,
        "capacity": capacity,
        "roller": {"stiffness": stiffness, "play": play},
        "soft_close": {"capture": 50, "pull_in": 8, "spring": 0.2, "damping": 0.1, "drag": 0.008},
        "profile": PROFILES,
    }
    opening = {"width": width, "depth": depth}
    fitted = fit_one([family(**keys)], contents=contents, opening=opening, front={"style": "overlay"})
    told = document(carry_drawer(fitted, off_centre=off_centre * (width - 42), positions=5))
    assert json.loads(json.dumps(told, allow_nan=False)) == told
