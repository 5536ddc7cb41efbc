"""Quick questions: one opening asked in an address."""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import urlencode

import pytest
from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.cli.main import run
from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping
from drawerwright.files.job_columns import drawer_columns, job_columns
from drawerwright.web.quick_job import EXAMPLE, quick_keys, quick_values, read_question

PLAIN = dict(EXAMPLE)


def drawer_of(**query: str) -> dict[str, Any]:
    return dict(quick_values({**PLAIN, **query}.items())["drawer"][0])


def test_five_figures_are_a_whole_question() -> None:
    assert quick_values(PLAIN.items()) == {
        "units": "mm",
        "drawer": [
            {
                "id": "quick",
                "opening": {"width": "562", "height": "168", "depth": "530"},
                "side": "16",
                "contents": "20 kg",
            }
        ],
    }


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("562; 561.5", ["562", "561.5"]),
        ("562, 561.5", ["562", "561.5"]),
        ("561,5", "561,5"),
        ("561,5; 562,0", ["561,5", "562,0"]),
        ("21 3/4, 21 5/8", ["21 3/4", "21 5/8"]),
        ("front_top=562; back_top=561", {"front_top": "562", "back_top": "561"}),
        ("  562  ", "562"),
    ],
)
def test_several_readings_stand_in_one_value(text: str, values: object) -> None:
    assert drawer_of(width=text)["opening"]["width"] == values


def test_a_key_that_stands_several_times_has_several_readings() -> None:
    query = [("width", "562"), ("width", "561.5"), ("height", "168"), ("depth", "530"), ("side", "16")]
    assert quick_values(query)["drawer"][0]["opening"]["width"] == ["562", "561.5"]


def test_a_choice_that_stands_twice_is_a_fault() -> None:
    with pytest.raises(InputError) as raised:
        quick_values([*PLAIN.items(), ("mount", "side"), ("mount", "shelf")])
    assert raised.value.faults[0].where == "job drawer quick mount"


def test_what_is_left_blank_is_not_told() -> None:
    blank = {key: " " for key in drawer_columns() if key not in ("opening.width", "opening.height")}
    assert quick_values([*PLAIN.items(), *blank.items()]) == quick_values(PLAIN.items())


def test_dotted_keys_reach_every_part_of_a_drawer_and_its_cabinet() -> None:
    told = quick_values(
        {
            **PLAIN,
            "front.style": "inset",
            "frame.left": "38",
            "construction": "face-frame",
            "slide": "house-16/500",
            "cabinet.first_row": "45",
            "stabiliser": "true",
        }.items()
    )
    (drawer,) = told["drawer"]
    assert drawer["front"] == {"style": "inset"}
    assert drawer["frame"] == {"left": "38"}
    assert drawer["stabiliser"] is True
    assert told["cabinet"] == [{"id": drawer["cabinet"], "first_row": "45"}]


def test_keys_of_the_page_are_passed_over_where_they_are_named() -> None:
    with pytest.raises(InputError):
        quick_values([*PLAIN.items(), ("show", "inside_width")])
    assert quick_values([*PLAIN.items(), ("show", "inside_width")], besides=("show",)) == quick_values(
        PLAIN.items()
    )


@pytest.mark.parametrize(("units", "bare"), [("mm", "mm"), ("in", "in"), ("both", "mm")])
def test_units_say_what_bare_lengths_are_and_how_the_answer_is_told(units: str, bare: str) -> None:
    question = read_question([*PLAIN.items(), ("units", units)])
    assert (question.units, question.values["units"]) == (units, bare)


def test_an_empty_address_asks_nothing() -> None:
    assert not read_question([]).told
    assert not read_question([("width", " ")]).told
    assert read_question([("width", "562")]).told


def test_every_key_that_is_offered_is_understood() -> None:
    for key in quick_keys():
        unknown = [one for one in read_question([(key, "1")]).faults if "not a known key" in one.says]
        assert unknown == []


TEXTS = st.text(max_size=30)


@given(st.lists(st.tuples(st.sampled_from(quick_keys()) | TEXTS, TEXTS), max_size=8))
def test_any_address_is_read_or_its_faults_are_told(query: list[tuple[str, str]]) -> None:
    question = read_question(query)
    assert set(question.values) >= {"units", "drawer"}
    assert all(fault.where.startswith("job drawer quick") and fault.says for fault in question.faults)


@given(st.floats(200, 1200), st.floats(80, 400), st.floats(250, 800))
def test_a_question_reads_as_a_job_file_with_the_same_figures(
    width: float, height: float, depth: float
) -> None:
    asked = {"width": repr(width), "height": repr(height), "depth": repr(depth), "side": "16"}
    opening = {"width": width, "height": height, "depth": depth}
    written = {"drawer": [{"id": "quick", "opening": opening, "side": 16}]}
    assert job_from_mapping(quick_values(asked.items())) == job_from_mapping(written)


def test_a_quick_answer_is_that_of_a_job_file(
    client: TestClient, tmp_path: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = {**PLAIN, "width": "562; 561.5", "front.style": "overlay", "cabinet.first_row": "45"}
    answer = client.get(f"/api/v1/quick?{urlencode(asked)}")
    path = tmp_path / "quick.toml"
    path.write_text(
        '[[cabinet]]\nid = "quick"\nfirst_row = 45\n[[drawer]]\nid = "quick"\ncabinet = "quick"\n'
        "opening = { width = [562, 561.5], height = 168, depth = 530 }\nside = 16\n"
        'front = { style = "overlay" }\ncontents = "20 kg"\n',
        encoding="utf-8",
    )
    assert run(["fit", str(path), "--json"]) == 0
    assert answer.status_code == 200
    assert answer.json() == json.loads(capsys.readouterr().out)


def test_a_quick_answer_tells_the_faults_of_address_and_opening_together(client: TestClient) -> None:
    answer = client.get("/api/v1/quick?widht=562&height=tall&depth=530&units=cm&mount=nail")
    assert answer.status_code == 422
    told = {one["where"].rpartition(" ")[2]: one for one in answer.json()["errors"]}
    assert set(told) == {"widht", "units", "width", "height", "side", "mount"}
    assert told["widht"]["try"] == "width"


def test_a_quick_answer_takes_the_shops_own_families(client: TestClient) -> None:
    own = {"id": "shop-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}
    assert client.put("/api/v1/slides/shop-16", json={"values": own}).status_code == 201
    told = client.get(f"/api/v1/quick?{urlencode({**PLAIN, 'slide': 'shop-16'})}").json()
    assert told["drawers"][0]["slide"]["family"] == "shop-16"


def test_columns_of_cabinets_and_drawers_are_told_apart() -> None:
    assert {"cabinet", "cabinet.first_row"} <= job_columns().keys()
