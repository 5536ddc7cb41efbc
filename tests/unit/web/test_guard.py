"""Who may ask, from where and how much; and what every answer carries."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from drawerwright.errors import Fault
from drawerwright.store import Store, StoreUnusable
from drawerwright.web.app import create_app
from drawerwright.web.guard import CONTENT_POLICY
from drawerwright.web.settings import Settings

QUICK = "/api/v1/quick?width=562&height=168&depth=530&side=16"
NEW_JOB = {"values": {"title": "Bench", "drawer": []}}
CAP = 5_000


@pytest.fixture
def tight(store: Store, tmp_path: Path) -> Iterator[TestClient]:
    """A server that reads no more than 5,000 bytes."""
    app = create_app(Settings(body_cap=CAP, cache=str(tmp_path)), store=store)
    with TestClient(app, base_url="http://localhost") as asking:
        yield asking


def faults(answer: object) -> list[dict[str, str]]:
    return answer.json()["errors"]  # type: ignore[attr-defined, no-any-return]


@pytest.mark.parametrize(
    "host",
    ["localhost", "localhost:65535", "127.0.0.1", "127.0.0.1:1", "[::1]:8757", "[::1]", "::1", "LOCALHOST"],
)
def test_a_name_of_this_machine_is_answered(client: TestClient, host: str) -> None:
    assert client.get(QUICK, headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        "localhost.evil.example",
        "127.0.0.1.evil.example:80",
        "192.168.1.5",
        "",
        "[::1]evil",
        "[::1]:80:80",
        "[::1",
        "localhost:99999",
        "localhost:123456",
        "localhost:8x",
    ],
)
def test_a_foreign_name_that_leads_to_this_machine_is_refused(client: TestClient, host: str) -> None:
    answer = client.get(QUICK, headers={"Host": host})
    assert answer.status_code == 400
    assert faults(answer)[0]["where"] == "Host"
    assert faults(answer)[0]["value"] == host


def test_an_open_server_answers_under_the_names_that_it_was_given_and_under_no_other(store: Store) -> None:
    asking = TestClient(create_app(Settings(open=True, hosts=("localhost", "shop.example")), store=store))
    assert asking.get(QUICK, headers={"Host": "shop.example:8757"}).status_code == 200
    assert asking.get(QUICK, headers={"Host": "other.example"}).status_code == 400


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site", "Origin": "https://evil.example"},
        {"Sec-Fetch-Site": "same-site", "Origin": "http://localhost:1234"},
        {"Origin": "https://evil.example"},
        {"Origin": "http://localhost:1234"},
        {"Origin": "null"},
    ],
    ids=["cross-site", "another port", "no fetch metadata", "another port, no metadata", "opaque"],
)
def test_a_page_of_another_site_may_not_write(
    client: TestClient, store: Store, headers: dict[str, str]
) -> None:
    for method, address in (
        ("POST", "/api/v1/jobs"),
        ("PUT", "/api/v1/jobs/1"),
        ("DELETE", "/api/v1/jobs/1"),
    ):
        answer = client.request(method, address, json=NEW_JOB, headers=headers)
        assert answer.status_code == 403
    assert store.jobs() == []


def test_a_page_of_another_site_may_lead_here_by_a_link_and_fetch_nothing(client: TestClient) -> None:
    foreign = {"Sec-Fetch-Site": "cross-site"}
    assert client.get(QUICK, headers={**foreign, "Sec-Fetch-Mode": "navigate"}).status_code == 200
    for mode in ("no-cors", "cors", "websocket"):
        assert client.get(QUICK, headers={**foreign, "Sec-Fetch-Mode": mode}).status_code == 403
    own = {"Sec-Fetch-Site": "same-origin", "Sec-Fetch-Mode": "cors"}
    assert client.get(QUICK, headers=own).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Sec-Fetch-Site": "same-origin", "Origin": "http://localhost"},
        {"Sec-Fetch-Site": "none"},
        {"Origin": "http://localhost"},
    ],
    ids=["a program", "own page", "typed by hand", "own page, no metadata"],
)
def test_own_pages_and_programs_may_write(client: TestClient, headers: dict[str, str]) -> None:
    assert client.post("/api/v1/jobs", json=NEW_JOB, headers=headers).status_code == 201


@pytest.mark.parametrize(
    "address", [QUICK, "/api/v1/nothing", "/static/house.css", "/openapi.json", "/nothing"]
)
def test_every_answer_forbids_framing_sniffing_and_foreign_scripts(client: TestClient, address: str) -> None:
    told = client.get(address).headers
    assert told["X-Content-Type-Options"] == "nosniff"
    assert told["Content-Security-Policy"] == CONTENT_POLICY
    assert "frame-ancestors 'none'" in CONTENT_POLICY
    assert "default-src 'self'" in CONTENT_POLICY
    assert "unsafe" not in CONTENT_POLICY
    assert told["X-Frame-Options"] == "DENY"
    assert told["Cross-Origin-Resource-Policy"] == "same-origin"
    assert told["Cache-Control"]


def test_what_is_refused_carries_the_same_headers(client: TestClient) -> None:
    told = client.get(QUICK, headers={"Host": "evil.example"}).headers
    assert told["X-Content-Type-Options"] == "nosniff"
    assert told["Content-Security-Policy"] == CONTENT_POLICY


def test_answers_of_the_api_are_not_kept_by_anyone_between(client: TestClient) -> None:
    assert client.get("/api/v1/jobs").headers["Cache-Control"] == "no-store"


def test_a_body_that_says_it_is_too_large_is_refused_before_any_of_it_is_read(tight: TestClient) -> None:
    answer = tight.post("/api/v1/fit", content=b"{" + b" " * CAP + b"}")
    assert answer.status_code == 413
    assert faults(answer)[0]["where"] == "the body"
    assert str(CAP) in faults(answer)[0]["says"]


def test_a_body_in_pieces_is_counted_while_it_comes_in(tight: TestClient) -> None:
    sent = []

    def pieces() -> Iterator[bytes]:
        for _ in range(100):
            sent.append(1)
            yield b" " * 1000

    for address in ("/api/v1/fit", "/api/v1/jobs", "/api/v1/jobs/import?name=job.toml"):
        assert tight.post(address, content=pieces()).status_code == 413


def test_a_form_that_grows_beyond_the_cap_is_refused(tight: TestClient, store: Store) -> None:
    answer = tight.post("/api/v1/jobs/import", files={"file": ("job.toml", b"#" * 2 * CAP)})
    assert answer.status_code == 413
    assert store.jobs() == []


def test_a_length_that_is_no_number_is_counted_all_the_same(tight: TestClient) -> None:
    answer = tight.post("/api/v1/fit", content=b" " * 2 * CAP, headers={"Content-Length": "-1"})
    assert answer.status_code == 413


@pytest.mark.parametrize("address", ["/api/v1/slides/a%00b", "/slides/a%00b", "/api/v1/jobs/%00"])
def test_a_zero_byte_in_an_address_is_refused(client: TestClient, address: str) -> None:
    answer = client.get(address)
    assert answer.status_code == 400
    assert "zero byte" in faults(answer)[0]["says"]


@pytest.mark.parametrize(
    "name",
    [
        "../../etc/passwd",
        "..%2f..%2fetc%2fpasswd",
        "%2e%2e/x",
        "1;drop table job",
        "1' or '1'='1",
        "-1",
        "1e3",
        "१",
        "9" * 40,
    ],
)
@pytest.mark.parametrize(
    "address", ["/api/v1/jobs/{}", "/api/v1/jobs/{}/file.toml", "/api/v1/slides/{}", "/api/v1/jobs/{}/pack"]
)
def test_a_name_that_is_nobodys_is_not_found_whatever_it_holds(
    client: TestClient, store: Store, address: str, name: str
) -> None:
    store.create_job({"title": "A job", "drawer": []})
    assert client.get(address.format(name)).status_code == 404


def test_an_unknown_address_is_told_as_json_to_programs_and_as_a_page_to_people(client: TestClient) -> None:
    person = {"Accept": "text/html,application/xhtml+xml,*/*;q=0.8"}
    for address, status in (("/api/v1/nothing", 404), ("/nothing", 404)):
        told = client.get(address)
        assert (told.status_code, set(faults(told)[0])) == (status, {"where", "value", "says", "try"})
    assert client.get("/api/v1/nothing", headers=person).headers["Content-Type"] == "application/json"
    page = client.get("/nothing", headers=person)
    assert (page.status_code, page.headers["Content-Type"]) == (404, "text/html; charset=utf-8")
    assert "There is nothing here" in page.text


def test_a_method_that_a_route_lacks_is_told_with_those_that_it_has(client: TestClient) -> None:
    told = client.delete("/api/v1/slides")
    assert told.status_code == 405
    assert told.headers["Allow"]
    assert "not allowed" in faults(told)[0]["says"]


def test_a_fault_of_the_program_is_told_without_a_word_of_what_it_was(
    app: FastAPI, client: TestClient, caplog: pytest.LogCaptureFixture
) -> None:
    @app.get("/api/v1/breaks")
    def breaks() -> None:
        raise ZeroDivisionError("secret figures")

    @app.get("/breaks")
    def breaks_too() -> None:
        raise ZeroDivisionError("secret figures")

    told = client.get("/api/v1/breaks")
    assert told.status_code == 500
    assert "fault of this program" in faults(told)[0]["says"]
    assert told.headers["Content-Security-Policy"] == CONTENT_POLICY
    page = client.get("/breaks", headers={"Accept": "text/html"})
    assert (page.status_code, page.headers["Content-Type"]) == (500, "text/html; charset=utf-8")
    for answer in (told, page):
        assert "secret" not in answer.text
        assert "Traceback" not in answer.text
    assert "secret figures" in caplog.text


def test_a_store_that_does_not_answer_is_told_as_such(
    client: TestClient, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise StoreUnusable([Fault("store", "postgresql://***", "does not answer", "the same again")])

    monkeypatch.setattr(type(store), "jobs", broken)
    answer = client.get("/api/v1/jobs")
    assert answer.status_code == 503
    assert faults(answer)[0]["where"] == "store"
