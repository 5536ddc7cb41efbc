"""A change that is offered cures when done as told, in numbers and in words, and less of it does not."""

from __future__ import annotations

import re
from copy import deepcopy
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from tests.conftest import plain_drawer, plain_family

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.change_words import change_of
from drawerwright.fit.levers import levers
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Change, FittedDrawer
from drawerwright.model.job import Readings
from drawerwright.units import ShownUnits

LABELS = ("front_top", "front_bottom", "back_top", "back_bottom")
FAMILY = plain_family(spacers=[3])
TOLD = re.compile(
    r"(?:(?P<whole>\d+) )?(?P<top>\d+)/(?P<bottom>\d+) in|(?P<number>[\d.]+) (?P<unit>mm|kg|in|lb)"
)
SITUATION = {
    "construction": "frameless",
    "cabinet": "none",
    "box": "new",
    "shape": "plain",
    "front": "applied",
    "height": "auto",
    "readings": "one",
    "rear": "free",
    "way": "none",
    "load": "none",
}
A_UNIT = {"mm": 1.0, "kg": 1.0, "in": 25.4, "lb": 0.45359237}
"""Millimetres and kilograms; the pound by the international agreement of 1959."""

tenths = st.integers(-60, 60).map(lambda step: round(562 + step / 10, 1))
unlabelled = st.lists(tenths, min_size=2, max_size=5)
labelled = st.lists(tenths, min_size=4, max_size=4).map(lambda read: dict(zip(LABELS, read, strict=True)))
two_labelled = st.lists(tenths, min_size=2, max_size=2).map(
    lambda read: dict(zip(("front", "back"), read, strict=True))
)
widths = st.one_of(unlabelled, labelled, two_labelled)


def fitted_of(job: dict[str, Any], units: ShownUnits = "mm", family: SlideFamily = FAMILY) -> FittedDrawer:
    (fitted,) = fit_job(job_from_mapping(job), (family,), units=units).drawers
    return fitted


def job_of(**keys: Any) -> dict[str, Any]:
    return {"drawer": [plain_drawer(**keys)]}


def applied(job: dict[str, Any], change: Change, by: float, limit: float | None = None) -> dict[str, Any]:
    """The job after a change that is done as it is told."""
    job = deepcopy(job)
    drawer: dict[str, Any] = job["drawer"][0]
    if change.change == "cabinet.inside_width":
        job["cabinet"][0]["inside_width"] += by
        return job
    *groups, name = change.change.split(".")
    keys = drawer
    for group in groups:
        keys = keys.setdefault(group, {})
    if change.limit is not None:
        assert limit is not None
        keys[name] = clipped(keys[name], change, limit)
    elif isinstance(keys.get(name), dict):
        keys[name] = {label: value + by for label, value in keys[name].items()}
    elif isinstance(keys.get(name), list):
        keys[name] = [value + by for value in keys[name]]
    else:
        keys[name] = (
            keys.get(name, {"back": 16, "bottom_thickness": 6, "subfront": keys.get("side", 16)}.get(name, 0))
            + by
        )
    return job


def clipped(readings: Any, change: Change, limit: float) -> Any:
    pick = min if change.by < 0 else max
    if not isinstance(readings, dict):
        assert change.readings == "widest"
        return [pick(value, limit) for value in readings]
    return {
        label: pick(value, limit)
        if change.readings == "widest" or label.startswith(change.readings)
        else value
        for label, value in readings.items()
    }


def as_told(change: Change) -> tuple[float, float | None]:
    """By how much, and to which limit, as the sentence says it."""
    (said,) = [length_or_mass(found) for found in TOLD.finditer(change.says)]
    sign = 1 if change.by > 0 else -1
    return (change.by, said) if change.limit is not None else (sign * said, None)


def length_or_mass(found: re.Match[str]) -> float:
    if found["unit"]:
        return float(found["number"]) * A_UNIT[found["unit"]]
    return (int(found["whole"] or 0) + int(found["top"]) / int(found["bottom"])) * 25.4


