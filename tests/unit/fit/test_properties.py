"""What must hold for any opening: mirrored, in other units, read in another order, wider, scaled."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_document, fit_job
from drawerwright.model.family import SlideFamily

LENGTHS = [
    {"nominal": nominal, "holes": [0, 32, 192], "shelf_holes": [60, 200], "price": 20}
    for nominal in (300, 400, 500)
]
FAMILIES: Sequence[SlideFamily] = (
    SlideFamily.model_validate(
        {
            "id": "a16",
            "capacity": 45,
            "inside_width_deduction": 42,
            "rear_bracket": {"centre": 14, "reach": [0, 45]},
            "length": LENGTHS,
        }
    ),
    SlideFamily.model_validate(
        {
            "id": "b19",
            "capacity": 60,
            "inside_width_deduction": 49,
            "design_side": 19,
            "design_subfront": 19,
            "spacers": [2, 3],
            "length": LENGTHS,
        }
    ),
)

sizes = st.floats(250, 900).map(lambda value: round(value, 2))
thicknesses = st.sampled_from([11.9, 12.7, 15.2, 15.875, 16, 18, 19])
overhangs = st.floats(0, 60).map(lambda value: round(value, 1))


@st.composite
def drawers(draw: st.DrawFn) -> dict[str, Any]:
    """Keys of a drawer, plausible and not."""
    width = draw(sizes)
    keys: dict[str, Any] = {
        "id": "A",
        "opening": {
            "width": [width, width + draw(st.sampled_from([0, 0.4, 1.2, 2.5]))],
            "height": draw(st.floats(60, 320).map(lambda value: round(value, 1))),
            "depth": draw(st.floats(280, 620).map(lambda value: round(value, 1))),
        },
        "side": draw(thicknesses),
        "contents": draw(st.sampled_from([0, 5, 20, 44, 70])),
        "size_from": draw(st.sampled_from(["inside", "outside"])),
        "front": {"style": draw(st.sampled_from(["overlay", "inset", "none"]))},
        "box": {"bottom": draw(st.sampled_from(["groove-4", "groove-3", "under"]))},
    }
    if draw(st.booleans()):
        keys["construction"] = "face-frame"
        keys["frame"] = {"left": draw(overhangs), "right": draw(overhangs), "thickness": 19}
    return keys


def _fit(keys: dict[str, Any], units: str = "mm") -> dict[str, Any]:
    job = job_from_mapping({"units": units, "drawer": [keys]})
    document: dict[str, Any] = fit_document(fit_job(job, FAMILIES))
    answer: dict[str, Any] = document["drawers"][0]
    return answer


@given(drawers())
def test_the_order_of_readings_does_not_matter(keys: dict[str, Any]) -> None:
    turned = {**keys, "opening": {**keys["opening"], "width": keys["opening"]["width"][::-1]}}
    assert _fit(turned) == _fit(keys)


@given(drawers())
def test_a_mirrored_cabinet_gives_the_mirrored_answer(keys: dict[str, Any]) -> None:
    frame = keys.get("frame", {})
    other = {**keys}
    if frame:
        other["frame"] = {**frame, "left": frame["right"], "right": frame["left"]}
    one, mirrored = _fit(keys), _fit(other)
    assert mirrored["verdict"] == one["verdict"]
    assert mirrored["box"] == one["box"]
    if one["mounting"]:
        for place in ("rear_bracket", "packing"):
            assert mirrored["mounting"][place]["left"] == one["mounting"][place]["right"]
            assert mirrored["mounting"][place]["right"] == one["mounting"][place]["left"]


@given(drawers())
def test_inches_give_the_same_answer_as_millimetres(keys: dict[str, Any]) -> None:
    def told(value: object) -> object:
        return f"{value!r} mm" if isinstance(value, int | float) else value

    opening = keys["opening"]
    inch = {
        **keys,
        "opening": {
            "width": [value / 25.4 for value in opening["width"]],
            "height": opening["height"] / 25.4,
            "depth": opening["depth"] / 25.4,
        },
        "side": told(keys["side"]),
        "contents": f"{keys['contents']} kg",
    }
    if "frame" in keys:
        inch["frame"] = {key: told(value) for key, value in keys["frame"].items()}
    one, other = _fit(keys), _fit(inch, "in")
    assert other["verdict"] == one["verdict"]
    assert other["slide"] == one["slide"]
    if one["box"]:
        assert other["box"] == pytest.approx(one["box"], abs=1e-5)


@given(drawers(), st.floats(1, 200))
def test_a_wider_opening_widens_box_and_front_by_as_much(keys: dict[str, Any], by: float) -> None:
    wider = {
        **keys,
        "opening": {**keys["opening"], "width": [value + by for value in keys["opening"]["width"]]},
    }
    one, other = _fit(keys), _fit(wider)
    if one["slide"] and other["slide"]:
        more = by - (_family(other).inside_width_deduction - _family(one).inside_width_deduction)
        if keys["size_from"] == "outside":
            more += 2 * (_family(other).design_side - _family(one).design_side)
        for size in ("outside_width", "inside_width"):
            assert other["box"][size] - one["box"][size] == pytest.approx(more, abs=1e-5)
        if keys["front"]["style"] != "none":
            assert other["front"]["width"] - one["front"]["width"] == pytest.approx(by, abs=1e-5)


def _family(answer: dict[str, Any]) -> SlideFamily:
    return next(family for family in FAMILIES if family.id == answer["slide"]["family"])


@given(drawers(), st.floats(10, 200))
def test_more_depth_never_gives_a_shorter_box_unless_a_bracket_loses_its_reach(
    keys: dict[str, Any], by: float
) -> None:
    deeper = {**keys, "mount": "side", "opening": {**keys["opening"], "depth": keys["opening"]["depth"] + by}}
    one, other = _fit({**keys, "mount": "side"}), _fit(deeper)
    if one["box"]:
        assert other["box"]
        assert other["box"]["length"] >= one["box"]["length"]


@given(drawers())
def test_an_answer_says_no_more_than_its_checks(keys: dict[str, Any]) -> None:
    answer = _fit(keys)
    states = {check["state"] for check in answer["checks"]}
    if answer["verdict"] == "does-not-fit":
        assert answer["slide"] is None
        assert answer["rejected"]
    else:
        assert "stop" not in states
        assert ("watch" in states) == (answer["verdict"] == "fits-with-care")
        mass = answer["mass"]
        total = mass["box"] + mass["front"] + mass["hardware"] + mass["contents"]
        assert mass["moving"] == pytest.approx(total, abs=1e-5)


@given(drawers())
def test_every_change_fits_and_a_tenth_less_does_not(keys: dict[str, Any]) -> None:
    answer = _fit(keys)
    for change in answer["changes"]:
        if change["change"] == "opening.width":
            continue  # of several readings: its own test tells how they move
        if "to" in change:
            assert _fit(_set(keys, change["change"], change["to"]))["verdict"] != "does-not-fit", change
            continue
        by = change["by"]
        assert _fit(_changed(keys, change["change"], by))["verdict"] != "does-not-fit", change
        less = by - 0.1 if by > 0 else by + 0.1
        if abs(by) > 0.1:
            assert _fit(_changed(keys, change["change"], less))["verdict"] == "does-not-fit", change


_DEFAULTS = {"box": {"bottom_thickness": 6.0}}


def _changed(keys: dict[str, Any], key: str, by: float) -> dict[str, Any]:
    table, _, name = key.rpartition(".")
    if table:
        inner = {**_DEFAULTS.get(table, {}), **keys.get(table, {})}
        return {**keys, table: {**inner, name: inner.get(name, keys["side"]) + by}}
    return {**keys, key: keys.get(key, keys["side"]) + by}


def _set(keys: dict[str, Any], key: str, word: str) -> dict[str, Any]:
    table, _, name = key.rpartition(".")
    return {**keys, table: {**keys.get(table, {}), name: word}} if table else {**keys, key: word}
