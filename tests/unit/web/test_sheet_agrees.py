"""One sheet tells one thing: the nearest slide, and by how much, are the same wherever they stand on it."""

from __future__ import annotations

import re
from urllib.parse import urlencode

import pytest
from fastapi.testclient import TestClient
from tests.unit.web.test_quick import OVERLAY, Elements

HTML = {"accept": "text/html"}
NEAREST = {
    "a low opening": {"height": "35"},
    "a box that is there": {
        "existing_box.inside_width": "530",
        "existing_box.length": "480",
        "existing_box.height": "160",
    },
    "a taper": {"width": "562; 555"},
    "a short cabinet": {"depth": "200"},
    "a heavy drawer": {"contents": "103.27"},
}


def asked(client: TestClient, told: dict[str, str]) -> str:
    answer = client.get(f"/?{urlencode(OVERLAY | {'width': '562'} | told)}", headers=HTML)
    assert answer.status_code == 200, answer.text[:400]
    return Elements(answer.text).text


@pytest.mark.parametrize("kind", NEAREST)
@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_nearest_slide_is_the_same_all_over_the_sheet(client: TestClient, kind: str, units: str) -> None:
    told = {
        key: f"{text} mm" if key not in ("width", "contents") else text for key, text in NEAREST[kind].items()
    }
    metric = {"depth": "530 mm", "height": "168 mm", "side": "16 mm", "contents": "20 kg", "width": "562 mm"}
    told = {key: text.replace(";", " mm;") + " mm" if key == "width" else text for key, text in told.items()}
    if kind == "a heavy drawer":
        told["contents"] += " kg"
    text = asked(client, metric | told | {"units": units})
    strip = re.search(r"Nearest slide, ([a-z ]+?) ([a-z]+(?:-[a-z0-9]+)+ / [\d.]+)", text)
    assert strip is not None
    drawn = re.findall(r"([a-z]+(?:-[a-z0-9]+)+ / [\d.]+)(?: ([a-z ]+?))?: [^:]{1,20} (?:short|off)\b", text)
    assert drawn
    assert {name for name, _ in drawn} == {strip[2]}
    assert {mount for _, mount in drawn} <= {"", strip[1]}


def test_a_mount_that_is_not_the_usual_one_is_told_with_the_nearest_slide(client: TestClient) -> None:
    text = asked(client, {"height": "35"})
    assert "Nearest slide, on a shelf house-16 / 500" in text
    assert "house-16 / 500 on a shelf: 11 mm short" in text


def test_an_opening_that_is_off_its_band_is_not_called_short(client: TestClient) -> None:
    text = asked(client, {"width": "562; 555"})
    assert re.search(r": 5 mm off\b", text)
    assert not re.search(r"mm short\b(?!-)", text)


def test_what_is_missing_and_what_is_spare_are_rounded_as_margins_are(client: TestClient) -> None:
    heavy = asked(client, {"contents": "103.27"})
    drawn = set(re.findall(r": ([\d.]+) kg short", heavy))
    assert len(drawn) == 1
    assert f"−{float(drawn.pop()):.1f} kg" in heavy
    for contents in ("20", "20.03", "20.06", "20.09"):
        text = asked(client, {"contents": contents})
        spare = set(re.findall(r"([\d.]+) to spare", text))
        margin = set(re.findall(r"Capacity ([\d.]+) kg", text))
        assert spare
        assert margin
        assert spare == margin
