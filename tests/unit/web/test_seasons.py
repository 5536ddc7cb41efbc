"""The page of a job's seasons, without a browser."""

from __future__ import annotations

import re
from html import unescape
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from fastapi.testclient import TestClient

from drawerwright.units import format_length
from drawerwright.web.pages import seasons as seasons_page

INSET = {
    "id": "A",
    "opening": {"width": 562, "height": 168, "depth": 530},
    "side": 16,
    "front": {"style": "inset"},
}
OTHER = {**INSET, "id": "Küche 1/2", "opening": {"width": 562, "height": 300, "depth": 530}}


def job_of(client: TestClient, *drawers: dict[str, Any], **values: Any) -> str:
    told = {"title": "Solid <fronts>", "drawer": list(drawers), **values}
    return str(client.post("/api/v1/jobs", json={"values": told}).json()["id"])


def rows(text: str) -> list[list[str]]:
    """Cells of the table of gaps, row by row, tags left out."""
    body = text.partition("<table")[2].partition("</table>")[0]
    found = re.findall(r"<tr>(.*?)</tr>", body, re.DOTALL)[1:]
    cells = [re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", one, re.DOTALL) for one in found]
    return [[" ".join(unescape(re.sub(r"<[^>]+>", " ", cell)).split()) for cell in row] for row in cells]


def test_the_page_tells_the_gaps_of_every_front_as_its_twin_does(client: TestClient) -> None:
    job = job_of(client, INSET, OTHER)
    text = client.get(f"/jobs/{job}/seasons", params={"species": "cherry", "wet": "24C/60"}).text
    assert "Seasons of Solid &lt;fronts&gt;" in text
    found = re.search(r'rel="alternate" type="application/json" href="([^"]+)"', text)
    assert found is not None
    twin = client.get(unescape(found[1])).json()
    gaps = [(front["drawer"], gap) for front in twin["fronts"] for gap in front["gaps"]]
    told = rows(text)
    assert len(told) == len(gaps) == 4
    for row, (_, gap) in zip(told, gaps, strict=True):
        cells = row[1:-1] if len(row) == 8 else row
        sizes = [gap[key] for key in ("set_today", "smallest", "largest", "as_cut")]
        assert cells[:-1] == [gap["edge"], *(format_length(size) for size in sizes)]
    assert [row[0] for row in told if row[0] in ("A", "Küche 1/2")] == ["A", "Küche 1/2"]


def test_without_a_question_the_first_species_and_the_usual_air_are_told_and_shown(
    client: TestClient,
) -> None:
    text = client.get(f"/jobs/{job_of(client, INSET)}/seasons").text
    assert "hard maple, flat-sawn, height across the grain" in text
    for key, value in (("workshop", "20C/45"), ("dry", "21C/25"), ("wet", "24C/65"), ("limit", "1 mm")):
        assert re.search(rf'name="{key}" value="{value}"', text), key


def test_the_year_of_the_drawer_that_is_chosen_is_drawn(client: TestClient) -> None:
    job = job_of(client, INSET, OTHER)
    text = client.get(f"/jobs/{job}/seasons", params={"species": "red oak"}).text
    assert text.count("Gaps of A over the year") == 1
    links = [unescape(one) for one in re.findall(r'<a href="(\?[^"]+)#year"', text)]
    told = parse_qs(urlsplit(links[1]).query)
    assert (told["drawer"], told["species"]) == (["Küche 1/2"], ["red oak"])
    other = client.get(f"/jobs/{job}/seasons{links[1]}").text
    assert other.count("Gaps of Küche 1/2 over the year") == 1
    assert 'aria-current="true">Küche 1/2</a>' in other
    assert "style=" not in other


def test_everything_that_does_not_read_is_told_at_its_field(client: TestClient) -> None:
    told = {"species": "iron", "cut": "round", "wet": "hot", "limit": "-1", "drawer": "B"}
    answer = client.get(f"/jobs/{job_of(client, INSET)}/seasons", params=told)
    assert answer.status_code == 422
    for key in ("species", "cut", "wet", "limit"):
        field = answer.text.partition(f'name="{key}"')[2].partition("</div>")[0]
        assert 'class="fault"' in field, key
    assert "is no drawer of this job with a front; try <code>A</code>" in answer.text
    assert "<table" not in answer.text
    assert 'value="hot"' in answer.text


def test_a_job_of_inches_is_told_in_both_and_reads_a_bare_limit_so(client: TestClient) -> None:
    sizes = {"width": "562 mm", "height": "168 mm", "depth": "530 mm"}
    job = job_of(client, {**INSET, "opening": sizes, "side": "16 mm"}, units="in")
    text = client.get(f"/jobs/{job}/seasons", params={"species": "ash", "limit": "0.0625"}).text
    assert "1.6 mm (1/16 in)" in text
    assert "a bare number is in" in text


def test_jobs_without_fronts_and_drawers_that_do_not_read_are_told_so(client: TestClient) -> None:
    bare = {**INSET, "front": {"style": "none"}}
    text = client.get(f"/jobs/{job_of(client, bare)}/seasons").text
    assert "No drawer of this job has a front that can be answered" in text
    half = {**INSET, "id": "half", "opening": {"width": "wide", "height": 168, "depth": 530}}
    text = client.get(f"/jobs/{job_of(client, INSET, half)}/seasons").text
    assert "cannot be answered yet: half." in text
    assert len(rows(text)) == 2
    assert client.get("/jobs/999/seasons").status_code == 404


def test_a_tight_front_is_marked_with_its_margin_and_what_to_do(client: TestClient) -> None:
    job = job_of(client, INSET)
    tight = rows(client.get(f"/jobs/{job}/seasons", params={"species": "red oak", "limit": "4"}).text)
    assert all(
        re.search(r"^with care −[\d.]+ mm$", row[-2 if at == 0 else -1]) for at, row in enumerate(tight)
    )
    assert re.fullmatch(r"plane [\d.]+ mm off its height; slots for its screws, [\d.]+ mm", tight[0][-1])
    page = client.get(f"/jobs/{job}/seasons", params={"species": "red oak"}).text
    assert page.count("washers under the heads") == 1
    still = {"species": "red oak", "wet": "20C/45", "dry": "20C/45"}
    assert "washers under the heads" not in client.get(f"/jobs/{job}/seasons", params=still).text
    easy = rows(client.get(f"/jobs/{job}/seasons", params={"species": "red oak", "limit": "0"}).text)
    assert easy[0][-1].startswith("slots for its screws, ")
    assert all("fits +" in " ".join(row) for row in easy)
    wet = {"species": "beech", "wet": "30C/95", "workshop": "20C/10", "now": "20C/10"}
    binding = rows(client.get(f"/jobs/{job}/seasons", params=wet).text)
    assert any("stops −" in " ".join(row) for row in binding)


def test_a_long_job_is_told_some_fronts_at_a_time(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(seasons_page, "AT_A_TIME", 2)
    job = job_of(client, *({**INSET, "id": f"D{at}"} for at in range(5)))
    text = client.get(f"/jobs/{job}/seasons?species=red+oak&from=3").text
    assert [row[0] for row in rows(text) if row[0].startswith("D")] == ["D2", "D3"]
    assert len(re.findall(r"from=\d+\" ?[^>]*>D\d to D\d", text)) == 3
    assert 'aria-current="page">D2 to D3</a>' in text


def test_the_pages_of_a_job_lead_to_its_seasons(client: TestClient) -> None:
    job = job_of(client, INSET)
    for end in ("", "/cabinets", "/bench", "/history", "/papers"):
        assert f'href="/jobs/{job}/seasons">Seasons</a>' in client.get(f"/jobs/{job}{end}").text
    assert 'aria-current="page">Seasons</a>' in client.get(f"/jobs/{job}/seasons").text


def test_the_page_shows_inches_where_they_are_asked_for_and_offers_both(client: TestClient) -> None:
    job = job_of(client, INSET)
    page = client.get(f"/jobs/{job}/seasons", params={"species": "cherry"}).text
    switch = re.search(r'href="([^"]+)">inch</a>', page)
    assert switch is not None
    inches = client.get(f"/jobs/{job}/seasons{unescape(switch[1])}").text
    assert parse_qs(urlsplit(unescape(switch[1])).query)["species"] == ["cherry"]
    cells = [cell for row in rows(inches) for cell in row]
    assert any(re.search(r"\d in$", cell) for cell in cells)
    assert not any("(" in cell for cell in cells)
    assert rows(inches) != rows(page)
    assert '<input type="hidden" name="units" value="in">' in inches
    assert 'aria-current="true">inch</a>' in inches
