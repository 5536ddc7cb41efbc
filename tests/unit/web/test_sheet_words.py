"""Words of a sheet are a cabinetmaker's: no words of the file, and what a change comes to."""

from __future__ import annotations

from fastapi.testclient import TestClient

from drawerwright.catalogue import load_families
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.store import Store
from drawerwright.web.sheet.asked import Asked
from drawerwright.web.sheet.changes import change_rows

HTML = {"accept": "text/html"}


def test_a_change_that_is_a_choice_is_said_in_words_not_by_the_word_of_the_file() -> None:
    drawer = {
        "id": "D",
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
        "mount": "side",
        "slide": "house-16/600",
    }
    one = fit_job(job_from_mapping({"drawer": [drawer]}), load_families(None)).drawers[0]
    rows = change_rows(one, Asked("/", {}), {})
    chosen = [row for row, change in zip(rows, one.changes, strict=True) if change.to]
    assert chosen
    assert {row.by for row in chosen} == {""}
    assert all(row.says for row in chosen)


def test_a_subfront_that_is_too_thick_says_what_seats_it_and_what_only_latches() -> None:
    drawer = {
        "id": "D",
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
        "subfront": 18,
        "slide": "house-16/500",
    }
    one = fit_job(job_from_mapping({"drawer": [drawer]}), load_families(None)).drawers[0]
    along = next(check for check in one.checks if check.id == "latch-along")
    assert "a subfront 2 mm thinner seats them" in along.says
    least = next(change for change in one.changes if change.change == "subfront")
    assert least.says == "Take a subfront at least 1 mm thinner."


def test_what_would_do_is_told_at_a_field_without_words_of_the_file(client: TestClient) -> None:
    asked = {"width": "562", "height": "168", "depth": "530"}
    side = client.get("/", params=asked, headers=HTML).text
    assert "is missing; try 16<" in side
    assert "side = 16" not in side
    lost = client.get("/", params={**asked, "side": "16", "lost.left": "600"}, headers=HTML).text
    assert "try left 0, right 0<" in lost
    read = client.get("/", params={**asked, "side": "x"}, headers=HTML).text
    assert "try 552.5 mm or 21 3/4 in<" in read
    script = client.get("/", params={**asked, "fragment": "sheet"}, headers=HTML).json()
    assert script["errors"][0]["try"] == "16"


def test_what_a_cabinet_shares_is_told_with_yes_and_no(client: TestClient, store: Store) -> None:
    cabinet = {
        "id": "A",
        "freestanding": True,
        "interlock": False,
        "size": {"width": 600, "height": 800, "depth": 560},
        "mass": 35,
    }
    drawer = {
        "id": "A1",
        "cabinet": "A",
        "row": 1,
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
    }
    job = store.create_job({"title": "Invented", "cabinet": [cabinet], "drawer": [drawer]})
    shared = client.get(f"/jobs/{job.id}/cabinets", headers=HTML).text.partition("told-shared")[2][:900]
    assert "freestanding <b>yes</b>" in shared
    assert "interlock <b>no</b>" in shared


def test_the_title_strip_says_why_this_slide(client: TestClient) -> None:
    asked = {"width": "562", "height": "168", "depth": "530", "side": "16"}
    auto = client.get("/", params=asked, headers=HTML).text
    why = "longest box that fits"
    assert f'<dd class="chosen">{why}</dd>' in auto
    told = client.get("/", params={**asked, "slide": "house-16/450"}, headers=HTML).text
    assert '<dd class="chosen">as asked for</dd>' in told
    family = client.get("/", params={**asked, "slide": "house-16"}, headers=HTML).text
    assert "as asked for, longest box" in family
    none = client.get("/", params={**asked, "depth": "100"}, headers=HTML).text
    assert 'class="chosen"' not in none
