"""The drawing sheet in a browser: it answers as it is typed in, by keyboard, without a script, anywhere."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from typing import Any
from urllib.parse import urlencode

import pytest

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet

OVERLAY = urlencode(
    {
        "width": "562, 561.5",
        "height": "168",
        "depth": "530",
        "side": "16",
        "contents": "20",
        "front.style": "overlay",
    }
)
NOTHING_FITS = urlencode({"width": "300", "height": "100", "depth": "200", "side": "16", "contents": "20"})


@pytest.fixture
def drawer(server: Any) -> str:
    """The address of a stored drawer's sheet."""
    store: Store = server.store
    job = store.create_job(demo_cabinet())
    return f"{server.url}/jobs/{job.id}/drawers/{demo_cabinet()['drawer'][0]['id']}"


def expect(locator: Any) -> Any:
    from playwright.sync_api import expect as expected

    return expected(locator)


def focused(page: Any) -> str:
    return str(page.evaluate("() => document.activeElement.id"))


def test_an_edit_is_drawn_at_once_and_stands_in_the_address(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{OVERLAY}")
    expect(page.locator(".title-strip .slide strong")).to_have_text("house-16 / 500")
    page.fill("#f-depth", "480")
    expect(page.locator(".title-strip .slide strong")).to_have_text("house-16 / 450")
    expect(page.locator("#plan-opening_depth text")).to_have_text("480")
    assert "depth=480" in page.url
    assert focused(page) == "f-depth"
    expect(page.locator("#check-cabinet-depth")).to_contain_text("Depth 480 mm")
    page.reload()
    assert page.input_value("#f-depth") == "480"


def test_what_does_not_read_is_told_at_its_field_while_the_last_drawing_stays(
    server: Any, browser_page: Any
) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{OVERLAY}")
    page.fill("#f-side", "thick")
    expect(page.locator('[data-field="side"] .fault')).to_contain_text('"thick"')
    expect(page.locator("[data-sheet][data-stale] #plan-opening_depth")).to_be_visible()
    assert page.get_attribute("#f-side", "aria-invalid") == "true"
    page.fill("#f-side", "15")
    expect(page.locator(".field.wrong")).to_have_count(0)
    expect(page.locator("[data-sheet][data-stale]")).to_have_count(0)
    expect(page.locator(".board")).to_contain_text("519.5")


def test_several_faults_cover_neither_each_other_nor_the_line_to_save(
    server: Any, drawer: str, browser_page: Any
) -> None:
    page = browser_page
    page.goto(drawer)
    page.fill("#f-height", "16x")
    page.fill("#f-depth", "53y")
    expect(page.locator(".measured .fault")).to_have_count(2)
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("[data-unsaved]")).to_contain_text("what is marked cannot be read")
    first, second = (page.locator(".measured .fault").nth(at).bounding_box() for at in (0, 1))
    assert first["x"] + first["width"] <= second["x"]
    assert (
        max(one["y"] + one["height"] for one in (first, second))
        <= page.locator("[data-saving]").bounding_box()["y"]
    )


def test_a_phone_opens_at_the_working_that_its_address_unfolds(
    server: Any, new_page: Callable[..., Any]
) -> None:
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/?{OVERLAY}&show=first_hole")
    expect(page.locator(".unfolded-under:visible .fold .sum")).to_be_in_viewport()


def test_on_a_phone_the_first_screen_tells_what_stops_it_and_a_remedy(
    server: Any, new_page: Callable[..., Any]
) -> None:
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/?{NOTHING_FITS}")
    expect(page.locator(".why p").first).to_be_in_viewport()
    page.locator(".why .changes a").first.click()
    expect(page.locator("[data-verdict]")).to_have_text("fits")


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_title_strip_stands_on_the_first_screen_with_its_slide_on_one_line(
    server: Any, new_page: Callable[..., Any], units: str
) -> None:
    page = new_page(viewport={"width": 1600, "height": 1000})
    edges = {"left": "10 mm", "right": "30 mm", "top": "2 mm", "bottom": "20 mm"}
    told = {f"front.overlay.{edge}": text for edge, text in edges.items()}
    told |= {"width": "562 mm", "height": "168 mm", "depth": "530 mm", "side": "16 mm", "units": units}
    page.goto(f"{server.url}/?{urlencode(told | {'front.style': 'overlay'})}")
    strip = page.locator(".title-strip").bounding_box()
    assert strip["y"] + strip["height"] <= 1000
    name = page.locator(".title-strip .slide strong")
    assert name.bounding_box()["height"] < 30
    summary, words = (page.locator(one).bounding_box() for one in (".more > summary", ".measured .told"))
    padding = float(
        page.locator(".measured .told").evaluate("e => parseFloat(getComputedStyle(e).paddingTop)")
    )
    assert summary["y"] + summary["height"] <= words["y"] + padding + 1


