"""Edits of a schedule that come late, come back refused, or were never finished: none of them is lost."""

from __future__ import annotations

from typing import Any

from tests.browser.conftest import ConsoleFaults, Server, wait_for

OUT_OF_REACH = "ERR_INTERNET_DISCONNECTED|Failed to fetch"


def cell(page: Any, row: int, key: str) -> Any:
    """The cell of a row, counted from 0."""
    return page.locator("table.rows tbody").nth(row).locator(f'[data-key="{key}"] input')


def opened(page: Any, server: Server, job: Any) -> None:
    """Open a job's schedule and wait until its script listens."""
    page.goto(f"{server.url}/jobs/{job.id}")
    page.locator('#schedule[data-ready="1"]').wait_for()


def idle(page: Any) -> None:
    """Wait until nothing is on its way."""
    page.locator('#schedule[data-state="idle"]').wait_for()


def new_job(server: Server, *names: str) -> Any:
    """A stored job with these drawers."""
    opening = {"width": 562, "height": 168, "depth": 530}
    drawers = [{"id": name, "opening": opening} for name in names]
    return server.store.create_job({"title": "Loft (invented)", "defaults": {"side": 16}, "drawer": drawers})


def widths(server: Server, job: Any) -> list[Any]:
    """Stored widths, row by row."""
    return [one["opening"]["width"] for one in server.store.job(job.id).values["drawer"]]


def type_into(page: Any, row: int, key: str, text: str) -> None:
    """Fill a cell and leave it."""
    cell(page, row, key).fill(text)
    cell(page, row, key).blur()


def test_of_edits_typed_while_cut_off_only_the_one_that_cannot_be_kept_is_left_and_told(
    server: Server, browser_page: Any, console_faults: ConsoleFaults
) -> None:
    console_faults.forgive(OUT_OF_REACH)
    job = new_job(server, "A", "B", "C")
    page = browser_page
    opened(page, server, job)
    page.context.set_offline(True)
    type_into(page, 0, "opening.width", "577")
    type_into(page, 1, "opening.width", "578")
    type_into(page, 1, "note", "x" * 10_001)
    type_into(page, 2, "opening.width", "579")
    page.get_by_text("Not reachable, 4 edits kept here").wait_for()
    page.context.set_offline(False)
    wait_for(lambda: widths(server, job) == [577, 578, 579], "the three widths to be stored")
    told = page.locator("[data-refused] li")
    told.wait_for()
    assert "not saved: B, note" in told.inner_text()
    assert len(cell(page, 1, "note").input_value()) == 10_001, "what was typed stays in its cell"
    assert cell(page, 1, "note").get_attribute("aria-invalid") == "true"
    page.set_viewport_size({"width": 360, "height": 780})
    assert page.evaluate("document.documentElement.scrollWidth") == 360, "a long text goes not sideways"
    page.set_viewport_size({"width": 1600, "height": 1000})
    page.reload()
    told.wait_for()
    cell(page, 1, "note").fill("short")
    page.keyboard.press("Enter")
    wait_for(lambda: server.store.job(job.id).values["drawer"][1].get("note") == "short", "the shorter note")
    assert told.count() == 0

    revision = server.store.job(job.id).revision
    page.context.set_offline(True)
    for row, width in ((0, "501"), (1, "502"), (2, "503")):
        type_into(page, row, "opening.width", width)
    page.get_by_role("button", name="Undo").click()
    page.context.set_offline(False)
    wait_for(lambda: widths(server, job) == [501, 502, 579], "the last edit alone to be taken back")
    assert server.store.job(job.id).revision == revision + 4
    idle(page)
    type_into(page, 2, "opening.width", "504")
    idle(page)
    page.evaluate("for (let at = 0; at < 3; at += 1) document.querySelector('[value=\"undo\"]').click()")
    wait_for(lambda: widths(server, job) == [577, 578, 579], "three undos to be done")


def test_undo_while_cut_off_shows_at_once_what_waits_and_says_what_it_cannot_show(
    server: Server, browser_page: Any, console_faults: ConsoleFaults
) -> None:
    console_faults.forgive(OUT_OF_REACH)
    job = new_job(server, "A", "B")
    page = browser_page
    opened(page, server, job)
    undo, redo = (page.get_by_role("button", name=name, exact=True) for name in ("Undo", "Redo"))
    told = page.locator("[data-saved]")
    page.context.set_offline(True)
    type_into(page, 0, "opening.width", "577")
    type_into(page, 1, "opening.width", "578")
    page.get_by_text("Not reachable, 2 edits kept here").wait_for()
    undo.click()
    assert cell(page, 1, "opening.width").input_value() == "562"
    assert "taken back: B width is 562 again" in told.inner_text()
    redo.click()
    assert cell(page, 1, "opening.width").input_value() == "578"
    assert "done again: B width is 578" in told.inner_text()
    undo.click()
    undo.click()
    assert [cell(page, row, "opening.width").input_value() for row in (0, 1)] == ["562", "562"]
    assert "taken back: A width is 562 again" in told.inner_text()
    undo.click()
    assert "what Undo takes back is shown once the server is back" in told.inner_text()
    redo.click()
    assert "what Redo brings back is shown once the server is back" in told.inner_text()
    page.context.set_offline(False)
    idle(page)
    assert widths(server, job) == [577, 562]
    assert [cell(page, row, "opening.width").input_value() for row in (0, 1)] == ["577", "562"]
    page.context.set_offline(True)
    type_into(page, 1, "opening.width", "579")
    cell(page, 1, "opening.width").focus()
    page.keyboard.press("Alt+ArrowUp")
    undo.click()
    page.get_by_text("what Undo takes back is shown once the server is back").wait_for()
    page.context.set_offline(False)
    idle(page)
    assert [cell(page, row, "id").input_value() for row in (0, 1)] == ["A", "B"]
    assert widths(server, job) == [577, 579]


