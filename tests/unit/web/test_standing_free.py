"""Every page of a job says of a cabinet that stands free whether it tips: schedule, sheet and bench."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

import pytest
from fastapi.testclient import TestClient
from tests.unit.web.test_quick import Elements

from drawerwright.catalogue.families import load_families
from drawerwright.store import Store, StoredJob
from drawerwright.web.schedule.cabinets import with_cabinet
from drawerwright.web.standing_free import balances_of_values

HTML = {"accept": "text/html"}


def values_of(**cabinet: Any) -> dict[str, Any]:
    """An invented bank of three drawers that stands free, and one drawer in no cabinet."""

    def drawer(row: int) -> dict[str, Any]:
        opening = {"width": 564, "height": 200, "depth": 545, "floor": 18 + (row - 1) * 220}
        return {"id": f"A{row}", "cabinet": "A/1", "row": row, "opening": opening, "contents": "20 kg"}

    bank = {
        "id": "A/1",
        "freestanding": True,
        "size": {"width": 600, "height": 800, "depth": 560},
        "mass": 35,
        **cabinet,
    }
    alone = {"id": "T1", "opening": {"width": 562, "height": 168, "depth": 530}}
    drawers = [alone, *(drawer(row) for row in (1, 2, 3))]
    return {
        "title": "Invented",
        "units": "mm",
        "defaults": {"side": 16},
        "cabinet": [bank],
        "drawer": drawers,
    }


@pytest.fixture
def job(store: Store) -> StoredJob:
    return store.create_job(values_of())


def page_text(client: TestClient, address: str) -> str:
    answer = client.get(address, headers=HTML)
    assert answer.status_code == 200, answer.text[:500]
    return answer.text


def test_schedule_sheet_and_bench_say_that_a_bank_tips_with_mark_word_margin_and_what_would_do(
    client: TestClient, job: StoredJob
) -> None:
    (told,) = balances_of_values(values_of(), load_families(None))
    assert told.state == "stop"
    home = f"/jobs/{job.id}"
    for address in (home, f"{home}/drawers/A1", f"{home}/bench", f"{home}/bench/A2"):
        text = page_text(client, address)
        page = Elements(text)
        assert len(page.of("div", **{"class": "note free stop"})) == 1, address
        words = " ".join(page.text.split())
        assert "Tips" in words
        assert told.margin in words, address
        assert "Cabinet A/1 stands free." in words
        for said in (
            "Anchor it to the wall",
            "an interlock",
            "ballast",
            "Local codes",
            "no standard is said",
        ):
            assert said in words, (address, said)
        (link,) = (one["href"] for one in page.of("a") if "#balance-" in one.get("href", ""))
        assert link.startswith(f"{home}/cabinets#balance-")
    assert 'id="balance-A/1"' in page_text(client, f"{home}/cabinets")


def test_a_drawer_of_no_cabinet_says_nothing_of_tipping(client: TestClient, job: StoredJob) -> None:
    for address in (f"/jobs/{job.id}/drawers/T1", f"/jobs/{job.id}/bench/T1"):
        assert "note free" not in page_text(client, address)


def test_a_job_in_which_nothing_stands_free_says_nothing_of_tipping(client: TestClient, store: Store) -> None:
    fast = store.create_job(values_of(freestanding=False))
    for address in ("", "/bench", "/drawers/A1", "/bench/A1"):
        assert "note free" not in page_text(client, f"/jobs/{fast.id}{address}")


def test_a_change_of_the_contents_is_told_with_what_follows_a_drawing_and_with_the_totals(
    client: TestClient, job: StoredJob
) -> None:
    home = f"/jobs/{job.id}"
    (before,) = balances_of_values(values_of(), load_families(None))
    part = page_text(client, f"{home}/drawers/A1?contents=5+kg&fragment=rest")
    assert 'data-swap="free"' in part
    assert "stands free" in part
    assert before.margin not in part
    totals = page_text(client, f"{home}/totals")
    assert "data-free-now" in totals
    assert before.margin in totals


def test_freestanding_as_it_is_typed_into_a_form_counts_and_a_default_cabinet_too() -> None:
    families = load_families(None)
    fast = values_of(freestanding=False)
    assert not balances_of_values(fast, families)
    assert balances_of_values(with_cabinet(fast, "A/1", {"freestanding": "true"}), families)
    assert not balances_of_values(with_cabinet(values_of(), "A/1", {"freestanding": "false"}), families)
    values = values_of()
    for drawer in values["drawer"][1:]:
        del drawer["cabinet"]
    values["defaults"]["cabinet"] = "A/1"
    del values["drawer"][0]
    (told,) = balances_of_values(values, families)
    assert told.cabinet == "A/1"


def test_a_cabinet_whose_drawers_do_not_read_is_left_out_until_they_do() -> None:
    values = values_of()
    values["drawer"][1]["opening"]["width"] = "wide"
    assert balances_of_values(values, load_families(None)) == ()


def test_a_drawer_that_fits_nothing_is_told_to_be_left_out_of_the_balance() -> None:
    values = values_of()
    values["drawer"][3]["opening"]["depth"] = 60
    (told,) = balances_of_values(values, load_families(None))
    assert "no slide fits, so its mass is left out" in told.says


def test_the_address_of_a_balance_is_that_of_its_cabinet(client: TestClient, job: StoredJob) -> None:
    assert f"#balance-{quote('A/1')}" in page_text(client, f"/jobs/{job.id}")
