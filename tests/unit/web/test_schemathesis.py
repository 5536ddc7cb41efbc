"""Requests made up from the OpenAPI document: whatever is sent, the server has an answer of the told form."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from drawerwright.store import Store, open_store
from drawerwright.web.app import create_app
from drawerwright.web.demo_job import demo_cabinet
from drawerwright.web.settings import LOOPBACK_NAMES, Settings

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
EXAMPLES = 6
"""Requests of each kind for each route: the whole stays under 40 s on two cores."""


@pytest.fixture(scope="module")
def kept() -> Iterator[tuple[Path, Store]]:
    with tempfile.TemporaryDirectory() as folder, open_store(f"sqlite:///{folder}/store.db") as store:
        yield Path(folder), store


@pytest.fixture(scope="module")
def api(kept: tuple[Path, Store]) -> Any:
    folder, store = kept
    hosts = (*LOOPBACK_NAMES, "testserver")
    app = create_app(Settings(cache=str(folder / "cache"), hosts=hosts), store=store)
    return schemathesis.openapi.from_asgi("/openapi.json", app)


def _operations() -> dict[str, dict[str, Any]]:
    with tempfile.TemporaryDirectory() as folder, open_store(f"sqlite:///{folder}/store.db") as store:
        paths = create_app(Settings(), store=store).openapi()["paths"]
    return {one["operationId"]: one for methods in paths.values() for one in methods.values()}


OPERATIONS = _operations()


def _can_be_wrong(operation: dict[str, Any]) -> bool:
    """Whether a request can be made up that its description does not allow: any text will do for a name."""
    loose = ({"type": "string"}, {"type": "boolean"})
    told = [one["schema"] for one in operation.get("parameters", ())]
    plain = [{key: one for key, one in schema.items() if key == "type"} for schema in told]
    return "requestBody" in operation or any(schema not in loose for schema in plain)


CASES = [
    (name, mode)
    for name, operation in OPERATIONS.items()
    for mode in (GenerationMode.POSITIVE, GenerationMode.NEGATIVE)
    if mode is GenerationMode.POSITIVE or _can_be_wrong(operation)
]


def _real(store: Store, case: Any) -> None:
    """Names of things that are there, in the place of made-up ones; a job made anew, so that none is gone."""
    told = case.path_parameters
    if "job" in told:
        told["job"] = store.create_job(demo_cabinet()).id
    if "drawer" in told:
        told["drawer"] = "K1-1"
    if "slide" in told:
        told["slide"] = "house-16"
    if "path" in told:
        told["path"] = "cut-list.csv"
    if case.path.startswith("/api/v1/jobs/{job}/pack"):
        case.query["only"] = ["labels"]  # the quickest to make


@pytest.mark.parametrize(("name", "mode"), CASES, ids=[f"{name}-{mode.value}" for name, mode in CASES])
def test_whatever_is_sent_the_answer_is_one_that_is_told(
    name: str, mode: GenerationMode, api: Any, kept: tuple[Path, Store]
) -> None:
    operation = api.find_operation_by_id(name)
    seen: list[int] = []

    @seed(1)
    @settings(
        max_examples=EXAMPLES,
        deadline=None,
        database=None,
        derandomize=True,
        suppress_health_check=list(HealthCheck),
        phases=[Phase.generate],
    )
    @given(case=operation.as_strategy(generation_mode=mode))
    def ask(case: Any) -> None:
        for real in (False, True):
            if real:
                _real(kept[1], case)
            seen.append(case.call_and_validate(checks=CHECKS).status_code)

    ask()
    assert seen
