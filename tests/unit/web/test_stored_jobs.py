"""Stored jobs over HTTP: saved, read, compared, taken back, thrown away; two who change the same."""

from __future__ import annotations

from copy import deepcopy
from typing import Any
from urllib.parse import quote

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet, demo_values

NAMES = ("B1-2", "links oben", "Küche/2", "a b?c=d&e", "50% #1", "a..", "1")


@pytest.fixture
def job(client: TestClient) -> str:
    """A stored job: the demo's first cabinet."""
    made = client.post("/api/v1/jobs", json={"values": demo_cabinet(), "by": "Ada"})
    assert made.status_code == 201
    return str(made.json()["id"])


def read(client: TestClient, address: str, status: int = 200) -> Any:
    answer = client.get(f"/api/v1{address}")
    assert answer.status_code == status, answer.text
    return answer.json()


def at(job: str, drawer: str) -> str:
    return f"/api/v1/jobs/{job}/drawers/{quote(drawer, safe='')}"


def test_a_job_comes_back_with_the_values_that_were_stored(client: TestClient, job: str) -> None:
    told = read(client, f"/jobs/{job}")
    assert told["values"]["drawer"] == demo_cabinet()["drawer"]
    assert (told["revision"], told["by"], told["can_undo"]) == (1, "Ada", False)
    assert told["saved_at"].endswith("Z")


def test_a_job_that_is_half_typed_is_stored_and_answered_as_far_as_it_reads(client: TestClient) -> None:
    values = demo_values()
    values["drawer"][0]["opening"]["width"] = "wide"
    values["drawer"].append({"id": "new"})
    job = client.post("/api/v1/jobs", json={"values": values}).json()["id"]
    whole = client.get(f"/api/v1/jobs/{job}/fit")
    assert whole.status_code == 422
    assert any(one["where"] == "job drawer K1-1 opening.width" for one in whole.json()["errors"])
    told = {one["id"]: one for one in read(client, f"/jobs/{job}/answers")["drawers"]}
    assert told["K1-1"]["errors"]
    assert told["K1-1"]["fit"] is None
    assert told["K1-2"]["waits"]
    assert told["new"]["errors"]
    assert told["K2-1"]["fit"]["verdict"].startswith("fits")


def test_a_save_makes_a_revision_and_one_that_changes_nothing_makes_none(
    client: TestClient, job: str
) -> None:
    values = read(client, f"/jobs/{job}")["values"]
    same = client.put(f"/api/v1/jobs/{job}", json={"values": values, "based_on": 1}).json()
    assert same["revision"] == 1
    changed = {**values, "title": "Another title"}
    told = client.put(f"/api/v1/jobs/{job}", json={"values": changed, "based_on": 1, "by": "Bo"}).json()
    assert (told["revision"], told["by"]) == (2, "Bo")
    assert read(client, f"/jobs/{job}?revision=1")["values"]["title"] == demo_cabinet()["title"]
    assert read(client, "/jobs")["jobs"][0]["title"] == "Another title"


def test_two_who_change_different_drawers_both_keep_their_change(client: TestClient, job: str) -> None:
    first, second = (deepcopy(demo_cabinet()["drawer"][place]) for place in (0, 1))
    first["contents"], second["contents"] = "25 kg", "5 kg"
    for drawer in (first, second):
        answer = client.put(at(job, drawer["id"]), json={"values": drawer, "based_on": 1})
        assert answer.status_code == 200
    assert answer.json()["how"] == "merged"
    told = read(client, f"/jobs/{job}")["values"]["drawer"]
    assert [one["contents"] for one in told] == ["25 kg", "5 kg"]


