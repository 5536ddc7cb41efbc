"""Pages of jobs without a script: list, schedule, import, bin, history, cabinets, choice, and faults."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from httpx import Response

from drawerwright.store import Store, StoredJob

PEOPLE = {"accept": "text/html"}


def words_of(html: str) -> str:
    """The text of a page, without its tags."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def measured(name: str, width: float = 562, **more: Any) -> dict[str, Any]:
    """One measured drawer."""
    return {"id": name, "opening": {"width": width, "height": 168, "depth": 530}, **more}


def kept(store: Store, *drawers: dict[str, Any], **more: Any) -> StoredJob:
    """A stored job of 16 mm sides."""
    return store.create_job(
        {"title": "Boathouse (invented)", "defaults": {"side": 16}, "drawer": list(drawers), **more}
    )


def saved(client: TestClient, job: StoredJob, based_on: int = 1, **fields: Any) -> Response:
    """The schedule's form sent with these fields."""
    told = {"based_on": str(based_on), **{key.replace("__", "."): value for key, value in fields.items()}}
    return client.post(f"/jobs/{job.id}", data=told, headers=PEOPLE, follow_redirects=False)


def test_an_empty_store_offers_a_new_job_a_file_and_the_demo(client: TestClient) -> None:
    html = client.get("/jobs").text
    assert "There is no job yet" in html
    for action in ('action="/jobs"', 'action="/jobs/import"', 'action="/jobs/demo"'):
        assert action in html
    assert 'href="/api/v1/jobs"' in html


def test_a_job_is_begun_and_its_first_drawer_is_typed_and_answered(client: TestClient, store: Store) -> None:
    begun = client.post("/jobs", data={"title": " Boathouse ", "units": "mm"}, follow_redirects=False)
    assert begun.status_code == 303
    (card,) = store.jobs()
    assert card.title == "Boathouse"
    fields = {
        "r0.id": "A",
        "r0.opening.width": "562; 561,5",
        "r0.opening.height": "168",
        "r0.opening.depth": "530",
        "r0.side": "16",
    }
    reply = client.post(f"/jobs/{card.id}", data={"based_on": "1", **fields}, headers=PEOPLE)
    assert reply.status_code == 200
    assert store.job(card.id).values["drawer"] == [
        {"id": "A", "opening": {"width": [562, 561.5], "height": 168, "depth": 530}, "side": 16}
    ]
    assert "Fits with care" in words_of(reply.text).replace("fits", "Fits")
    assert "house-16 / 500" in reply.text


