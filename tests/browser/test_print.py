"""Pages as they are printed: what is on the paper, and how many sheets it is."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import pdfplumber
import pytest

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_values

A4_ACROSS = (842, 595)
"""A4 lying across [pt], ISO 216: 297 mm by 210 mm."""


@pytest.fixture
def job(server: Any) -> str:
    """The demo job."""
    store: Store = server.store
    return store.create_job(demo_values()).id


@pytest.fixture
def printed(server: Any, browser_page: Any) -> Callable[[str], list[tuple[tuple[int, int], str]]]:
    """Size [pt] and text of each sheet of a page's print."""

    def made(path: str) -> list[tuple[tuple[int, int], str]]:
        browser_page.goto(f"{server.url}{path}")
        browser_page.evaluate("document.fonts.ready")
        content = browser_page.pdf(prefer_css_page_size=True)
        with pdfplumber.open(io.BytesIO(content)) as pdf:
            return [
                ((round(page.width), round(page.height)), page.extract_text() or "") for page in pdf.pages
            ]

    return made


def test_every_page_of_a_job_and_of_slides_is_printed_on_a4_and_none_is_blank(
    job: str, printed: Callable[[str], list[tuple[tuple[int, int], str]]]
) -> None:
    most = {
        f"/jobs/{job}/papers": 2,
        f"/jobs/{job}/papers?drawer=K1-1": 4,
        f"/jobs/{job}/bench": 2,
        f"/jobs/{job}/bench/K1-1": 2,
        "/slides": 1,
        "/slides/compare?family=house-16&family=thin-12&width=562&height=168&depth=530&side=16": 3,
        f"/jobs/{job}/choice": 1,
    }
    told = {path: printed(path) for path in most}
    for path, sheets in told.items():
        assert {size for size, _ in sheets} == {A4_ACROSS}, path
        assert all(len(text) > 20 for _, text in sheets), path
        assert len(sheets) <= most[path], (path, len(sheets))
    texts = {path: "\n".join(text for _, text in sheets) for path, sheets in told.items()}
    assert "to build" in texts[f"/jobs/{job}/papers"]
    assert "On the same opening" not in texts["/slides"]
    (compared,) = (text for path, text in texts.items() if "compare" in path)
    assert "Opening width" in compared
    assert "Families" not in compared


def test_the_printed_bench_has_a_box_to_tick_at_each_step(server: Any, job: str, browser_page: Any) -> None:
    browser_page.goto(f"{server.url}/jobs/{job}/bench/K1-1")
    browser_page.emulate_media(media="print")
    boxes = browser_page.locator(".step .tick")
    assert boxes.count() == browser_page.locator(".step").count() > 0
    assert all(boxes.nth(at).is_visible() for at in range(boxes.count()))


def test_each_printed_cabinet_begins_under_its_name_and_the_first_under_the_title(
    job: str, printed: Callable[[str], list[tuple[tuple[int, int], str]]]
) -> None:
    sheets = printed(f"/jobs/{job}/cabinets")
    assert "Cabinet K1" in sheets[0][1]
    assert len(sheets) <= 5
    assert all(len(text) > 20 for _, text in sheets)


def test_no_choice_of_the_papers_form_is_cut_on_a_narrow_screen(
    server: Any, job: str, new_page: Callable[..., Any]
) -> None:
    page = new_page(viewport={"width": 360, "height": 800})
    page.goto(f"{server.url}/jobs/{job}/papers")
    widths = page.evaluate(
        """() => { const box = document.querySelector('#aim').getBoundingClientRect();
        return [box.width, document.querySelector('.wanted').getBoundingClientRect().width]; }"""
    )
    assert widths[0] > 0.85 * widths[1]
