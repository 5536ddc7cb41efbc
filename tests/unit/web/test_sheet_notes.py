"""Notes of a drawer's sheet: what stopped a longer slide is told apart from checks; where pages lead."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient
from tests.unit.web.test_jobs_pages import kept, measured
from tests.unit.web.test_quick import OVERLAY, Elements

from drawerwright.drawing.shown import Shown
from drawerwright.store import Store
from drawerwright.web.families import shipped_families
from drawerwright.web.fitting import answer_values
from drawerwright.web.sheet.notes import LONGER, in_order_of_care, notes_of

HTML = {"accept": "text/html"}


def test_why_a_slide_is_not_longer_is_headed_so_and_is_no_check_that_stops(client: TestClient) -> None:
    html = client.get("/", params=OVERLAY).text
    notes = re.findall(r'<div class="note \w+">.*?</div>', html, re.DOTALL)
    longer = [one for one in notes if "hits the cabinet back" in one]
    assert longer
    for one in longer:
        assert "<b>Why not longer</b>" in one
        assert "stops" not in one
        assert '<svg class="mark' not in one


def test_why_a_slide_is_not_longer_is_the_last_of_the_notes(store: Store) -> None:
    job = kept(store, measured("A", contents="20 kg"))
    (one,) = answer_values(dict(job.values), shipped_families()).drawers
    assert one.fitted is not None
    notes = in_order_of_care(notes_of(one.fitted, Shown()))
    assert notes[-1].id == LONGER


def test_the_bench_does_not_draw_the_longer_slide(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A", contents="20 kg"))
    page = client.get(f"/jobs/{job.id}/bench/A", headers=HTML)
    assert page.status_code == 200
    assert 'class="drawing plan"' in page.text
    assert "too long" not in page.text
    assert "pen-accent" not in page.text


@pytest.mark.parametrize(("width", "hidden"), [(562, False), (40, True)])
def test_a_drawer_without_parts_prints_no_empty_cut_list(
    client: TestClient, store: Store, width: float, hidden: bool
) -> None:
    job = kept(store, measured("A", width))
    page = Elements(client.get(f"/jobs/{job.id}/drawers/A", headers=HTML).text)
    (strip,) = page.of("section", class_="cut-strip")
    assert ("hidden" in strip) == hidden


def test_a_drawers_sheet_leads_to_the_other_pages_of_its_job(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"), measured("B"))
    page = Elements(client.get(f"/jobs/{job.id}/drawers/A", headers=HTML).text)
    led = {one["href"] for one in page.of("a") if "href" in one}
    assert {f"/jobs/{job.id}{end}" for end in ("", "/cabinets", "/papers", "/bench", "/history")} <= led
    assert f"/jobs/{job.id}/drawers/B" in led


@pytest.mark.parametrize("address", ["/", "/slides", "/jobs"])
def test_pages_call_their_twin_by_the_same_words(client: TestClient, address: str) -> None:
    page = client.get(address, headers=HTML).text
    assert "as JSON</a>" in page
    assert "As JSON" not in page
