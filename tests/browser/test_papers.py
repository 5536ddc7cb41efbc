"""From a stored job to a downloaded pack that opens, with its progress; and without a script."""

from __future__ import annotations

import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet


@pytest.fixture
def job(server: Any) -> str:
    """Two drawers of the demo job."""
    store: Store = server.store
    return store.create_job(demo_cabinet()).id


def zip_of(page: Any, tmp_path: Path) -> zipfile.ZipFile:
    """The pack behind the page's download."""
    with page.expect_download() as coming:
        page.get_by_role("link", name="Download the pack").click()
    path = tmp_path / "pack.zip"
    coming.value.save_as(path)
    return zipfile.ZipFile(path)


def test_a_pack_is_built_with_its_progress_told_downloaded_and_opened(
    server: Any, job: str, browser_page: Any, tmp_path: Path
) -> None:
    page = browser_page
    told: list[str] = []
    page.on("response", lambda reply: told.append(reply.url) if "/pack/progress" in reply.url else None)
    page.goto(f"{server.url}/jobs/{job}")
    page.get_by_role("link", name="Papers").click()
    page.get_by_role("button", name="Build").click()
    page.get_by_role("heading", name="Ready").wait_for()
    assert told
    with zip_of(page, tmp_path) as pack:
        assert pack.testzip() is None
        names = set(pack.namelist())
        manifest = json.loads(pack.read("manifest.json"))
    assert {"sheets.pdf", "cut-list.xlsx", "labels.pdf", "job.toml", "fit.json", "pictures.pdf"} <= names
    assert {one["path"] for one in manifest["files"]} | {"manifest.json"} == names


def test_a_stream_that_is_cut_falls_back_to_asking(server: Any, job: str, browser_page: Any) -> None:
    page = browser_page
    cut: list[str] = []

    def handle(route: Any) -> None:
        if "application/json" in route.request.headers.get("accept", ""):
            route.continue_()
            return
        cut.append(route.request.url)
        route.fulfill(status=200, content_type="text/event-stream", body=": cut\n\n")

    page.route("**/pack/progress*", handle)
    page.goto(f"{server.url}/jobs/{job}/papers?build=1&only=lists&only=sheets&only=pictures")
    page.get_by_role("heading", name="Ready").wait_for()
    assert cut


def test_the_papers_go_without_a_script(
    server: Any, job: str, new_page: Callable[..., Any], tmp_path: Path
) -> None:
    page = new_page(java_script_enabled=False)
    page.goto(f"{server.url}/jobs/{job}/papers")
    for name in ("Pictures", "Templates", "Panels"):
        page.get_by_role("checkbox", name=name).uncheck()
    page.get_by_role("button", name="Build").click()
    page.get_by_role("heading", name="Ready").wait_for()
    with zip_of(page, tmp_path) as pack:
        assert "cut-list.csv" in pack.namelist()
        assert not [name for name in pack.namelist() if name.startswith("dxf/")]
