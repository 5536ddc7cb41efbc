"""The schedule in a browser: pasted, typed, moved by keyboard, changed by two, kept while it is cut off."""

from __future__ import annotations

from typing import Any

import pytest
from tests.browser.conftest import ConsoleFaults, Server, ServerProcess, wait_for

ROWS = "\n".join(
    f"P{number:02d}\t{400 + 5 * number},5\t168\t530\t16\t{5 + number % 20} kg" for number in range(1, 61)
)
PASTED = f"Drawer\tWidth (mm)\tHeight\tDepth\tSides\tContents\n{ROWS}\n"


def cell(page: Any, row: int, key: str) -> Any:
    """The cell of a row, counted from 0."""
    return page.locator("table.rows tbody").nth(row).locator(f'[data-key="{key}"] input')


def verdict(page: Any, row: int) -> Any:
    """What came of a row."""
    return page.locator("table.rows tbody").nth(row).locator(".verdict-of")


def ready(page: Any) -> None:
    """Wait until the page's script listens."""
    page.locator('#schedule[data-ready="1"]').wait_for()


def saved(page: Any) -> None:
    """Wait until nothing is on its way."""
    page.locator('#schedule[data-state="idle"]').wait_for()


def new_job(server: Server, drawers: list[dict[str, Any]]) -> Any:
    """A stored job with these drawers."""
    values = {"title": "Boathouse (invented)", "defaults": {"side": 16}, "drawer": drawers}
    return server.store.create_job(values)


def measured(name: str, width: float = 562, **more: Any) -> dict[str, Any]:
    """One measured drawer."""
    return {"id": name, "opening": {"width": width, "height": 168, "depth": 530}, **more}


def paste(page: Any, target: Any, text: str) -> None:
    """Paste text onto a cell, as the clipboard would."""
    target.evaluate(
        """(input, text) => {
          const data = new DataTransfer();
          data.setData('text/plain', text);
          input.focus();
          const how = { clipboardData: data, bubbles: true, cancelable: true };
          input.dispatchEvent(new ClipboardEvent('paste', how));
        }""",
        text,
    )


def test_from_an_empty_store_sixty_rows_are_pasted_answered_and_moved_by_keyboard_alone(
    server: Server, browser_page: Any
) -> None:
    page = browser_page
    page.goto(f"{server.url}/jobs")
    page.get_by_label("Title").fill("Boathouse (invented)")
    page.get_by_role("button", name="Begin").click()
    ready(page)
    paste(page, cell(page, 0, "id"), PASTED)
    wait_for(lambda: page.locator("tbody.drawer a.verdict").count() == 60, "sixty answers")
    job = server.store.jobs()[0]
    values = server.store.job(job.id).values
    assert [one["id"] for one in values["drawer"]] == [f"P{number:02d}" for number in range(1, 61)]
    assert values["drawer"][0]["opening"] == {"width": 405.5, "height": 168, "depth": 530}
    assert job.revision == 2, "sixty rows are one save"
    saved(page)

    cell(page, 2, "opening.width").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("455")
    page.keyboard.press("Enter")
    page.keyboard.press("Alt+ArrowUp")
    page.keyboard.press("Alt+ArrowUp")
    wait_for(
        lambda: (
            [one["id"] for one in server.store.job(job.id).values["drawer"][:5]]
            == ["P01", "P04", "P02", "P03", "P05"]
        ),
        "the fourth row to be moved up twice",
    )
    assert server.store.job(job.id).values["drawer"][3]["opening"]["width"] == 455
    saved(page)
    assert page.evaluate("document.activeElement.name") == "r1.opening.width", "the focus goes with its row"
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.name") == "r2.opening.height"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.name") == "r2.opening.depth", "Tab is no trap"