def test_what_a_closed_page_left_is_sent_told_where_it_cannot_be_and_stopped_by_no_damage(
    server: Server, new_page: Any, console_faults: ConsoleFaults
) -> None:
    console_faults.forgive(OUT_OF_REACH)
    job = new_job(server, "A", "B")
    page = new_page()
    opened(page, server, job)
    page.context.set_offline(True)
    type_into(page, 0, "note", "x" * 10_001)
    type_into(page, 1, "opening.width", "578")
    page.get_by_text("Not reachable, 2 edits kept here").wait_for()
    page.evaluate(f"localStorage.setItem('drawerwright.edits.{job.id}.!', '{{not json')")
    page.evaluate(f"localStorage.setItem('drawerwright.edits.{job.id}.~', '{{\"basedOn\": 1}}')")
    other = page.context.new_page()
    page.close()
    other.context.set_offline(False)
    opened(other, server, job)
    wait_for(lambda: widths(server, job) == [562, 578], "what was left behind to be stored")
    wait_for(lambda: other.locator("[data-refused] li").count() == 3, "all that was not kept to be told")
    words = other.locator("[data-refused]").inner_text()
    assert "not saved: A, note" in words
    assert "{not json" in words
    assert other.locator("[data-unreachable]").is_hidden()
    for _ in range(3):
        other.get_by_role("button", name="Let it go").first.click()
    assert other.evaluate("Object.keys(localStorage).filter((key) => !key.startsWith('draft'))") == []


def test_a_cell_that_is_half_typed_and_a_sheet_that_is_left_are_not_lost(
    server: Server, browser_page: Any
) -> None:
    job = new_job(server, "A", "B")
    page = browser_page
    opened(page, server, job)
    cell(page, 0, "opening.width").fill("571")
    page.reload()
    wait_for(lambda: widths(server, job)[0] == 571, "the half typed width to be stored")
    wait_for(lambda: cell(page, 0, "opening.width").input_value() == "571", "the page to show it")
    page.goto(f"{server.url}/jobs/{job.id}/drawers/B")
    page.get_by_label("Width").first.fill("580")
    page.get_by_text("Not saved: 1 field changed").wait_for()
    page.get_by_role("link", name="Schedule").first.click()
    page.get_by_text("Drawer B has changes that were not saved").wait_for()
    page.get_by_role("link", name="show them").click()
    page.get_by_text("Not saved: 1 field changed").wait_for()
    assert page.get_by_label("Width").first.input_value() == "580"


def test_a_long_paste_shows_its_first_piece_and_the_way_to_the_others(
    server: Server, browser_page: Any
) -> None:
    job = new_job(server)
    page = browser_page
    opened(page, server, job)
    rows = "".join(f"D{at}\t562\n" for at in range(450))
    page.get_by_label("Cells").fill("id\twidth\n" + rows)
    page.get_by_role("button", name="Put in the schedule").click()
    page.get_by_role("link", name="401 to 450").wait_for()
    assert page.locator("table.rows tbody").count() == 200
    assert cell(page, 199, "id").input_value() == "D199"
    page.get_by_role("button", name="Undo").click()
    wait_for(lambda: page.locator("table.rows tbody").count() == 1, "the row to write into alone")


def test_another_unit_is_asked_about_before_it_changes_a_length(server: Server, browser_page: Any) -> None:
    job = new_job(server, "A")
    page = browser_page
    opened(page, server, job)
    page.get_by_label("Lengths in").select_option("in")
    page.get_by_text("562 becomes “562 mm”").wait_for()
    page.get_by_role("button", name="Leave it").click()
    assert page.get_by_label("Lengths in").input_value() == "mm"
    page.get_by_label("Lengths in").select_option("in")
    page.get_by_role("button", name="Change", exact=True).click()
    wait_for(lambda: server.store.job(job.id).values["units"] == "in", "the unit to be stored")
    idle(page)
    assert widths(server, job) == ["562 mm"]
    assert cell(page, 0, "opening.width").input_value() == "562 mm"
    page.get_by_role("button", name="Undo").click()
    wait_for(lambda: page.get_by_label("Lengths in").input_value() == "mm", "the unit to come back")
    assert widths(server, job) == [562]