def test_the_second_of_two_who_change_one_drawer_is_shown_both_versions_and_loses_nothing(
    client: TestClient, job: str
) -> None:
    drawer = demo_cabinet()["drawer"][0]
    theirs, mine = {**drawer, "contents": "25 kg"}, {**drawer, "contents": "30 kg"}
    client.put(at(job, "K1-1"), json={"values": theirs, "based_on": 1, "by": "Ada"})
    answer = client.put(at(job, "K1-1"), json={"values": mine, "based_on": 1, "by": "Bo"})
    assert answer.status_code == 409
    told = answer.json()
    assert told["errors"][0]["where"].endswith("drawer K1-1")
    conflict = told["conflict"]
    assert conflict["keys"] == ["drawer K1-1"]
    (part,) = conflict["parts"]
    assert (part["mine"]["contents"], part["theirs"]["contents"]) == ("30 kg", "25 kg")
    assert part["base"]["contents"] == "22 kg"
    assert (part["mine_keys"], part["theirs_keys"]) == (["contents"], ["contents"])
    assert part["theirs_by"] == "Ada"
    kept = read(client, f"/jobs/{job}?revision={conflict['kept_revision']}")
    assert kept["values"]["drawer"][0]["contents"] == "30 kg"
    settled = client.put(at(job, "K1-1"), json={"values": mine, "based_on": conflict["theirs_revision"]})
    assert settled.status_code == 200
    assert settled.json()["values"]["contents"] == "30 kg"


def test_undo_and_redo_go_back_and_forth(client: TestClient, job: str) -> None:
    drawer = {**demo_cabinet()["drawer"][0], "contents": "25 kg"}
    client.put(at(job, "K1-1"), json={"values": drawer, "based_on": 1})
    back = client.post(f"/api/v1/jobs/{job}/undo", json={"based_on": 2}).json()
    assert back["values"]["drawer"][0]["contents"] == "22 kg"
    forth = client.post(f"/api/v1/jobs/{job}/redo", json={"based_on": back["revision"]}).json()
    assert forth["values"]["drawer"][0]["contents"] == "25 kg"
    assert [one["how"] for one in read(client, f"/jobs/{job}/revisions")["revisions"]] == [
        "redo",
        "undo",
        "saved",
        "saved",
    ]
    nothing = client.post(f"/api/v1/jobs/{job}/redo", json={"based_on": forth["revision"]})
    assert nothing.status_code == 422


def test_two_revisions_differ_key_by_key(client: TestClient, job: str) -> None:
    drawer = {**demo_cabinet()["drawer"][0], "contents": "25 kg"}
    client.put(at(job, "K1-1"), json={"values": drawer, "based_on": 1})
    told = read(client, f"/jobs/{job}/difference?from=1&to=2")
    assert told["parts"] == [
        {
            "kind": "drawer",
            "id": "K1-1",
            "change": "changed",
            "keys": [{"key": "contents", "old": "22 kg", "new": "25 kg"}],
        }
    ]
    assert read(client, f"/jobs/{job}/difference?from=1&to=9", 404)["errors"]


@pytest.mark.parametrize("name", NAMES)
def test_a_drawer_may_bear_any_name(client: TestClient, job: str, name: str) -> None:
    drawer = {**demo_cabinet()["drawer"][0], "id": name, "row": 3}
    path = at(job, name)
    saved = client.put(path, json={"values": drawer, "based_on": 1})
    assert saved.status_code == 201, saved.text
    told = client.get(path).json()
    assert (told["id"], told["values"]["id"]) == (name, name)
    assert told["fit"]["id"] == name
    assert client.delete(path, params={"based_on": 2}).status_code == 200
    assert client.get(path).status_code == 404


def test_drawers_are_added_behind_another_and_put_in_order(client: TestClient, job: str) -> None:
    new = [{"id": "X"}, {"id": "Y"}]
    added = client.post(
        f"/api/v1/jobs/{job}/drawers", json={"drawers": new, "after": "K1-1", "based_on": 1}
    ).json()
    assert [one["id"] for one in added["values"]["drawer"]] == ["K1-1", "X", "Y", "K1-2"]
    order = ["Y", "K1-2", "K1-1", "X"]
    ordered = client.put(f"/api/v1/jobs/{job}/order", json={"order": order, "based_on": 2}).json()
    assert [one["id"] for one in ordered["values"]["drawer"]] == order
    short = client.put(f"/api/v1/jobs/{job}/order", json={"order": ["Y"], "based_on": 3})
    assert short.status_code == 422