def test_a_working_is_unfolded_and_folded_by_keyboard(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{OVERLAY}")
    page.focus("#plan-inside_width")
    page.keyboard.press("Enter")
    expect(page.locator(".board .fold .sum")).to_have_text("561.5 − 42 = 519.5 mm")
    assert focused(page) == "plan-inside_width"
    assert page.get_attribute("#plan-inside_width", "aria-expanded") == "true"
    page.fill("#f-width", "600")
    expect(page.locator(".board .fold .sum")).to_have_text("600 − 42 = 558 mm")
    page.focus("#side-box_height")
    page.keyboard.press("Enter")
    expect(page.locator(".board .fold")).to_have_count(1)
    expect(page.locator(".board .fold .label")).to_contain_text("Box height")
    page.keyboard.press("Escape")
    expect(page.locator(".board .fold")).to_have_count(0)
    assert focused(page) == "side-box_height"


def test_every_dimension_and_control_is_reached_by_tab(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{OVERLAY}")
    page.focus("#f-width")
    met = []
    for _ in range(60):
        page.keyboard.press("Tab")
        met.append(
            page.evaluate(
                "() => document.activeElement.dataset.quantity || document.activeElement.name || ''"
            )
        )
    assert {"height", "depth", "side", "contents", "out"} <= set(met)
    assert {"inside_width", "opening_width", "box_length", "box_height", "first_hole", "front_width"} <= set(
        met
    )


def test_the_slider_draws_the_drawer_out_and_tells_others(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{OVERLAY}")
    page.evaluate(
        "() => document.addEventListener('drawn-out', e => { document.body.dataset.told = e.detail.mm; })"
    )
    page.focus(".board [data-pull] [type=range]")
    page.keyboard.press("End")
    expect(page.locator(".board [data-out]")).to_have_text("500")
    expect(page.locator(".board [data-picture] text")).to_have_text("500")
    assert page.get_attribute("body", "data-told") == "500"
    assert "out=500" in page.url
    page.keyboard.press("Home")
    expect(page.locator(".board [data-picture] text")).to_have_count(0)


def test_what_would_make_it_fit_goes_into_the_fields(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/?{NOTHING_FITS}")
    expect(page.locator("[data-verdict]")).to_have_text("does not fit")
    page.locator(".board .changes a").first.click()
    expect(page.locator("[data-verdict]")).to_have_text("fits")
    assert page.input_value("#f-depth") == "305"
    expect(page.locator("[data-said]")).to_have_text("fits")


def test_a_lost_server_is_told_and_what_was_typed_is_drawn_when_it_is_back(
    server: Any, browser_page: Any, console_faults: Any
) -> None:
    console_faults.forgive("ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_CONNECTION_RESET")
    page = browser_page
    page.goto(f"{server.url}/?{OVERLAY}")
    server.stop()
    page.fill("#f-depth", "480")
    expect(page.locator("[data-unreachable]")).to_be_visible()
    expect(page.locator("[data-sheet][data-stale]")).to_have_count(1)
    page.fill("#f-contents", "25")
    expect(page.locator(".title-strip .slide strong")).to_have_text("house-16 / 500")
    server.start()
    expect(page.locator(".title-strip .slide strong")).to_have_text("house-16 / 450")
    expect(page.locator("[data-unreachable]")).to_be_hidden()
    expect(page.locator("[data-sheet][data-stale]")).to_have_count(0)
    expect(page.locator(".load")).to_contain_text("contents 25.0")


def test_a_stored_drawer_is_changed_left_found_again_and_saved(
    server: Any, drawer: str, browser_page: Any
) -> None:
    page = browser_page
    page.goto(drawer)
    page.fill("#f-depth", "600")
    expect(page.locator(".title-strip .slide strong")).to_contain_text("550")
    expect(page.locator("[data-unsaved]")).to_contain_text("Not saved: 1 field changed")
    page.goto(drawer)
    assert page.input_value("#f-depth") != "600"
    page.get_by_role("link", name="Show them").click()
    assert page.input_value("#f-depth") == "600"
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("[data-unsaved]")).to_have_text("Saved.")
    assert page.input_value("#f-depth") == "600"
    page.goto(drawer)
    expect(page.locator("[data-draft-found]")).to_be_hidden()


def test_a_save_to_a_killed_server_is_done_when_it_is_back(
    server_process: Any, new_page: Callable[..., Any], console_faults: Any
) -> None:
    console_faults.forgive("ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_CONNECTION_RESET")
    store: Store = server_process.store
    job = store.create_job(demo_cabinet())
    name = demo_cabinet()["drawer"][0]["id"]
    page = new_page()
    page.goto(f"{server_process.url}/jobs/{job.id}/drawers/{name}")
    server_process.stop()
    page.fill("#f-depth", "601")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("[data-unsaved]")).to_contain_text("kept here")
    server_process.start()
    expect(page.locator("[data-unsaved]")).to_have_text("Saved.")
    assert store.job(job.id).values["drawer"][0]["opening"]["depth"] == 601


def test_without_a_script_it_answers_unfolds_draws_out_and_saves(
    server: Any, drawer: str, new_page: Callable[..., Any]
) -> None:
    page = new_page(java_script_enabled=False)
    page.goto(server.url)
    page.fill("#f-width", "600")
    page.get_by_role("button", name="Draw it").click()
    page.locator("#plan-inside_width").click()
    assert "600 − 42 = 558" in page.locator(".board .fold").inner_text()
    page.locator(".board .fold").get_by_role("link", name="Fold").click()
    assert page.locator(".board .fold").count() == 0
    page.locator(".board").get_by_role("button", name="Show").click()
    assert "out=200" in page.url
    page.goto(drawer)
    page.fill("#f-depth", "600")
    page.get_by_role("button", name="Save", exact=True).click()
    assert page.locator("[data-unsaved]").inner_text() == "Saved."
    assert page.input_value("#f-depth") == "600"


@pytest.mark.parametrize("width", [360, 820, 1100, 1600])
@pytest.mark.parametrize("query", [OVERLAY, NOTHING_FITS], ids=["fits", "does-not-fit"])
def test_no_screen_scrolls_sideways(
    server: Any, new_page: Callable[..., Any], width: int, query: str
) -> None:
    page = new_page(viewport={"width": width, "height": 900})
    page.goto(f"{server.url}/?{query}")
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    shown = page.locator("svg.paper:visible").count()
    assert shown == (1 if width >= 1340 else 4)


def test_notes_of_a_wide_sheet_keep_clear_of_each_other_and_of_numbers(
    server: Any, browser_page: Any
) -> None:
    page = browser_page
    for query in (OVERLAY, NOTHING_FITS, urlencode({"width": 1200, "height": 90, "depth": 530, "side": 16})):
        page.goto(f"{server.url}/?{query}")
        overlaps = page.evaluate(
            """() => {
              const all = (s) => [...document.querySelectorAll(s)];
              const of = (s) => all(s).map(e => [e.textContent.trim(), e.getBoundingClientRect()]);
              const notes = of('.board .note'), numbers = of('.board a.dimension text');
              const meet = (a, b) => a.left < b.right && b.left < a.right
                && a.top < b.bottom && b.top < a.bottom;
              const found = [];
              notes.forEach(([t, a], i) => {
                notes.slice(i + 1).forEach(([u, b]) => meet(a, b) && found.push([t, u]));
                numbers.forEach(([u, b]) => meet(a, b) && found.push([t, u]));
              });
              return found;
            }"""
        )
        assert overlaps == []


@pytest.mark.parametrize("query", [OVERLAY, NOTHING_FITS], ids=["fits", "does-not-fit"])
def test_it_prints_on_one_page_at_its_scale(server: Any, browser_page: Any, query: str) -> None:
    import pdfplumber

    page = browser_page
    page.goto(f"{server.url}/?{query}")
    printed = page.pdf(prefer_css_page_size=True, print_background=True)
    with pdfplumber.open(io.BytesIO(printed)) as pdf:
        assert len(pdf.pages) == 1
        sheet = pdf.pages[0]
        assert sheet.width == pytest.approx(841.9, abs=1.0), "A4, lying"
        text = sheet.extract_text()
    assert "Measured" in text
    assert "Print" not in text
    assert re.search(r"1 : \d+(\.5)? on A4", text)


def test_the_printed_opening_is_as_wide_as_its_scale_says(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 1122, "height": 793})
    page.goto(f"{server.url}/?{OVERLAY}")
    told = re.search(r"1 : ([\d.]+) on", page.locator(".scale dt").inner_text())
    assert told is not None
    width_px = page.locator("#plan-opening_width .pen-dimension").first.bounding_box()["width"]
    assert width_px / 96 * 25.4 == pytest.approx(561.5 / float(told[1]), rel=0.01)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1600])
