"""`GET /api/v1/quick`: the twin of the quick answer's page, the same question in the same address."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.errors import Fault, InputError
from drawerwright.fit import fit_document
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedJob
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described, in_query
from drawerwright.web.families import families_of
from drawerwright.web.fitting import answer_values, place_of
from drawerwright.web.quick_job import EXAMPLE, SHORT_KEYS, QuickQuestion, read_question

router = APIRouter(tags=["fit"])

_SAYS: Final = {
    "width": "Clear width of the opening; several readings between `;`, or by place as `front_top=562; …` "
    "or `front top 562, …`.",
    "height": "Clear height of the opening.",
    "depth": "Clear depth of the opening, to the first thing behind.",
    "side": "Thickness of the box side as measured.",
    "contents": "Mass of the contents, kg or as `44 lb`.",
}
PARAMETERS: Final = (
    *(in_query(key, {"type": "string"}, says, example=EXAMPLE[key]) for key, says in _SAYS.items()),
    in_query(
        "units", {"type": "string", "enum": ["mm", "in", "both"]}, "What bare lengths are in, and shown in."
    ),
    in_query(
        "more",
        {"type": "object", "additionalProperties": {"type": "string"}},
        "Any other key of a drawer by its dotted name (`front.style`); of its cabinet after `cabinet.`",
    ),
)


@router.get("/quick", **described("quick", answer="Fit", parameters=PARAMETERS))
async def quick(request: Request) -> Response:
    """Answer one opening asked in the address: the document of `drawerwright fit --json`."""
    question = read_question(request.query_params.multi_items())
    return answer(fit_document(quick_answer(question, families_of(request.app.state.store))))


def quick_answer(question: QuickQuestion, families: tuple[SlideFamily, ...]) -> FittedJob:
    """The answer to a quick question. Raises InputError with the faults of address and job together."""
    faults = list(question.faults)
    try:
        fitted = answer_values(question.values, families, units=question.units).fitted_job("")
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(dict.fromkeys(map(by_key, faults)))
    return fitted


def by_key(fault: Fault) -> Fault:
    """A fault of a quick question at the key of the address, not at its place in the job made of it."""
    kind, _, place = place_of(fault)
    if not kind or not place:
        return fault
    shorter = {long: short for short, long in SHORT_KEYS.items()}
    told, item, number = place.partition(" item ")
    key = f"cabinet.{told}" if kind == "cabinet" else shorter.get(told, told)
    written = f"{place.rpartition('.')[2]} = "
    try_ = f"{key}={fault.try_.removeprefix(written)}" if fault.try_.startswith(written) else fault.try_
    return replace(fault, where=f"{key}{item}{number}", try_=try_)
