"""One drawer saved over HTTP: its id is the address's, two never bear one, and a refusal saves nothing."""

from __future__ import annotations

from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Store

OPENING = {"opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}


def drawer(name: object, **more: Any) -> dict[str, Any]:
    return {"id": name, **OPENING, **more}


@pytest.fixture
def job(store: Store) -> str:
    return store.create_job({"drawer": [drawer("A"), drawer("B")]}).id


def ids(store: Store, job: str) -> list[object]:
    return [one.get("id") for one in store.job(job).values["drawer"]]


def put(client: TestClient, job: str, name: str, values: object, based_on: int = 1) -> Any:
    return client.put(f"/api/v1/jobs/{job}/drawers/{name}", json={"values": values, "based_on": based_on})


def test_a_drawer_sent_without_an_id_has_that_of_its_address(
    client: TestClient, store: Store, job: str
) -> None:
    new = put(client, job, "x", {"side": 16})
    assert (new.status_code, new.json()["id"]) == (201, "x")
    changed = put(client, job, "A", {**OPENING, "note": "birch"}, 2)
    assert (changed.status_code, changed.json()["values"]["id"]) == (200, "A")
    assert ids(store, job) == ["A", "B", "x"]


def test_an_id_that_is_a_number_is_answered_by_it(client: TestClient, store: Store, job: str) -> None:
    new = put(client, job, "7", drawer(7))
    assert (new.status_code, new.json()["id"]) == (201, "7")
    assert put(client, job, "7", drawer(7, note="birch"), 2).status_code == 200
    assert ids(store, job) == ["A", "B", 7]


@pytest.mark.parametrize("name", ["", "  ", None, True, [], {}, 1.5, "x" * 201])
def test_what_is_no_id_is_refused_and_nothing_is_saved(
    client: TestClient, store: Store, job: str, name: object
) -> None:
    for address in ("A", "new"):
        answer = put(client, job, address, drawer(name))
        assert answer.status_code == 422
        assert [one["where"] for one in answer.json()["errors"]] == ["values id"]
    assert store.job(job).revision == 1


def test_a_drawer_takes_no_other_ones_id(client: TestClient, store: Store, job: str) -> None:
    for address in ("A", "new"):
        answer = put(client, job, address, drawer("B", note="mine"))
        assert answer.status_code == 422
        assert "of another drawer" in answer.json()["errors"][0]["says"]
    added = client.post(
        f"/api/v1/jobs/{job}/drawers",
        json={"drawers": [drawer("C"), drawer("C"), drawer("A")], "based_on": 1},
    )
    assert added.status_code == 422
    assert [one["value"] for one in added.json()["errors"]] == ['"C"', '"A"']
    assert (store.job(job).revision, ids(store, job)) == (1, ["A", "B"])


def test_an_id_that_somebody_took_meanwhile_is_not_taken_again(
    client: TestClient, store: Store, job: str
) -> None:
    assert put(client, job, "A", drawer("C")).status_code == 200
    assert put(client, job, "B", drawer("C", note="mine")).status_code == 409
    assert ids(store, job) == ["C", "B"]


def test_a_renaming_sent_twice_is_done_once(client: TestClient, store: Store, job: str) -> None:
    for _ in range(2):
        answer = put(client, job, "A", drawer("C"))
        assert answer.json()["id"] == "C"
    assert (ids(store, job), store.job(job).revision) == (["C", "B"], 2)


def test_a_drawer_that_is_not_there_is_told_with_the_nearest(client: TestClient, job: str) -> None:
    (fault,) = client.get(f"/api/v1/jobs/{job}/drawers/b").json()["errors"]
    assert (fault["says"], fault["try"]) == ("is no drawer of this job", '"A"')


def test_only_a_family_that_is_new_is_answered_as_made(client: TestClient) -> None:
    values = {"id": "shop-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}
    told = [client.put("/api/v1/slides/shop-16", json={"values": values}).status_code for _ in range(2)]
    changed = {"values": {**values, "min_gap": 5}, "based_on": 1}
    told.append(client.put("/api/v1/slides/shop-16", json=changed).status_code)
    assert told[0] == 201
    assert told[2] == 200
