"""A name told on a device: it goes with every save from there, and is believed no further than that."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Any
from urllib.parse import quote

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.store import Store
from drawerwright.store.shape import settle_text
from drawerwright.web.device_name import COOKIE, LONGEST, clean_name

MARA, JON = "Mara (invented)", "Jon (invented)"
PEOPLE = {"accept": "text/html"}


@pytest.fixture
def mara(app: FastAPI, client: TestClient) -> TestClient:
    """A device on which a name was told."""
    return named(app, MARA)


def named(app: FastAPI, name: str) -> TestClient:
    device = TestClient(app, base_url="http://localhost", raise_server_exceptions=False)
    assert device.post("/name", data={"name": name}, follow_redirects=False).status_code == 303
    return device


def measured(name: str = "A", **told: Any) -> dict[str, Any]:
    opening = {"width": 562, "height": 168, "depth": 530}
    return {"id": name, "opening": opening, "side": 16, "front": {"style": "overlay"}, **told}


def test_a_name_is_kept_by_the_device_out_of_reach_of_scripts_and_other_sites(client: TestClient) -> None:
    told = {"name": f"  {MARA}\n", "back": "/jobs/7/history"}
    reply = client.post("/name", data=told, follow_redirects=False)
    assert (reply.status_code, reply.headers["location"]) == (303, "/jobs/7/history")
    cookie = reply.headers["set-cookie"]
    assert cookie.startswith(f"{COOKIE}={quote(MARA, safe='')};")
    assert "HttpOnly" in cookie
    assert "SameSite=lax" in cookie
    assert "Path=/" in cookie
    assert "Secure" not in cookie
    assert f'value="{MARA}"' in client.get("/jobs").text
    forgotten = client.post("/name", data={"name": " "}, follow_redirects=False)
    assert forgotten.headers["location"] == "/jobs"
    assert MARA not in client.get("/jobs").text


@pytest.mark.parametrize(
    "back",
    ["//elsewhere.example", "https://elsewhere.example", "/\\elsewhere.example", "/a\r\nb", "", "jobs"],
)
def test_a_told_name_leads_back_to_no_other_server(client: TestClient, back: str) -> None:
    reply = client.post("/name", data={"name": MARA, "back": back}, follow_redirects=False)
    assert reply.headers["location"] == "/jobs"


def test_another_site_tells_no_name_here(client: TestClient) -> None:
    reply = client.post("/name", data={"name": "x"}, headers={"sec-fetch-site": "cross-site"})
    assert reply.status_code == 403
    assert "set-cookie" not in reply.headers


@given(st.text(max_size=200))
def test_whatever_is_told_is_one_short_line_that_the_store_takes(text: str) -> None:
    name = clean_name(text)
    assert len(name) <= LONGEST
    assert name == name.strip()
    assert "\n" not in name
    assert "\u202e" not in name
    assert settle_text(name, "by", needed=False) == name
    assert clean_name(name) == name


FAMILY = "\U0001f469\u200d\U0001f469\u200d\U0001f467"
PERSIAN = "\u0645\u06cc\u200c\u062e\u0648\u0627\u0647\u0645"
HINDI = "\u0915\u094d\u200d\u0937"
MECHANIC = "\U0001f469\U0001f3fd\u200d\U0001f527"
HEART = "\u2764\ufe0f\u200d\U0001f525"


@pytest.mark.parametrize("name", [FAMILY, PERSIAN, HINDI, MECHANIC, HEART, f"Mara {FAMILY}"])
def test_joiners_inside_words_and_emoji_are_kept(client: TestClient, name: str) -> None:
    assert clean_name(name) == name
    client.post("/name", data={"name": name}, follow_redirects=False)
    assert f'value="{name}"' in client.get("/jobs").text


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("\u200dMara\u200d", "Mara"),
        ("Mara \u200d M", "Mara M"),
        ("Ma\u200c\u200dra", "Mara"),
        ("1\u200d2", "12"),
        ("\u200c\u200d", ""),
        ("a\u202e\u2066\u200bb", "ab"),
        ("x" * (LONGEST - 1) + "\u200dy", "x" * (LONGEST - 1)),
    ],
)
def test_joiners_that_join_nothing_are_left_out(told: str, kept: str) -> None:
    assert clean_name(told) == kept
    assert clean_name(kept) == kept


@given(st.text("ab1 \u200c\u200d\u0301\U0001f469\u202e", max_size=LONGEST * 2))
def test_a_name_with_joiners_is_cleaned_once_and_for_all(told: str) -> None:
    name = clean_name(told)
    assert clean_name(name) == name
    assert len(name) <= LONGEST
    assert not name.startswith(("\u200c", "\u200d"))
    assert not name.endswith(("\u200c", "\u200d"))


@pytest.mark.parametrize("cookie", ["%", "%ff%fe", "a" * 5_000, "%00%0a", "<b>x</b>"])
def test_a_cookie_that_was_tampered_with_breaks_nothing(client: TestClient, cookie: str) -> None:
    client.cookies.set(COOKIE, cookie)
    html = client.get("/jobs").text
    assert client.post("/jobs", data={"title": "x"}, follow_redirects=False).status_code == 303
    assert "<b>x" not in html


def test_every_save_of_a_page_carries_the_name(mara: TestClient, store: Store) -> None:
    reply = mara.post("/jobs", data={"title": "Boathouse (invented)"}, follow_redirects=False)
    job = reply.headers["location"].rpartition("/")[2]

    def go(address: str, **told: Any) -> None:
        sent = {"based_on": str(store.job(job).revision), **told}
        assert mara.post(f"/jobs/{job}{address}", data=sent, follow_redirects=False).status_code == 303

    typed = {
        "r0.opening.width": "562",
        "r0.opening.height": "168",
        "r0.opening.depth": "530",
        "r0.side": "16",
    }
    go("", **typed, do="save")
    go("", do="undo")
    go("", do="redo")
    go("/drawers/D1", height="170")
    go("/cabinets", cabinet="K1", **{"key.pitch": "32"})
    go("/history", revision="1")
    edits = [{"do": "share", "key": "title", "text": "Boats"}]
    based_on = store.job(job).revision
    assert mara.post(f"/jobs/{job}/edits", json={"based_on": based_on, "edits": edits}).status_code == 200
    saves = store.revisions(job)
    assert len(saves) == 8
    assert {one.by for one in saves} == {MARA}
    mara.post("/jobs/demo", follow_redirects=False)
    assert store.jobs()[0].by == MARA


def test_a_settled_conflict_and_a_jobs_choice_carry_the_name(mara: TestClient, store: Store) -> None:
    job = store.create_job({"drawer": [measured()]}).id
    store.save_job(job, {"drawer": [measured(side=15)]}, based_on=1, by=JON)
    told = {"based_on": "1", "do": "save", "r0.side": "12"}
    address = mara.post(f"/jobs/{job}", data=told, follow_redirects=False).headers["location"]
    html = mara.get(address).text
    assert f"While you worked on it, {JON} saved the same" in html
    assert f"Theirs ({JON})" in html
    mara.post(address, data={"based_on": "2"}, follow_redirects=False)
    saves = {one.number: one for one in store.revisions(job)}
    assert (saves[2].by, saves[3].by, saves[4].by) == (JON, MARA, MARA)
    assert saves[3].how == "kept"


def test_who_clashes_with_a_save_under_the_own_name_is_told_so(mara: TestClient, store: Store) -> None:
    job = store.create_job({"drawer": [measured()]}).id
    for side in ("15", "12"):
        told = {"based_on": "1", "do": "save", "r0.side": side}
        reply = mara.post(f"/jobs/{job}", data=told, follow_redirects=False)
    html = mara.get(reply.headers["location"]).text
    assert f"somebody with the name that you told here, {MARA}, saved the same" in html


def test_the_bench_and_slides_carry_the_name(mara: TestClient, store: Store) -> None:
    job = store.create_job({"drawer": [measured()]}).id
    page = mara.get(f"/jobs/{job}/bench/A").text
    step = re.search(r'name="tick" value="([^"]+)"', page)
    assert step is not None
    mara.post(f"/jobs/{job}/bench/A", data={"tick": step[1]}, follow_redirects=False)
    mara.post(f"/jobs/{job}/bench/A/gaps", data={"left_top": "3", "token": "t"}, follow_redirects=False)
    tick = {"drawer": "A", "step": "later", "done": True, "at": datetime.now(UTC).isoformat()}
    assert mara.post(f"/api/v1/jobs/{job}/ticks", json={"ticks": [tick]}).status_code == 200
    assert [one.by for one in store.ticks(job)] == [MARA, MARA]
    assert [one.by for one in store.gaps(job)] == [MARA]


def test_a_program_tells_its_own_name_and_the_devices_is_not_put_over_it(
    mara: TestClient, store: Store
) -> None:
    job = store.create_job({"drawer": [measured()]}).id
    told = {"values": {"drawer": [measured(side=15)]}, "based_on": 1, "by": JON}
    assert mara.put(f"/api/v1/jobs/{job}", json=told).json()["by"] == JON
    tick = {"drawer": "A", "step": "bore", "done": True, "at": datetime.now(UTC).isoformat()}
    mara.post(f"/api/v1/jobs/{job}/ticks", json={"ticks": [tick], "by": JON})
    assert store.ticks(job)[0].by == JON


def test_the_history_says_who_saved_and_shows_a_name_as_text(app: FastAPI, store: Store) -> None:
    device = named(app, "<i>Mara</i>")
    job = store.create_job({"drawer": [measured()]}).id
    device.post(f"/jobs/{job}", data={"based_on": "1", "do": "save", "r0.side": "15"}, follow_redirects=False)
    html = device.get(f"/jobs/{job}/history", headers=PEOPLE).text
    assert "by &lt;i&gt;Mara&lt;/i&gt;" in html
    assert "<i>Mara" not in html
    assert "no proof of who it was" in html
    assert f'name="back" value="/jobs/{job}/history"' in html
