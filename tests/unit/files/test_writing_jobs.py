from __future__ import annotations

import tomllib

import pytest
from hypothesis import given

from drawerwright.files import job_from_mapping, job_template, write_job_toml
from drawerwright.model.job import Job

from .job_strategies import jobs


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
