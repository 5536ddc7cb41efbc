"""What a drawer carries, in a browser: it follows the drawing, moves with the drawer, and prints."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any
from urllib.parse import urlencode

import pytest

from drawerwright.store import Store

QUERY = urlencode(
    {
        "width": "562",
        "height": "168",
        "depth": "530",
        "side": "16",
        "contents": "20",
        "front.style": "overlay",
    }
)
MOVING = """() => {
  const line = document.querySelector('[data-diagram="sag"] [data-here]');
  const dots = [...document.querySelectorAll('[data-curve]')].map((one) => one.getAttribute('cy'));
  const bent = document.querySelector('[data-member="2"]').getAttribute('points');
  const stand = document.querySelector('[data-stand="4"]').getAttribute('transform');
  return { line: line.getAttribute('transform'), dots, bent, stand };
}"""


def expect(locator: Any) -> Any:
    from playwright.sync_api import expect as expected

    return expected(locator)


def moved(page: Any, key: str) -> None:
    """Draw the sheet's own slider out or in by a key."""
    page.focus(".board [data-pull] [type=range]")
    page.keyboard.press(key)


def test_the_main_answers_follow_the_newest_edit_without_being_opened(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{QUERY}")
    expect(page.locator("#carry .in-short")).to_contain_text("of 45.0 kg")
    before = page.locator("#carry .in-short").inner_text()
    page.fill("#f-contents", "60")
    expect(page.locator("[data-carry]:not([data-stale]) .in-short")).not_to_have_text(before)
    assert page.locator("[data-diagram]").count() == 0


def test_the_slider_moves_line_words_and_drawing_together(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{QUERY}")
    page.locator("[data-carry-open]").click()
    expect(page.locator("[data-bent]")).to_be_visible()
    assert "carry=1" in page.url
    assert page.evaluate("() => document.activeElement.hasAttribute('data-carry-fold')")
    first = page.evaluate(MOVING)
    moved(page, "End")
    expect(page.locator("[data-place] > [data-told=out]")).to_have_text("500 mm")
    last = page.evaluate(MOVING)
    assert all(first[key] != last[key] for key in first)
    assert page.locator("#carry [data-pull] [type=range]").input_value() == "500"
    expect(page.locator("[data-lifts=lower_rear]")).to_be_visible()
    expect(page.locator("[data-rear=lower_rear]")).to_be_hidden()
    expect(page.locator("[data-place-said]")).to_contain_text("500 mm out")
    assert page.url.endswith("out=500&carry=1")
    moved(page, "Home")
    expect(page.locator("[data-rear=lower_rear]")).to_be_visible()
    page.focus("#carry [data-pull] [type=range]")
    page.keyboard.press("End")
    expect(page.locator(".board [data-out]")).to_have_text("500")
    assert page.evaluate(MOVING) == last


def test_where_a_script_moves_it_is_where_the_server_draws_it(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{QUERY}&carry=1&out=0")
    page.evaluate(
        """() => document.dispatchEvent(new CustomEvent('drawn-out', { detail: { mm: 333, travel: 500 } }))"""
    )
    expect(page.locator("[data-place] > [data-told=out]")).to_have_text("333 mm")
    words, drawn = page.locator("[data-place]").inner_text(), page.evaluate(MOVING)
    page.goto(f"{server.url}/?{QUERY}&carry=1&out=333")
    assert page.locator("[data-place]").inner_text() == words
    served = page.evaluate(MOVING)
    assert _near(served["line"], drawn["line"])
    assert _near(" ".join(served["dots"]), " ".join(drawn["dots"]))
    assert _near(served["bent"], drawn["bent"])
    assert _near(served["stand"], drawn["stand"])


def _near(one: str, other: str) -> bool:
    """Whether two lists of coordinates are the same but for their rounding."""

    def numbers(text: str) -> list[float]:
        bare = text.replace("translate(", "").replace(")", "").replace(",", " ")
        return [float(part) for part in bare.split()]

    return numbers(one) == pytest.approx(numbers(other), abs=0.021)


def test_an_edit_is_drawn_and_then_reckoned_with_everything_kept(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{QUERY}&carry=1")
    expect(page.locator(".figure-line")).to_contain_text("of 45.0 kg")
    before = page.locator(".figure-line").inner_text()
    page.locator("#f-contents").click()
    page.wait_for_function("() => !('stale' in document.querySelector('[data-carry]').dataset)")
    page.fill("#f-contents", "30")
    expect(page.locator(".load")).to_contain_text("contents 30.0")
    expect(page.locator("[data-carry]:not([data-stale]) .figure-line")).not_to_have_text(before)
    assert "carry=1" in page.url
    assert "contents=30" in page.url
    page.locator("#c-tilt").press_sequentially("3")
    expect(page.locator(".carries")).to_have_text("Does not carry")
    assert page.evaluate("() => document.activeElement.id") == "c-tilt"
    assert "tilt=3" in page.url
    page.fill("#c-tilt", "steep")
    expect(page.locator("#ch-tilt .fault")).to_contain_text('"steep"')
    expect(page.locator(".board")).to_be_visible()
    page.fill("#c-tilt", "")
    expect(page.locator(".carries")).not_to_have_text("Does not carry")
    page.locator("[data-carry-fold]").click()
    expect(page.locator("[data-diagram]")).to_have_count(0)
    assert "carry" not in page.url


def test_an_edit_is_never_kept_waiting_for_what_it_carries(server: Any, browser_page: Any) -> None:
    page = browser_page
    asked: list[str] = []
    page.on("request", lambda one: asked.append(one.url))
    page.goto(f"{server.url}/?{QUERY}&carry=1")
    expect(page.locator("[data-bent]")).to_be_visible()
    del asked[:]
    page.locator("#f-depth").press_sequentially("0")
    page.locator("#f-depth").press("Backspace")
    page.fill("#f-depth", "480")
    expect(page.locator(".title-strip .slide strong")).to_have_text("house-16 / 450")
    expect(page.locator("[data-carry]:not([data-stale]) [data-place]")).to_be_visible()
    told = [one for one in asked if "fragment=" in one]
    first = next(place for place, one in enumerate(told) if "fragment=carry" in one)
    assert "depth=480" in told[first], "what was typed over is not reckoned"
    assert any("fragment=sheet" in one and "depth=480" in one for one in told[:first])


def test_without_a_script_it_is_reckoned_drawn_out_and_asked(
    server: Any, new_page: Callable[..., Any]
) -> None:
    page = new_page(java_script_enabled=False)
    page.goto(f"{server.url}/?{QUERY}")
    page.locator("[data-carry-open]").click()
    assert page.locator("[data-bent]").is_visible()
    page.fill("#c-off_centre", "60")
    page.get_by_role("button", name="Reckon").click()
    assert "Load off centre" in page.locator("#carry").inner_text()
    page.locator("#carry").get_by_role("button", name="Show").click()
    assert "out=200" in page.url
    assert "off_centre=60" in page.url
    assert page.locator("[data-place]").inner_text().startswith("200 mm out")
    page.locator("[data-carry-fold]").click()
    assert page.locator("[data-bent]").count() == 0


@pytest.mark.parametrize("width", [360, 820, 1600])
def test_it_keeps_within_its_screen_and_nothing_serious_stands_in_the_way(
    server: Any, new_page: Callable[..., Any], width: int
) -> None:
    pytest.importorskip("axe_playwright_python")
    from axe_playwright_python.sync_playwright import Axe

    page = new_page(
        viewport={"width": width, "height": 900},
        color_scheme="dark" if width == 820 else "light",
        bypass_csp=True,
    )
    page.goto(f"{server.url}/?{QUERY}&carry=1&tilt=3&off_centre=80&sag_limit=4")
    page.locator("[data-bent]").wait_for()
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    found = Axe().run(page).response["violations"]
    serious = [
        (one["id"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
    assert serious == []


def test_it_prints_on_a_page_of_its_own_where_it_is_open_and_not_else(server: Any, browser_page: Any) -> None:
    import pdfplumber

    page = browser_page
    for query, pages in ((QUERY, 1), (f"{QUERY}&carry=1", 2), (f"{QUERY}&carry=1&tilt=3&sag_limit=3", 2)):
        page.goto(f"{server.url}/?{query}")
        expect(page.locator("#carry .carries")).to_be_visible()
        printed = page.pdf(prefer_css_page_size=True, print_background=True)
        with pdfplumber.open(io.BytesIO(printed)) as pdf:
            assert len(pdf.pages) == pages
            texts = [one.extract_text() for one in pdf.pages]
            reach = max(word["x1"] for word in pdf.pages[0].extract_words())
        assert "What it carries" not in texts[0]
        assert reach > 780, "nothing beside the page shrinks the sheet"
        if pages > 1:
            assert "What it carries" in texts[1]
            assert "Who decides" in texts[1]
            assert "Reckon" not in texts[1]


def test_the_balance_of_a_cabinet_and_the_sections_of_a_family_are_read_on_any_screen(
    server: Any, new_page: Callable[..., Any]
) -> None:
    pytest.importorskip("axe_playwright_python")
    from axe_playwright_python.sync_playwright import Axe

    store: Store = server.store
    size = {"width": 800, "height": 900, "depth": 480}
    opening = {"width": 762, "height": 190, "depth": 450, "floor": 20}
    job = store.create_job(
        {
            "title": "Invented",
            "cabinet": [{"id": "F", "freestanding": True, "size": size, "mass": 30}],
            "drawer": [
                {"id": "F-1", "cabinet": "F", "row": 1, "opening": opening, "side": 16, "contents": 9}
            ],
        }
    )
    for width in (360, 1600):
        page = new_page(viewport={"width": width, "height": 900}, bypass_csp=True)
        for path, there in ((f"/jobs/{job.id}/cabinets", ".balance"), ("/slides/heavy-19", ".family-carry")):
            page.goto(f"{server.url}{path}")
            page.locator(there).wait_for()
            assert page.evaluate("() => document.documentElement.scrollWidth") <= width
            found = Axe().run(page).response["violations"]
            assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []
