"""A family's subfront is as thick as its side until it is told; families that are kept stay as they are."""

from __future__ import annotations

import re
from typing import Any

from fastapi.testclient import TestClient
from tests.unit.web.test_slides_form import LEAST, PEOPLE, fields_in

from drawerwright.catalogue.families import read_family
from drawerwright.store import Store
from drawerwright.web.family.fields import form_of

THICK: dict[str, Any] = {**LEAST, "id": "mine-19", "design_side": 19}


def placeholder(html: str, name: str) -> str:
    tag = re.search(rf'<input id="f-{name}"[^>]*>', html)
    assert tag is not None
    found = re.search(r'placeholder="([^"]*)"', tag[0])
    return found[1] if found else ""


def test_a_blank_subfront_is_kept_as_thick_as_the_side(client: TestClient, store: Store) -> None:
    client.post("/slides/new", data=form_of(THICK), follow_redirects=False)
    kept = read_family(store.family("mine-19").values)
    assert (kept.design_side, kept.design_subfront) == (19, 19)
    assert fields_in(client.get("/slides/mine-19/edit").text)["design_subfront"] == "19"


def test_a_told_subfront_stays_as_told(client: TestClient, store: Store) -> None:
    client.post("/slides/new", data=form_of({**THICK, "design_subfront": 16}), follow_redirects=False)
    assert read_family(store.family("mine-19").values).design_subfront == 16


def test_the_form_shows_what_a_blank_subfront_follows(client: TestClient) -> None:
    assert placeholder(client.get("/slides/new").text, "design_subfront") == "16"
    again = client.post("/slides/new", data={**form_of(THICK), "capacity": ""}, headers=PEOPLE)
    assert placeholder(again.text, "design_subfront") == "19, as the side"
    assert fields_in(again.text)["design_subfront"] == ""


def test_a_family_kept_without_a_subfront_does_not_change_by_being_opened_and_saved(
    client: TestClient, store: Store
) -> None:
    store.save_family(THICK, based_on=None)
    assert read_family(store.family("mine-19").values).design_subfront == 16
    fields = fields_in(client.get("/slides/mine-19/edit").text)
    assert fields["design_subfront"] == "16 mm"
    saved = client.post("/slides/mine-19/edit", data={**fields, "based_on": "1"}, follow_redirects=False)
    assert saved.status_code == 303
    assert read_family(store.family("mine-19").values).design_subfront == 16


def test_a_file_without_a_subfront_fills_the_form_with_what_it_means(client: TestClient) -> None:
    text = (
        'id = "mine-19"\ncapacity = "45 kg"\ninside_width_deduction = 42\ndesign_side = 19\n'
        "[[length]]\nnominal = 500\n"
    )
    filled = client.post("/slides/new/file", data={"text": text}, headers=PEOPLE)
    assert fields_in(filled.text)["design_subfront"] == "16 mm"


def test_checks_while_typing_count_the_subfront_as_told(client: TestClient) -> None:
    blank = client.post("/slides/check", data=form_of(LEAST)).text
    assert 'data-remark-for="design_subfront"' in blank
    assert 'data-remark-for="design_subfront"' not in client.post("/slides/check", data=form_of(THICK)).text
