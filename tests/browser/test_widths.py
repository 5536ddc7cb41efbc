"""Pages of a job on a phone and on a wide screen: what stands where, measured in the browser."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

JOB = {
    "title": "Invented",
    "defaults": {"side": 16, "front": {"style": "overlay"}},
    "drawer": [
        {"id": f"D{n}", "opening": {"width": 562, "height": 168, "depth": 530 - n}, "contents": "20 kg"}
        for n in range(3)
    ],
}


def job_of(server: Any) -> str:
    return f"{server.url}/jobs/{server.store.create_job(JOB).id}"


def test_on_a_phone_a_row_is_low_shows_what_is_written_and_opens_while_it_is_written_in(
    server: Any, new_page: Callable[..., Any]
) -> None:
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto(job_of(server))
    row = page.locator("tbody.drawer").first
    note = row.locator('[data-key="note"]')
    assert row.bounding_box()["height"] < 740 * 0.36
    assert not note.is_visible()
    assert row.locator('[data-key="opening.depth"]').is_visible()
    before = row.locator('[data-key="opening.width"]').bounding_box()
    row.locator('[data-key="opening.width"] input').focus()
    assert note.is_visible()
    assert row.locator('[data-key="opening.width"]').bounding_box() == before


def test_on_a_phone_the_buttons_stand_at_the_foot_and_none_is_cut(
    server: Any, new_page: Callable[..., Any]
) -> None:
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto(job_of(server))
    tools = page.locator(".tools")
    box = tools.bounding_box()
    assert box["y"] + box["height"] == pytest.approx(740, abs=1)
    for button in tools.locator("button").all():
        one = button.bounding_box()
        if one and one["x"] < box["x"] + box["width"] - 1:
            assert one["x"] + one["width"] <= box["x"] + box["width"] + 1


def test_on_a_phone_the_balance_of_a_cabinet_and_its_table_need_not_be_drawn_sideways(
    server: Any, new_page: Callable[..., Any]
) -> None:
    bank = {"id": "A", "freestanding": True, "size": {"width": 600, "height": 800, "depth": 560}, "mass": 35}
    drawers = [
        {**one, "cabinet": "A", "row": row, "opening": {**one["opening"], "floor": 200 * row - 180}}
        for row, one in enumerate(JOB["drawer"], 1)
    ]
    job = server.store.create_job({**JOB, "cabinet": [bank], "drawer": drawers})
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/jobs/{job.id}/cabinets")
    picture = page.locator(".balance-drawn svg.small")
    assert picture.is_visible()
    assert not page.locator(".balance-drawn svg.mid").is_visible()
    assert page.locator(".balance-names li").count() >= 4
    for part in (".balance-drawn", ".balance .wide", "html"):
        room = page.locator(part).first.evaluate("one => [one.scrollWidth, one.clientWidth]")
        assert room[0] <= room[1], part
    lettering = picture.locator("text").first.evaluate("one => one.getBoundingClientRect().height")
    assert lettering > 8, "as large as the other drawings on a phone"
    page.set_viewport_size({"width": 1600, "height": 900})
    assert page.locator(".balance-drawn svg.mid").is_visible()
    assert not picture.is_visible()


def test_on_a_wide_screen_the_answer_stands_beside_the_question(server: Any, browser_page: Any) -> None:
    browser_page.goto(f"{job_of(server)}/choice?aim=fewest_lengths")
    form = browser_page.locator("form.aims").bounding_box()
    told = browser_page.locator(".choice > section").first.bounding_box()
    assert told["x"] >= form["x"] + form["width"]
    assert told["x"] + told["width"] > 1500
