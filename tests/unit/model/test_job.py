from __future__ import annotations

import json
import math
import subprocess
import sys
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from drawerwright.errors import Problem
from drawerwright.model.faults import known_keys, problems_of
from drawerwright.model.job import Cabinet, Drawer, Job, Opening, Readings

OPENING = {"width": 562, "height": 168, "depth": 530}


def drawer(**keys: Any) -> Drawer:
    return Drawer.model_validate({"id": "B1-2", "opening": OPENING, "side": 16, **keys})


def problems(**keys: Any) -> list[Problem]:
    with pytest.raises(ValidationError) as refused:
        drawer(**keys)
    return problems_of(refused.value, Drawer)


def the_problem(**keys: Any) -> Problem:
    found = problems(**keys)
    assert len(found) == 1, found
    return found[0]


def test_only_id_opening_and_side_are_required() -> None:
    one = drawer()
    assert one.opening.width == Readings((562.0,))
    assert (one.mount, one.slide, one.construction, one.size_from) == ("auto", "auto", "frameless", "inside")
    assert (one.front.style, one.front.thickness, one.front.gap) == ("none", 19.0, 3.0)
    assert one.front.overlay.left == one.front.overlay.bottom == 16.0
    assert (one.box.joint, one.box.bottom, one.box.front, one.box.heights) == (
        "butt",
        "groove-4",
        "applied",
        (),
    )
    assert (one.box.bottom_thickness, one.box.groove_depth) == (6.0, 6.0)
    assert one.frame is one.existing_box is one.box_height is one.subfront is one.cabinet is one.row is None
    assert (one.contents.mass, one.contents.preset, one.quantity, one.note) == (0.0, None, 1, "")
    assert (one.lost.left, one.lost.right, one.opening.floor) == (0.0, 0.0, 0.0)


@pytest.mark.parametrize("key", ["id", "opening", "side"])
def test_a_required_key_that_is_missing_is_named_with_an_example(key: str) -> None:
    keys = {"id": "a", "opening": OPENING, "side": 16}
    del keys[key]
    with pytest.raises(ValidationError) as refused:
        Drawer.model_validate(keys)
    (problem,) = problems_of(refused.value, Drawer)
    assert problem.loc == (key,)
    assert problem.says == "is missing"
    assert problem.try_


def test_several_readings_keep_their_order_and_know_their_ends() -> None:
    width = drawer(opening={**OPENING, "width": [562, "55.99 cm", "22 1/8 in"]}).opening.width
    assert width.values == (562.0, 559.9, 561.975)
    assert (width.smallest, width.largest) == (559.9, 562.0)
    assert width.labelled == {}
    assert width.front is width.back is None


def test_labelled_readings_tell_front_from_back_at_slide_height() -> None:
    told = {"front_top": 562, "front_bottom": 561.8, "back_top": 561, "back_bottom": 561.2}
    width = drawer(opening={**OPENING, "width": told}).opening.width
    assert width.labelled == told
    assert (width.front, width.back, width.smallest) == (561.8, 561.2, 561.0)
    plain = drawer(opening={**OPENING, "width": {"front": 562, "back": 561}}).opening.width
    assert (plain.front, plain.back) == (562.0, 561.0)


@given(st.lists(st.floats(1, 5000), min_size=1, max_size=6), st.randoms())
def test_the_order_of_readings_changes_neither_smallest_nor_largest(
    readings: list[float], random: Any
) -> None:
    shuffled = random.sample(readings, len(readings))
    before = Opening.model_validate({**OPENING, "width": readings}).width
    after = Opening.model_validate({**OPENING, "width": shuffled}).width
    assert (before.smallest, before.largest) == (after.smallest, after.largest)


def test_each_reading_that_cannot_be_read_is_reported_with_its_position() -> None:
    found = problems(opening={**OPENING, "width": [562, "wide", True, 0]})
    assert [problem.loc for problem in found] == [("opening", "width", at) for at in (1, 2, 3)]


def test_labels_are_for_widths_and_heights_and_from_a_fixed_list() -> None:
    unknown = the_problem(opening={**OPENING, "width": {"front_botom": 562}})
    assert unknown.loc == ("opening", "width", "front_botom")
    assert unknown.try_ == "front_bottom"
    assert "none of left, right" in the_problem(opening={**OPENING, "height": {"front": 168}}).says
    assert "only a width or a height" in the_problem(opening={**OPENING, "depth": {"left": 530}}).says
    assert "holds no reading" in the_problem(opening={**OPENING, "width": {}}).says
    assert "holds no reading" in the_problem(opening={**OPENING, "width": []}).says