def test_nothing_serious_stands_in_the_way_of_those_who_read_otherwise(
    server: Any, new_page: Callable[..., Any], scheme: str, width: int
) -> None:
    pytest.importorskip("axe_playwright_python")
    from axe_playwright_python.sync_playwright import Axe

    page = new_page(color_scheme=scheme, viewport={"width": width, "height": 900}, bypass_csp=True)
    for query in (f"{OVERLAY}&show=inside_width", NOTHING_FITS, "width=x"):
        page.goto(f"{server.url}/?{query}")
        page.locator("#f-width").wait_for()
        found = Axe().run(page).response["violations"]
        serious = [
            (one["id"], [node["html"][:160] for node in one["nodes"][:3]])
            for one in found
            if one["impact"] in ("serious", "critical")
        ]
        assert serious == []


def test_other_units_keep_what_is_typed_though_it_does_not_read(server: Any, browser_page: Any) -> None:
    browser_page.goto(f"{server.url}/?{OVERLAY}")
    browser_page.locator("#f-width").fill("562 561")
    expect(browser_page.locator(".field.wrong")).to_have_count(1)
    browser_page.locator("a.unit-in:visible").first.click()
    browser_page.wait_for_url("**units=in**")
    expect(browser_page.locator("#f-width")).to_have_value("562 561")
    expect(browser_page.locator("#f-height")).to_have_value("168 mm")