def test_nothing_is_deleted_for_good_without_asking_twice(client: TestClient, job: str) -> None:
    address = f"/api/v1/jobs/{job}"
    assert client.delete(address, params={"sure": job}).status_code == 422
    assert client.delete(address).status_code == 200
    assert read(client, "/jobs")["jobs"] == []
    assert [one["id"] for one in read(client, "/jobs?binned=true")["jobs"]] == [job]
    assert client.post(f"{address}/restore").json()["binned_at"] is None
    client.delete(address)
    assert client.delete(address, params={"sure": "yes"}).status_code == 422
    assert client.delete(address, params={"sure": demo_cabinet()["title"]}).status_code == 200
    assert client.get(address).status_code == 404


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ({}, "values"),
        ({"values": {}}, "based_on"),
        ({"values": {}, "based_on": "1"}, "based_on"),
        ({"values": {}, "based_on": 0}, "based_on"),
        ({"values": {}, "based_on": True}, "based_on"),
        ({"values": {}, "based_on": 1, "by": 3}, "by"),
        ({"values": {}, "based_on": 1, "base": 1}, "base"),
        ({"values": [], "based_on": 1}, "job"),
        ({"values": {"drawer": {}}, "based_on": 1}, "drawer"),
        ({"values": {"drawer": [{"id": "x", "note": "\0"}]}, "based_on": 1}, "drawer x note"),
    ],
)
def test_a_save_that_cannot_be_used_says_where(
    client: TestClient, job: str, body: dict[str, Any], place: str
) -> None:
    answer = client.put(f"/api/v1/jobs/{job}", json=body)
    assert answer.status_code == 422
    assert place in [one["where"] for one in answer.json()["errors"]]
    assert read(client, f"/jobs/{job}")["revision"] == 1


def test_a_revision_that_never_was_is_not_found(client: TestClient, job: str) -> None:
    for number in (0, -1, 7, 10**18):
        assert client.get(f"/api/v1/jobs/{job}", params={"revision": number}).status_code == 404
    body = {"values": demo_cabinet(), "based_on": 7}
    assert client.put(f"/api/v1/jobs/{job}", json=body).status_code == 404


def test_gaps_are_kept_as_they_were_measured_and_lined_up(client: TestClient, job: str) -> None:
    address = f"/api/v1/jobs/{job}/gaps"
    readings = {"left_top": 3.2, "left_bottom": "2,6", "right_top": "2.8 mm", "right_bottom": 3.4}
    nothing = client.get(f"/api/v1/jobs/{job}/align")
    assert nothing.status_code == 422
    for token, status in (("one", 201), ("one", 200), ("two", 201)):
        body = {"drawer": "K1-1", "readings": readings, "token": token}
        assert client.post(address, json=body).status_code == status
    assert len(client.get(address).json()["gaps"]) == 2
    assert client.get(address, params={"drawer": "K1-2"}).json()["gaps"] == []
    stored = client.get(f"/api/v1/jobs/{job}/align").json()
    row = {"drawer": "K1-1", **readings}
    sent = client.post("/api/v1/align", json={"job": demo_cabinet(), "gaps": [row]}).json()
    assert stored == sent
    assert stored["fronts"][0]["moves"]


def test_gaps_of_a_renamed_drawer_stay_its_own_and_those_of_one_that_is_gone_are_left_out(
    client: TestClient, job: str, store: Store
) -> None:
    first, second = demo_cabinet()["drawer"][:2]
    readings = {"left_top": 3.2, "left_bottom": 2.6, "right_top": 2.8, "right_bottom": 3.4}
    for name in ("K1-1", "K1-2"):
        body = {"drawer": name, "readings": readings}
        assert client.post(f"/api/v1/jobs/{job}/gaps", json=body).status_code == 201
    store.save_drawer(job, "K1-1", {**first, "id": "top"}, based_on=1)
    told = read(client, f"/jobs/{job}/align")
    assert ([one["drawer"] for one in told["fronts"]], "remarks" in told) == (["top", "K1-2"], False)
    store.save_drawer(job, second["id"], None, based_on=2)
    told = read(client, f"/jobs/{job}/align")
    assert [one["drawer"] for one in told["fronts"]] == ["top"]
    assert [one["where"] for one in told["remarks"]] == [f"job {job} gaps K1-2"]


def test_another_reading_under_a_token_that_was_used_is_refused(client: TestClient, job: str) -> None:
    address = f"/api/v1/jobs/{job}/gaps"
    for name, gap, status in (("K1-1", 3, 201), ("K1-2", 9, 422), ("K1-1", 4, 422), ("K1-1", 3, 200)):
        body = {"drawer": name, "readings": {"left_top": gap}, "token": "t"}
        assert client.post(address, json=body).status_code == status
    assert [one["drawer"] for one in client.get(address).json()["gaps"]] == ["K1-1"]


def test_gaps_in_inches_are_kept_with_their_unit(client: TestClient, job: str) -> None:
    readings = {"left_top": 0.125, "right_top": "3 mm", "left_bottom": "1/8", "right_bottom": "1/16..1/8"}
    body = {"drawer": "K1-1", "readings": readings, "units": "in"}
    kept = client.post(f"/api/v1/jobs/{job}/gaps", json=body).json()
    assert kept["readings"] == {
        "left_top": "0.125 in",
        "right_top": "3 mm",
        "left_bottom": "1/8 in",
        "right_bottom": "1/16 in..1/8 in",
    }
    front = client.get(f"/api/v1/jobs/{job}/align").json()["fronts"][0]
    assert front["measured"]["left_bottom"] == pytest.approx(3.175)


@pytest.mark.parametrize(
    "body",
    [
        {"drawer": "K1-1", "readings": {"left": 3}},
        {"drawer": "K1-1", "readings": {"left_top": "wide"}},
        {"drawer": "K1-1", "readings": [3]},
        {"drawer": 1, "readings": {"left_top": 3}},
        {"drawer": "K1-1", "readings": {}},
        {"drawer": "K1-1", "readings": {"left_top": "", "right_top": None}},
        {"drawer": "nix", "readings": {"left_top": 3}},
        {"readings": {"left_top": 3}},
    ],
)
def test_gaps_that_do_not_read_are_not_kept(client: TestClient, job: str, body: dict[str, Any]) -> None:
    assert client.post(f"/api/v1/jobs/{job}/gaps", json=body).status_code == 422
    assert client.get(f"/api/v1/jobs/{job}/gaps").json()["gaps"] == []


def test_ticks_of_a_bench_that_was_offline_hold_whatever_their_order(
    client: TestClient, job: str, store: Store
) -> None:
    early, late = (
        {"drawer": "K1-1", "step": "bore", "done": done, "at": f"2026-03-02T10:{minute}:00+01:00"}
        for done, minute in ((True, "15"), (False, "20"))
    )
    for order in ([late, early], [early], [late]):
        answer = client.post(f"/api/v1/jobs/{job}/ticks", json={"ticks": order})
        assert answer.status_code == 200
    (tick,) = client.get(f"/api/v1/jobs/{job}/ticks").json()["ticks"]
    assert (tick["done"], tick["at"]) == (False, "2026-03-02T09:20:00.000Z")
    assert len(store.ticks(job)) == 1


@pytest.mark.parametrize(
    "tick",
    [
        {},
        3,
        {"drawer": "A", "step": "bore", "done": 1, "at": "2026-03-02T10:15:00Z"},
        {"drawer": "A", "step": "bore", "done": True, "at": "2026-03-02T10:15:00"},
        {"drawer": "A", "step": "bore", "done": True, "at": "tomorrow"},
        {"drawer": "A", "step": "bore", "done": True, "at": "9999-12-31T23:59:59-12:00"},
        {"drawer": "A", "step": "bore", "done": True, "at": "2999-12-31T23:59:59Z"},
        {"drawer": "", "step": "bore", "done": True, "at": "2026-03-02T10:15:00Z"},
        {"drawer": "A", "done": True, "at": "2026-03-02T10:15:00Z"},
        {"drawer": "A", "step": "bore", "done": True, "at": "2026-03-02T10:15:00Z", "who": "me"},
    ],
)
def test_a_tick_that_does_not_read_is_refused(client: TestClient, job: str, tick: object) -> None:
    assert client.post(f"/api/v1/jobs/{job}/ticks", json={"ticks": [tick]}).status_code == 422
    assert client.get(f"/api/v1/jobs/{job}/ticks").json()["ticks"] == []


@pytest.mark.parametrize("method", ["get", "post", "put", "delete"])
def test_every_route_of_a_job_that_is_not_there_says_so(client: TestClient, method: str) -> None:
    paths = client.get("/openapi.json").json()["paths"]
    asked = 0
    for path, methods in paths.items():
        if "{job}" not in path or method not in methods:
            continue
        example = methods[method].get("requestBody", {}).get("content", {}).get("application/json", {})
        address = path.replace("{job}", "999").replace("{drawer}", "A").replace("{ending}", "toml")
        may = {one["name"] for one in methods[method].get("parameters", ())}
        params = {key: 1 for key in ("from", "to", "based_on") if key in may}
        answer = client.request(
            method, address.replace("{path}", "x"), params=params, json=example.get("example")
        )
        assert answer.status_code == 404, (path, answer.text)
        asked += 1
    assert asked > 0


def test_the_shops_own_families_are_kept_as_revisions(client: TestClient) -> None:
    values = {"id": "shop-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}
    address = "/api/v1/slides/shop-16"
    made = client.put(address, json={"values": values, "by": "Ada"})
    assert (made.status_code, made.json()["revision"]) == (201, 1)
    mine, theirs = {**values, "min_gap": 5}, {**values, "min_gap": 6}
    assert client.put(address, json={"values": theirs, "based_on": 1}).status_code == 200
    clash = client.put(address, json={"values": mine, "based_on": 1})
    assert clash.status_code == 409
    assert clash.json()["conflict"]["mine"]["min_gap"] == 5
    assert client.get(address).json()["family"]["min_gap"] == 6
    assert client.get(f"{address}/difference?from=1&to=2").json()["parts"][0]["change"] == "added"
    undone = client.post(f"{address}/undo", json={"based_on": 2}).json()
    assert "min_gap" not in undone["values"]
    assert len(client.get(f"{address}/revisions").json()["revisions"]) == 4
    assert client.delete(address).status_code == 200
    assert client.get("/api/v1/slides").json()["own"] == []
    assert client.post(f"{address}/restore").status_code == 200
    assert client.get("/api/v1/slides").json()["own"] == ["shop-16"]


def test_a_shipped_family_is_read_and_not_thrown_away(client: TestClient) -> None:
    told = client.get("/api/v1/slides/house-16").json()
    assert (told["family"]["id"], told["stored"]) == ("house-16", None)
    assert client.delete("/api/v1/slides/house-16").status_code == 404
    assert client.get("/api/v1/slides/house-17").status_code == 404


def test_a_family_of_the_shop_stands_in_the_place_of_a_shipped_one_of_its_id(client: TestClient) -> None:
    values = {"id": "house-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}
    client.put("/api/v1/slides/house-16", json={"values": values})
    told = client.get("/api/v1/slides").json()
    assert told["families"][0]["id"] == "house-16"
    assert len(told["families"][0]["length"]) == 1


@pytest.mark.parametrize(
    ("name", "values", "place"),
    [
        ("shop-16", {"id": "shop-16"}, "family[0] family shop-16 capacity"),
        ("shop-16", {"id": "shop-19"}, "values id"),
        ("shop-16", [], "values id"),
    ],
)
def test_a_family_that_cannot_be_used_is_not_kept(
    client: TestClient, store: Store, name: str, values: object, place: str
) -> None:
    answer = client.put(f"/api/v1/slides/{name}", json={"values": values})
    assert answer.status_code == 422
    assert place in [one["where"] for one in answer.json()["errors"]]
    assert store.families() == []
