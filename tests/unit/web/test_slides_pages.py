"""Pages of the slides: table, data sheet, slides side by side; asked as a browser without script does."""

from __future__ import annotations

import re
import tomllib

import pytest
from fastapi.testclient import TestClient

from drawerwright.catalogue import load_families
from drawerwright.catalogue.families import read_family
from drawerwright.catalogue.family_words import family_words
from drawerwright.store import Store
from drawerwright.web.family.example import example_of

PEOPLE = {"accept": "text/html"}
OPENING = {"width": "562", "height": "168", "depth": "530", "side": "16", "contents": "20 kg"}


def words_of(html: str) -> str:
    """The text of a page, without its tags."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_the_table_names_every_family_and_says_which_are_invented(client: TestClient) -> None:
    html = client.get("/slides").text
    for family in load_families():
        assert f'href="/slides/{family.id}"' in html
    assert words_of(html).count("invented") >= len(load_families())
    assert 'href="/api/v1/slides"' in html


@pytest.mark.parametrize("family", load_families(), ids=lambda family: family.id)
def test_a_shipped_family_shows_every_key_and_its_example_fits(client: TestClient, family: object) -> None:
    html = client.get(f"/slides/{family.id}").text  # type: ignore[attr-defined]
    for words in family_words().values():
        if words.key.partition(".")[0] not in ("length", "profile", "evidence"):
            assert f"<code>{words.key}</code>" in html
    assert example_of(family).verdict == "fits"  # type: ignore[arg-type]
    assert html.count("<svg") >= 2
    assert "Invented: an example that nobody makes" in html


def test_a_family_that_is_not_there_names_the_nearest_and_is_a_404(client: TestClient) -> None:
    answer = client.get("/slides/house-17", headers=PEOPLE)
    assert answer.status_code == 404
    assert "house-16" in answer.text


def test_the_file_of_a_family_reads_back_as_the_family(client: TestClient) -> None:
    answer = client.get("/slides/heavy-19/file.toml")
    assert answer.headers["content-disposition"] == 'attachment; filename="heavy-19.toml"'
    by_id = {family.id: family for family in load_families()}
    assert read_family(tomllib.loads(answer.text)) == by_id["heavy-19"]


def test_slides_side_by_side_show_boxes_margins_and_drawings_as_the_api_tells_them(
    client: TestClient,
) -> None:
    asked = {"family": ["house-16", "thin-12"], **OPENING}
    page = client.get("/slides/compare", params=asked)
    told = client.get("/api/v1/compare", params=asked).json()
    assert page.status_code == 200
    answers = told["drawers"][0]["answers"]
    assert [one["verdict"] for one in answers] == ["fits", "does-not-fit"]
    box = answers[0]["box"]
    assert f"{box['outside_width']:g} × {box['height']:g} × {box['length']:g}" in page.text
    assert {one["id"] for one in told["drawers"][0]["differing"]} >= {"side-thickness", "capacity"}
    assert "Gap each side" in page.text
    assert page.text.count('class="drawing"') == 4
    ids = re.findall(r' id="([^"]+)"', page.text)
    assert len(ids) == len(set(ids))


def test_what_cannot_be_compared_is_told_at_its_field_and_the_rest_stays(client: TestClient) -> None:
    asked = {"family": ["house-16", "house-19"], **OPENING, "width": "56x"}
    answer = client.get("/slides/compare", params=asked, headers=PEOPLE)
    assert answer.status_code == 422
    field = re.search(r'<div class="field wrong">.*?</div>', answer.text, re.DOTALL)
    assert field is not None
    assert 'value="56x"' in field[0]
    assert "which is not one of mm, cm, m, in, ft" in field[0]
    assert 'value="168"' in answer.text
    told = client.get("/api/v1/compare", params=asked)
    assert told.status_code == 422
    assert told.json()["errors"][0]["value"] == '"56x"'


def test_one_slide_alone_is_compared_with_nothing(client: TestClient) -> None:
    answer = client.get("/slides/compare", params={"family": "house-16", **OPENING}, headers=PEOPLE)
    assert answer.status_code == 422
    assert "two slides or more are wanted" in answer.text


def test_a_family_of_the_shops_own_takes_the_place_of_the_shipped_one(
    client: TestClient, store: Store
) -> None:
    values = tomllib.loads(client.get("/slides/house-16/file.toml").text)
    store.save_family({**values, "title": "Measured <b>on a pair</b>", "invented": False})
    html = client.get("/slides").text
    assert "Measured &lt;b&gt;on a pair&lt;/b&gt;" in html
    assert "yours" in words_of(html)
    assert 'href="/slides/house-16/history"' in client.get("/slides/house-16").text
