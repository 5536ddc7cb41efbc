"""Carrying over HTTP: the same documents as the command's, slides side by side, and of what is stored."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.cli.main import run
from drawerwright.files import job_from_mapping, write_job_toml
from drawerwright.web.demo_job import demo_cabinet

SLIDES = ["house-16", "heavy-19"]


@pytest.fixture
def by_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., Any]:
    """The JSON that the command writes of the demo's first cabinet."""
    path = tmp_path / "cabinet.toml"
    path.write_text(write_job_toml(job_from_mapping(demo_cabinet())), encoding="utf-8")

    def told(*words: str) -> Any:
        assert run(["carry", str(path), *words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return told


@pytest.fixture
def job(client: TestClient) -> str:
    return str(client.post("/api/v1/jobs", json={"values": demo_cabinet()}).json()["id"])


def test_slides_side_by_side_carry_as_the_command_says(
    client: TestClient, by_command: Callable[..., Any]
) -> None:
    body = {"job": demo_cabinet(), "compare": SLIDES, "tilt": 1, "drawer": "K1-1"}
    told = client.post("/api/v1/carry", json=body)
    assert told.status_code == 200, told.text
    assert told.json() == by_command("--compare", *SLIDES, "--tilt", "1", "--drawer", "K1-1")
    assert told.json()["schema"] == "drawerwright/carry-compare/1"


def test_a_stored_job_carries_as_its_file_does(
    client: TestClient, job: str, by_command: Callable[..., Any]
) -> None:
    query = {"off_centre": "-40", "sag_limit": "1 in", "tilt": 1.5, "drawer": "K1-2"}
    told = client.get(f"/api/v1/jobs/{job}/carry", params=query).json()
    words = ("--off-centre", "-40", "--sag-limit", "1 in", "--tilt", "1.5", "--drawer", "K1-2")
    assert told == by_command(*words)
    beside = client.get(f"/api/v1/jobs/{job}/carry", params={"compare": SLIDES}).json()
    assert beside == by_command("--compare", *SLIDES)


def test_options_in_an_address_that_do_not_read_are_told_together(client: TestClient, job: str) -> None:
    query = {"off_centre": "left", "sag_limit": "0"}
    told = client.get(f"/api/v1/jobs/{job}/carry", params=query)
    assert told.status_code == 422
    assert [one["where"] for one in told.json()["errors"]] == ["off_centre", "sag_limit"]


def test_options_that_read_and_cannot_be_are_told_together_with_the_drawer_that_is_not_there(
    client: TestClient, job: str
) -> None:
    wrong = {"drawer": "zz", "positions": 1, "tilt": 99, "sag_limit": "left"}
    told = client.get(f"/api/v1/jobs/{job}/carry", params=wrong)
    assert told.status_code == 422
    assert [one["where"] for one in told.json()["errors"]] == ["sag_limit", "drawer", "positions", "tilt"]


def test_a_load_beside_its_box_is_refused_at_its_key(client: TestClient) -> None:
    drawer = {"id": "D1", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
    told = client.post("/api/v1/carry", json={"job": {"drawer": [drawer]}, "off_centre": 900})
    assert told.status_code == 422
    (fault,) = told.json()["errors"]
    assert (fault["where"], fault["value"]) == ("off_centre", "900 mm")
    assert "up to 260 mm either way" in fault["says"]


@pytest.mark.parametrize("compare", [["house-16"], ["house-16", "nobody"], [], "house-16", [1, 2]])
def test_slides_that_cannot_be_compared_are_told_at_their_name(client: TestClient, compare: object) -> None:
    told = client.post("/api/v1/carry", json={"job": demo_cabinet(), "compare": compare})
    assert told.status_code == 422
    assert {one["where"] for one in told.json()["errors"]} == {"compare"}


def test_a_quick_opening_carries_as_the_same_drawer_of_a_job(client: TestClient) -> None:
    opening = {"width": "562", "height": "168", "depth": "530"}
    query = {**opening, "side": "16", "contents": "20 kg", "off_centre": "30", "tilt": "-1"}
    told = client.get("/api/v1/quick/carry", params=query).json()
    drawer = {"id": "quick", "opening": {key: float(text) for key, text in opening.items()}}
    body = {"job": {"drawer": [{**drawer, "side": 16, "contents": "20 kg"}]}, "off_centre": 30, "tilt": -1}
    assert told == client.post("/api/v1/carry", json=body).json()
    assert told["drawers"][0]["sides"]["off_centre"] == 30.0


def test_a_quick_question_that_does_not_read_is_refused_with_all_its_faults(client: TestClient) -> None:
    told = client.get("/api/v1/quick/carry", params={"widht": "562", "tilt": "steep"})
    assert told.status_code == 422
    assert {one["where"] for one in told.json()["errors"]} == {"widht", "tilt"}