def test_what_another_tab_saves_stands_in_the_fields_that_were_not_touched(
    server: Any, drawer: str, new_page: Callable[..., Any]
) -> None:
    store: Store = server.store
    page, other = new_page(), new_page()
    page.goto(drawer)
    other.goto(drawer)
    page.fill("#f-depth", "531")
    expect(page.locator("#plan-opening_depth text")).to_have_text("531")
    other.fill("#f-width", "555")
    other.get_by_role("button", name="Save", exact=True).click()
    other.wait_for_url("**saved=2**")
    page.fill("#f-contents", "7")
    expect(page.locator("[data-elsewhere]")).to_contain_text("was changed elsewhere to 555 mm")
    expect(page.locator("#plan-opening_width text")).to_have_text("555")
    assert page.input_value("#f-width") == "555"
    assert page.input_value('[name="based_on"]') == "2"
    expect(page.locator("[data-unsaved]")).to_contain_text("2 fields changed")
    assert "width=" not in page.url
    page.get_by_role("button", name="Save", exact=True).click()
    page.wait_for_url("**saved=3**")
    (job,) = store.jobs()
    kept = store.job(job.id).values["drawer"][0]
    assert (kept["opening"]["width"], kept["opening"]["depth"]) == (555, 531)


def test_what_two_tabs_change_both_is_told_and_asked_of_on_saving(
    server: Any, drawer: str, new_page: Callable[..., Any]
) -> None:
    page, other = new_page(), new_page()
    page.goto(drawer)
    other.goto(drawer)
    page.fill("#f-depth", "531")
    expect(page.locator("#plan-opening_depth text")).to_have_text("531")
    other.fill("#f-depth", "545")
    other.fill("#f-width", "555")
    other.get_by_role("button", name="Save", exact=True).click()
    other.wait_for_url("**saved=2**")
    page.fill("#f-contents", "7")
    expect(page.locator("[data-elsewhere]")).to_contain_text("Depth: changed here, and elsewhere to 545 mm")
    assert (page.input_value("#f-depth"), page.input_value("#f-width")) == ("531", "555")
    assert page.input_value('[name="based_on"]') == "1"
    page.get_by_role("button", name="Save", exact=True).click()
    page.wait_for_url("**/conflict?**")
    expect(page.locator("main")).not_to_contain_text("555")
