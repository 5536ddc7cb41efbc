"""What is sent is not sent back at any length, and readings and questions have an end."""

from __future__ import annotations

from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.errors import Fault
from drawerwright.web.faults import LONGEST_SHOWN, MOST_TOLD, as_told

DRAWER = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
PAGE = {"Accept": "text/html"}


def errors_of(answer: Any) -> list[dict[str, str]]:
    assert answer.status_code == 422, answer.text
    return list(answer.json()["errors"])


@pytest.mark.parametrize(
    "body",
    [
        {"job": {"drawer": [DRAWER], **{f"key{at}": 1 for at in range(3_000)}}},
        {"job": {"drawer": [{**DRAWER, **{f"key{at}": 1 for at in range(500)}}]}},
        {"job": {"drawer": [DRAWER]}, **{f"key{at}": 1 for at in range(3_000)}},
        {"job": {"drawer": [{**DRAWER, "id": f"A{at}", "side": -1} for at in range(300)]}},
    ],
    ids=["keys of a job", "keys of a drawer", "keys of a body", "drawers"],
)
def test_of_very_many_faults_the_first_are_told_and_how_many_more(
    client: TestClient, body: dict[str, Any]
) -> None:
    answer = client.post("/api/v1/fit", json=body)
    errors = errors_of(answer)
    assert len(errors) == MOST_TOLD + 1
    assert errors[-1]["where"].endswith(" more")
    assert int(errors[-1]["where"].split()[0]) >= 100
    assert len(answer.content) < 60_000


def test_a_hundred_faults_are_told_one_by_one() -> None:
    faults = [Fault(f"place {at}", "", "is wrong", "") for at in range(MOST_TOLD)]
    assert as_told(faults) == tuple(faults)
    assert as_told([*faults, faults[0]])[-1] == Fault(
        "1 more", "", "are not told here", "these first, then the same again"
    )


def test_a_fault_of_something_long_shows_its_beginning() -> None:
    (told,) = as_told([Fault("A" * 5_000, "b", "is wrong", "c" * LONGEST_SHOWN)])
    assert told == Fault("A" * (LONGEST_SHOWN - 1) + "…", "b", "is wrong", "c" * LONGEST_SHOWN)


def test_a_page_of_a_fault_of_many_keys_is_small(client: TestClient) -> None:
    keys = {f"k{at}": "1" for at in range(700)}
    answer = client.get("/", params=keys, headers=PAGE)
    assert answer.status_code == 422
    assert len(answer.content) < 500_000
    assert answer.text.count("is not a known key") <= 2 * MOST_TOLD


@pytest.mark.parametrize(
    "path", ["/", "/api/v1/quick", "/api/v1/compare", "/api/v1/quick/carry", "/slides/compare"]
)
def test_a_question_longer_than_an_address_may_be_is_refused_whole(client: TestClient, path: str) -> None:
    long = client.get(path, params={"width": "562;" * 5_000, "height": 168, "depth": 530, "side": 16})
    (error,) = errors_of(long)
    assert error["where"] == "the address"
    assert "8000 at most" in error["says"]


def test_a_hundred_readings_of_a_length_are_enough(client: TestClient) -> None:
    def fitted(count: int) -> Any:
        opening = {**DRAWER["opening"], "width": [562] * count}  # type: ignore[dict-item]
        return client.post("/api/v1/fit", json={"job": {"drawer": [{**DRAWER, "opening": opening}]}})

    assert fitted(100).status_code == 200
    (error,) = errors_of(fitted(101))
    assert error["where"] == "job drawer A opening.width"
    assert error["says"] == "holds 101 readings, 100 at most"


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("pitch", [5e-324, 0.001, 4.99, "1/16 in"])
def test_rows_of_holes_that_run_into_each_other_are_refused(client: TestClient, pitch: Any) -> None:
    cabinets = [{"id": "C", "first_row": 37, "pitch": pitch}]
    drawers = [{**DRAWER, "cabinet": "C", "opening": {**DRAWER["opening"], "floor": 900}}]  # type: ignore[dict-item]
    (error,) = errors_of(client.post("/api/v1/fit", json={"job": {"cabinet": cabinets, "drawer": drawers}}))
    assert error["where"] == "job cabinet C pitch"
    assert "its holes run into each other" in error["says"]
