"""What is answered on the loop that serves others, and what beside it."""

from __future__ import annotations

import threading
from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.web.api import align, carry, fit, season
from drawerwright.web.api.answering import SHORT_BODY, is_little

DRAWER = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
SHORT = {"opening": DRAWER["opening"], "side": 16}


def job_of(count: int) -> dict[str, Any]:
    """A job of many drawers in few bytes: all that they share stands in its defaults."""
    return {"defaults": SHORT, "drawer": [{"id": str(at)} for at in range(count)]}


@pytest.fixture
def on_loop(monkeypatch: pytest.MonkeyPatch) -> dict[str, bool]:
    """Whether each work was done on the thread of the loop; the work itself is left out."""
    found: dict[str, bool] = {}

    def noted(name: str) -> Any:
        def work(*_: Any) -> dict[str, Any]:
            found[name] = threading.current_thread().name.startswith("asyncio-portal")
            return {}

        return work

    for module in (fit, carry, align, season):
        for name in [one for one in vars(module) if one.endswith("_answer") and one != "quick_answer"]:
            monkeypatch.setattr(module, name, noted(name))
    return found


def test_one_drawer_is_fitted_on_the_loop(client: TestClient, on_loop: dict[str, bool]) -> None:
    assert client.post("/api/v1/fit", json={"job": {"drawer": [DRAWER]}}).status_code == 200
    assert on_loop == {"fit_answer": True}


@pytest.mark.parametrize("route", ["carry", "align", "season", "compare"])
def test_work_that_is_more_than_a_fit_holds_nobody_up(
    client: TestClient, on_loop: dict[str, bool], route: str
) -> None:
    assert client.post(f"/api/v1/{route}", json={"job": {"drawer": [DRAWER]}}).status_code == 200
    assert on_loop == {f"{route}_answer": False}


def test_a_short_body_of_many_drawers_holds_nobody_up(client: TestClient, on_loop: dict[str, bool]) -> None:
    told = {"job": job_of(300)}
    assert client.post("/api/v1/fit", json=told).status_code == 200
    assert len(str(told)) < SHORT_BODY
    assert on_loop == {"fit_answer": False}


@pytest.mark.parametrize(
    "body",
    [
        {"job": job_of(4)},
        {"job": job_of(1), "cheapest": True},
        {"job": job_of(1), "own_slides": True},
        {"job": job_of(1), "slides": [{}] * 4},
        {"job": {"drawer": [DRAWER], "cabinet": [{}] * 4}},
        {"job": [DRAWER]},
        {"job": {"drawer": "A"}},
        {},
    ],
)
def test_what_is_not_plainly_little_is_not_taken_for_it(body: dict[str, Any]) -> None:
    assert not is_little(body)
    assert is_little({"job": job_of(3)})