def test_a_cell_that_does_not_read_is_told_under_its_row_and_undo_takes_it_back(
    server: Server, browser_page: Any
) -> None:
    job = new_job(server, [measured("A"), measured("B")])
    page = browser_page
    page.goto(f"{server.url}/jobs/{job.id}")
    ready(page)
    cell(page, 0, "opening.width").fill("wide")
    page.keyboard.press("Enter")
    saved(page)
    assert cell(page, 0, "opening.width").get_attribute("aria-invalid") == "true"
    assert "cannot be read as a length" in page.locator("#wrong-0").inner_text()
    assert "does not read" in verdict(page, 0).inner_text().lower()
    assert "fits" in verdict(page, 1).inner_text().lower()
    page.get_by_role("button", name="Undo").click()
    wait_for(lambda: cell(page, 0, "opening.width").input_value() == "562", "the old width to be back")
    assert "fits" in verdict(page, 0).inner_text().lower()
    assert server.store.job(job.id).values["drawer"][0] == measured("A")


def test_rows_are_added_duplicated_and_deleted_and_the_totals_follow(
    server: Server, browser_page: Any
) -> None:
    job = new_job(server, [measured("A-1")])
    page = browser_page
    page.goto(f"{server.url}/jobs/{job.id}")
    ready(page)
    cell(page, 0, "id").focus()
    page.get_by_role("button", name="Duplicate").click()
    saved(page)
    assert cell(page, 1, "id").input_value() == "A-2"
    cell(page, 2, "opening.width").fill("440")
    cell(page, 2, "opening.height").fill("168")
    cell(page, 2, "opening.depth").fill("530")
    page.keyboard.press("Enter")
    saved(page)
    wait_for(lambda: cell(page, 2, "id").input_value() == "A-3", "the new row's id")
    wait_for(lambda: page.locator("[data-totals] strong").first.inner_text() == "3", "the totals")
    page.locator('[aria-label="Pick A-1"]').check()
    page.locator('[aria-label="Pick A-2"]').check()
    page.get_by_role("button", name="Delete").click()
    saved(page)
    assert [one["id"] for one in server.store.job(job.id).values["drawer"]] == ["A-3"]
    page.get_by_role("button", name="Undo").click()
    wait_for(lambda: len(server.store.job(job.id).values["drawer"]) == 3, "the deleted rows to be back")


def test_two_pages_that_change_one_drawer_are_shown_both_versions_and_lose_nothing(
    server: Server, new_page: Any
) -> None:
    job = new_job(server, [measured("A"), measured("B")])
    first, second = new_page(), new_page()
    for page in (first, second):
        page.goto(f"{server.url}/jobs/{job.id}")
        ready(page)
    cell(first, 0, "opening.width").fill("500")
    first.keyboard.press("Tab")
    saved(first)
    cell(second, 1, "note").fill("by the window")
    second.keyboard.press("Tab")
    saved(second)
    wait_for(lambda: cell(second, 0, "opening.width").input_value() == "500", "the other's edit to be shown")

    cell(first, 0, "opening.width").fill("510")
    first.keyboard.press("Tab")
    saved(first)
    cell(second, 0, "opening.width").fill("520")
    second.keyboard.press("Tab")
    second.wait_for_url("**/conflict?**")
    told = second.locator("table.sides").inner_text()
    assert "510" in told
    assert "520" in told
    second.get_by_label("Opening width: theirs").check()
    second.get_by_role("button", name="Save what is chosen").click()
    second.wait_for_url(f"**/jobs/{job.id}")
    values = server.store.job(job.id).values
    assert values["drawer"][0]["opening"]["width"] == 510
    assert values["drawer"][1]["note"] == "by the window"
    kept = next(one for one in server.store.revisions(job.id) if one.how == "kept")
    assert server.store.job(job.id, kept.number).values["drawer"][0]["opening"]["width"] == 520


