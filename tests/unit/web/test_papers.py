"""The page of a job's papers, asked as a browser without script does."""

from __future__ import annotations

import re
import time
from html import unescape
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.pack.write import SECTIONS, USUAL
from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet
from drawerwright.web.paper_words import WORDS, section_of, size_words

PEOPLE = {"accept": "text/html"}
PATIENCE_SECONDS = 60


@pytest.fixture
def job(store: Store) -> str:
    """Two drawers of the demo job."""
    return store.create_job(demo_cabinet()).id


def built(client: TestClient, address: str) -> str:
    """The page once its pack is ready; looked at again as the page itself says."""
    end = time.monotonic() + PATIENCE_SECONDS
    while True:
        html = client.get(address, headers=PEOPLE).text
        again = re.search(r'http-equiv="refresh" content="2;url=([^"]+)"', html)
        if again is None:
            return html
        assert time.monotonic() < end, "the pack was not built in time"
        address = again[1].replace("&amp;", "&")


def test_every_section_is_named_with_what_it_is_for(client: TestClient, job: str) -> None:
    html = client.get(f"/jobs/{job}/papers").text
    for section in SECTIONS:
        assert (f'name="only" value="{section}" checked' in html) == (section in USUAL)
        assert f'name="only" value="{section}"' in html
        assert WORDS[section].says.partition(":")[0] in html
    assert set(WORDS) == set(SECTIONS)


def test_without_a_script_the_page_looks_again_until_the_pack_is_there(client: TestClient, job: str) -> None:
    html = built(client, f"/jobs/{job}/papers?only=lists&only=labels&paper=letter&build=1")
    pack = re.search(r'href="([^"]+)" download', html)
    assert pack is not None
    content = client.get(pack[1].replace("&amp;", "&"))
    assert content.headers["content-type"] == "application/zip"
    files = re.findall(r'href="(/api/v1/jobs/\d+/pack/files/[^"]+)"', html)
    names = [file.partition("?")[0].rpartition("/")[2] for file in files]
    assert {"cut-list.xlsx", "hardware-list.csv", "labels.pdf", "manifest.json"} <= set(names)
    for file in files:
        assert client.get(file.replace("&amp;", "&")).status_code == 200, file


def test_all_sections_marked_are_the_whole_pack_with_the_job_in_it(client: TestClient, job: str) -> None:
    query = "&".join(f"only={section}" for section in USUAL)
    html = client.get(f"/jobs/{job}/papers?{query}").text
    address = re.search(r'type="application/json" href="([^"]+)"', html)
    assert address is not None
    assert "only=" not in address[1]


def test_what_drawers_carry_is_made_where_it_is_marked(client: TestClient, job: str) -> None:
    html = built(client, f"/jobs/{job}/papers?only=carry&build=1")
    assert re.search(r'href="/api/v1/jobs/\d+/pack/files/carrying\.pdf', html)
    assert WORDS["carry"].title in html


def test_a_job_that_does_not_read_tells_its_faults_and_builds_nothing(
    client: TestClient, store: Store
) -> None:
    values = demo_cabinet()
    values["drawer"][0]["opening"]["width"] = "56 furlongs"
    job = store.create_job(values).id
    html = client.get(f"/jobs/{job}/papers").text
    assert "the job does not read" in html
    assert "56 furlongs" in html
    assert 'name="build" value="1" disabled' in html
    assert client.get(f"/jobs/{job}/papers?build=1", headers=PEOPLE).status_code == 422


def test_a_job_without_drawers_says_so(client: TestClient, store: Store) -> None:
    job = store.create_job({"title": "Nothing yet"}).id
    assert "there is nothing to put on paper" in client.get(f"/jobs/{job}/papers").text


def test_drawers_that_do_not_fit_are_named_with_what_would_help(client: TestClient, store: Store) -> None:
    values: dict[str, Any] = demo_cabinet()
    values["drawer"][1]["opening"]["depth"] = 200
    job = store.create_job(values).id
    html = client.get(f"/jobs/{job}/papers").text
    assert "1 drawer does not fit" in html
    name = values["drawer"][1]["id"]
    assert re.search(rf'<a href="/jobs/{job}/drawers/{name}">{name}</a> \+', html)


def test_the_drawings_of_one_drawer_stand_on_the_page(client: TestClient, job: str) -> None:
    html = client.get(f"/jobs/{job}/papers?drawer=K1-2").text
    assert "Box side left" in html
    drawings = html[html.index('id="drawings"') :]
    assert drawings.count("<svg") >= 7
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids))


def test_slides_chosen_for_the_whole_job_go_into_the_address_of_the_pack(
    client: TestClient, job: str
) -> None:
    html = client.get(f"/jobs/{job}/papers?aim=cheapest").text
    assert "cheapest=true" in html
    wrong = client.get(f"/jobs/{job}/papers?aim=dearest", headers=PEOPLE)
    assert wrong.status_code == 422
    assert "dearest" in wrong.text


def test_a_job_that_is_not_there_is_a_404(client: TestClient) -> None:
    assert client.get("/jobs/99/papers", headers=PEOPLE).status_code == 404


def test_files_are_sorted_to_their_sections_and_sizes_are_rounded() -> None:
    assert section_of("dxf/K1-1-front.dxf") == "dxf"
    assert section_of("sheets-02.pdf") == "sheets"
    assert section_of("fit.json") is None
    assert [size_words(size) for size in (999, 12_400, 3_140_000)] == ["999 bytes", "12 kB", "3.1 MB"]


def test_a_job_that_is_half_measured_goes_on_paper_without_the_drawers_that_do_not_read(
    client: TestClient, store: Store
) -> None:
    opening = {"width": 562, "height": 168, "depth": 530}
    drawers = [
        {"id": "A", "opening": opening, "side": 16},
        {"id": "B & C", "cabinet": "K", "opening": {**opening, "width": "wide"}, "side": 16},
        {"opening": {"width": 500}},
    ]
    cabinets = [{"id": "K", "pitch": "narrow"}]
    job = store.create_job({"title": "Half", "cabinet": cabinets, "drawer": drawers}).id
    html = unescape(client.get(f"/jobs/{job}/papers").text)
    assert "Go on without B & C, 3" in html
    (query,) = re.findall(rf'href="/jobs/{job}/papers\?(without=[^"]*)"', html)
    files = re.findall(rf'href="(/api/v1/jobs/{job}/file\.\w+\?[^"]*)"', html)
    assert len(files) == 3
    for address in files:
        assert client.get(address).status_code == 200
    kept = client.get(files[0]).text
    assert 'id = "A"' in kept
    assert "B & C" not in kept
    html = unescape(client.get(f"/jobs/{job}/papers?{query}").text)
    assert "Left out of these papers:" in html
    assert 'name="without" value="B & C"' in html
    assert "does not read" not in html
    listed = re.findall(r'<a href="([^"]*cut-list\.csv[^"]*)"', html)[0]
    answer = client.get(listed)
    assert answer.status_code == 200
    assert "A" in answer.text
    for address in (f"/api/v1/jobs/{job}/file.toml", f"/api/v1/jobs/{job}/pack/files"):
        refused = client.get(address, params={"without": "D"})
        assert refused.status_code == 422
        assert "is not a drawer of this job" in refused.text
