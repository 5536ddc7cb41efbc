"""The bench's pages and their order, asked as a browser without script does."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Any
from urllib.parse import quote

import pytest
from fastapi.testclient import TestClient

from drawerwright.catalogue import load_families
from drawerwright.catalogue.shipped import shipped_values
from drawerwright.fit import fit_job
from drawerwright.pack.cautions import cautions
from drawerwright.pack.mounting_sheet import rows_of, steps_of
from drawerwright.pack.shown import Shown
from drawerwright.store import Store
from drawerwright.web.bench.order import bench_plan
from drawerwright.web.bench.steps import bench_steps, lining_up_step, step_key
from drawerwright.web.demo_job import demo_values
from drawerwright.web.families import shipped_families
from drawerwright.web.fitting import answer_values, read_values

PEOPLE = {"accept": "text/html"}


def drawer(name: str, **keys: Any) -> dict[str, Any]:
    """An invented drawer that fits; keys override."""
    opening = {"width": 562, "height": 168, "depth": 530}
    return {"id": name, "opening": opening, "side": 16, **keys}


def house_16() -> dict[str, Any]:
    """The values of an invented family that comes with the program."""
    return shipped_values("families/house-16.toml")


@pytest.fixture
def job(store: Store) -> str:
    """Two cabinets whose rows are told from the top, three alike, one that does not fit; all invented."""
    column = {"width": 562, "height": 168, "depth": 530}
    drawers = [
        drawer("A-2", cabinet="A", row=2, opening={**column, "floor": 168}),
        drawer("loose", quantity=3),
        drawer("B-1", cabinet="B", row=1),
        drawer("A-1", cabinet="A", row=1),
        drawer("short", opening={"width": 562, "height": 168, "depth": 100}),
        drawer("odd", side="sixteen"),
    ]
    cabinets = [{"id": "A"}, {"id": "B"}]
    return store.create_job({"title": "Bench", "cabinet": cabinets, "drawer": drawers}).id


def order_on(html: str) -> list[str]:
    return re.findall(r'<a class="[^"]*" href="/jobs/\d+/bench/([^"]+)">', html)


def test_drawers_stand_by_cabinet_lowest_first_and_each_of_several_alike_for_itself(
    client: TestClient, job: str
) -> None:
    html = client.get(f"/jobs/{job}/bench").text
    listed = order_on(html[html.rindex("</header>") :])
    assert listed == ["A-1", "A-2", "loose", "loose?piece=2", "loose?piece=3", "B-1"]
    assert "Begin with A-1" in html
    assert "0 of 6 drawers done" in html


def test_drawers_that_cannot_be_hung_are_told_with_the_reason(client: TestClient, job: str) -> None:
    html = " ".join(client.get(f"/jobs/{job}/bench").text.split())
    assert re.search(r">short</a> does not fit", html)
    assert re.search(r">odd</a> does not read yet", html)
    assert client.get(f"/jobs/{job}/bench/short", headers=PEOPLE).status_code == 404


def test_a_tick_without_a_script_is_kept_and_taken_away(client: TestClient, store: Store, job: str) -> None:
    address = f"/jobs/{job}/bench/A-1"
    answer = client.post(address, data={"tick": "slots-first:1"}, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{address}#slots-first")
    html = client.get(address).text
    assert re.search(r'value="slots-first:0" aria-pressed="true"', html)
    assert "1 of 10" in html
    client.post(address, data={"tick": "slots-first:0"})
    assert [(one.step, one.done) for one in store.ticks(job)] == [("slots-first", False)]


def test_ticks_of_several_alike_are_told_apart(client: TestClient, store: Store, job: str) -> None:
    client.post(f"/jobs/{job}/bench/loose?piece=2", data={"tick": "load:1"})
    assert [(one.drawer, one.step) for one in store.ticks(job)] == [("loose", "load 2")]
    assert "0 of 10" in client.get(f"/jobs/{job}/bench/loose").text
    assert "1 of 10" in client.get(f"/jobs/{job}/bench/loose?piece=2").text
    assert client.get(f"/jobs/{job}/bench/loose?piece=4", headers=PEOPLE).status_code == 404


def test_a_drawer_is_done_when_all_its_steps_are_and_the_bench_goes_on_with_the_next(
    client: TestClient, store: Store, job: str
) -> None:
    html = client.get(f"/jobs/{job}/bench/A-1").text
    for step in re.findall(r'data-step="([^"]+)"', html):
        store.set_tick(job, "A-1", step, True, at=datetime.now(UTC))
    html = client.get(f"/jobs/{job}/bench").text
    assert "1 of 6 drawers done" in html
    assert "Go on with A-2" in html
    assert "A-1" not in re.findall(r'data-keep="([^"]*)"', html)[0]


def test_what_is_no_tick_is_refused(client: TestClient, job: str) -> None:
    for told in ("", "slots-first", "slots-first:2"):
        assert client.post(f"/jobs/{job}/bench/A-1", data={"tick": told}).status_code == 422


def test_names_with_signs_of_addresses_have_pages_of_their_own(client: TestClient, store: Store) -> None:
    name = "Küche / links? #1 & 100 %"
    job = store.create_job({"drawer": [drawer(name)]}).id
    html = client.get(f"/jobs/{job}/bench").text
    link = f"/jobs/{job}/bench/{quote(name, safe='')}"
    assert f'href="{link}"' in html
    assert "<h1>Küche / links? #1 &amp; 100 %</h1>" in client.get(link).text
    assert client.post(link, data={"tick": "load:1"}, follow_redirects=False).status_code == 303
    assert store.ticks(job)[0].drawer == name


def test_every_figure_of_the_mounting_sheet_stands_at_some_step_of_each_drawer_of_the_demo() -> None:
    fitted = fit_job(read_values(demo_values()), load_families())
    headings, rows = rows_of(fitted.drawers, Shown())
    told = {row["id"]: row for row in rows}
    for one in fitted.drawers:
        if one.mounting is None:
            assert bench_steps(one, Shown()) == ()
            continue
        steps = bench_steps(one, Shown())
        figures = {value for step in steps for _, value in step.figures}
        cells = [cell for cell in told[one.id.replace("\u200b", "")]["cells"] if cell]
        assert [cell for cell in cells if cell not in figures] == [], one.id
        assert len(headings) >= len(cells)


def test_steps_of_one_drawer_speak_of_no_table_and_tell_their_spacers_or_that_there_are_none() -> None:
    fitted = fit_job(read_values(demo_values()), load_families())
    hung = [one for one in fitted.drawers if one.slide is not None]
    seen = set()
    for one in hung:
        steps = {step.key: step for step in bench_steps(one, Shown())}
        assert [step.says for step in steps.values() if "table" in step.says or "{" in step.says] == []
        spacers = one.slide is not None and bool(one.slide.side_spacers or one.slide.subfront_spacers)
        if one.slide is not None and one.slide.family.carriage == "side-mounted":
            assert [
                step.says for step in steps.values() if "racket" in step.says or "hook" in step.says
            ] == []
            continue
        hang = steps["hang-the-drawer"]
        assert ("with the spacers told here" in hang.says) == spacers
        assert ("without spacers" in hang.says) != spacers
        if spacers:
            assert any("spacers" in name.lower() for name, _ in hang.figures)
        seen.add(spacers)
    assert seen == {True, False}


def test_every_drawer_that_is_hung_is_lined_up_at_one_step_of_its_own() -> None:
    job = {
        "title": "Bench (invented)",
        "drawer": [
            {"id": slide, "slide": slide, "side": 16, "opening": {"width": 562, "height": 168, "depth": 530}}
            for slide in ("house-16", "side-mounted")
        ],
    }
    found = {one.id: one for one in fit_job(read_values(job), load_families()).drawers}
    named = {name: lining_up_step(one) for name, one in found.items()}
    assert named == {"house-16": "adjust", "side-mounted": "adjust-in-the-slots"}
    for name, one in found.items():
        assert [step.key for step in bench_steps(one, Shown()) if step.lines_up] == [named[name]]
    told = {step.key: dict(step.figures) for step in bench_steps(found["side-mounted"], Shown())}
    assert told["members-onto-the-box-sides"] == {"On the box side, mm": "25 up"}


def test_steps_are_those_of_the_mounting_sheet_and_every_caution_for_the_wall_is_said() -> None:
    fitted = fit_job(read_values(demo_values()), load_families())
    all_steps = {step.key: step for one in fitted.drawers for step in bench_steps(one, Shown())}
    assert set(all_steps) == {step_key(step["title"]) for step in steps_of(fitted)}
    said = {title for step in all_steps.values() for title, _ in step.cautions}
    assert {one.title for one in cautions() if one.wall} <= said


def test_the_demo_job_is_planned_whole() -> None:
    found = answer_values(demo_values(), shipped_families())
    plan = bench_plan(found.drawers, ())
    hung = sum(one.fitted.drawer.quantity for one in found.drawers if one.fitted and one.fitted.slide)
    assert len(plan.drawers) == hung
    assert len(plan.waiting) == sum(one.fitted is None or one.fitted.slide is None for one in found.drawers)
    assert plan.next is plan.drawers[0]


def test_the_worker_may_see_no_page_but_those_of_jobs(client: TestClient) -> None:
    answer = client.get("/bench-worker.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert answer.headers["cache-control"] == "no-cache"


def test_a_missing_drawer_is_named_as_it_was_asked_for(client: TestClient, job: str) -> None:
    answer = client.get(f"/jobs/{job}/bench/Küche A", headers=PEOPLE)
    assert answer.status_code == 404
    assert "no drawer Küche A is hung in this job" in answer.text


def test_a_step_that_the_drawer_has_not_is_not_ticked(client: TestClient, store: Store, job: str) -> None:
    answer = client.post(f"/jobs/{job}/bench/A-1", data={"tick": "zzz:1"}, headers=PEOPLE)
    assert answer.status_code == 422
    assert "is not a step of this drawer" in answer.text
    assert client.post(f"/jobs/{job}/bench/short", data={"tick": "load:1"}, headers=PEOPLE).status_code == 404
    assert store.ticks(job) == []


def test_steps_whose_drawer_was_changed_since_they_were_ticked_are_open_again(
    client: TestClient, store: Store
) -> None:
    job = store.create_job({"drawer": [drawer("A"), drawer("B")]})
    for name in ("A", "B"):
        client.post(f"/jobs/{job.id}/bench/{name}", data={"tick": "slots-first:1"})
    shallow = {"width": 562, "height": 168, "depth": 430}
    noted = store.save_drawer(job.id, "B", drawer("B", note="painted"), based_on=1)
    later = store.save_drawer(job.id, "A", drawer("A", opening=shallow), based_on=noted.revision)
    html = client.get(f"/jobs/{job.id}/bench/A").text
    assert "Ticked before this drawer was changed" in html
    assert "0 of 10" in html
    assert "1 of 10" in client.get(f"/jobs/{job.id}/bench/B").text
    assert "1 changed since ticked" in client.get(f"/jobs/{job.id}/bench").text
    client.post(f"/jobs/{job.id}/bench/A", data={"tick": "slots-first:1"})
    assert "Ticked before" not in client.get(f"/jobs/{job.id}/bench/A").text
    store.undo(job.id, based_on=later.revision)
    assert "Ticked before" in client.get(f"/jobs/{job.id}/bench/A").text


@pytest.mark.parametrize("whole", [True, False])
def test_ticks_and_gaps_stay_with_the_drawer_that_is_renamed(
    client: TestClient, store: Store, whole: bool
) -> None:
    front = {"style": "overlay"}
    job = store.create_job({"drawer": [drawer("A", front=front), drawer("B", front=front)]})
    client.post(f"/jobs/{job.id}/bench/A", data={"tick": "load:1"})
    client.post(f"/jobs/{job.id}/bench/A/gaps", data={"left_top": "3"})
    first, second = drawer("A9", front=front), drawer("B", front=front)
    if whole:
        store.save_job(job.id, {"drawer": [first, second]}, based_on=1)
        store.save_job(job.id, {"drawer": [first, {**second, "id": "A"}]}, based_on=2)
    else:
        store.save_drawer(job.id, "A", first, based_on=1)
        store.save_drawer(job.id, "B", {**second, "id": "A"}, based_on=2)
    assert "1 of 11" in client.get(f"/jobs/{job.id}/bench/A9").text
    assert "0 of 11" in client.get(f"/jobs/{job.id}/bench/A").text
    assert "1 measurement of this front" in " ".join(client.get(f"/jobs/{job.id}/bench/A9/gaps").text.split())
    assert 'value="3"' not in client.get(f"/jobs/{job.id}/bench/A/gaps").text
    assert [one["drawer"] for one in client.get(f"/api/v1/jobs/{job.id}/align").json()["fronts"]] == ["A9"]


def test_steps_whose_slides_data_changed_since_they_were_ticked_say_so(
    client: TestClient, store: Store
) -> None:
    own = {**house_16(), "id": "own-16"}
    store.save_family(own)
    job = store.create_job({"drawer": [drawer("A", slide="own-16"), drawer("B", slide="house-16")]}).id
    for name in ("A", "B"):
        for step in ("slots-first", "hang-the-drawer"):
            client.post(f"/jobs/{job}/bench/{name}", data={"tick": f"{step}:1"})
    assert "2 of" in client.get(f"/jobs/{job}/bench/A").text
    store.save_family({**own, "title": "Own (invented)"}, based_on=1)
    assert "changed since this was ticked" not in client.get(f"/jobs/{job}/bench/A").text
    store.save_family({**own, "title": "Own (invented)", "setback": 41}, based_on=2)
    html = client.get(f"/jobs/{job}/bench/A").text
    assert html.count("The data of the slide changed since this was ticked:") == 1
    assert "Ticked before this drawer was changed" not in html
    assert "1 changed since ticked" in client.get(f"/jobs/{job}/bench").text
    assert "changed since this was ticked" not in client.get(f"/jobs/{job}/bench/B").text
    client.post(f"/jobs/{job}/bench/A", data={"tick": "slots-first:1"})
    assert "changed since this was ticked" not in client.get(f"/jobs/{job}/bench/A").text
    store.undo_family("own-16", based_on=3)
    assert "changed since this was ticked" in client.get(f"/jobs/{job}/bench/A").text


def test_a_family_put_in_the_bin_opens_what_was_ticked_with_it(client: TestClient, store: Store) -> None:
    store.save_family({**house_16(), "setback": 41})
    job = store.create_job({"drawer": [drawer("A", slide="house-16")]}).id
    client.post(f"/jobs/{job}/bench/A", data={"tick": "slots-first:1"})
    assert "changed since" not in client.get(f"/jobs/{job}/bench/A").text
    store.bin_family("house-16")
    assert "The data of the slide changed since this was ticked" in client.get(f"/jobs/{job}/bench/A").text
