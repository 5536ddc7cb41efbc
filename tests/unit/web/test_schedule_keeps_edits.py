"""Edits of a schedule: one that cannot be kept costs no other, and undo takes back one of them alone."""

from __future__ import annotations

import re
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Store, StoredJob

PEOPLE = {"accept": "text/html"}


def words_of(html: str) -> str:
    """The text of a page, without its tags."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def measured(name: str, width: float = 562, **more: Any) -> dict[str, Any]:
    """One measured drawer."""
    return {"id": name, "opening": {"width": width, "height": 168, "depth": 530}, **more}


def kept(store: Store, *drawers: dict[str, Any]) -> StoredJob:
    """A stored job of 16 mm sides."""
    return store.create_job({"title": "Loft (invented)", "defaults": {"side": 16}, "drawer": list(drawers)})


def edited(client: TestClient, job: StoredJob, *edits: dict[str, Any], based_on: int = 1, **more: Any) -> Any:
    """The answer to edits of a script."""
    reply = client.post(f"/jobs/{job.id}/edits", json={"based_on": based_on, "edits": list(edits), **more})
    assert reply.status_code == 200, reply.text
    return reply.json()


def typed(row: int, key: str, text: str) -> dict[str, Any]:
    """One cell typed by a script."""
    return {"do": "set", "row": row, "key": key, "text": text}


def test_a_cell_that_cannot_be_kept_costs_no_other_cell_of_its_batch(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"), measured("B"), measured("C"))
    told = edited(
        client,
        job,
        typed(0, "opening.width", "577"),
        typed(1, "opening.width", "578"),
        typed(1, "note", "x" * 10_001),
        typed(1, "note", "half a \0 sign"),
        {"do": "share", "key": "title", "text": "x" * 10_001},
        typed(2, "opening.width", "579"),
    )
    assert [one["at"] for one in told["refused"]] == [2, 3, 4]
    assert told["refused"][0]["where"] == "row 2 note"
    assert "10000 at most" in told["refused"][0]["says"]
    values = store.job(job.id).values
    assert [one["opening"]["width"] for one in values["drawer"]] == [577, 578, 579]
    assert all("note" not in one for one in values["drawer"])
    assert values["title"] == "Loft (invented)"


def test_edits_behind_one_that_does_not_read_are_told_and_those_before_it_are_saved(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"), measured("B"))
    told = edited(client, job, typed(0, "note", "one"), {"do": "burn", "row": 0}, typed(1, "note", "two"))
    assert [one["at"] for one in told["refused"]] == [1, 2]
    assert store.job(job.id).values["drawer"] == [measured("A", note="one"), measured("B")]


def test_a_form_with_a_cell_that_cannot_be_kept_saves_the_others_and_says_so(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    fields = {"based_on": "1", "r0.note": "x" * 10_001, "r0.opening.width": "577"}
    reply = client.post(f"/jobs/{job.id}", data=fields, headers=PEOPLE)
    assert "not saved: row 1 note" in words_of(reply.text)
    assert store.job(job.id).values["drawer"] == [measured("A", 577)]
    sheet = client.post(f"/jobs/{job.id}/drawers/A", data={"based_on": "2", "note": "x" * 10_001})
    assert sheet.status_code == 422


def test_a_pasted_cell_that_cannot_be_kept_is_told_and_the_rest_goes_in(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    text = "id\twidth\tnote\nB\t462\t" + "x" * 10_001 + "\nC\t463\tshort\n"
    told = edited(client, job, {"do": "paste", "row": 1, "text": text})
    assert any("row 2 note was not taken" in remark for remark in told["remarks"])
    drawers = store.job(job.id).values["drawer"]
    assert [one["id"] for one in drawers] == ["A", "B", "C"]
    assert drawers[2]["note"] == "short"


def test_edits_that_come_together_are_taken_back_one_by_one(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"), measured("B"))
    edits = [typed(0, "note", "one"), typed(1, "note", "two"), typed(0, "note", "three")]
    told = edited(client, job, *edits, then="undo")
    assert [one["note"] for one in store.job(job.id).values["drawer"]] == ["one", "two"]
    for _ in range(2):
        told = edited(client, job, based_on=told["revision"], then="undo")
    assert store.job(job.id).values["drawer"] == [measured("A"), measured("B")]
    before = told["revision"]
    told = edited(client, job, based_on=before, then="undo")
    assert told["remarks"] == ["there is nothing to take back"]
    assert told["revision"] == before


def test_undo_on_a_page_that_is_older_than_what_is_stored_shows_the_newest_and_says_so(
    client: TestClient, store: Store
) -> None:
    job = kept(store, measured("A"))
    store.save_drawer(job.id, "A", measured("A", 500), based_on=1)
    told = edited(client, job, then="undo")
    assert told["revision"] == 2
    assert told["can_undo"] is True
    assert 'value="500"' in told["rows"]["0"]
    assert "in revision 1, which this page showed" in told["remarks"][0]
    reply = client.post(f"/api/v1/jobs/{job.id}/undo", json={"based_on": 1})
    assert reply.status_code == 422
    (error,) = reply.json()["errors"]
    assert (error["value"], error["try"]) == ("revision 1", "revision 2, the newest")


def test_both_rows_of_one_id_are_told_and_both_are_answered_again(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"), measured("B"), measured("C"))
    told = edited(client, job, typed(0, "id", "B"))
    assert sorted(told["rows"]) == ["0", "1"]
    assert "is the id of row 2, too" in words_of(told["rows"]["0"])
    assert "is the id of drawer 1 already" in words_of(told["rows"]["1"])
    assert "verdict fits" not in told["rows"]["0"] + told["rows"]["1"]
    back = edited(client, job, typed(0, "id", "A"), based_on=2)
    assert sorted(back["rows"]) == ["0", "1"]
    assert all('class="verdict fits' in row for row in back["rows"].values())


@pytest.mark.parametrize("name", [".", "..", " .. "])
def test_a_drawer_that_no_address_could_open_is_told_at_its_row(
    client: TestClient, store: Store, name: str
) -> None:
    job = kept(store, measured("A"))
    told = edited(client, job, typed(0, "id", name))
    assert "it has nothing but dots" in words_of(told["rows"]["0"])


def test_a_long_paste_comes_back_as_the_first_piece_with_the_way_to_the_others(
    client: TestClient, store: Store
) -> None:
    job = kept(store)
    rows = "".join(f"D{at}\t562\n" for at in range(450))
    paste = {"do": "paste", "row": 0, "text": "id\twidth\n" + rows}
    told = edited(client, job, paste, to_end=True)
    assert told["count"] == 450
    assert sorted(map(int, told["rows"])) == list(range(200))
    assert told["to_end"] is False
    assert "401 to 450" in told["pieces"]
    back = edited(client, job, based_on=2, then="undo")
    assert (back["to_end"], back["pieces"].strip()) == (True, "")


def test_rows_written_below_a_full_piece_stay_on_the_page(client: TestClient, store: Store) -> None:
    job = kept(store, *({"id": f"D{at}"} for at in range(200)))
    told = edited(client, job, typed(200, "opening.width", "500"), to_end=True)
    assert "200" in told["rows"]
    assert told["to_end"] is True


def test_a_job_in_the_bin_is_shown_and_not_changed(client: TestClient, store: Store) -> None:
    job = kept(store, measured("A"))
    addresses = (f"/jobs/{job.id}", f"/jobs/{job.id}/drawers/A")
    assert not any("<fieldset disabled" in client.get(address).text for address in addresses)
    store.bin_job(job.id)
    for address in addresses:
        html = client.get(address).text
        assert "<fieldset disabled" in html
        assert "schedule.js" not in html
    edit = {"based_on": 1, "edits": [typed(0, "note", "typed")]}
    form = {"based_on": "1", "r0.note": "typed"}
    replies = [
        client.post(f"/jobs/{job.id}/edits", json=edit),
        client.post(f"/jobs/{job.id}", data=form),
        client.post(f"/jobs/{job.id}", data={"based_on": "1", "do": "undo"}),
        client.post(f"/jobs/{job.id}/drawers/A", data={"based_on": "1", "note": "typed"}),
        client.put(f"/api/v1/jobs/{job.id}", json={"based_on": 1, "values": {}}),
        client.delete(f"/api/v1/jobs/{job.id}/drawers/A", params={"based_on": 1}),
    ]
    assert [reply.status_code for reply in replies] == [422] * 6
    assert all("lies in the bin" in reply.text for reply in replies)
    assert store.job(job.id).revision == 1


def test_other_units_keep_what_bare_numbers_mean_unless_they_are_to_be_read_anew(
    client: TestClient, store: Store
) -> None:
    values = {
        "defaults": {"side": 16, "front": {"overlay": {"left": 12, "right": "12 mm"}}},
        "cabinet": [{"id": "K", "inside_width": 562.5, "first_row": 45, "pitch": 32, "mass": 30}],
        "drawer": [
            {
                "id": "7",
                "cabinet": "K",
                "row": 2,
                "opening": {"width": [562, 561.5], "height": "168", "depth": "20 7/8 in"},
                "slide": "house-16/500",
                "contents": 20,
                "door": {"hinge": "left", "opens": 95, "thickness": 19},
                "quantity": 3,
                "note": "12",
            }
        ],
    }
    job = store.create_job(values)
    edit = {"do": "share", "key": "units", "text": "in"}
    edited(client, job, edit)
    kept_values = store.job(job.id).values
    assert kept_values["units"] == "in"
    assert kept_values["defaults"] == {
        "side": "16 mm",
        "front": {"overlay": {"left": "12 mm", "right": "12 mm"}},
    }
    assert kept_values["cabinet"] == [
        {"id": "K", "inside_width": "562.5 mm", "first_row": "45 mm", "pitch": "32 mm", "mass": "30 kg"}
    ]
    (drawer,) = kept_values["drawer"]
    assert drawer == {
        "id": "7",
        "cabinet": "K",
        "row": 2,
        "opening": {"width": ["562 mm", "561.5 mm"], "height": "168 mm", "depth": "20 7/8 in"},
        "slide": "house-16/500 mm",
        "contents": "20 kg",
        "door": {"hinge": "left", "opens": 95, "thickness": "19 mm"},
        "quantity": 3,
        "note": "12",
    }
    before, after = (
        client.get(f"/api/v1/jobs/{job.id}/fit?revision={number}").json()["drawers"][0] for number in (1, 2)
    )
    margins = [[(one["id"], one["margin"]) for one in fit["checks"]] for fit in (before, after)]
    assert len(margins[0]) > 5
    assert margins[0] == margins[1], "every length and mass means what it meant"

    other = store.create_job(values)
    edited(client, other, {**edit, "numbers": "reread"})
    assert store.job(other.id).values["drawer"] == values["drawer"]


@pytest.mark.parametrize(("numbers", "width"), [("keep", "562 mm"), ("reread", 562)])
def test_a_form_says_what_becomes_of_numbers_where_the_unit_changes(
    client: TestClient, store: Store, numbers: str, width: object
) -> None:
    job = kept(store, measured("A"))
    assert 'name="numbers" value="reread"' in client.get(f"/jobs/{job.id}").text
    fields = {"based_on": "1", "units": "in", "numbers": numbers, "r0.opening.width": "562"}
    client.post(f"/jobs/{job.id}", data=fields)
    values = store.job(job.id).values
    assert (values["units"], values["drawer"][0]["opening"]["width"]) == ("in", width)