def assert_cures(job: dict[str, Any], family: SlideFamily = FAMILY) -> None:
    in_inches = {change.change: change for change in fitted_of(job, "in", family).changes}
    for change in fitted_of(job, family=family).changes:
        if change.to:
            continue
        done = applied(job, change, change.by, change.limit)
        assert fitted_of(done, family=family).slide is not None, change
        for said in (change, in_inches[change.change]):
            assert fitted_of(applied(job, said, *as_told(said)), family=family).slide is not None, said
        if abs(change.by) < 0.05:  # what is left out would be less than what a change is rounded to
            continue
        less = 0.97 * change.by
        short = None if change.limit is None else change.limit - 0.03 * change.by
        assert fitted_of(applied(job, change, less, short), family=family).slide is None, change


@given(widths, st.booleans())
@example({"front_top": 562, "front_bottom": 563, "back_top": 562, "back_bottom": 566}, False)
@example({"front_top": 562, "front_bottom": 563, "back_top": 559.5, "back_bottom": 563.5}, False)
@example([562, 563.6, 560], False)
def test_a_change_of_readings_cures_as_told_and_three_in_a_hundred_less_does_not(
    width: Any, pack_rear: bool
) -> None:
    packed = isinstance(width, dict) and pack_rear
    assert_cures(job_of(opening={"width": width}, pack_rear=packed))


@given(
    width=widths,
    depth=st.floats(280, 620).map(lambda value: round(value, 1)),
    height=st.floats(40, 240).map(lambda value: round(value, 1)),
    side=st.sampled_from([12.7, 16, 18, 19]),
    subfront=st.sampled_from([12.7, 16, 18, 19, 21]),
    contents=st.sampled_from([0, 40, 60]),
)
def test_a_change_of_any_size_cures_as_told(
    width: Any, depth: float, height: float, side: float, subfront: float, contents: float
) -> None:
    opening = {"width": width, "depth": depth, "height": height}
    assert_cures(job_of(opening=opening, side=side, subfront=subfront, contents=contents))


@given(widths, st.floats(510, 530).map(lambda value: round(value, 1)))
def test_a_change_of_the_opening_lets_an_existing_box_in(width: Any, inside: float) -> None:
    box = {"inside_width": inside, "outside_width": inside + 32, "length": 500, "height": 140}
    assert_cures(job_of(opening={"width": width}, existing_box=box))


@settings(max_examples=40)
@given(
    width=st.floats(280, 1200).map(lambda value: round(value, 2)),
    more=st.floats(0, 4).map(lambda value: round(value, 3)),
    side=st.floats(11, 22).map(lambda value: round(value, 2)),
    height=st.sampled_from([60.3, 90, 168]),
)
def test_a_change_beside_a_box_that_is_there_cures_as_told_in_both_units(
    width: float, more: float, side: float, height: float
) -> None:
    box = {"inside_width": round(width - 42 + more, 3), "length": 500, "height": 140}
    opening = {"width": {"front": width, "back": round(width + more, 3)}, "depth": 530, "height": height}
    assert_cures(job_of(opening=opening, side=side, existing_box=box))
    assert_cures(job_of(opening=opening, side=side, size_from="outside"))


def test_a_rounded_step_that_would_pass_the_other_end_of_a_narrow_band_is_told_finer() -> None:
    job = job_of(
        opening={"width": {"front": 539.82, "back": 539.967}, "depth": 530, "height": 168},
        side=15.43,
        size_from="outside",
    )
    narrow = plain_family(spacers=[3], width_band=[-1, 0.5])
    (said,) = [one.says for one in fitted_of(job, "in", narrow).changes if one.change == "side"]
    assert said == "Take box sides 1/64 in thicker."
    assert_cures(job, narrow)


def test_a_step_between_two_ends_is_told_finer_where_a_rounded_one_passes_the_other() -> None:
    def cures(step: float) -> bool:
        return -3.4992 <= step <= -3.4824

    lever = next(one for one in levers(SITUATION, Readings((562.0,)), ()) if one.key == "side")
    told = {
        units: change_of(lever, -3.48241, units, closes=False, cures=cures).says
        for units in ("mm", "in", "both")
    }
    assert told == dict.fromkeys(("mm", "in", "both"), "Take box sides 3.49 mm thinner.")


def test_a_step_in_inches_is_told_in_sixty_fourths_where_only_they_are_near_enough() -> None:
    lever = next(one for one in levers(SITUATION, Readings((562.0,)), ()) if one.key == "opening.depth")
    change = change_of(lever, 18.518, "both", closes=False, cures=lambda step: 18.518 <= step < 18.7)
    assert change.says == "Make the opening 18.6 mm (47/64 in) deeper."


def test_labelled_readings_come_down_to_a_limit_at_the_back_alone() -> None:
    width = {"front_top": 562, "front_bottom": 563, "back_top": 562, "back_bottom": 566}
    found = [one for one in fitted_of(job_of(opening={"width": width})).changes if one.readings]
    (change,) = found
    assert (change.readings, change.by, change.limit) == ("back", -2.5, 563.5)
    assert change.says == "Pack the opening at the back until no place there is wider than 563.5 mm."


def test_readings_without_labels_come_down_to_a_limit_that_stands_in_the_document() -> None:
    job = job_from_mapping(job_of(opening={"width": [562, 563.6, 560]}))
    told = fit_document(fit_job(job, (FAMILY,)))["drawers"][0]["changes"]
    (change,) = [one for one in told if one["change"] == "opening.width"]
    assert (change["readings"], change["by"], change["limit"]) == ("widest", -2.1, 561.5)
    assert "no place is wider than 561.5 mm" in change["says"]


def test_a_limit_is_told_with_more_decimals_where_a_tenth_would_pass_the_other_readings() -> None:
    job = job_from_mapping(job_of(opening={"width": [564, 562.04]}))
    (fitted,) = fit_job(job, (plain_family(width_band=[-1, 0.03]),)).drawers
    (change,) = [one for one in fitted.changes if one.limit is not None]
    assert change.limit == 562.07
    assert "wider than 562.07 mm" in change.says


@pytest.mark.parametrize("units", ["in", "both"])
@pytest.mark.parametrize("width", [[562, 563.6, 560], {"front": 563, "back": 560}])
def test_a_limit_in_inches_is_not_past_the_one_in_millimetres(units: Any, width: Any) -> None:
    job = job_from_mapping(job_of(opening={"width": width}))
    (fitted,) = fit_job(job, (FAMILY,), units=units).drawers
    (change,) = [one for one in fitted.changes if one.limit is not None]
    whole, _, part = re.findall(r"(\d+)( (\d+/\d+))? in", change.says)[0]
    top, _, bottom = part.partition("/")
    told = 25.4 * (float(whole) + (float(top) / float(bottom) if part else 0))
    assert change.limit is not None
    assert change.limit - 25.4 / 32 < told <= change.limit


@pytest.mark.parametrize("inside", [641.5, 644.0, 644.9])
def test_a_sum_that_does_not_close_wants_measuring_again_of_each_reading_in_it(inside: float) -> None:
    job = {
        "cabinet": [{"id": "C", "inside_width": inside}],
        "drawer": [
            plain_drawer(
                cabinet="C",
                construction="face-frame",
                frame={"left": 38, "right": 41, "thickness": 19},
                opening={"width": 562 if inside > 643 else 568},
            )
        ],
    }
    fitted = fitted_of(job)
    assert {change.change for change in fitted.changes} == {
        "frame.left",
        "frame.right",
        "cabinet.inside_width",
        "opening.width",
    }
    assert all("again" in change.says and "Make" not in change.says for change in fitted.changes)
    assert_cures(job)