def test_several_readings_of_a_thickness_give_their_mean() -> None:
    assert drawer(side=[15.8, 16.0, 16.1]).side == pytest.approx(15.9667, abs=1e-4)
    assert drawer(subfront=["5/8 in", "16 mm"]).subfront == pytest.approx(15.9375)
    assert "holds no reading" in the_problem(side=[]).says
    assert the_problem(side=[16, "x"]).loc == ("side", 1)


def test_a_subfront_that_is_not_told_is_as_thick_as_the_side() -> None:
    assert drawer(side=12.7).subfront_thickness == 12.7
    assert drawer(side=12.7, subfront=16).subfront_thickness == 16.0


@pytest.mark.parametrize(
    ("keys", "loc"),
    [
        ({"side": True}, ("side",)),
        ({"side": "27 kg"}, ("side",)),
        ({"side": 0}, ("side",)),
        ({"side": -16}, ("side",)),
        ({"side": math.nan}, ("side",)),
        ({"side": 5001}, ("side",)),
        ({"opening": {**OPENING, "height": "tall"}}, ("opening", "height")),
        ({"opening": {**OPENING, "floor": -1}}, ("opening", "floor")),
        ({"opening": 562}, ("opening",)),
        ({"lost": {"left": -1}}, ("lost", "left")),
        ({"front": {"style": "inlaid"}}, ("front", "style")),
        ({"front": {"overlay": -1}}, ("front", "overlay")),
        ({"front": {"overlay": {"left": "x"}}}, ("front", "overlay", "left")),
        ({"box": {"heights": [90, 0]}}, ("box", "heights", 1)),
        ({"box": {"heights": 90}}, ("box", "heights")),
        ({"box": {"joint": "glue"}}, ("box", "joint")),
        ({"box_height": "high"}, ("box_height",)),
        ({"contents": "20 mm"}, ("contents",)),
        ({"contents": {"mass": -1}}, ("contents", "mass")),
        ({"contents": {"preset": ""}}, ("contents", "preset")),
        ({"quantity": 0}, ("quantity",)),
        ({"quantity": 1.5}, ("quantity",)),
        ({"quantity": True}, ("quantity",)),
        ({"quantity": math.inf}, ("quantity",)),
        ({"quantity": math.nan}, ("quantity",)),
        ({"quantity": "2"}, ("quantity",)),
        ({"row": 0}, ("row",)),
        ({"id": ""}, ("id",)),
        ({"id": "a\nb"}, ("id",)),
        ({"id": "x" * 81}, ("id",)),
        ({"id": True}, ("id",)),
        ({"note": 3}, ("note",)),
        ({"mount": "sides"}, ("mount",)),
        ({"mount": ["side"]}, ("mount",)),
        ({"slide": "a b"}, ("slide",)),
        ({"slide": "house-16/long"}, ("slide",)),
        ({"slide": 500}, ("slide",)),
        ({"sid": 16}, ("sid",)),
        ({"opening": {**OPENING, "heigth": 3}}, ("opening", "heigth")),
    ],
)
def test_a_value_that_will_not_do_is_refused_at_its_place(keys: dict[str, Any], loc: tuple[str, ...]) -> None:
    problem = the_problem(**keys)
    assert problem.loc[: len(loc)] == loc
    assert problem.says
    assert problem.try_


def test_an_unknown_key_names_the_nearest_known_one() -> None:
    assert 'the nearest is "quantity"' in the_problem(quantitty=2).says
    assert the_problem(front={"stile": "inset"}).try_.startswith("style, thickness, overlay, gap")


def test_a_word_that_is_none_of_the_choices_names_them_and_the_nearest() -> None:
    problem = the_problem(construction="faceframe")
    assert problem.says == 'is not one of "frameless", "face-frame"'
    assert problem.try_ == '"face-frame"'


def test_a_face_frame_needs_its_frame_and_a_frameless_cabinet_uses_none() -> None:
    frame = {"left": 38, "right": 41, "thickness": 19}
    assert the_problem(construction="face-frame").loc == ("frame",)
    assert drawer(frame=frame).frame_in_use is None
    assert drawer(construction="face-frame", frame=frame).frame.lap == 0.0  # type: ignore[union-attr]
    assert the_problem(construction="face-frame", frame={**frame, "lap": 20}).loc == ("frame", "lap")


def test_what_hinges_take_is_less_than_the_opening() -> None:
    assert the_problem(lost={"left": 300, "right": 262}).loc == ("lost",)
    assert drawer(lost={"left": 300, "right": 200}).lost.left == 300.0


