"""Faults as answers: 422 with the contract's errors for programs, a page that tells them for people."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from http import HTTPStatus
from typing import Any, Final

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.store import Conflict, NotInStore, StoreUnusable
from drawerwright.units import show_value
from drawerwright.web.render import page

UNPROCESSABLE: Final = 422
MOST_TOLD: Final = 100
"""Most faults that one answer tells: nobody mends more at a time. Own choice."""
LONGEST_SHOWN: Final = 300
"""Most characters of one part of a fault: what was sent is not sent back whole. Own choice."""
_SENT_IN: Final = ("body", "query", "path")
_TITLES: Final = {
    404: "There is nothing here",
    405: "That cannot be done here",
    409: "Somebody changed the same meanwhile",
    413: "That file is too large",
    UNPROCESSABLE: "That cannot be used yet",
    500: "A fault of this program",
    503: "The store does not answer",
}


def wants_page(request: Request) -> bool:
    """Whether a person with a browser asks, and not a program: outside the API, and taking HTML."""
    return not in_api(request) and "text/html" in request.headers.get("accept", "")


def in_api(request: Request) -> bool:
    """Whether a request is for the API."""
    return request.url.path.startswith("/api/")


def as_told(faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """Faults as an answer tells them: the first of many, and how many more; what is long is cut."""
    first = tuple(_shortened(fault) for fault in faults[:MOST_TOLD])
    more = len(faults) - len(first)
    if not more:
        return first
    return (*first, Fault(f"{more} more", "", "are not told here", "these first, then the same again"))


def errors_told(faults: Sequence[Fault]) -> dict[str, list[dict[str, str]]]:
    """`{"errors": [...]}`, as the API gives it."""
    return {"errors": [fault.as_json() for fault in as_told(faults)]}


def _shortened(fault: Fault) -> Fault:
    parts = {"where": fault.where, "value": fault.value, "says": fault.says, "try_": fault.try_}
    long = {key: f"{text[: LONGEST_SHOWN - 1]}…" for key, text in parts.items() if len(text) > LONGEST_SHOWN}
    return replace(fault, **long) if long else fault


def told(request: Request, status: int, faults: tuple[Fault, ...], title: str) -> Response:
    """Faults as a page or as JSON, whichever was asked for."""
    if wants_page(request):
        return page(request, "fault.html", status=status, title=title, faults=as_told(faults))
    return JSONResponse(errors_told(faults), status)


def status_of(error: InputError) -> int:
    """The status of an answer that tells this error."""
    if isinstance(error, NotInStore):
        return 404
    if isinstance(error, Conflict):
        return 409
    return 503 if isinstance(error, StoreUnusable) else UNPROCESSABLE


def conflict_values(error: Conflict) -> dict[str, Any]:
    """A conflict as JSON: both versions, what both began with, and what clashes, part by part."""
    parts = [
        {
            "kind": part.kind,
            "id": part.id,
            "name": part.name,
            "base": part.base,
            "mine": part.mine,
            "theirs": part.theirs,
            "mine_keys": list(part.mine_keys),
            "theirs_keys": list(part.theirs_keys),
            "theirs_revision": part.theirs_revision,
            "theirs_by": part.theirs_by,
        }
        for part in error.parts
    ]
    return {
        "base": error.base,
        "mine": error.mine,
        "theirs": error.theirs,
        "base_revision": error.base_revision,
        "kept_revision": error.kept_revision,
        "theirs_revision": error.theirs_revision,
        "keys": [part.name for part in error.parts],
        "parts": parts,
    }


def _input(request: Request, error: Exception) -> Response:
    assert isinstance(error, InputError)
    status = status_of(error)
    if isinstance(error, Conflict) and not wants_page(request):
        return JSONResponse({**errors_told(error.faults), "conflict": conflict_values(error)}, status)
    return told(request, status, error.faults, _TITLES[status])


def broken(request: Request) -> Response:
    """The answer where the program itself failed: what happened stands in the server's log, not here."""
    says = "could not be answered: a fault of this program. What was stored is as it was"
    fault = Fault(request.url.path[:200], "", says, "the same again, or tell whoever runs this server")
    return told(request, 500, (fault,), _TITLES[500])


def too_large(request: Request, fault: Fault) -> Response:
    """The answer for people whose file is larger than what is read."""
    return told(request, 413, (fault,), _TITLES[413])


def _request(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    faults = []
    for one in error.errors():
        # First is what it stands in, which the fault does not need; then the key as it was sent.
        where = ".".join(map(str, one["loc"][one["loc"][0] in _SENT_IN :])) or "the body"
        value = "" if one["type"] == "missing" else show_value(one.get("input"))
        faults.append(Fault(where, value[:200], one["msg"].lower(), "see /openapi.json"))
    return told(request, UNPROCESSABLE, tuple(faults), _TITLES[UNPROCESSABLE])


def _http(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    title = _TITLES.get(error.status_code, str(error.detail))
    try_ = "/openapi.json lists what there is" if in_api(request) else "/jobs or /slides"
    says = str(error.detail)
    if says == HTTPStatus(error.status_code).phrase:
        says = says.lower()
    fault = Fault(request.url.path[:200], "", says, try_)
    answer = told(request, error.status_code, (fault,), title)
    for name, value in (error.headers or {}).items():
        answer.headers[name] = value
    return answer


def add_fault_handlers(app: FastAPI) -> None:
    """Make every fault an answer of the same form."""
    app.add_exception_handler(InputError, _input)
    app.add_exception_handler(RequestValidationError, _request)
    app.add_exception_handler(HTTPException, _http)
