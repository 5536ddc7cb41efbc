"""A sheet that was edited is the sheet that a reload shows, changed bit by bit or put in whole."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any
from urllib.parse import urlencode

import pytest

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet

OVERLAY = {
    "width": "562, 561.5",
    "height": "168",
    "depth": "530",
    "side": "16",
    "contents": "20",
    "front.style": "overlay",
}
NARROW = OVERLAY | {"width": "300", "height": "100", "depth": "200"}
EDITS = (("depth", "530.3"), ("depth", "531"), ("width", "600"), ("height", "150"), ("contents", "25"))
"""Small ones, after which most of the drawing stays."""
OTHERS = (("depth", "200"), ("depth", "480"), ("height", "90"), ("height", "400"), ("side", "12"))
"""Some that change the scale, the slide, or leave nothing that fits."""

# Line by line. Left out: what is not on the screen in an arrangement, what somebody folded, and a phone's
# picture, which an edit brings as large as a phone needs it.
TOLD = """(arrangement) => {
  const parts = [arrangement === 'wide' ? 'board' : 'stack', 'cut', 'title', 'trail', 'told', 'under'];
  const others = { wide: 'none', mid: 'svg.small, .unfolded-under', small: 'svg.mid, svg.picture' };
  const elsewhere = others[arrangement];
  const told = (node) => {
    if (node.nodeType === Node.TEXT_NODE) return [node.data.trim().replace(/\\s+/g, ' ')].filter(Boolean);
    if (node.nodeType !== Node.ELEMENT_NODE || node.matches(elsewhere)) return [];
    const open = (name) => name === 'open' && node instanceof HTMLDetailsElement;
    const named = [...node.attributes].filter(({ name }) => !open(name));
    const words = named.map(({ name, value }) => `${name}="${value}"`).sort();
    const now = node instanceof HTMLInputElement ? [`now ${node.value}`] : [];
    const inside = [...node.childNodes].flatMap(told);
    return [[node.tagName, ...words, ...now].join(' '), ...inside, `/${node.tagName}`];
  };
  return [document.title, ...parts.flatMap((name) => told(document.querySelector(`[data-swap="${name}"]`)))];
}"""
DRAWN = """(told) => [...document.querySelectorAll('[data-folded]')].some(
  (one) => one.dataset.swap === 'board' && one.dataset.folded.includes(told))"""
WHOLE = """(arrangement) => {
  const name = arrangement === 'wide' ? 'board' : 'stack';
  window.stood = new Set(document.querySelectorAll(`[data-swap="${name}"] *`));
}"""
STAYED = """(arrangement) => {
  const now = [...document.querySelectorAll(`[data-swap="${arrangement === 'wide' ? 'board' : 'stack'}"] *`)];
  return now.filter((one) => window.stood.has(one)).length / now.length;
}"""


def expect(locator: Any) -> Any:
    from playwright.sync_api import expect as expected

    return expected(locator)


def edit(page: Any, key: str, text: str) -> None:
    """An edit, and all that follows it: drawing, picture and tables."""
    with page.expect_response(lambda reply: "fragment=rest" in reply.url and told(key, text) in reply.url):
        page.fill(f'[name="{key}"]', text)
    page.wait_for_function("() => !document.querySelector('[data-carry][data-stale]')")
    page.wait_for_function(DRAWN, arg=told(key, text))
    assert told(key, text) in page.url


def told(key: str, text: str) -> str:
    return urlencode({key: text})


def compare_with_reload(page: Any, arrangement: str) -> None:
    edited = page.evaluate(TOLD, arrangement)
    page.reload()
    fresh = page.evaluate(TOLD, arrangement)
    assert edited == fresh


@pytest.mark.parametrize(("arrangement", "width"), [("wide", 1600), ("mid", 1100), ("small", 360)])
@pytest.mark.parametrize("edits", [EDITS, OTHERS], ids=["small", "large"])
def test_after_every_edit_the_sheet_is_as_a_reload_shows_it(
    server: Any,
    new_page: Callable[..., Any],
    arrangement: str,
    width: int,
    edits: Sequence[tuple[str, str]],
) -> None:
    page = new_page(viewport={"width": width, "height": 900})
    page.goto(f"{server.url}/?{urlencode(OVERLAY)}")
    for key, text in edits:
        edit(page, key, text)
    compare_with_reload(page, arrangement)


def test_an_unfolded_working_and_its_links_are_as_a_reload_shows_them(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{urlencode(OVERLAY)}")
    page.focus("#plan-inside_width")
    page.keyboard.press("Enter")
    expect(page.locator(".board .fold .sum")).to_have_text("561.5 − 42 = 519.5 mm")
    edit(page, "width", "600")
    edit(page, "depth", "531")
    expect(page.locator(".board .fold .sum")).to_have_text("600 − 42 = 558 mm")
    compare_with_reload(page, "wide")


def test_a_sheet_of_what_fits_nothing_becomes_one_that_fits(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{urlencode(NARROW)}")
    for key, text in (("width", "562"), ("height", "168"), ("depth", "530")):
        edit(page, key, text)
    compare_with_reload(page, "wide")


def test_a_sheet_that_did_not_read_is_put_in_whole(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{urlencode(OVERLAY | {'depth': 'deep'})}")
    expect(page.locator(".board svg.paper")).to_have_count(0)
    edit(page, "depth", "530")
    expect(page.locator("#plan-opening_depth text")).to_have_text("530")
    drawn = page.evaluate("() => document.querySelector('.board svg.paper').outerHTML")
    page.reload()
    assert page.evaluate("() => document.querySelectorAll('.board svg.paper *').length") > 300
    edit(page, "depth", "531")
    edit(page, "depth", "530")
    again = page.evaluate("() => document.querySelector('.board svg.paper').outerHTML")
    assert "".join(again.split()) == "".join(drawn.split())


def test_an_edit_leaves_what_it_does_not_change_in_its_place(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{urlencode(OVERLAY)}")
    page.evaluate(WHOLE, "wide")
    edit(page, "depth", "530.3")
    assert page.evaluate(STAYED, "wide") > 0.6, "the picture comes anew, of the rest next to nothing"


def test_a_stored_drawers_edited_sheet_is_as_a_reload_shows_it(server: Any, browser_page: Any) -> None:
    store: Store = server.store
    job = store.create_job(demo_cabinet())
    page = browser_page
    page.goto(f"{server.url}/jobs/{job.id}/drawers/{demo_cabinet()['drawer'][0]['id']}")
    for key, text in (("depth", "531"), ("contents", "12"), ("depth", "533")):
        edit(page, key, text)
    compare_with_reload(page, "wide")