def test_a_told_groove_does_not_go_through_the_side() -> None:
    assert the_problem(side=12, box={"groove_depth": 12}).loc == ("box", "groove_depth")
    assert drawer(side=12, box={"groove_depth": 12, "bottom": "under"}).box.groove_depth == 12.0
    assert drawer(side=5).box.groove_depth == 6.0


def test_an_existing_box_may_be_measured_in_part() -> None:
    assert drawer(existing_box={}).existing_box is None
    in_part = drawer(existing_box={"length": 500}).existing_box
    assert in_part is not None
    assert (in_part.is_wide_as_told, in_part.unmeasured) == (False, ("width", "height"))
    whole = drawer(existing_box={"outside_width": 552, "length": 500, "height": 140}).existing_box
    assert whole is not None
    assert whole.unmeasured == ()
    assert the_problem(existing_box={"inside_width": 520, "outside_width": 520}).says.startswith(
        "is not less"
    )
    assert the_problem(existing_box={"outside_width": 32}).loc == ("existing_box", "outside_width")
    made = drawer(existing_box={"outside_width": "552 mm", "length": 500}).existing_box
    assert made is not None
    assert (made.outside_width, made.inside_width, made.length) == (552.0, None, 500.0)


@pytest.mark.parametrize(
    ("text", "family", "nominal"),
    [
        ("auto", None, None),
        ("house-16", "house-16", None),
        ("house-16/500", "house-16", 500.0),
        ("house-16 / 21 in", "house-16", 533.4),
    ],
)
def test_a_slide_is_any_a_family_or_a_family_and_a_length(
    text: str, family: str | None, nominal: float | None
) -> None:
    one = drawer(slide=text)
    assert (one.slide_family, one.slide_nominal) == (family, nominal)


def test_contents_are_a_mass_or_a_preset_but_not_both() -> None:
    assert drawer(contents="60 lb").contents.mass == 27.2155422
    assert drawer(contents={"preset": "kcma-drawer"}).contents.preset == "kcma-drawer"
    assert "one is wanted" in the_problem(contents={"preset": "kcma-drawer", "mass": 3}).says


def test_a_preset_is_checked_where_the_known_ones_are_told() -> None:
    keys = {"id": "a", "opening": OPENING, "side": 16, "contents": {"preset": "kcma-draw"}}
    with pytest.raises(ValidationError) as refused:
        Drawer.model_validate(keys, context={"presets": ["kcma-drawer", "clothing-fill"]})
    (problem,) = problems_of(refused.value, Drawer)
    assert problem.loc == ("contents", "preset")
    assert problem.try_ == '"kcma-drawer"'


def test_one_overlay_counts_for_all_edges() -> None:
    overlay = drawer(front={"style": "overlay", "overlay": "1/2 in"}).front.overlay
    assert (overlay.left, overlay.right, overlay.top, overlay.bottom) == (12.7, 12.7, 12.7, 12.7)
    uneven = drawer(front={"overlay": {"left": 5}}).front.overlay
    assert (uneven.left, uneven.right) == (5.0, 16.0)


def test_the_heights_a_shop_keeps_are_put_in_order() -> None:
    assert drawer(box={"heights": [147, 90, 120, 90]}).box.heights == (90.0, 120.0, 147.0)


def test_bare_numbers_of_an_inch_file_are_converted_and_defaults_are_not() -> None:
    keys = {
        "id": "a",
        "opening": {"width": 22, "height": 6.5, "depth": "530 mm"},
        "side": 0.625,
        "contents": 60,
    }
    one = Drawer.model_validate(keys, context={"bare_unit": "in"})
    assert one.opening.width.values == (558.8,)
    assert one.opening.height.values == (165.1,)
    assert one.opening.depth.values == (530.0,)
    assert (one.side, one.contents.mass) == (15.875, 27.2155422)
    assert one.front.thickness == 19.0


@given(st.integers(1, 190 * 64), st.integers(1, 190 * 64), st.integers(1, 12 * 64))
def test_a_drawer_in_inches_equals_the_same_in_millimetres(width: int, height: int, side: int) -> None:
    def told(factor: float) -> dict[str, Any]:
        sizes = {"width": width / 64 * factor, "height": height / 64 * factor, "depth": 20 * factor}
        return {"id": "a", "opening": sizes, "side": side / 64 * factor}

    inches = Drawer.model_validate(told(1), context={"bare_unit": "in"})
    millimetres = Drawer.model_validate(told(25.4))
    assert inches.side == pytest.approx(millimetres.side, rel=1e-14)
    assert inches.opening.width.smallest == pytest.approx(millimetres.opening.width.smallest, rel=1e-14)


def test_nothing_can_be_changed_afterwards() -> None:
    one = drawer()
    with pytest.raises(ValidationError):
        one.side = 12.0  # type: ignore[misc]
    assert hash(one.opening) == hash(drawer().opening)


