"""Faults as answers: 422 with the contract's errors for programs, a page that tells them for people."""

from __future__ import annotations

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.units import show_value
from drawerwright.web.render import page

UNPROCESSABLE = 422


def wants_page(request: Request) -> bool:
    """Whether a person with a browser asks, and not a program: outside the API, and taking HTML."""
    in_api = request.url.path.startswith("/api/")
    return not in_api and "text/html" in request.headers.get("accept", "")


def told(request: Request, status: int, faults: tuple[Fault, ...], title: str) -> Response:
    """Faults as a page or as JSON, whichever was asked for."""
    if wants_page(request):
        return page(request, "fault.html", status=status, title=title, faults=faults)
    return JSONResponse({"errors": [fault.as_json() for fault in faults]}, status)


def _input(request: Request, error: Exception) -> Response:
    assert isinstance(error, InputError)
    return told(request, UNPROCESSABLE, error.faults, "That cannot be used yet")


def _request(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    faults = []
    for one in error.errors():
        where = ".".join(str(part) for part in one["loc"] if part != "body") or "the body"
        value = "" if one["type"] == "missing" else show_value(one.get("input"))
        faults.append(Fault(where, value[:200], one["msg"].lower(), "see /openapi.json"))
    return told(request, UNPROCESSABLE, tuple(faults), "That cannot be used yet")


def _http(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    words = {404: "There is nothing here", 405: "That cannot be done here"}
    title = words.get(error.status_code, str(error.detail))
    fault = Fault(request.url.path[:200], "", str(error.detail).lower(), "/jobs or /slides")
    answer = told(request, error.status_code, (fault,), title)
    for name, value in (error.headers or {}).items():
        answer.headers[name] = value
    return answer


def add_fault_handlers(app: FastAPI) -> None:
    """Make every fault an answer of the same form."""
    app.add_exception_handler(InputError, _input)
    app.add_exception_handler(RequestValidationError, _request)
    app.add_exception_handler(HTTPException, _http)
