"""What every route tells of itself to /openapi.json: its body, its answer, its refusals."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from starlette.responses import JSONResponse, Response

JSON: Final = "application/json"
EVENTS: Final = "text/event-stream"
_REFUSALS: Final[Mapping[int, str]] = {
    400: "Asked under a name that is not this server's.",
    403: "A page of another site may not write here.",
    404: "Nothing of that name is kept here.",
    409: "Somebody changed the same things meanwhile: both versions, and what clashes. Nothing is lost.",
    413: "The body is larger than what is read.",
    422: "What was sent cannot be used: every fault with its place, value, what is wrong and what would do.",
    503: "The work is under way elsewhere; ask again.",
}
_WRITING: Final = (403, 413)
_ALWAYS: Final = (400, 422)


def described(
    name: str,
    *,
    answer: str | None = None,
    body: str | None = None,
    media: Sequence[str] = (JSON,),
    status: int = 200,
    also: Sequence[int] = (),
    parameters: Sequence[Mapping[str, Any]] = (),
    means: str = "The answer.",
    makes: bool = False,
) -> dict[str, Any]:
    """Keyword arguments of a route. `answer` and `body` name schemas; `also`: further refusals.

    `makes`: 201 instead where it makes something new. `media`: what the answer may be, if it is not JSON
    alone. Examples are filled in by `openapi_document` under the name of the operation.
    """
    refusals = {*_ALWAYS, *also, *(_WRITING if body else ())}
    content = {one: {"schema": _schema(one, answer)} for one in media}
    extra: dict[str, Any] = {}
    if body:
        sent = {JSON: {"schema": {"$ref": reference(body)}}}
        extra["requestBody"] = {"required": True, "content": sent}
    if parameters:
        extra["parameters"] = [dict(one) for one in parameters]
    return {
        "operation_id": name,
        "status_code": status,
        "response_class": JSONResponse if media == (JSON,) else Response,
        "response_model": None,
        "responses": {
            status: {"description": means, "content": content},
            **({201: {"description": "It is new: the answer.", "content": content}} if makes else {}),
            **{code: _refusal(code) for code in sorted(refusals)},
        },
        "openapi_extra": extra,
    }


def _schema(media: str, answer: str | None) -> dict[str, Any]:
    if media == JSON and answer:
        return {"$ref": reference(answer)}
    if media in (JSON, EVENTS):
        return {}
    return {"type": "string"} | ({} if media.startswith("text/") else {"format": "binary"})


def reference(schema: str) -> str:
    """The reference to a schema of the document."""
    return f"#/components/schemas/{schema}"


def in_query(name: str, schema: Mapping[str, Any], says: str, *, example: Any = None) -> dict[str, Any]:
    """A parameter of the address, never required."""
    told = {"name": name, "in": "query", "required": False, "description": says, "schema": dict(schema)}
    return told if example is None else {**told, "example": example}


def _refusal(code: int) -> dict[str, Any]:
    schema = "Conflict" if code == 409 else "Errors"
    return {"description": _REFUSALS[code], "content": {JSON: {"schema": {"$ref": reference(schema)}}}}
