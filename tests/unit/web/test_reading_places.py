"""Readings with their places, typed and shown as people write them."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

import pytest
from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import InputError
from drawerwright.files.column_names import heading_of
from drawerwright.model.readings import HEIGHT_LABELS, READING_LABELS
from drawerwright.store import Store
from drawerwright.web.fitting import place_of, read_values
from drawerwright.web.reading_places import fault_in_words
from drawerwright.web.schedule.columns import (
    filed_text_of,
    schedule_columns,
    text_of,
    value_from,
    with_cell,
)
from drawerwright.web.sheet.units import in_other_units

WIDTH, HEIGHT, DEPTH, SIDE = (
    schedule_columns()[key].column for key in ("opening.width", "opening.height", "opening.depth", "side")
)


@pytest.mark.parametrize(
    "text",
    [
        "front top 562, back top 561.5",
        "front top 562; back top 561.5",
        "Front Top: 562, Back Top: 561,5",
        "top front 562,back-top 561.5",
        "front_top=562; back_top=561.5",
        "front top = 562 ; back_top 561,5",
    ],
)
def test_a_width_read_at_two_places_is_stored_alike_however_the_places_are_written(text: str) -> None:
    stored = value_from(text, WIDTH)
    assert stored == {"front_top": 562, "back_top": 561.5}
    shown = text_of({"opening": {"width": stored}}, WIDTH)
    assert shown == "front top 562, back top 561.5"


@pytest.mark.parametrize(
    ("column", "text", "stored", "shown"),
    [
        (HEIGHT, "left 168, right 6 5/8 in", {"left": 168, "right": "6 5/8 in"}, "left 168, right 6 5/8 in"),
        (WIDTH, "562, 561,5", [562, 561.5], "562, 561.5"),
        (DEPTH, "530; 529", [530, 529], "530, 529"),
        (SIDE, "16, 15.8", [16, 15.8], "16, 15.8"),
        (WIDTH, "562,5", 562.5, "562.5"),
        (WIDTH, "front 22 1/8", {"front": "22 1/8"}, "front 22 1/8"),
    ],
)
def test_several_readings_are_stored_as_readings_and_shown_with_commas(
    column: Any, text: str, stored: object, shown: str
) -> None:
    drawer = with_cell({}, column, text)
    assert value_from(text, column) == stored
    assert text_of(drawer, column) == shown


def test_rows_copied_for_a_spreadsheet_keep_the_names_that_a_file_has(
    client: TestClient, store: Store
) -> None:
    width = {"front_top": 562, "back_top": 561}
    drawer = {"id": "A", "opening": {"width": width, "height": [168, 167]}, "side": 16}
    job = store.create_job({"drawer": [drawer]}).id
    assert filed_text_of(drawer, WIDTH) == "front_top=562; back_top=561"
    block = client.get(f"/jobs/{job}/block").text
    assert "front_top=562; back_top=561" in block
    assert "168; 167" in block


PLACED = st.one_of(
    st.tuples(st.just(WIDTH), st.sampled_from(READING_LABELS)),
    st.tuples(st.just(HEIGHT), st.sampled_from(HEIGHT_LABELS)),
)
FIGURES = st.one_of(
    st.integers(1, 4_999), st.sampled_from([0.5, 561.25, "22 1/8", "562,5 mm", '21 3/4"', "1' 9 3/4\""])
)


@given(st.lists(PLACED, min_size=1, max_size=6), st.lists(FIGURES, min_size=6, max_size=6))
def test_readings_by_place_that_are_shown_and_typed_back_are_the_same(
    placed: list[Any], figures: list[Any]
) -> None:
    column = placed[0][0]
    labels = dict.fromkeys(label for one, label in placed if one is column)
    stored = dict(zip(labels, figures, strict=False))
    shown = text_of(with_value(column, stored), column)
    assert "_" not in shown
    assert "=" not in shown
    assert value_from(shown, column) == stored


def with_value(column: Any, value: object) -> dict[str, Any]:
    """A drawer with a value at a column of its opening."""
    return {"opening": {column.path[-1]: value}}


@pytest.mark.parametrize(
    ("column", "text", "says"),
    [
        (WIDTH, "front top 562, 561", "tells the place of some readings and not of others"),
        (WIDTH, "front_top=562; 561", "tells the place of some readings and not of others"),
        (WIDTH, "front 562, front 561", 'tells "front" twice'),
        (WIDTH, "frnt top 562, back top 561", 'is read at "frnt top", which is none of front top,'),
        (HEIGHT, "front top 168", 'is read at "front top", which is none of left, right, front left,'),
        (DEPTH, "left 530, right 529", "tells a place, which only a width or a height has"),
        (WIDTH, "front top", '"top" cannot be read as a length'),
    ],
)
def test_readings_that_do_not_read_say_why_in_the_same_words(column: Any, text: str, says: str) -> None:
    opening = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
    drawer = with_cell(opening, column, text)
    with pytest.raises(InputError) as raised:
        read_values({"drawer": [drawer]})
    told = fault_in_words(raised.value.faults[0])
    assert says in f"{told.value} {told.says}"
    assert "_" not in told.says + told.try_
    assert place_of(told)[2].startswith(column.key)


def test_a_reading_among_several_is_placed_at_its_cell(client: TestClient, store: Store) -> None:
    drawer = {"id": "A 1", "opening": {"width": [562, "wide"], "height": 168, "depth": 530}, "side": 16}
    job = store.create_job({"drawer": [drawer]}).id
    html = client.get(f"/jobs/{job}").text
    assert "<b>Width, no. 2</b> &#34;wide&#34; cannot be read as a length" in html
    assert "waits for what it shares" not in html


def test_headings_of_places_are_words() -> None:
    assert heading_of("opening.width.back_top") == "Width back top"


@pytest.mark.parametrize("text", ["front top 562, back top 561", "front_top=562; back_top=561"])
def test_the_quick_page_takes_places_in_words_and_in_the_files_form(client: TestClient, text: str) -> None:
    plain = {"height": "168", "depth": "530", "side": "16", "contents": "20 kg"}
    told = client.get("/api/v1/quick?" + urlencode({"width": text, **plain})).json()
    page = client.get("/?" + urlencode({"width": text, **plain}))
    assert told["drawers"][0]["verdict"] == "fits"
    assert page.status_code == 200
    assert f'value="{text}"' in page.text
    filed = client.get("/api/v1/quick?" + urlencode({"width": "front_top=562; back_top=561", **plain})).json()
    assert told == filed


def test_the_quick_page_tells_a_fault_of_a_place_at_its_field(client: TestClient) -> None:
    asked = {"width": "frnt top 562, back top 561", "height": "168", "depth": "530", "side": "16"}
    page = client.get("/?" + urlencode(asked))
    told = client.get("/?" + urlencode({**asked, "fragment": "sheet"}))
    assert page.status_code == told.status_code == 422
    assert "is read at &#34;frnt top&#34;" in page.text
    assert [(one["field"], one["try"]) for one in told.json()["errors"]] == [("width", "front top")]


def test_a_drawers_sheet_shows_stored_places_in_words_and_saves_them_typed_so(
    client: TestClient, store: Store
) -> None:
    opening = {"width": {"front_top": 562, "back_top": 561}, "height": 168, "depth": 530}
    job = store.create_job({"drawer": [{"id": "A", "opening": opening, "side": 16}]}).id
    html = client.get(f"/jobs/{job}/drawers/A").text
    assert 'value="front top 562, back top 561"' in html
    assert "By place: front top …, back top …" in html
    typed = {"based_on": "1", "width": "front top 562, back top 560", "height": "left 168, right 167"}
    assert client.post(f"/jobs/{job}/drawers/A", data=typed, follow_redirects=False).status_code == 303
    saved = store.job(job).values["drawer"][0]["opening"]
    assert saved["width"] == {"front_top": 562, "back_top": 560}
    assert saved["height"] == {"left": 168, "right": 167}


def test_the_schedule_shows_and_takes_places_in_words(client: TestClient, store: Store) -> None:
    opening = {"width": {"front_top": 562, "back_top": 561}, "height": 168, "depth": 530}
    job = store.create_job({"drawer": [{"id": "A", "opening": opening, "side": 16}]}).id
    html = client.get(f"/jobs/{job}").text
    assert 'value="front top 562, back top 561"' in html
    assert "By place: front top …, back top …" in html
    same = {"based_on": "1", "do": "save", "r0.opening.width": "front top 562, back top 561"}
    assert client.post(f"/jobs/{job}", data=same, follow_redirects=False).status_code == 303
    assert store.job(job).revision == 1
    other = {**same, "r0.opening.width": "front top 562, back top 560"}
    assert client.post(f"/jobs/{job}", data=other, follow_redirects=False).status_code == 303
    assert store.job(job).values["drawer"][0]["opening"]["width"] == {"front_top": 562, "back_top": 560}


def test_readings_by_place_mean_the_same_in_other_units() -> None:
    typed = {"width": "front top 508, back top 1016 mm", "height": "left 254;right 127"}
    told = in_other_units(typed, "mm", "in")
    assert told == {"width": "front top 20, back top 1016 mm", "height": "left 10;right 5"}
    assert in_other_units(told, "in", "mm") == typed
