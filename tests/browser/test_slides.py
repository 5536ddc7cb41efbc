"""The slides' pages in a browser: checks as a family is typed, families compared, a data sheet on paper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from drawerwright.web.demo_job import demo_cabinet

OPENING = "width=562&height=168&depth=530&side=16&contents=20+kg"


def test_a_family_is_copied_checked_as_it_is_typed_and_kept(server: Any, browser_page: Any) -> None:
    page = browser_page
    page.goto(f"{server.url}/slides")
    page.get_by_role("link", name="house-16", exact=True).click()
    page.get_by_role("link", name="Copy").click()
    setback = page.get_by_label("Setback of the first row hole")
    setback.fill("1")
    said = page.locator('[data-fault-for="setback"] .fault')
    said.wait_for()
    assert "lies ahead of the member's front end" in said.inner_text()
    assert setback.get_attribute("aria-invalid") == "true"
    setback.fill("38")
    said.wait_for(state="detached")
    page.get_by_label("Id", exact=True).fill("bench-16")
    page.get_by_label("Spacers", exact=True).fill("")
    page.get_by_text("common practice is taken").first.wait_for()
    page.get_by_role("button", name="Keep it").click()
    page.wait_for_url("**/slides/bench-16*")
    kept = server.store.family("bench-16").values
    assert (kept["setback"], kept.get("spacers")) == (38, None)


def test_a_lost_server_is_told_while_a_family_is_typed_and_the_next_word_finds_it_again(
    server: Any, browser_page: Any, console_faults: Any
) -> None:
    console_faults.forgive("ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_CONNECTION")
    page = browser_page
    page.goto(f"{server.url}/slides/new?from=house-16")
    server.stop()
    page.get_by_label("Pairs in a carton").fill("4")
    page.get_by_text("Not reachable, last result shown").wait_for()
    server.start()
    page.get_by_label("Pairs in a carton").fill("5")
    page.get_by_text("Not reachable, last result shown").wait_for(state="hidden")
    assert page.get_by_label("Pairs in a carton").input_value() == "5"


def test_families_are_compared_on_one_opening_without_a_script(
    server: Any, new_page: Callable[..., Any]
) -> None:
    page = new_page(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/slides")
    for family in ("house-16", "thin-12"):
        page.get_by_label(f"Compare {family}").check()
    page.get_by_role("button", name="Compare the marked").click()
    page.get_by_role("cell", name="Does not fit").wait_for()
    assert page.locator("figure svg").count() >= 4


def test_a_data_sheet_prints_on_one_page(server: Any, browser_page: Any, tmp_path: Path) -> None:
    pdfium = pytest.importorskip("pypdfium2")
    for family in ("house-16", "heavy-19", "inch-19"):
        browser_page.goto(f"{server.url}/slides/{family}")
        path = tmp_path / f"{family}.pdf"
        browser_page.pdf(path=path, prefer_css_page_size=True)
        document = pdfium.PdfDocument(path)
        assert len(document) == 1, family
        text = document[0].get_textpage().get_text_range()
        assert "Inside-width deduction" in text
        assert "Rolling drag" in text or family == "inch-19"


def test_pages_of_slides_papers_and_bench_are_without_a_serious_finding_of_axe(
    server: Any, new_page: Callable[..., Any]
) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    job = server.store.create_job(demo_cabinet()).id
    page = new_page(bypass_csp=True)
    addresses = (
        "/slides",
        "/slides/house-16",
        f"/slides/compare?family=house-16&family=thin-12&{OPENING}",
        "/slides/compare?family=house-16&width=x",
        "/slides/new?from=house-16",
        f"/jobs/{job}/papers?drawer=K1-1",
        f"/jobs/{job}/bench",
        f"/jobs/{job}/bench/K1-1",
        f"/jobs/{job}/bench/K1-1/gaps",
    )
    for number, address in enumerate(addresses):
        page.emulate_media(color_scheme="dark" if number % 2 else "light")
        page.goto(f"{server.url}{address}")
        found = axe.Axe().run(page).response["violations"]
        bad = [
            (one["id"], one["nodes"][0]["html"]) for one in found if one["impact"] in ("serious", "critical")
        ]
        assert bad == [], address
