"""/openapi.json and docs/http.md: every route is described, and every example is one of its schema."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from fastapi.testclient import TestClient

from drawerwright.web.demo_job import demo_cabinet

DOCS = Path(__file__).resolve().parents[3] / "docs"
JSON = "application/json"


@pytest.fixture
def document(client: TestClient) -> dict[str, Any]:
    return dict(client.get("/openapi.json").json())


def operations(document: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            yield path, method.upper(), operation


def faults_of(document: dict[str, Any], schema: dict[str, Any], value: object) -> list[str]:
    checker = jsonschema_rs.validator_for({**schema, "components": document["components"]})
    return [error.message for error in checker.iter_errors(value)]


def test_every_route_has_an_entry_and_every_entry_a_route(document: dict[str, Any]) -> None:
    told = set(re.findall(r"^\| `([A-Z]+ /api/[^`]+)`", (DOCS / "http.md").read_text("utf-8"), re.MULTILINE))
    assert told == {f"{method} {path}" for path, method, _ in operations(document)}


def test_every_route_says_what_it_does_and_what_it_may_refuse(document: dict[str, Any]) -> None:
    for path, method, operation in operations(document):
        assert operation["description"], path
        assert {"400", "422"} <= operation["responses"].keys(), path
        assert operation["tags"], path
        if method in ("PUT", "POST", "DELETE"):
            assert "403" in operation["responses"], path
        if "{job}" in path or ("{slide}" in path and method == "GET"):
            assert "404" in operation["responses"], path


def test_every_body_and_answer_in_json_has_an_example_of_its_schema(document: dict[str, Any]) -> None:
    looked_at = 0
    for path, _, operation in operations(document):
        body = operation.get("requestBody", {}).get("content", {}).get(JSON)
        answers = [
            one.get("content", {}).get(JSON)
            for status, one in operation["responses"].items()
            if status < "300"
        ]
        for told in (body, *answers):
            if told is None:
                continue
            assert "example" in told, path
            assert faults_of(document, told["schema"], told["example"]) == [], path
            looked_at += 1
    assert looked_at > 50


def test_examples_that_need_no_stored_job_are_answered_with_the_answer_that_is_told(
    client: TestClient, document: dict[str, Any]
) -> None:
    for route in ("fit", "compare", "carry", "align", "season", "slides/check"):
        operation = document["paths"][f"/api/v1/{route}"]["post"]
        answer = client.post(f"/api/v1/{route}", json=operation["requestBody"]["content"][JSON]["example"])
        told = operation["responses"]["200"]["content"][JSON]["example"]
        assert answer.json() == told


def test_the_quick_example_is_answered_as_it_is_told(client: TestClient, document: dict[str, Any]) -> None:
    operation = document["paths"]["/api/v1/quick"]["get"]
    asked = {one["name"]: one["example"] for one in operation["parameters"] if "example" in one}
    told = operation["responses"]["200"]["content"][JSON]["example"]
    assert client.get("/api/v1/quick", params=asked).json() == told


@pytest.mark.parametrize(
    "change",
    [
        {"widht": 5},
        {"opening": {"width": True}},
        {"mount": "nailed"},
        {"quantity": "many"},
    ],
)
def test_the_schema_of_a_job_refuses_what_its_reader_refuses(
    client: TestClient, document: dict[str, Any], change: dict[str, Any]
) -> None:
    job = demo_cabinet()
    schema = {"$ref": "#/components/schemas/FitRequest"}
    assert faults_of(document, schema, {"job": job}) == []
    job["drawer"][0] |= change
    assert faults_of(document, schema, {"job": job}) != []
    assert client.post("/api/v1/fit", json={"job": job}).status_code == 422


def test_errors_and_conflicts_are_of_the_form_that_is_told(
    client: TestClient, document: dict[str, Any]
) -> None:
    told = client.post("/api/v1/fit", json={"job": 1}).json()
    assert faults_of(document, {"$ref": "#/components/schemas/Errors"}, told) == []
    job = client.post("/api/v1/jobs", json={"values": demo_cabinet()}).json()["id"]
    address = f"/api/v1/jobs/{job}"
    for title in ("one", "two"):
        values = {**demo_cabinet(), "title": title}
        answer = client.put(address, json={"values": values, "based_on": 1})
    assert answer.status_code == 409
    assert faults_of(document, {"$ref": "#/components/schemas/Conflict"}, answer.json()) == []


def test_the_document_is_the_same_each_time(client: TestClient) -> None:
    assert client.get("/openapi.json").content == client.get("/openapi.json").content
