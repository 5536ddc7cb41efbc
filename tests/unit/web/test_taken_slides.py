"""Slides that others are chosen instead of: told on a job's pages; kept, taken or held without a script."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Store, open_store
from drawerwright.web.app import create_app
from drawerwright.web.settings import Settings

MINE: dict[str, Any] = {
    "id": "mine-19",
    "invented": True,
    "capacity": "40 kg",
    "inside_width_deduction": 49,
    "design_side": 19,
    "length": [{"nominal": 500, "holes": [0, 32, 224, 256]}],
}
"""An invented family that carries less than the shipped ones, so that it is chosen before them."""

CAUTION = "Slides were added or changed since the slides of this job were chosen"
OPENING = {"width": 564, "height": 200, "depth": 545}


def drawer(name: str, **keys: Any) -> dict[str, Any]:
    return {"id": name, "opening": OPENING, "side": 16, "contents": "15 kg", **keys}


@pytest.fixture
def job(store: Store) -> str:
    """A job of three drawers alike and one of more load, saved before the family is; invented."""
    drawers = [drawer("A1"), drawer("A2"), drawer("A3"), drawer("B", contents="60 kg")]
    return store.create_job({"title": "Bank (invented)", "drawer": drawers}).id


def seen(html: str) -> str:
    found = re.search(r'name="seen" value="([0-9a-f]+)"', html)
    assert found
    return found[1]


def slides_of(client: TestClient, job: str) -> dict[str, str]:
    drawers = client.get(f"/api/v1/jobs/{job}/fit").json()["drawers"]
    return {one["id"]: f"{one['slide']['family']}/{one['slide']['nominal']:g}" for one in drawers}


def pages(job: str) -> list[str]:
    return [f"/jobs/{job}{end}" for end in ("", "/papers", "/bench", "/choice", "/drawers/A1", "/bench/A1")]


def test_a_job_whose_families_are_those_of_its_saves_tells_nothing(client: TestClient, job: str) -> None:
    assert [CAUTION in client.get(page).text for page in pages(job)] == [False] * 6


def test_a_new_family_that_is_chosen_instead_is_told_on_every_page_of_the_job(
    client: TestClient, store: Store, job: str
) -> None:
    before = slides_of(client, job)["A1"]
    store.save_family(MINE)
    assert slides_of(client, job)["A1"] == "mine-19/500"
    for page in pages(job):
        text = unescape(re.sub(r"<[^>]+>", "", client.get(page).text))
        assert CAUTION in text, page
        drawers = "A1 now takes" if page.endswith("A1") else "A1 to A3 now take"
        assert f"{drawers} mine-19/500, before {before}" in text, page
        assert "A1: box 554 × 179 × 500 mm, now 547 × 179 × 500 mm" in text, page
    assert CAUTION not in client.get(f"/jobs/{job}/drawers/B").text


def test_an_edit_of_something_else_does_not_hide_it(client: TestClient, store: Store, job: str) -> None:
    store.save_family(MINE)
    told = {"based_on": "1", "title": "Bank, upstairs (invented)", "r1.note": "painted", "do": "save"}
    assert client.post(f"/jobs/{job}", data=told).status_code == 200
    assert store.job(job).revision == 2
    assert CAUTION in client.get(f"/jobs/{job}").text


def test_the_slides_are_kept_as_they_were_as_one_revision(client: TestClient, store: Store, job: str) -> None:
    before = slides_of(client, job)
    store.save_family(MINE)
    told = {"do": "keep", "back": "papers"}
    answer = client.post(f"/jobs/{job}/slides", data=told, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, f"/jobs/{job}/papers")
    assert slides_of(client, job) == before
    values = store.job(job).values["drawer"]
    assert [one.get("slide") for one in values] == [*[before["A1"]] * 3, None]
    assert store.job(job).revision == 2
    assert CAUTION not in client.get(f"/jobs/{job}").text
    assert store.slides_since(job) is None
    client.post(f"/jobs/{job}", data={"based_on": "2", "do": "undo"})
    assert slides_of(client, job)["A1"] == "mine-19/500"


def test_the_new_choice_is_taken_as_it_was_seen(client: TestClient, store: Store, job: str) -> None:
    store.save_family(MINE)
    told = {"do": "take", "seen": seen(client.get(f"/jobs/{job}").text)}
    assert client.post(f"/jobs/{job}/slides", data=told).status_code == 200
    assert CAUTION not in client.get(f"/jobs/{job}").text
    assert "slides taken as they are chosen now" in client.get(f"/jobs/{job}/history").text
    assert slides_of(client, job)["A1"] == "mine-19/500"


def test_a_choice_that_was_not_seen_is_not_taken(client: TestClient, store: Store, job: str) -> None:
    first = store.save_family(MINE)
    told = {"do": "take", "seen": seen(client.get(f"/jobs/{job}").text)}
    store.save_family({**MINE, "inside_width_deduction": 45}, based_on=first.revision)
    refused = client.post(f"/jobs/{job}/slides", data=told)
    assert refused.status_code == 422
    assert "were changed again since they were looked at" in refused.text
    assert CAUTION in client.get(f"/jobs/{job}").text


def test_a_family_that_is_edited_says_which_figures_changed_and_that_none_told_brings_them_back(
    client: TestClient, store: Store
) -> None:
    first = store.save_family(MINE)
    job = store.create_job({"drawer": [drawer("A1", slide="mine-19/500")]}).id
    store.save_family({**MINE, "inside_width_deduction": 45, "title": "Mine"}, based_on=first.revision)
    html = client.get(f"/jobs/{job}").text
    text = " ".join(unescape(re.sub(r"<[^>]+>", "", html)).split())
    assert "A1: mine-19/500 stays, but its figures changed:" in text
    assert "before 49 mm, now 45 mm" in text
    assert "A1: box 547 × 179 × 500 mm, now 551 × 179 × 500 mm" in text
    assert "Keep the slides as they were" not in text
    assert f"/slides/{MINE['id']}/history" in html
    kept = client.post(f"/api/v1/jobs/{job}/slides/keep", json={}).json()
    assert (kept["revision"], kept["written"], kept["not_kept"]) == (1, [], ["A1"])


def test_what_only_says_how_a_slide_moves_or_is_called_is_no_other_choice(
    client: TestClient, store: Store
) -> None:
    first = store.save_family(MINE)
    job = store.create_job({"drawer": [drawer("A1", slide="mine-19/500")]}).id
    store.save_family({**MINE, "title": "Mine", "sag_limit": 9}, based_on=first.revision)
    assert CAUTION not in client.get(f"/jobs/{job}").text


def test_a_family_in_the_bin_leaves_a_drawer_without_its_slide_and_says_so(
    client: TestClient, store: Store
) -> None:
    store.save_family(MINE)
    job = store.create_job({"drawer": [drawer("A1", slide="mine-19/500"), drawer("A2")]}).id
    store.bin_family("mine-19")
    text = unescape(re.sub(r"<[^>]+>", "", client.get(f"/jobs/{job}").text))
    assert "A1 now takes no slide, before mine-19/500" in text
    kept = client.post(f"/api/v1/jobs/{job}/slides/keep", json={}).json()
    assert (kept["revision"], kept["written"], kept["not_kept"]) == (1, [], ["A1", "A2"])
    assert CAUTION in client.get(f"/jobs/{job}").text
    store.delete_family("mine-19", sure="mine-19")
    assert "mine-19 was deleted for good" in client.get(f"/jobs/{job}").text


def test_all_slides_of_a_job_are_held_at_any_time(client: TestClient, store: Store, job: str) -> None:
    before = slides_of(client, job)
    assert "4 drawers leave their slide open" in client.get(f"/jobs/{job}/choice").text
    client.post(f"/jobs/{job}/slides", data={"do": "hold", "back": "choice"})
    assert [one["slide"] for one in store.job(job).values["drawer"]] == list(before.values())
    assert store.job(job).revision == 2
    html = client.get(f"/jobs/{job}/choice").text
    assert "Every drawer&#39;s slide is told with its length" in html.replace("'", "&#39;")
    store.save_family(MINE)
    assert slides_of(client, job) == before
    assert CAUTION not in client.get(f"/jobs/{job}").text


def test_a_job_in_inches_is_held_by_lengths_in_mm(client: TestClient, store: Store) -> None:
    opening = {"width": "564 mm", "height": "200 mm", "depth": "545 mm"}
    told = {"units": "in", "drawer": [{"id": "A", "opening": opening, "side": "16 mm"}]}
    job = store.create_job(told).id
    before = slides_of(client, job)
    held = client.post(f"/api/v1/jobs/{job}/slides/hold", json={"by": "Ann"}).json()
    assert (held["written"], held["not_kept"]) == (["A"], [])
    assert store.job(job).values["drawer"][0]["slide"] == f"{before['A']} mm"
    assert slides_of(client, job) == before


def test_the_twin_tells_the_same_and_takes_the_choice(client: TestClient, store: Store, job: str) -> None:
    address = f"/api/v1/jobs/{job}/slides"
    assert client.get(address).json()["seen"] is None
    store.save_family(MINE)
    told = client.get(address).json()
    assert [one["drawer"] for one in told["drawers"]] == ["A1", "A2", "A3"]
    first = told["drawers"][0]
    assert (first["before"]["box"]["outside_width"], first["now"]["box"]["outside_width"]) == (554, 547)
    assert client.post(f"{address}/take", json={"seen": "0"}).status_code == 422
    taken = client.post(f"{address}/take", json={"seen": told["seen"], "by": "Ann"}).json()
    assert taken["revision"] == 2
    assert client.get(address).json()["seen"] is None
    assert store.revisions(job)[0].by == "Ann"


def test_what_is_none_of_the_three_is_refused(client: TestClient, job: str) -> None:
    assert client.post(f"/jobs/{job}/slides", data={"do": "burn"}).status_code == 422


def test_another_worker_tells_and_settles_the_same(tmp_path: Path) -> None:
    address = f"sqlite:///{tmp_path / 'shared.db'}"
    with open_store(address) as one, open_store(address) as other:
        apps = [create_app(Settings(cache=str(tmp_path / "cache")), store=store) for store in (one, other)]
        here, there = (TestClient(app, base_url="http://localhost") for app in apps)
        job = one.create_job({"drawer": [drawer("A1"), drawer("A2")]}).id
        assert CAUTION not in there.get(f"/jobs/{job}").text
        one.save_family(MINE)
        assert CAUTION in there.get(f"/jobs/{job}").text
        assert CAUTION in here.get(f"/jobs/{job}").text
        there.post(f"/jobs/{job}/slides", data={"do": "keep"})
        assert CAUTION not in here.get(f"/jobs/{job}").text
        assert slides_of(here, job) == slides_of(there, job)
        assert "mine-19/500" not in slides_of(here, job).values()


def test_a_long_schedule_does_not_compare_by_itself_and_leads_to_where_all_drawers_are(
    client: TestClient, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("drawerwright.web.taken.section.LOOKED_AT", 1)
    job = store.create_job({"drawer": [drawer("A1"), drawer("A2", contents="60 kg")]}).id
    store.save_family({**MINE, "capacity": "5 kg"})
    html = client.get(f"/jobs/{job}").text
    assert f"/jobs/{job}/choice#slides-since" in html
    assert "Take the new choice" not in html
    choice = client.get(f"/jobs/{job}/choice").text
    assert "No drawer of this job takes another slide" in choice
    client.post(f"/jobs/{job}/slides", data={"do": "take", "seen": seen(choice), "back": "choice"})
    assert CAUTION not in client.get(f"/jobs/{job}").text


def test_whoever_saves_a_family_is_told_which_jobs_it_touches(
    client: TestClient, store: Store, job: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = store.create_job({"title": "Other (invented)", "drawer": [drawer("B", contents="60 kg")]}).id
    form = {
        "id": "mine-19",
        "invented": "yes",
        "capacity": "40",
        "inside_width_deduction": "49",
        "design_side": "19",
        "length.0.nominal": "500",
        "length.0.holes": "0, 32, 224, 256",
    }
    saved = client.post("/slides/new", data=form)
    assert saved.url.path == "/slides/mine-19"
    text = " ".join(unescape(re.sub(r"<[^>]+>", "", saved.text)).split())
    assert "1 of 2 jobs now comes out otherwise" in text
    assert "Bank (invented): A1 to A3" in text
    assert f"/jobs/{other}/choice" not in saved.text
    assert "come out otherwise" not in client.get("/slides/mine-19").text
    monkeypatch.setattr("drawerwright.web.taken.touched.LOOKED_AT", 1)
    text = " ".join(unescape(re.sub(r"<[^>]+>", "", client.get("/slides/mine-19?saved=1").text)).split())
    assert "No drawer of the job that was looked at takes another slide" in text
    assert "1 more job was not looked at here" in text


def test_a_slide_of_the_new_family_told_for_one_drawer_hides_nothing_of_those_beside_it(
    client: TestClient, store: Store
) -> None:
    drawers = [drawer(name, cabinet="K", row=row) for row, name in enumerate(("A1", "A2", "A3"), 1)]
    job = store.create_job({"cabinet": [{"id": "K"}], "drawer": drawers}).id
    store.save_family(MINE)
    chosen = {**drawers[1], "slide": "mine-19/500"}
    store.save_drawer(job, "A2", chosen, based_on=1)
    told = client.get(f"/api/v1/jobs/{job}/slides").json()["drawers"]
    assert [one["drawer"] for one in told] == ["A1", "A3"]


def test_a_drawer_that_waits_for_another_of_its_cabinet_is_not_told_to_take_none(
    client: TestClient, store: Store
) -> None:
    store.save_family(MINE)
    drawers = [drawer("A1", cabinet="K"), drawer("A2", cabinet="K", slide="mine-19/500")]
    job = store.create_job({"cabinet": [{"id": "K"}], "drawer": drawers}).id
    store.bin_family("mine-19")
    told = client.get(f"/api/v1/jobs/{job}/slides").json()["drawers"]
    assert [(one["drawer"], one["now"]) for one in told] == [("A2", None)]


def test_slides_are_not_held_unseen_while_others_than_those_taken_are_chosen(
    client: TestClient, store: Store, job: str
) -> None:
    store.save_family(MINE)
    assert "Before they are held" in client.get(f"/jobs/{job}/choice").text
    refused = client.post(f"/api/v1/jobs/{job}/slides/hold", json={})
    assert refused.status_code == 422
    assert "would be held unseen" in refused.json()["errors"][0]["says"]
    assert store.job(job).revision == 1


def test_a_slide_that_was_chosen_since_is_told_when_its_own_figures_change(
    client: TestClient, store: Store
) -> None:
    job = store.create_job({"drawer": [drawer("A1", contents="60 kg"), drawer("B")]}).id
    first = store.save_family({**MINE, "capacity": "65 kg"})
    store.save_drawer(job, "B", drawer("B", slide="mine-19/500"), based_on=1)
    address = f"/api/v1/jobs/{job}/slides"
    assert "B" not in [one["drawer"] for one in client.get(address).json()["drawers"]]
    changed = {**MINE, "capacity": "65 kg", "inside_width_deduction": 45}
    store.save_family(changed, based_on=first.revision)
    told = {one["drawer"]: one for one in client.get(address).json()["drawers"]}
    assert [one["figure"] for one in told["B"]["figures"]] == ["Inside-width deduction"]
