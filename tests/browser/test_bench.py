"""The bench in a browser: ticks survive a reload and a lost connection, pages stay readable without one."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet

PATIENCE_SECONDS = 20
CUT_OFF = (
    "ERR_INTERNET_DISCONNECTED|ERR_CONNECTION|ERR_EMPTY_RESPONSE|ERR_FAILED|Failed to fetch"
    # what the browser says of itself where it asks for a newer worker and nobody answers
    "|error occurred when fetching the script"
)


@pytest.fixture
def job(server: Any) -> str:
    """Two drawers of the demo job."""
    store: Store = server.store
    return store.create_job(demo_cabinet()).id


def wait_for(condition: Callable[[], bool], what: str) -> None:
    """Wait until something holds; the test fails where it does not in time."""
    end = time.monotonic() + PATIENCE_SECONDS
    while not condition():
        assert time.monotonic() < end, f"waited in vain: {what}"
        threading.Event().wait(0.02)


def done_in(store: Store, job: str, drawer: str) -> set[str]:
    return {one.step for one in store.ticks(job, drawer) if one.done}


def tick_of(page: Any, step: str) -> Any:
    return page.locator(f'[data-step="{step}"]')


def is_ticked(page: Any, step: str) -> None:
    page.locator(f'[data-step="{step}"][aria-pressed="true"]').wait_for()


def keeps_pages(page: Any) -> None:
    """Wait until the page's worker is there: one that is cut off while it is fetched is another story."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")


def test_ticks_are_shown_at_once_counted_and_survive_a_reload(
    server: Any, job: str, browser_page: Any
) -> None:
    page = browser_page
    page.goto(f"{server.url}/jobs/{job}/bench")
    page.get_by_role("link", name="Begin with K1-1").click()
    tick_of(page, "shipping-blocks-out").click()
    tick_of(page, "slots-first").click()
    assert page.locator("[data-count]").inner_text() == "2 of 11"
    assert not page.get_by_text("Take the blocks and clips").is_visible()
    wait_for(lambda: len(done_in(server.store, job, "K1-1")) == 2, "the ticks to be kept")
    page.reload()
    is_ticked(page, "slots-first")
    tick_of(page, "slots-first").click()
    wait_for(
        lambda: done_in(server.store, job, "K1-1") == {"shipping-blocks-out"}, "the tick to be taken away"
    )


def test_ticks_made_without_a_connection_are_kept_and_sent_when_it_is_back(
    server: Any, job: str, browser_page: Any, console_faults: Any
) -> None:
    console_faults.forgive(CUT_OFF)
    page = browser_page
    page.goto(f"{server.url}/jobs/{job}/bench/K1-1")
    keeps_pages(page)
    page.context.set_offline(True)
    tick_of(page, "cover-the-slides").click()
    tick_of(page, "lock-them").click()
    page.get_by_text("No connection: 2 ticks are kept on this device").wait_for()
    assert done_in(server.store, job, "K1-1") == set()
    page.context.set_offline(False)
    wait_for(lambda: done_in(server.store, job, "K1-1") == {"cover-the-slides", "lock-them"}, "the ticks")
    page.get_by_text("No connection").wait_for(state="hidden")


def test_a_bench_can_be_read_and_ticked_while_the_server_is_away(
    server: Any, job: str, browser_page: Any, console_faults: Any
) -> None:
    console_faults.forgive(CUT_OFF)
    page = browser_page
    page.goto(f"{server.url}/jobs/{job}/bench")
    address = f"/jobs/{job}/bench/K1-2"
    kept = f"caches.open('bench-pages').then((one) => one.match('{address}')).then(Boolean)"
    wait_for(lambda: page.evaluate(kept), "the next drawer's page to be kept on the device")
    server.stop()
    page.goto(f"{server.url}{address}")
    page.get_by_role("heading", name="K1-2", exact=True).wait_for()
    tick_of(page, "measure-and-mark").click()
    page.get_by_text("No connection: 1 tick is kept on this device").wait_for()
    page.reload()
    is_ticked(page, "measure-and-mark")
    server.start()
    wait_for(lambda: done_in(server.store, job, "K1-2") == {"measure-and-mark"}, "the tick")


def test_two_benches_on_one_drawer_end_with_what_was_said_last(
    server: Any, job: str, new_page: Callable[..., Any], console_faults: Any
) -> None:
    console_faults.forgive(CUT_OFF)
    one, other = new_page(), new_page()
    for page in (one, other):
        page.goto(f"{server.url}/jobs/{job}/bench/K1-1")
        keeps_pages(page)
    one.context.set_offline(True)
    tick_of(one, "adjust").click()
    is_ticked(one, "adjust")
    tick_of(other, "adjust").click()
    tick_of(other, "adjust").click()
    wait_for(
        lambda: [tick.done for tick in server.store.ticks(job, "K1-1")] == [False],
        "the other bench's last word",
    )
    one.context.set_offline(False)
    one.get_by_text("No connection").wait_for(state="hidden")
    assert done_in(server.store, job, "K1-1") == set()


def test_the_bench_goes_without_a_script(server: Any, job: str, new_page: Callable[..., Any]) -> None:
    page = new_page(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/jobs/{job}/bench/K1-1")
    tick_of(page, "load").click()
    is_ticked(page, "load")
    assert done_in(server.store, job, "K1-1") == {"load"}
    page.get_by_role("link", name="K1-2").first.click()
    page.get_by_role("heading", name="K1-2", exact=True).wait_for()


def test_everything_that_is_pressed_on_a_phone_is_large_enough_for_a_thumb(
    server: Any, job: str, new_page: Callable[..., Any]
) -> None:
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto(f"{server.url}/jobs/{job}/bench/K1-1")
    for one in page.locator("main button, main a.button").all():
        box = one.bounding_box()
        assert box["width"] >= 56
        assert box["height"] >= 56
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    size = page.locator(".step p").first.evaluate("(one) => parseFloat(getComputedStyle(one).fontSize)")
    assert size >= 20