@pytest.mark.parametrize("reload", [False, True], ids=["the page stays", "the page is closed meanwhile"])
def test_a_server_that_is_killed_in_the_midst_of_edits_loses_none_of_them(
    server_process: ServerProcess, new_page: Any, console_faults: ConsoleFaults, reload: bool
) -> None:
    console_faults.forgive("ERR_CONNECTION_REFUSED|Failed to fetch|ERR_EMPTY_RESPONSE|ERR_CONNECTION_RESET")
    job = new_job(server_process, [measured("A"), measured("B"), measured("C")])
    page = new_page()
    page.goto(f"{server_process.url}/jobs/{job.id}")
    ready(page)
    cell(page, 0, "opening.width").fill("500")
    page.keyboard.press("Enter")
    saved(page)
    server_process.stop()
    for row, width in ((0, "501"), (1, "502"), (2, "503")):
        cell(page, row, "opening.width").fill(width)
        page.keyboard.press("Enter")
    page.get_by_text("Not reachable, 3 edits kept here").wait_for()
    cell(page, 2, "opening.width").focus()
    page.keyboard.press("Alt+ArrowUp")
    page.get_by_text("Not reachable, 4 edits kept here").wait_for()
    if reload:
        other = page.context.new_page()
        page.close()
    server_process.start()
    if reload:
        other.goto(f"{server_process.url}/jobs/{job.id}")
    wait_for(
        lambda: (
            [
                (one["id"], one["opening"]["width"])
                for one in server_process.store.job(job.id).values["drawer"]
            ]
            == [("A", 501), ("C", 503), ("B", 502)]
        ),
        "every edit to be stored",
    )
    shown = other if reload else page
    wait_for(lambda: cell(shown, 1, "id").input_value() == "C", "the row moved on the page")
    assert shown.locator("[data-unreachable]").is_hidden()


def test_without_a_script_rows_are_typed_saved_moved_and_pasted(server: Server, new_page: Any) -> None:
    page = new_page(java_script_enabled=False)
    page.goto(f"{server.url}/jobs")
    page.get_by_label("Title").fill("Boathouse (invented)")
    page.get_by_role("button", name="Begin").click()
    for key, text in (
        ("id", "A"),
        ("opening.width", "562"),
        ("opening.height", "168"),
        ("opening.depth", "530"),
        ("side", "16"),
    ):
        cell(page, 0, key).fill(text)
    page.get_by_role("button", name="Save").click()
    assert "Fits" in verdict(page, 0).inner_text()
    page.get_by_text("Paste from a spreadsheet").click()
    page.get_by_label("Cells").fill("B\t\t\t462\t168\t530\t16")
    page.get_by_role("button", name="Put in the schedule").click()
    assert cell(page, 1, "id").input_value() == "B"
    page.get_by_label("Pick B").check()
    cell(page, 0, "note").fill("typed and not yet saved")
    page.get_by_role("button", name="Move up").click()
    assert cell(page, 0, "id").input_value() == "B"
    assert cell(page, 1, "note").input_value() == "typed and not yet saved"


def test_on_a_phone_each_drawer_is_a_block_and_nothing_goes_sideways(server: Server, new_page: Any) -> None:
    job = new_job(server, [measured("A"), measured("B", 300)])
    page = new_page(viewport={"width": 360, "height": 780})
    for end in ("", "/cabinets", "/history"):
        page.goto(f"{server.url}/jobs/{job.id}{end}")
        assert page.evaluate("document.documentElement.scrollWidth") == 360
    page.goto(f"{server.url}/jobs/{job.id}")
    ready(page)
    first, second = page.locator("table.rows tbody").nth(0), page.locator("table.rows tbody").nth(1)
    assert second.bounding_box()["y"] >= first.bounding_box()["y"] + first.bounding_box()["height"]
    width = cell(page, 0, "opening.width").bounding_box()
    assert width["height"] >= 24
    assert verdict(page, 0).is_visible()


@pytest.mark.parametrize("end", ["", "/cabinets", "/history", "/choice?aim=fewest_lengths"])
@pytest.mark.parametrize(
    "how", [{"width": 360, "scheme": "dark"}, {"width": 1600, "scheme": "light"}], ids=str
)
def test_pages_of_a_job_are_without_a_serious_finding_of_axe(
    server: Server, new_page: Any, end: str, how: dict[str, Any]
) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    job = new_job(server, [measured("A", cabinet="K", row=1), measured("B", "wide")])
    page = new_page(viewport={"width": how["width"], "height": 900}, color_scheme=how["scheme"])
    page.goto(f"{server.url}/jobs/{job.id}{end}")
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    found = axe.Axe().run(page).response["violations"]
    assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []
