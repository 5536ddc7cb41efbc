"""The document at /openapi.json: routes, schemas from the models, and an example for every route."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import BaseModel

from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Job
from drawerwright.web.api.answer_schemas import ANSWERS
from drawerwright.web.api.body_schemas import BODIES
from drawerwright.web.api.describing import JSON, reference
from drawerwright.web.api.examples import examples

TAGS: Final = (
    ("fit", "Answers to what comes with the request. Nothing is stored."),
    ("carry", "Load, sag and forces over the travel."),
    ("align", "Measured gaps in, moves at each adjuster out."),
    ("season", "Fronts of solid wood over a year: the gap to set today."),
    ("slides", "Slide families: the shipped ones, and those kept in the store."),
    ("jobs", "Jobs kept in the store, each save a revision."),
    ("history", "Revisions of a job: compared, taken back, brought back."),
    ("files", "Jobs as files, and files made jobs."),
    ("pack", "The papers and files of a job."),
    ("bench", "What comes from the bench: gaps, ticks."),
)
_SUMMARY: Final = (
    "Lengths are mm, masses kg, forces N, angles degrees in every answer. In a job, `units` says what a bare "
    'length means, and a text carries its own: `"21 3/4 in"`. What cannot be used is answered with 422 and '
    "every fault at once. There are no accounts: the server is for this machine, or for a network that is "
    "trusted."
)
_DEFAULTS: Final = "Any key of a drawer but `id`; a drawer overrides it."
_IN_DRAWERS: Final = " Beside `id`, an opening and `side` are needed, here or in `defaults`."


def add_openapi(app: FastAPI) -> None:
    """Let the application tell the whole document, made when it is first asked for."""

    def document() -> dict[str, Any]:
        if app.openapi_schema is None:
            app.openapi_schema = openapi_document(app)
        return app.openapi_schema

    app.openapi = document  # type: ignore[method-assign]


def openapi_document(app: FastAPI) -> dict[str, Any]:
    """The OpenAPI document of the application."""
    told: dict[str, Any] = get_openapi(
        title=app.title,
        version=app.version,
        summary=app.summary,
        description=_SUMMARY,
        routes=app.routes,
        tags=[{"name": name, "description": says} for name, says in TAGS],
    )
    told["components"] = {"schemas": dict(sorted({**_models(), **BODIES, **ANSWERS}.items()))}
    told_examples = examples()
    for operation in _operations(told):
        example = told_examples.get(operation["operationId"], {})
        if "body" in example:
            operation["requestBody"]["content"][JSON]["example"] = example["body"]
        for status, content in _contents(operation):
            if status in ("200", "201") and "answer" in example:
                content["example"] = example["answer"]
        for parameter in operation.get("parameters", ()):
            if parameter["name"] in example.get("path", {}):
                parameter["example"] = example["path"][parameter["name"]]
    return told


def _operations(told: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for methods in told["paths"].values():
        yield from methods.values()


def _contents(operation: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for status, response in operation["responses"].items():
        for content in response.get("content", {}).values():
            yield status, content


def _models() -> dict[str, Any]:
    """Schemas of job and slide family, with everything they are made of."""
    schemas: dict[str, Any] = {}
    for model in (Job, SlideFamily):
        schemas |= _schemas_of(model)
    drawer = schemas["Drawer"]
    defaults = {key: one for key, one in drawer["properties"].items() if key != "id"}
    schemas["Drawer"] = {**drawer, "required": ["id"], "description": drawer["description"] + _IN_DRAWERS}
    schemas["Defaults"] = {
        "type": "object",
        "description": _DEFAULTS,
        "properties": {**defaults, "opening": {"type": "object"}, "front": {"type": "object"}},
        "additionalProperties": False,
    }
    schemas["Job"]["properties"]["defaults"] = {"$ref": reference("Defaults")}
    return schemas


def _schemas_of(model: type[BaseModel]) -> dict[str, Any]:
    told = model.model_json_schema(by_alias=True, ref_template=reference("{model}"))
    parts: dict[str, Any] = told.pop("$defs", {})
    return {**parts, model.__name__: told}
