"""Gaps typed at the bench: kept as readings, answered with moves; asked without a script."""

from __future__ import annotations

import re
from html import unescape

import pytest
from fastapi.testclient import TestClient

from drawerwright.files.gap_text import parse_gap
from drawerwright.model.gaps import GAP_NAMES
from drawerwright.store import Store
from drawerwright.web.bench.gaps import gap_words, left_words, read_gap_form
from drawerwright.web.demo_job import demo_cabinet

PEOPLE = {"accept": "text/html"}
LOW_LEFT = {"left_top": "3", "left_bottom": "2", "right_top": "3", "right_bottom": "4", "top_left": "3"}


@pytest.fixture
def job(store: Store) -> str:
    """Two drawers of the demo job, one above the other."""
    return store.create_job(demo_cabinet()).id


def test_the_front_has_a_labelled_field_at_each_gap_and_corner(client: TestClient, job: str) -> None:
    html = client.get(f"/jobs/{job}/bench/K1-1/gaps").text
    for name in GAP_NAMES:
        assert f'<label for="g-{name}" class="unseen">{gap_words(name)}, mm</label>' in html
    assert 'id="moves"' not in html


def test_gaps_are_kept_and_answered_with_the_moves_that_the_api_tells(
    client: TestClient, store: Store, job: str
) -> None:
    answer = client.post(f"/jobs/{job}/bench/K1-1/gaps", data=LOW_LEFT, follow_redirects=False)
    assert answer.headers["location"] == f"/jobs/{job}/bench/K1-1/gaps#moves"
    assert store.gaps(job, "K1-1")[0].values == LOW_LEFT
    html = unescape(client.get(f"/jobs/{job}/bench/K1-1/gaps").text)
    told = client.get(f"/api/v1/jobs/{job}/align").json()["fronts"][0]
    says = re.findall(r'<p class="says">([^<]+)</p>', html)
    assert says == [step["says"] for step in told["steps"]]
    assert says
    assert html.count('class="arrow"') == len(says)
    expected = f"{round(told['expected']['right_bottom'], 2):g} mm"
    assert re.search(rf"right edge, bottom</th>.*?<b>{re.escape(expected)}</b>", html, re.DOTALL)


def test_the_fields_show_what_was_measured_last(client: TestClient, job: str) -> None:
    client.post(f"/jobs/{job}/bench/K1-1/gaps", data=LOW_LEFT)
    client.post(f"/jobs/{job}/bench/K1-1/gaps", data={**LOW_LEFT, "left_top": "2..2.5"})
    html = client.get(f"/jobs/{job}/bench/K1-1/gaps").text
    assert 'name="left_top" value="2..2.5"' in html
    assert "2 measurements of this front are kept" in " ".join(html.split())


def test_what_does_not_read_is_told_at_its_gap_and_nothing_is_kept(
    client: TestClient, store: Store, job: str
) -> None:
    typed = {**LOW_LEFT, "top_left": "wide", "right_top": "-3"}
    answer = client.post(f"/jobs/{job}/bench/K1-1/gaps", data=typed, headers=PEOPLE)
    assert answer.status_code == 422
    for name in ("top_left", "right_top"):
        assert re.search(rf'id="g-{name}"[^>]*aria-invalid="true"', answer.text)
        assert re.search(rf'id="h-{name}"><span class="fault">', answer.text)
    assert 'name="left_top" value="3"' in answer.text
    assert store.gaps(job) == []


def test_empty_fields_are_told_to_want_a_gap(client: TestClient, job: str) -> None:
    answer = client.post(f"/jobs/{job}/bench/K1-1/gaps", data={"left_top": " "}, headers=PEOPLE)
    assert answer.status_code == 422
    assert "at least one gap is wanted" in answer.text


def test_a_measuring_that_is_sent_twice_is_kept_once(client: TestClient, store: Store, job: str) -> None:
    for _ in range(2):
        client.post(f"/jobs/{job}/bench/K1-1/gaps", data={**LOW_LEFT, "token": "a-token"})
    assert len(store.gaps(job)) == 1


def test_the_page_sends_a_token_that_holds_for_what_was_typed_on_it(
    client: TestClient, store: Store, job: str
) -> None:
    address = f"/jobs/{job}/bench/K1-1/gaps"
    told = re.findall(r'name="token" value="([^"]+)"', client.get(address).text)
    assert len(told) == 1
    for top in ("3", "3", "2.5"):  # pressed twice, then gone back to and mended
        client.post(address, data={**LOW_LEFT, "top_left": top, "token": told[0]})
    assert [one.values["top_left"] for one in store.gaps(job)] == ["3", "2.5"]
    assert f'value="{told[0]}"' not in client.get(address).text


def test_what_no_adjuster_cures_is_told_in_inches_as_well_in_a_job_in_inches() -> None:
    assert left_words(3.52, 0.1) == "3.5 ± 0.1 mm"
    assert left_words(3.52, 0.1, "in") == "3.52 mm (1/8 in) ± 0.1 mm"


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("1/8", "1/8 in"),
        ("0.1", "0.1 in"),
        ("< 1/16", "< 1/16 in"),
        ("1/16..1/8", "1/16 in..1/8 in"),
        ("1/8 ± 1/64", "1/8 in ± 1/64 in"),
        ("~⅛", "~⅛ in"),
        ("3 mm", "3 mm"),
    ],
)
def test_bare_inches_are_kept_with_their_unit_and_mean_the_same_in_a_job_in_mm(told: str, kept: str) -> None:
    readings, faults = read_gap_form("A", {"left_top": told}, "in")
    assert (readings, faults) == ({"left_top": kept}, {})
    assert parse_gap(kept, "mm").value == pytest.approx(parse_gap(told, "in").value)  # type: ignore[union-attr]


def test_a_drawer_without_a_front_has_no_gaps(client: TestClient, store: Store) -> None:
    opening = {"width": 562, "height": 168, "depth": 530}
    job = store.create_job({"drawer": [{"id": "tray", "opening": opening, "side": 16}]}).id
    assert client.get(f"/jobs/{job}/bench/tray/gaps", headers=PEOPLE).status_code == 404
    assert "Line up the front" not in client.get(f"/jobs/{job}/bench/tray").text


def test_the_step_that_sets_the_front_leads_to_its_gaps(client: TestClient, job: str) -> None:
    assert f'href="/jobs/{job}/bench/K1-1/gaps"' in client.get(f"/jobs/{job}/bench/K1-1").text
