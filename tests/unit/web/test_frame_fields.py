"""A face frame's fields: what they ask for is told to all, stiles may be told instead, defaults are true."""

from __future__ import annotations

from urllib.parse import parse_qs, urlencode, urlsplit

import pytest
from fastapi.testclient import TestClient
from tests.unit.web.test_quick import Elements

from drawerwright.model.job import Box, Front
from drawerwright.store import Store
from drawerwright.units import MM_PER_INCH
from drawerwright.web.sheet.fields import FIELDS, strip_of
from drawerwright.web.sheet.stiles import frame_of_stiles

HTML = {"accept": "text/html"}
FRAMED = {
    "units": "in",
    "width": "21 3/4",
    "height": "7 1/4",
    "depth": "22 1/2",
    "side": "5/8",
    "construction": "face-frame",
    "frame.thickness": "3/4",
}
STILES = {"stile.left": "2 1/4", "stile.right": "2 1/4", "stile.side": "3/4"}


def page(client: TestClient, told: dict[str, str], status: int = 200) -> str:
    answer = client.get(f"/?{urlencode(told)}", headers=HTML)
    assert answer.status_code == status, answer.text[:400]
    return answer.text


def fields(text: str) -> dict[str, dict[str, str]]:
    return {one["name"]: one for one in Elements(text).of("input") if one.get("name") and "id" in one}


def test_what_the_frame_field_asks_for_is_seen_by_all_not_only_read_out(client: TestClient) -> None:
    text = page(client, FRAMED | {"frame.left": "1 1/2", "frame.right": "1 1/2"})
    assert text.count("from the cabinet side to the opening: not the stile&#39;s width</span>") == 2
    assert '<span class="hint" id="w-frame.left">' in text
    assert "w-frame.left" in fields(text)["frame.left"]["aria-describedby"].split()


def test_a_stile_of_two_and_a_quarter_over_a_side_of_three_quarters_stands_in_one_and_a_half(
    client: TestClient,
) -> None:
    text = page(client, FRAMED | STILES)
    assert "face frame standing in 1 1/2 in left, 1 1/2 in right" in text
    shown = fields(text)
    assert [shown[f"frame.{hand}"]["value"] for hand in ("left", "right")] == ["1 1/2", "1 1/2"]
    assert [shown[name].get("value", "") for name in STILES] == ["", "", ""]
    blank = page(client, FRAMED | STILES | {"frame.left": "", "frame.right": ""})
    assert "face frame standing in 1 1/2 in left, 1 1/2 in right" in blank, "a form sends blank fields too"


def test_stiles_are_reckoned_in_mm_and_with_units_of_their_own() -> None:
    told, faults = frame_of_stiles({"stile.left": "2 1/4 in", "stile.right": "58", "stile.side": "19"}, "mm")
    assert not faults
    assert told == {"frame.left": "38.15", "frame.right": "39"}


@pytest.mark.parametrize(
    ("told", "name", "says"),
    [
        ({"stile.left": "2"}, "stile.side", "is missing"),
        ({"stile.left": "1/2", "stile.side": "3/4"}, "stile.left", "is less than the cabinet side is thick"),
        ({"stile.left": "2", "stile.side": "x"}, "stile.side", "x"),
        (
            {"stile.left": "2", "stile.side": "3/4", "frame.left": "2"},
            "stile.left",
            "is told beside how far the frame stands in",
        ),
    ],
)
def test_a_stile_that_cannot_be_reckoned_is_told_at_its_field_and_stays_as_typed(
    client: TestClient, told: dict[str, str], name: str, says: str
) -> None:
    text = page(client, FRAMED | told, 422)
    field = text.partition(f'data-field="{name}"')[2].partition("</div>")[0]
    assert 'class="fault"' in field
    assert says in field
    assert fields(text)["stile.left"]["value"] == told["stile.left"]


def test_a_stored_drawer_keeps_how_far_the_frame_stands_in_not_the_stile(
    client: TestClient, store: Store
) -> None:
    drawer = {
        "id": "F1",
        "opening": {"width": "21 3/4 in", "height": "7 1/4 in", "depth": "22 1/2 in"},
        "side": 16,
        "construction": "face-frame",
        "frame": {"left": 57, "right": 57, "thickness": 19},
    }
    job = store.create_job({"title": "Invented", "units": "mm", "drawer": [drawer]})
    path = f"/jobs/{job.id}/drawers/F1"
    seen = client.get(path, params={"stile.left": "57", "stile.side": "19"}, headers=HTML)
    assert "standing in 38 left, 57 right" in seen.text
    sent = {"based_on": "1", "frame.left": "57", "frame.right": "57"}
    saved = client.post(
        path, data=sent | {"stile.left": "57", "stile.side": "19"}, headers=HTML, follow_redirects=False
    )
    assert parse_qs(urlsplit(saved.headers["location"]).query)["saved"] == ["2"]
    kept = store.job(job.id).values["drawer"][0]
    assert kept["frame"]["left"] == 38
    assert "stile" not in kept
    wrong = client.post(path, data=sent | {"stile.left": "57"}, headers=HTML)
    assert wrong.status_code == 422
    assert "stile.side" in wrong.text


def test_the_cabinet_inside_told_on_the_quick_page_proves_the_frame(client: TestClient) -> None:
    wrong = FRAMED | {"frame.left": "2 1/4", "frame.right": "2 1/4"}
    assert "Frame and cabinet" not in page(client, wrong)
    text = page(client, wrong | {"cabinet.inside_width": "24 3/4"})
    assert "Frame and cabinet" in text
    assert fields(text)["cabinet.inside_width"]["value"] == "24 3/4"
    mm = client.get(f"/?{urlencode(wrong | {'cabinet.inside_width': '24 3/4', 'to': 'mm'})}", headers=HTML)
    assert fields(mm.text)["cabinet.inside_width"]["value"] == "628.65"


def test_what_blank_fields_show_is_what_the_fit_counts_with() -> None:
    usual = {field.name: field.usual for field in FIELDS}
    assert float(usual["front.thickness"]) == Front().thickness
    assert float(usual["front.gap"]) == Front().gap
    assert float(usual["front.overlay"]) == Front().overlay.left
    assert float(usual["box.bottom_thickness"]) == Box().bottom_thickness


def test_blank_fields_of_an_inch_page_show_inches(client: TestClient) -> None:
    shown = fields(page(client, FRAMED | {"frame.left": "1 1/2", "frame.right": "1 1/2"}))
    assert shown["front.overlay"]["placeholder"] == "0.630 (16 mm)"
    assert shown["box.bottom_thickness"]["placeholder"] == "0.236 (6 mm)"
    assert shown["lost.left"]["placeholder"] == "0"
    assert shown["subfront"]["placeholder"] == "as sides"
    for field in strip_of({}).fields:
        if field.unit == "length" and field.usual.isdecimal() and field.usual != "0":
            inches = float(field.usual_in("in").partition(" ")[0])
            assert inches == pytest.approx(float(field.usual) / float(MM_PER_INCH), abs=5e-4)
            assert field.usual_in("mm") == field.usual
