"""A sheet in other units means what it meant, to the last digit, and what makes it fit does."""

from __future__ import annotations

from typing import Any
from urllib.parse import parse_qs, urlencode

import pytest
from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.web.test_quick import OVERLAY, PLAIN, Elements

from drawerwright.units import parse_length
from drawerwright.web.sheet.units import in_other_units, pairs_in_other_units

HTML = {"accept": "text/html"}


def asked(client: TestClient, told: dict[str, str], status: int = 200) -> Elements:
    answer = client.get(f"/?{urlencode(told)}", headers=HTML)
    assert answer.status_code == status, answer.text[:400]
    return Elements(answer.text)


def in_inches(client: TestClient, page: Elements) -> tuple[dict[str, str], Elements]:
    answer = client.get(page.of("a", class_="unit-in")[0]["href"], headers=HTML)
    return {key: texts[0] for key, texts in parse_qs(answer.url.query.decode()).items()}, Elements(
        answer.text
    )


def figures(client: TestClient, page: Elements) -> dict[str, Any]:
    """What the twin of a page tells of its drawer, in mm whatever its words are in."""
    told = client.get(page.of("link", rel="alternate")[0]["href"]).json()["drawers"][0]
    return {key: told[key] for key in ("slide", "box", "front", "mass")}


@given(st.floats(0.01, 4999).map(lambda mm: f"{mm:.3f}"))
def test_a_length_in_other_units_is_the_same_length(text: str) -> None:
    there = in_other_units({"width": text}, "mm", "in")["width"]
    assert parse_length(there, "in") == pytest.approx(parse_length(text), abs=1e-6)


@pytest.mark.parametrize("text", ["22 1/8", "22.126", "5/8", "21 53/64", "22 1/3", "7", "-1/4", "0.001"])
def test_an_inch_in_millimetres_is_the_same_length(text: str) -> None:
    there = in_other_units({"width": text}, "in", "mm")["width"]
    assert parse_length(there, "mm") == pytest.approx(parse_length(text, "in"), abs=1e-6)


def test_keys_that_no_field_holds_keep_their_meaning() -> None:
    pairs = (
        ("front.overlay.left", "10"),
        ("box.heights", "90; 120 mm"),
        ("cabinet.mass", "30"),
        ("cabinet.inside_width", "25.4"),
        ("sag_limit", "2"),
        ("tilt", "2"),
        ("door.opens", "95"),
        ("opening.width.front", "−3"),
        ("in_the_way", "[{ what = 'hinge 2', side = 'left', stands_in = 12.5, depth = [0, 60] }]"),
        ("note", "3"),
    )
    assert [text for _, text in pairs_in_other_units(pairs, "mm", "in")] == [
        "10 mm",
        "90 mm; 120 mm",
        "30 kg",
        "1",
        "2 mm",
        "2",
        "95",
        "−3 mm",
        "[{ what = 'hinge 2', side = 'left', stands_in = '12.5 mm', depth = ['0 mm', '60 mm'] }]",
        "3",
    ]
    assert in_other_units({"slide": "house-16/500"}, "mm", "in") == {"slide": "house-16/500 mm"}


def test_overlays_told_one_by_one_are_drawn_alike_in_other_units(client: TestClient) -> None:
    told = OVERLAY | {"front.overlay.left": "10", "front.overlay.right": "30", "box.heights": "90; 120"}
    told |= {"slide": "house-16/500", "in_the_way": "[{ what = 'h', side = 'left', stands_in = 3 }]"}
    before = asked(client, told)
    _, after = in_inches(client, before)
    assert figures(client, after) == figures(client, before)


def test_rounding_by_other_units_turns_no_verdict(client: TestClient) -> None:
    before = asked(client, OVERLAY | {"width": "562", "height": "46"})
    assert "does not fit" not in before.text
    query, after = in_inches(client, before)
    assert query["height"] == "46 mm"
    assert "does not fit" not in after.text


@pytest.mark.parametrize(
    "told",
    [
        {"units": "in", "width": "22", "height": "1 1/2", "depth": "21", "side": "5/8", "contents": "44"},
        {"units": "in", "width": "22", "height": "7", "depth": "8", "side": "5/8", "contents": "44"},
        {"units": "in", "width": "22", "height": "7", "depth": "21", "side": "5/8", "contents": "440"},
        {"width": "562", "height": "35", "depth": "530", "side": "16", "contents": "20"},
    ],
)
def test_what_would_make_it_fit_makes_it_fit(client: TestClient, told: dict[str, str]) -> None:
    page = asked(client, told | {"front.style": "overlay"})
    assert "does not fit" in page.text
    links = [one["href"] for one in page.of("a") if one.get("href", "").startswith("/?")]
    fields = ("width", "height", "depth", "side", "contents")
    changed = {
        link
        for link in links
        for query in [parse_qs(link.partition("?")[2])]
        if any(query.get(key, [""])[0] != told[key] for key in fields)
        and "to" not in query
        and query.get("units", ["mm"])[0] == told.get("units", "mm")
    }
    assert changed
    for link in changed:
        assert "does not fit" not in Elements(client.get(link, headers=HTML).text).text, link


def test_a_page_that_does_not_read_can_still_change_its_units(client: TestClient) -> None:
    page = asked(client, PLAIN | {"width": "562 561"}, 422)
    query, _ = in_inches(client, page)
    assert (query["units"], query["width"]) == ("in", "562 561")


def test_a_sheet_in_inches_says_what_cutting_by_them_would_spoil(client: TestClient) -> None:
    """19 11/16 in = 500.0625 mm; a subfront of 16.95 in a family for 16 leaves 0.05 of the bracket's 1.0."""
    told = {"width": "562 mm", "height": "168 mm", "depth": "530 mm", "side": "16 mm", "contents": "10 kg"}
    held = {**told, "slide": "house-16/500 mm", "units": "in"}
    plain = client.get(f"/?{urlencode(held)}", headers=HTML).text
    close = client.get(f"/?{urlencode({**held, 'subfront': '16.95 mm'})}", headers=HTML).text
    assert "the length of the sides to the nearest" in plain
    assert "longer at 19 11/16 in" not in plain
    assert "Sides 500 mm long are 0.06 mm longer at 19 11/16 in" in close