def test_a_freestanding_cabinet_tells_its_size_and_mass() -> None:
    with pytest.raises(ValidationError) as refused:
        Cabinet.model_validate({"id": "C", "freestanding": True})
    assert [one.loc for one in problems_of(refused.value, Cabinet)] == [("size",), ("mass",)]
    size = {"width": 800, "height": 900, "depth": 500}
    cabinet = Cabinet.model_validate({"id": "C", "freestanding": True, "size": size, "mass": "45 kg"})
    assert (cabinet.mass, cabinet.pitch, cabinet.interlock) == (45.0, 32.0, None)


def test_truth_is_told_as_true_or_false() -> None:
    with pytest.raises(ValidationError) as refused:
        Cabinet.model_validate({"id": "C", "shelf_fixed": "yes"})
    assert problems_of(refused.value, Cabinet)[0].says == "is neither true nor false"


def job_problems(*drawers: dict[str, Any], cabinets: tuple[str, ...] = ()) -> list[Problem]:
    whole = [{"id": f"d{at}", "opening": OPENING, "side": 16, **keys} for at, keys in enumerate(drawers)]
    with pytest.raises(ValidationError) as refused:
        Job.model_validate({"cabinet": [{"id": name} for name in cabinets], "drawer": whole})
    return problems_of(refused.value, Job)


def test_ids_are_unique_in_a_job() -> None:
    (problem,) = job_problems({"id": "a"}, {"id": "b"}, {"id": "a"})
    assert problem.loc == ("drawer", 2, "id")
    assert "drawer 1" in problem.says
    (twice,) = job_problems({}, cabinets=("B", "B"))
    assert twice.loc == ("cabinet", 1, "id")


def test_two_drawers_do_not_share_a_row() -> None:
    (problem,) = job_problems({"cabinet": "B", "row": 1}, {"cabinet": "B", "row": 1})
    assert problem.loc == ("drawer", 1, "row")
    Job.model_validate(
        {"drawer": [{"id": name, "opening": OPENING, "side": 16, "cabinet": name, "row": 1} for name in "ab"]}
    )


def test_a_named_cabinet_exists_once_any_is_described() -> None:
    (problem,) = job_problems({"cabinet": "B2"}, cabinets=("B1", "C"))
    assert problem.loc == ("drawer", 0, "cabinet")
    assert problem.try_ == '"B1"'
    free = Job(drawer=(drawer(cabinet="B9"),))
    assert free.cabinet_of(free.drawers[0]) is None


def test_a_job_finds_the_cabinet_of_a_drawer() -> None:
    job = Job(
        cabinet=(Cabinet(id="B1"), Cabinet(id="B2", pitch=25)), drawer=(drawer(cabinet="B2"), drawer(id="x"))
    )
    assert job.cabinet_of(job.drawers[0]) is job.cabinets[1]
    assert job.cabinet_of(job.drawers[1]) is None


def test_a_job_has_a_drawer() -> None:
    with pytest.raises(ValidationError) as refused:
        Job.model_validate({"title": "none", "drawer": []})
    assert problems_of(refused.value, Job)[0].says == "is missing: a job has at least one drawer"


def test_raw_inches_are_not_taken_for_millimetres() -> None:
    with pytest.raises(ValidationError, match="tables in inches"):
        Job.model_validate({"units": "in", "drawer": [{"id": "a", "opening": OPENING, "side": 1}]})
    assert Job(units="in", drawer=(drawer(),)).drawers[0].side == 16.0


def test_the_json_schema_names_every_key_of_a_drawer() -> None:
    schema = Job.model_json_schema()
    assert json.loads(json.dumps(schema)) == schema
    assert set(schema["$defs"]["Drawer"]["properties"]) == set(known_keys(Job, ("drawer", 0)))
    assert set(schema["properties"]) == {"title", "units", "cabinet", "drawer"}
    assert schema["$defs"]["Drawer"]["required"] == ["id", "opening", "side"]


def test_a_dumped_job_validates_to_an_equal_one() -> None:
    told = {"front_bottom": 562, "back_bottom": 561}
    job = Job(drawer=(drawer(opening={**OPENING, "width": told}, contents=3, box={"heights": [90]}),))
    assert Job.model_validate(json.loads(json.dumps(job.model_dump(mode="json", by_alias=True)))) == job


def test_reading_the_models_brings_in_no_heavy_library() -> None:
    code = (
        "import sys, drawerwright.model.fitted, drawerwright.files, drawerwright.catalogue;"
        "print([name for name in ('scipy', 'numpy', 'ezdxf', 'typst') if name in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
