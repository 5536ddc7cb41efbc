"""The seasons of a job in a browser: asked, told, drawn, on a phone as on a desk."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet


@pytest.fixture
def job(server: Any) -> str:
    """Two drawers of the demo job."""
    store: Store = server.store
    return store.create_job(demo_cabinet()).id


@pytest.mark.parametrize("script", [True, False], ids=["with script", "without script"])
def test_the_gaps_of_a_species_are_asked_and_the_year_of_another_drawer_is_drawn(
    server: Any, job: str, new_page: Callable[..., Any], script: bool
) -> None:
    page = new_page(java_script_enabled=script, viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/jobs/{job}/cabinets")
    page.get_by_role("link", name="Seasons").click()
    page.get_by_label("Species of the fronts").select_option("white oak")
    page.get_by_label("Boards are").select_option("quarter-sawn")
    page.get_by_label("Its dampest month").fill("75F/60")
    page.get_by_role("button", name="Tell the gaps").click()
    page.get_by_text("white oak, quarter-sawn, height across the grain").wait_for()
    assert page.locator(".gaps-told tbody").count() == 2
    page.get_by_role("link", name="K1-2").click()
    page.get_by_role("heading", name="The year of K1-2").wait_for()
    assert page.get_by_label("Its dampest month").input_value() == "75F/60"
    assert page.locator("figure svg").count() == 1


def test_the_page_is_as_wide_as_the_screen_and_without_a_serious_finding_of_axe(
    server: Any, job: str, new_page: Callable[..., Any]
) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    for width, scheme in ((360, "light"), (820, "dark"), (1600, "light")):
        page = new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)
        page.goto(f"{server.url}/jobs/{job}/seasons?species=red+oak&limit=2.5")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = axe.Axe().run(page).response["violations"]
        assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []
