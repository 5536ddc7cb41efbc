"""What an address asks: unknown keys are told, faults name what was sent, HEAD is GET without its body."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Store
from drawerwright.web.demo_job import demo_cabinet

OPENING = {"width": "562", "height": "168", "depth": "530"}
FORM = {"content-type": "multipart/form-data; boundary=q"}


@pytest.fixture
def job(store: Store) -> str:
    return store.create_job(demo_cabinet()).id


def places(client: TestClient, address: str, status: int = 422) -> list[tuple[str, str]]:
    answer = client.get(f"/api/v1{address}")
    assert answer.status_code == status, answer.text
    return [(one["where"], one["value"]) for one in answer.json()["errors"]]


def test_a_key_that_a_route_does_not_know_is_told_with_the_nearest(client: TestClient, job: str) -> None:
    answer = client.get(f"/api/v1/jobs/{job}/fit", params={"fewest_lenghts": "true", "units": "mm"})
    assert answer.status_code == 422
    assert answer.json()["errors"] == [
        {
            "where": "fewest_lenghts",
            "value": '"true"',
            "says": 'is not a known key: the nearest is "fewest_lengths"',
            "try": "fewest_lengths",
        }
    ]
    assert places(client, f"/jobs/{job}/revisions?from=1") == [("from", '"1"')]
    assert client.post("/api/v1/jobs?unit=mm", json={"values": {}}).status_code == 422
    assert [card.id for card in client.app.state.store.jobs()] == [job]  # type: ignore[attr-defined]


def test_every_key_that_is_described_is_known(client: TestClient, job: str) -> None:
    asked = 0
    for path, methods in client.get("/openapi.json").json()["paths"].items():
        for method, operation in methods.items():
            for parameter in operation.get("parameters", ()):
                if parameter["in"] != "query" or parameter["name"] == "more":
                    continue
                address = path.replace("{job}", "999").replace("{ending}", "toml")
                answer = client.request(method, address, params={parameter["name"]: "1"})
                assert "is not a known key" not in answer.text, (path, parameter["name"])
                asked += 1
    assert asked > 50


@pytest.mark.parametrize("number", ["0", "-1", "9" * 30])
def test_a_revision_that_cannot_be_is_told_as_it_was_asked(client: TestClient, job: str, number: str) -> None:
    assert places(client, f"/jobs/{job}?revision={number}", 404) == [("revision", number)]
    assert places(client, f"/jobs/{job}/difference?from=1&to={number}", 404) == [("to", number)]
    answer = client.delete(f"/api/v1/jobs/{job}/drawers/K1-1", params={"based_on": number})
    assert (answer.status_code, answer.json()["errors"][0]["where"]) == (404, "based_on")


def test_a_value_of_an_address_that_does_not_read_is_told_at_its_key(client: TestClient, job: str) -> None:
    assert places(client, f"/jobs/{job}?revision=x") == [("revision", '"x"')]
    assert places(client, f"/jobs/{job}/difference?from=1") == [("to", "")]


@pytest.mark.parametrize("route", ["/quick", "/quick/carry", "/compare"])
def test_a_question_in_an_address_is_answered_by_its_keys(client: TestClient, route: str) -> None:
    slides = {"family": ["house-16", "house-19"]} if route == "/compare" else {}
    query = {**OPENING, "width": "wide", "cabinet.pitch": "x", **slides}
    errors = client.get(f"/api/v1{route}", params=query).json()["errors"]
    assert {one["where"] for one in errors} == {"width", "cabinet.pitch", "side"}
    missing = client.get(f"/api/v1{route}", params={**OPENING, **slides}).json()["errors"]
    assert [(one["where"], one["try"]) for one in missing] == [("side", "side=16")]


@pytest.mark.parametrize(
    "address", ["/", "/jobs", "/api/v1/jobs", "/openapi.json", "/nowhere", "/api/v1/fit"]
)
def test_head_is_answered_as_get_without_its_body(client: TestClient, address: str) -> None:
    head, got = client.head(address), client.get(address)
    assert (head.status_code, head.content) == (got.status_code, b"")
    assert got.content
    for name in ("content-type", "content-length", "content-security-policy", "cache-control"):
        assert head.headers.get(name) == got.headers.get(name)


@pytest.mark.parametrize(
    ("content", "headers"),
    [
        (b"x", {"content-type": "multipart/form-data"}),
        (b"junk", FORM),
    ],
)
def test_a_form_that_is_none_cannot_be_used(
    client: TestClient, content: bytes, headers: dict[str, str]
) -> None:
    for address in ("/api/v1/jobs/import", "/jobs"):
        answer = client.post(address, content=content, headers=headers)
        assert answer.status_code == 422, (address, answer.text)
    assert client.get("/api/v1/jobs").json()["jobs"] == []


def test_two_files_at_once_cannot_be_used(client: TestClient) -> None:
    answer = client.post("/api/v1/jobs/import", files=[("one", ("a.csv", b"x")), ("two", ("b.csv", b"x"))])
    assert answer.status_code == 422
    assert "too many files" in answer.json()["errors"][0]["says"]


@pytest.mark.parametrize(("pieces", "status"), [(2, 422), (22, 413)])
def test_a_form_in_pieces_may_be_as_long_as_a_body_and_no_longer(
    client: TestClient, pieces: int, status: int
) -> None:
    def sent() -> Iterator[bytes]:
        yield b"title="
        for _ in range(pieces):
            yield b"x" * 1_000_000

    headers = {"content-type": "application/x-www-form-urlencoded"}
    assert client.post("/jobs", content=sent(), headers=headers).status_code == status