def test_a_save_that_changes_nothing_makes_no_revision(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"))
    fields = {
        "title": "Boathouse (invented)",
        "units": "mm",
        "defaults.side": "16",
        "r0.opening.width": "562",
    }
    reply = client.post(f"/jobs/{job.id}", data={"based_on": "1", **fields}, follow_redirects=False)
    assert reply.status_code == 303
    assert store.job(job.id).revision == 1


def test_a_cell_that_does_not_read_is_kept_and_told_at_its_place(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"), measured("B"))
    assert saved(client, job, **{"r0.opening.width": "wide", "r1.note": "<b>bold</b>"}).status_code == 303
    html = client.get(f"/jobs/{job.id}", headers=PEOPLE).text
    cell = re.search(r'<input name="r0\.opening\.width"[^>]*>', html)
    assert cell is not None
    assert 'value="wide"' in cell[0]
    assert 'aria-invalid="true"' in cell[0]
    assert "cannot be read as a length" in words_of(html)
    assert "<b>bold</b>" not in html
    assert html.count('class="verdict fits"') == 1


def test_an_id_that_stands_twice_is_told_at_the_second_also_in_a_long_job(
    client: TestClient, store: Store
) -> None:
    job = kept(store, *(measured(f"D{at}") for at in range(205)), measured("D3"))
    html = client.get(f"/jobs/{job.id}?from=200", headers=PEOPLE).text
    assert "is the id of row 4 already" in words_of(html)
    assert html.count('class="drawer') == 6 + 3, "six rows of the second piece and three to write into"
    assert 'aria-current="page">201 to 206' in html


@pytest.mark.parametrize(
    ("do", "picked", "ids"),
    [
        ("copy", ["0"], ["A", "A-2", "B", "C"]),
        ("remove", ["0", "2"], ["B"]),
        ("up", ["2"], ["A", "C", "B"]),
        ("down", ["0"], ["B", "A", "C"]),
        ("add", ["0"], ["A", "A-2", "B", "C"]),
        ("remove", [], ["A", "B", "C"]),
        ("remove", ["x", "-1", "99999"], ["A", "B", "C"]),
    ],
)
def test_buttons_do_their_work_on_the_rows_that_are_picked(
    client: TestClient, store: Store, do: str, picked: list[str], ids: list[str]
) -> None:
    job = kept(store, measured("A"), measured("B"), measured("C"))
    saved(client, job, do=do, pick=picked)
    assert [one["id"] for one in store.job(job.id).values["drawer"]] == ids


def test_what_was_typed_is_saved_before_a_button_does_its_work_and_undo_brings_it_back(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"), measured("B"))
    saved(client, job, do="remove", pick=["1"], **{"r0.note": "typed"})
    assert store.job(job.id).values["drawer"] == [measured("A", note="typed")]
    saved(client, job, based_on=2, do="undo")
    assert store.job(job.id).values["drawer"] == [measured("A"), measured("B")]
    saved(client, job, based_on=3, do="redo")
    assert store.job(job.id).values["drawer"] == [measured("A", note="typed")]


def test_a_paste_without_a_script_tells_what_it_did_not_take(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"))
    reply = saved(client, job, do="paste", paste="id\tcolour\twidth\nB\tred\t462\n")
    assert "column &#34;colour&#34; was not taken" in reply.text
    assert store.job(job.id).values["drawer"][1] == {"id": "B", "opening": {"width": 462}}


def test_rows_are_given_as_a_block_for_a_spreadsheet(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A", note="=1+1"), measured("B"))
    told = client.get(f"/jobs/{job.id}/block?rows=0")
    assert told.headers["content-type"].startswith("text/tab-separated-values")
    heading, row = told.text.split("\n")
    assert heading.split("\t")[:4] == ["id", "cabinet", "row", "opening.width"]
    assert row.split("\t")[-1] == "'=1+1"


def test_further_columns_are_asked_for_in_the_address_and_stay_there(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    html = client.get(f"/jobs/{job.id}?columns=mount&columns=front.gap,colour", headers=PEOPLE).text
    assert 'name="r0.mount"' in html
    assert 'name="r0.front.gap"' in html
    assert f'action="/jobs/{job.id}?columns=mount,front.gap"' in html


def test_defaults_are_shown_where_a_cell_is_empty_and_their_faults_on_top(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    assert 'placeholder="16"' in client.get(f"/jobs/{job.id}", headers=PEOPLE).text
    saved(client, job, **{"defaults.side": "thick"})
    html = client.get(f"/jobs/{job.id}", headers=PEOPLE).text
    assert "defaults.side" in words_of(html)
    field = re.search(r'<input id="d-side"[^>]*>', html)
    assert field is not None
    assert 'aria-invalid="true"' in field[0]
    assert "waits for what it shares" in words_of(html)


def test_an_edit_of_a_script_gives_back_its_row_and_those_of_its_cabinet_alone(
    client: TestClient, store: Store
) -> None:
    opening = {"height": 168, "depth": 530}
    drawers = [
        {
            "id": f"K-{row}",
            "cabinet": "K",
            "row": row,
            "opening": {"width": 562, "floor": 180 * row, **opening},
        }
        for row in (1, 2)
    ]
    job = kept(store, *drawers, measured("A"))
    edit = {"do": "set", "row": 0, "key": "opening.width", "text": "500"}
    told = client.post(f"/jobs/{job.id}/edits", json={"based_on": 1, "edits": [edit]}).json()
    assert told["revision"] == 2
    assert sorted(told["rows"]) == ["0", "1"]
    assert 'value="500"' in told["rows"]["0"]
    assert told["places"] is None
    again = client.post(f"/jobs/{job.id}/edits", json={"based_on": 1, "edits": [edit]}).json()
    assert again["revision"] == 2, "an edit that was sent twice is one edit"


def test_rows_that_somebody_else_moved_are_given_their_new_places(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"), measured("B"), measured("C"))
    store.order_drawers(job.id, ["C", "A", "B"], based_on=1)
    edit = {"do": "set", "row": 1, "key": "note", "text": "by the window"}
    told = client.post(f"/jobs/{job.id}/edits", json={"based_on": 1, "edits": [edit]}).json()
    assert told["whole"] is True
    assert told["places"] == [1, 2, 0]
    assert store.job(job.id).values["drawer"][2]["note"] == "by the window"


def test_an_edit_that_is_none_is_refused_with_its_place(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"))
    reply = client.post(f"/jobs/{job.id}/edits", json={"based_on": 1, "edits": [{"do": "burn", "row": 0}]})
    assert reply.status_code == 422
    assert reply.json()["errors"][0]["where"].startswith("edits.0")


def test_both_versions_of_a_conflict_are_shown_and_settled_key_by_key(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    saved(client, job, **{"r0.opening.width": "500", "r0.note": "theirs"})
    reply = saved(client, job, **{"r0.opening.width": "510", "r0.side": "12,7"})
    assert reply.status_code == 303
    address = reply.headers["location"]
    assert "/conflict?" in address
    html = client.get(address, headers=PEOPLE).text
    assert "changed by both" in words_of(html)
    fields = dict(re.findall(r'name="(c\d+\.\d+)" value="(?:mine|theirs)"[^>]*aria-label="([^:]+):', html))
    assert set(fields.values()) == {"Opening width", "Note", "Sides"}
    assert "opening.width" not in words_of(html)
    suggested = dict(re.findall(r'name="(c\d+\.\d+)" value="(mine|theirs)" checked', html))
    assert {fields[one]: side for one, side in suggested.items()} == {
        "Opening width": "mine",
        "Note": "theirs",
        "Sides": "mine",
    }
    based_on = re.search(r'name="based_on" value="(\d+)"', html)
    assert based_on is not None
    settled = client.post(address, data={"based_on": based_on[1], **suggested}, follow_redirects=False)
    assert settled.headers["location"] == f"/jobs/{job.id}"
    assert store.job(job.id).values["drawer"] == [measured("A", 510, note="theirs", side=12.7)]


def test_a_drawer_that_one_removed_and_the_other_changed_is_kept_or_removed_as_chosen(
    client: TestClient, store: Store
) -> None:
    for choice, left in (("mine", ["A", "B"]), ("theirs", ["B"])):
        job = kept(store, measured("A"), measured("B"))
        saved(client, job, do="remove", pick=["0"])
        address = saved(client, job, **{"r0.note": "still wanted"}).headers["location"]
        html = client.get(address, headers=PEOPLE).text
        assert "(not there)" in html
        based_on = re.search(r'name="based_on" value="(\d+)"', html)
        assert based_on is not None
        client.post(address, data={"based_on": based_on[1], "c0.0": choice})
        assert [one["id"] for one in store.job(job.id).values["drawer"]] == left


def test_two_orders_are_a_conflict_that_either_may_win(client: TestClient, store: Store) -> None:
    for choice, order in (("mine", "BAC"), ("theirs", "ACB")):
        job = kept(store, *(measured(name) for name in "ABC"))
        store.order_drawers(job.id, list("ACB"), based_on=1)
        address = saved(client, job, do="up", pick=["1"]).headers["location"]
        html = client.get(address, headers=PEOPLE).text
        assert "Order of the drawers" in html
        based_on = re.search(r'name="based_on" value="(\d+)"', html)
        assert based_on is not None
        client.post(address, data={"based_on": based_on[1], "c0.0": choice})
        assert "".join(one["id"] for one in store.job(job.id).values["drawer"]) == order


def test_every_fault_of_a_file_is_told_with_its_line_and_nothing_is_stored(
    client: TestClient, store: Store
) -> None:
    text = b"id,opening.width,opening.height,opening.depth,side\nA,wide,168,530,16\nB,562,168,deep,16\n"
    reply = client.post("/jobs/import", files={"file": ("C:\\secret\\plan.csv", text)}, headers=PEOPLE)
    assert reply.status_code == 422
    told = words_of(reply.text)
    assert "job.csv:2" in told
    assert "job.csv:3" in told
    assert "secret" not in reply.text
    assert store.jobs() == []
    nothing = client.post("/jobs/import", data={"other": "1"}, files={"x": ("a.doc", b"1")}, headers=PEOPLE)
    assert nothing.status_code == 422


def test_remarks_on_a_file_are_shown_before_its_job_is_opened(client: TestClient, store: Store) -> None:
    text = "id,opening.width,opening.height,opening.depth,side,note\nA,562,168,530,16,Küche\n".encode(
        "cp1252"
    )
    reply = client.post("/jobs/import", files={"file": ("plan.csv", text)}, headers=PEOPLE)
    assert reply.status_code == 200
    assert "Windows-1252" in reply.text
    assert f'href="/jobs/{store.jobs()[0].id}"' in reply.text


def test_the_demo_becomes_a_job_of_its_own(client: TestClient, store: Store) -> None:
    reply = client.post("/jobs/demo", headers=PEOPLE)
    assert reply.status_code == 200
    assert len(re.findall(r'class="verdict fits"', reply.text)) > 10
    assert "(invented)" in reply.text
    assert store.jobs()[0].drawers == 27
    counts = client.get(f"/jobs/{store.jobs()[0].id}/counts").text
    assert "does not fit" in counts


def test_a_job_in_the_bin_is_restored_or_deleted_once_its_title_was_typed(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    client.post(f"/jobs/{job.id}/bin")
    assert store.jobs() == []
    assert "lies in the bin" in client.get(f"/jobs/{job.id}").text
    assert "Delete for good" in client.get("/jobs").text
    client.post(f"/jobs/{job.id}/restore")
    assert [one.id for one in store.jobs()] == [job.id]
    client.post(f"/jobs/{job.id}/bin")
    refused = client.post(f"/jobs/{job.id}/delete", data={"sure": "yes"}, headers=PEOPLE)
    assert refused.status_code == 422
    assert "said again" in refused.text
    assert store.jobs(binned=True)
    client.post(f"/jobs/{job.id}/delete", data={"sure": "Boathouse (invented)"})
    assert store.jobs(binned=True) == []


def test_the_history_names_what_each_save_changed_and_an_earlier_one_is_taken_again(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    saved(client, job, **{"r0.opening.width": "500"})
    html = client.get(f"/jobs/{job.id}/history", headers=PEOPLE).text
    assert "changed drawer A: opening width" in html
    compared = words_of(client.get(f"/jobs/{job.id}/compare?from=1&to=2", headers=PEOPLE).text)
    assert "Drawer A Opening width 562 500" in compared
    client.post(f"/jobs/{job.id}/history", data={"based_on": "2", "revision": "1"})
    assert store.job(job.id).values["drawer"] == [measured("A")]
    assert store.job(job.id).revision == 3
    assert "as it was in revision 1" in client.get(f"/jobs/{job.id}/history").text
    same = words_of(client.get(f"/jobs/{job.id}/compare?from=1&to=3", headers=PEOPLE).text)
    assert "Nothing differs" in same


def test_a_cabinet_is_drawn_with_a_way_to_each_drawer_and_its_keys_are_saved(
    client: TestClient, store: Store
) -> None:
    opening = {"width": 562, "height": 168, "depth": 530}
    drawers = [
        {"id": f"K/{row} ü", "cabinet": "K", "row": row, "opening": {**opening, "floor": 180 * (row - 1)}}
        for row in (1, 2)
    ]
    job = kept(store, *drawers, measured("alone"))
    html = client.get(f"/jobs/{job.id}/cabinets", headers=PEOPLE).text
    assert f'<a href="/jobs/{job.id}/drawers/K%2F1%20%C3%BC"' in html
    assert "Elevation of cabinet K" in html
    listed = words_of(html[html.index("Drawers, from the top") :])
    assert "K/2 ü fits 0.5 mm gap each side K/1 ü fits 0.5 mm gap each side" in listed
    assert "K/1 ü fits, 0.5 mm gap each side: its sheet" in html
    assert "1 drawer stands in no cabinet" in html
    told = {
        "based_on": "1",
        "cabinet": "K",
        "key.inside_height": "704",
        "key.shelf_fixed": "true",
        "key.pitch": "",
    }
    client.post(f"/jobs/{job.id}/cabinets", data=told)
    assert store.job(job.id).values["cabinet"] == [{"id": "K", "inside_height": 704, "shelf_fixed": True}]
    client.post(f"/jobs/{job.id}/cabinets", data={"based_on": "2", "cabinet": "K", "key.rail": "thin"})
    html = client.get(f"/jobs/{job.id}/cabinets", headers=PEOPLE).text
    assert 'aria-invalid="true"' in html
    assert "cannot be read as a length" in html
    assert "Not drawn" in html


def test_slides_chosen_for_the_whole_job_are_told_with_their_cost_and_written_on_demand(
    client: TestClient, store: Store
) -> None:
    job = kept(
        store, measured("A"), {**measured("B"), "opening": {"width": 562, "height": 168, "depth": 470}}
    )
    html = client.get(f"/jobs/{job.id}/choice?aim=fewest_lengths", headers=PEOPLE).text
    assert "1 to order instead of 2" in html
    client.post(f"/jobs/{job.id}/choice?aim=fewest_lengths", data={"based_on": "1"})
    slides = {one.get("slide") for one in store.job(job.id).values["drawer"]}
    assert slides == {None, "house-16/450"}
    wrong = client.get(f"/jobs/{job.id}/choice?aim=fewest_lengths&lose_at_most=some", headers=PEOPLE)
    assert wrong.status_code == 422
    assert "cannot be read as a length" in wrong.text


@pytest.mark.parametrize("end", ["", "/history", "/cabinets", "/choice", "/totals", "/compare?from=1&to=2"])
def test_a_job_that_is_not_there_is_told_as_such(client: TestClient, end: str) -> None:
    assert client.get(f"/jobs/77{end}", headers=PEOPLE).status_code == 404


@pytest.mark.parametrize(
    ("end", "twin"),
    [
        ("", ""),
        ("/history", "/revisions"),
        ("/cabinets", "/fit"),
        ("/choice?aim=cheapest", "/fit?cheapest=true"),
        ("/compare?from=1&to=1", "/difference?from=1&amp;to=1"),
    ],
)
def test_every_page_of_a_job_names_its_twin_which_answers(
    client: TestClient, store: Store, end: str, twin: str
) -> None:
    job = kept(store, measured("A"))
    html = client.get(f"/jobs/{job.id}{end}", headers=PEOPLE).text
    assert f'type="application/json" href="/api/v1/jobs/{job.id}{twin}"' in html
    assert client.get(f"/api/v1/jobs/{job.id}{twin.replace('&amp;', '&')}").status_code == 200


@pytest.mark.parametrize("ending", ["toml", "csv", "xlsx"])
def test_a_schedule_offers_its_job_as_a_file_that_comes_in_again_the_same(
    client: TestClient, store: Store, ending: str
) -> None:
    job = kept(store, measured("A", note="=1+1"), measured("B", 462.5))
    link = f"/jobs/{job.id}/file.{ending}"
    assert f'href="{link}"' in client.get(f"/jobs/{job.id}").text
    content = client.get(link).content
    client.post("/jobs/import", files={"file": (f"plan.{ending}", content)}, headers=PEOPLE)
    again = store.job(store.jobs()[0].id)
    assert again.id != job.id
    told = client.get(f"/api/v1/jobs/{again.id}/fit").json()["drawers"]
    assert told == client.get(f"/api/v1/jobs/{job.id}/fit").json()["drawers"]


def test_no_page_of_a_job_has_a_style_or_script_within(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"))
    for end in ("", "/history", "/cabinets", "/choice"):
        html = client.get(f"/jobs/{job.id}{end}", headers=PEOPLE).text
        assert not re.search(r"\sstyle=|<style|\son[a-z]+=|<script(?![^>]*src=)", html)


def test_templates_never_mark_text_as_safe() -> None:
    import drawerwright.web

    folder = Path(drawerwright.web.__file__).parent / "templates"
    assert not [path.name for path in folder.glob("*.html") if re.search(r"\|\s*safe\b", path.read_text())]


def test_schedule_sheet_and_comparison_call_a_check_by_one_name(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A", contents="15 kg"))
    schedule = words_of(client.get(f"/jobs/{job.id}").text)
    sheet = client.get(f"/jobs/{job.id}/drawers/A").text
    asked = {"family": ["house-16", "thin-12"], "width": "562", "height": "168", "depth": "530", "side": "16"}
    compared = client.get("/slides/compare", params=asked).text
    assert "gap each side" in schedule
    for page in (sheet, compared):
        assert '<th scope="row">Gap each side</th>' in page
        assert "Side thickness" not in page


def test_elevations_of_low_and_tall_cabinets_are_lettered_alike(client: TestClient, store: Store) -> None:
    low = measured("A", 400, cabinet="K1", row=1)
    tall = [measured(f"B{row}", 900, cabinet="K2", row=row) for row in range(1, 6)]
    job = kept(store, low, *tall)
    html = client.get(f"/jobs/{job.id}/cabinets").text
    boxes = re.findall(r'<svg class="pointed" viewBox="([^"]+)"', html)
    widths = {float(box.split()[2]) for box in boxes}
    assert len(boxes) == 2
    assert len(widths) == 1
    assert widths.pop() >= 90


def brought(client: TestClient, name: str, content: bytes) -> Response:
    """A file brought in by the form of the jobs."""
    return client.post("/jobs/import", files={"file": (name, content)}, headers=PEOPLE)


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("x.pdf", b"%PDF", "try a file saved as .toml, .csv or .xlsx"),
        ("empty.csv", b"", "is empty; try the file that holds your rows"),
    ],
)
def test_a_file_that_cannot_be_brought_in_is_answered_in_words_for_people(
    client: TestClient, name: str, content: bytes, told: str
) -> None:
    answer = brought(client, name, content)
    assert answer.status_code == 422
    words = words_of(answer.text)
    assert told in words
    assert "?name=" not in words
    assert "drawerwright job new" not in words


def test_a_file_larger_than_what_is_read_is_answered_by_a_page(client: TestClient) -> None:
    answer = brought(client, "job.csv", b"x" * 30_000_000)
    assert answer.status_code == 413
    assert answer.headers["content-type"].startswith("text/html")
    assert "larger than the" in words_of(answer.text)
    assert client.post("/api/v1/jobs/import", content=b"x" * 30_000_000).json()["errors"]


def test_too_many_drawers_in_one_file_are_counted(client: TestClient) -> None:
    rows = "".join(f"D{n},562,168,530,16\n" for n in range(5_001))
    answer = brought(
        client, "job.csv", f"id,opening.width,opening.height,opening.depth,side\n{rows}".encode()
    )
    assert answer.status_code == 422
    assert "5001 drawers" in words_of(answer.text)
    assert "[…]" not in answer.text


def test_a_title_row_above_the_headings_of_a_file_is_answered_with_how_a_title_is_told(
    client: TestClient,
) -> None:
    rows = "Kitchen at the quay,,,,\nid,opening.width,opening.height,opening.depth,side\nA,562,168,530,16\n"
    words = words_of(brought(client, "job.csv", rows.encode()).text)
    assert "title,Kitchen at the quay" in words
    assert "defaults.box" not in words


def test_lengths_that_drawers_of_a_cabinet_share_are_told_with_their_unit(
    client: TestClient, store: Store
) -> None:
    shared = {"id": "K1", "first_row": 45, "pitch": 32}
    rows = [measured(name, cabinet="K1", row=row) for row, name in enumerate("AB", 1)]
    job = kept(store, *rows, cabinet=[shared])
    words = words_of(client.get(f"/jobs/{job.id}/cabinets").text)
    assert "45 mm" in words
    assert "32 mm" in words
