from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.files import job_from_mapping, job_template, write_job_toml
from drawerwright.model.job import Job

SIZES = st.floats(0.001, 5000).map(lambda size: round(size, 6)) | st.integers(1, 5000)
CLEARANCES = st.floats(0, 500) | st.just(0)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
NAMES = st.text(st.characters(categories=["L", "N", "P"]), min_size=1, max_size=8)
WORDS = st.sampled_from


def table(required: dict[str, Any], optional: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(required, optional=optional)


READINGS = SIZES | st.lists(SIZES, min_size=1, max_size=4)
LABELS = WORDS(["front_top", "front_bottom", "back_top", "back_bottom", "front", "back"])
OPENINGS = table(
    {"width": READINGS | st.dictionaries(LABELS, SIZES, min_size=1), "height": READINGS, "depth": READINGS},
    {"floor": CLEARANCES},
)
OVERLAYS = CLEARANCES | table({}, dict.fromkeys(("left", "right", "top", "bottom"), CLEARANCES))
FRONTS = table(
    {},
    {
        "style": WORDS(["overlay", "inset", "none"]),
        "thickness": SIZES,
        "overlay": OVERLAYS,
        "gap": CLEARANCES,
    },
)
BOXES = table(
    {},
    {
        "joint": WORDS(["butt", "rabbet", "dowel", "dovetail"]),
        "bottom": st.just("under"),
        "bottom_thickness": SIZES,
        "groove_depth": CLEARANCES,
        "front": WORDS(["applied", "integral"]),
        "heights": st.lists(SIZES, max_size=3),
    },
)
DRAWERS = table(
    {"opening": OPENINGS, "side": SIZES | st.lists(SIZES, min_size=1, max_size=3)},
    {
        "subfront": SIZES,
        "cabinet": NAMES,
        "row": st.integers(1, 9),
        "mount": WORDS(["side", "packed", "rear-bracket", "shelf", "auto"]),
        "slide": WORDS(["auto", "house-16", "house-16/500", "house-16/533.4"]),
        "front": FRONTS,
        "size_from": WORDS(["inside", "outside"]),
        "existing_box": st.just({}) | table({"inside_width": SIZES}, {"length": SIZES, "height": SIZES}),
        "box": BOXES,
        "box_height": st.just("auto") | SIZES,
        "contents": st.floats(0, 200) | st.just({"preset": "kcma-drawer"}),
        "quantity": st.integers(1, 99),
        "note": TEXTS,
    },
)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    drawers = draw(st.lists(DRAWERS, min_size=1, max_size=3))
    for at, drawer in enumerate(drawers):
        drawer["id"] = f"{draw(NAMES)}-{at}"
        drawer["row"] = at + 1
        if draw(st.booleans()):
            drawer["construction"] = "face-frame"
            drawer["frame"] = {"left": draw(CLEARANCES), "right": 38, "thickness": draw(SIZES)}
    job = job_from_mapping({"title": draw(TEXTS), "drawer": drawers})
    return job.model_copy(update={"units": draw(WORDS(["mm", "in"]))})


@given(jobs())
def test_a_written_job_reads_back_equal(job: Job) -> None:
    text = write_job_toml(job)
    again = job_from_mapping(tomllib.loads(text))
    assert again == job
    assert write_job_toml(again) == text


def test_cabinets_are_written_too() -> None:
    size = {"width": "800 mm", "height": "3 ft", "depth": 20}
    cabinet = {
        "id": "C",
        "freestanding": True,
        "size": size,
        "mass": "100 lb",
        "interlock": False,
        "pitch": 25,
    }
    drawer = {"id": "C-1", "cabinet": "C", "opening": {"width": 1, "height": 2, "depth": 3}, "side": 1}
    for units in ("mm", "in"):
        job = job_from_mapping({"units": units, "cabinet": [cabinet], "drawer": [drawer]})
        assert job_from_mapping(tomllib.loads(write_job_toml(job))) == job


def test_an_inch_job_is_written_with_the_unit_of_what_it_holds() -> None:
    drawer = {"id": "a", "opening": {"width": 22, "height": 7, "depth": 21}, "side": 0.625, "contents": 10}
    job = job_from_mapping({"units": "in", "drawer": [{**drawer, "slide": "house-16/21"}]})
    text = write_job_toml(job)
    assert 'width = "558.8 mm"' in text
    assert 'contents = "4.5359237 kg"' in text
    assert 'slide = "house-16/533.4 mm"' in text


def test_the_template_is_a_valid_job_and_says_that_it_is_invented() -> None:
    job = job_from_mapping(tomllib.loads(job_template()))
    assert [drawer.id for drawer in job.drawers] == ["A-1", "A-2", "B-1"]
    assert {drawer.construction for drawer in job.drawers} == {"frameless", "face-frame"}
    assert "invented" in job_template().splitlines()[0]
    assert job_from_mapping(tomllib.loads(write_job_toml(job))) == job


@pytest.mark.parametrize(
    "note", ['a "quote"', "back\\slash", "two\nlines", "tab\t", "\x00\x7f", "Küche ½ 抽屉"]
)
def test_any_note_survives(note: str) -> None:
    drawer = {"id": "a", "opening": {"width": 1, "height": 2, "depth": 3}, "side": 1, "note": note}
    job = job_from_mapping({"drawer": [drawer]})
    assert job_from_mapping(tomllib.loads(write_job_toml(job))).drawers[0].note == note
