"""What HTTP answers is what the command line writes: the same JSON for the same job and options."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.cli.main import run
from drawerwright.files import job_from_mapping, write_job_toml
from drawerwright.web.demo_job import demo_cabinet, demo_values

SHOP = {
    "id": "shop-16",
    "invented": True,
    "capacity": "40 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": nominal, "price": nominal / 10} for nominal in (400, 450, 500)],
}
SHOP_TOML = """id = "shop-16"
invented = true
capacity = "40 kg"
inside_width_deduction = 42
""" + "".join(f"[[length]]\nnominal = {nominal}\nprice = {nominal / 10}\n" for nominal in (400, 450, 500))
BOARD = {
    "material": [
        {
            "name": "shop board",
            "source": "invented",
            "density": 700,
            "thickness": [{"nominal": "16", "bought": 15.6, "source": "invented"}],
        }
    ]
}
BOARD_TOML = """[[material]]
name = "shop board"
source = "invented"
density = 700
[[material.thickness]]
nominal = "16"
bought = 15.6
source = "invented"
"""


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """The demo job as a file."""
    path = tmp_path / "demo.toml"
    path.write_text(files("drawerwright.cli").joinpath("demo.toml").read_text("utf-8"), encoding="utf-8")
    return path


@pytest.fixture
def written(capsys: pytest.CaptureFixture[str]) -> Any:
    """What a command line writes with `--json`."""

    def call(*words: str | Path) -> Any:
        capsys.readouterr()
        assert run([*map(str, words), "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return call


def answered(client: TestClient, route: str, **body: Any) -> Any:
    answer = client.post(f"/api/v1/{route}", json=body)
    assert answer.status_code == 200, answer.text
    return answer.json()


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ([], {}),
        (["--units", "in"], {"units": "in"}),
        (["--units", "both"], {"units": "both"}),
        (["--fewest-lengths"], {"fewest_lengths": True}),
        (["--cheapest"], {"cheapest": True}),
        (["--fewest-setups"], {"fewest_setups": True}),
        (["--fewest-lengths", "--lose-at-most", "20"], {"fewest_lengths": True, "lose_at_most": 20}),
        (["--cheapest", "--lose-at-most", "1 in"], {"cheapest": True, "lose_at_most": "1 in"}),
    ],
    ids=lambda told: " ".join(told) or "plain" if isinstance(told, list) else "",
)
def test_a_fit_answers_as_the_command_does(
    client: TestClient, demo: Path, written: Any, words: list[str], options: dict[str, Any]
) -> None:
    assert answered(client, "fit", job=demo_values(), **options) == written("fit", demo, *words)


def test_a_fit_on_slides_of_the_request_answers_as_on_a_file_of_them(
    client: TestClient, written: Any, tmp_path: Path
) -> None:
    (tmp_path / "shop.toml").write_text(SHOP_TOML, encoding="utf-8")
    job = tmp_path / "cabinet.toml"
    job.write_text(write_job_toml(job_from_mapping(demo_cabinet())), encoding="utf-8")
    told = answered(client, "fit", job=demo_cabinet(), slides=[SHOP])
    assert told == written("fit", job, "--slides", tmp_path / "shop.toml")
    assert {one["slide"]["family"] for one in told["drawers"] if one["slide"]} == {"shop-16"}


def test_a_fit_with_materials_of_the_request_answers_as_with_a_file_of_them(
    client: TestClient, demo: Path, written: Any, tmp_path: Path
) -> None:
    (tmp_path / "board.toml").write_text(BOARD_TOML, encoding="utf-8")
    text = demo.read_text("utf-8").replace("[defaults]\nside = 16", '[defaults]\nside = "16 shop board"')
    demo.write_text(text, encoding="utf-8")
    job = demo_values()
    job["defaults"]["side"] = "16 shop board"
    told = answered(client, "fit", job=job, materials=[BOARD])
    assert told == written("fit", demo, "--materials", tmp_path / "board.toml")
    assert any(one["box"] and one["box"]["side"] == 15.6 for one in told["drawers"])


def test_slides_side_by_side_answer_as_the_command_does(client: TestClient, demo: Path, written: Any) -> None:
    told = answered(client, "compare", job=demo_values(), compare=["house-16", "house-19/500"])
    assert told == written("fit", demo, "--compare", "house-16", "house-19/500")


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ([], {}),
        (["--drawer", "K1-1", "--positions", "5"], {"drawer": "K1-1", "positions": 5}),
        (["--tilt", "1.5", "--units", "in"], {"tilt": 1.5, "units": "in"}),
        (["--off-centre", "-40", "--sag-limit", "1 in"], {"off_centre": -40, "sag_limit": "1 in"}),
    ],
    ids=["plain", "one drawer", "leaning, in inches", "loaded off centre"],
)
def test_carrying_answers_as_the_command_does(
    client: TestClient, demo: Path, written: Any, words: list[str], options: dict[str, Any]
) -> None:
    assert answered(client, "carry", job=demo_values(), **options) == written("carry", demo, *words)


@pytest.mark.parametrize(
    ("words", "options"),
    [
        ([], {}),
        (["--target", "house"], {"target": "house"}),
        (["--line", "K1-1.left_top=2.5"], {"line": {"K1-1.left_top": 2.5}}),
        (["--grade", "premium"], {"grade": "premium"}),
    ],
    ids=["plain", "as designed", "on a line", "premium"],
)
def test_lining_up_answers_as_the_command_does(
    client: TestClient,
    demo: Path,
    written: Any,
    tmp_path: Path,
    words: list[str],
    options: dict[str, Any],
) -> None:
    row = {"drawer": "K1-1", "left_top": 3.2, "left_bottom": 2.6, "right_top": 2.8, "right_bottom": 3.4}
    path = tmp_path / "gaps.csv"
    path.write_text(f"{','.join(row)}\n{','.join(map(str, row.values()))}\n", encoding="utf-8")
    told = answered(client, "align", job=demo_values(), gaps=[row], **options)
    assert told == written("align", demo, "--gaps", path, *words)


SOLID = {
    "title": "Invented: fronts of solid wood",
    "drawer": [
        {
            "id": f"S-{row}",
            "cabinet": "S",
            "row": row,
            "opening": {"width": 562, "height": 168, "depth": 530, "floor": 168 * (row - 1)},
            "side": 16,
            "front": {"style": "overlay"},
        }
        for row in (1, 2, 3)
    ]
    + [
        {
            "id": "inset",
            "opening": {"width": 562, "height": 168, "depth": 530},
            "side": 16,
            "front": {"style": "inset"},
        }
    ],
}


@pytest.mark.parametrize(
    ("words", "options"),
    [
        (["--species", "cherry"], {"species": "cherry"}),
        (
            ["--species", "red oak", "--cut", "quarter", "--across", "width", "--drawer", "S-2"],
            {"species": "red oak", "cut": "quarter", "across": "width", "drawer": "S-2"},
        ),
        (
            ["--species", "ash", "--workshop", "18C/60", "--now", "68F/40", "--fresh", "--limit", "2"],
            {"species": "ash", "workshop": "18C/60", "now": "68F/40", "fresh": True, "limit": 2},
        ),
        (
            ["--species", "beech", "--dry", "20C/20", "--wet", "26C/70", "--limit", "1/16 in"],
            {"species": "beech", "dry": "20C/20", "wet": "26C/70", "limit": "1/16 in"},
        ),
    ],
    ids=["plain", "quarter-sawn, upright grain", "just come", "a wide swing"],
)
def test_the_seasons_answer_as_the_command_does(
    client: TestClient, written: Any, tmp_path: Path, words: list[str], options: dict[str, Any]
) -> None:
    path = tmp_path / "solid.toml"
    path.write_text(write_job_toml(job_from_mapping(SOLID)), encoding="utf-8")
    told = answered(client, "season", job=SOLID, **options)
    assert told == written("season", path, *words)
    assert len(told["fronts"]) == (1 if "drawer" in options else 4)
    job = client.post("/api/v1/jobs", json={"values": SOLID}).json()["id"]
    assert client.get(f"/api/v1/jobs/{job}/season", params=options).json() == told


def test_the_seasons_say_every_option_that_does_not_read_at_once(client: TestClient) -> None:
    wrong = {"cut": "round", "across": "grain", "now": "hot", "dry": 5, "limit": -1}
    answer = client.post("/api/v1/season", json={"job": SOLID, **wrong, "fresh": "yes", "colour": "red"})
    assert answer.status_code == 422
    places = [one["where"] for one in answer.json()["errors"]]
    assert sorted(places) == sorted(["species", *wrong, "fresh", "colour"])
    job = client.post("/api/v1/jobs", json={"values": SOLID}).json()["id"]
    answer = client.get(f"/api/v1/jobs/{job}/season", params={**wrong, "species": "chery"})
    assert answer.status_code == 422
    assert {one["where"]: one["try"] for one in answer.json()["errors"]}["species"] == "cherry"


def test_the_families_are_those_that_the_command_lists(client: TestClient, written: Any) -> None:
    told = client.get("/api/v1/slides").json()
    assert told.pop("own") == []
    assert told == written("slides", "list")


def test_a_check_of_families_answers_as_the_command_does(
    client: TestClient, written: Any, tmp_path: Path
) -> None:
    (tmp_path / "shop.toml").write_text(SHOP_TOML, encoding="utf-8")
    told = answered(client, "slides/check", slides=[SHOP])
    assert told == written("slides", "check", tmp_path / "shop.toml")
    assert told["families"][0]["remarks"]


def test_a_stored_job_answers_as_its_file_does(client: TestClient, demo: Path, written: Any) -> None:
    job = client.post("/api/v1/jobs", json={"values": demo_values()}).json()["id"]
    assert client.get(f"/api/v1/jobs/{job}/fit").json() == written("fit", demo)
    chosen = client.get(f"/api/v1/jobs/{job}/fit?fewest_lengths=true&lose_at_most=20").json()
    assert chosen == written("fit", demo, "--fewest-lengths", "--lose-at-most", "20")
    assert client.get(f"/api/v1/jobs/{job}/carry").json() == written("carry", demo)


def test_faults_are_told_as_the_command_tells_them_but_for_the_place(
    client: TestClient, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = '[[drawer]]\nid = "A"\nopening = { width = "wide", height = 168, depth = 530 }\nsidee = 16\n'
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    assert run(["fit", str(path), "--json"]) == 2
    by_command = json.loads(capsys.readouterr().out)["errors"]
    drawer = {"id": "A", "opening": {"width": "wide", "height": 168, "depth": 530}, "sidee": 16}
    answer = client.post("/api/v1/fit", json={"job": {"drawer": [drawer]}})
    assert answer.status_code == 422
    by_http = answer.json()["errors"]

    def without_places(faults: list[dict[str, str]]) -> set[tuple[str, str, str]]:
        return {(one["value"], one["says"], one["try"]) for one in faults}

    assert without_places(by_http) == without_places(by_command)
    assert len(by_http) == 3
    assert all(one["where"].startswith("job drawer A") for one in by_http)
