"""`GET /api/v1/compare`: the twin of the page of slides side by side, by the same address."""

from __future__ import annotations

from typing import Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.errors import InputError
from drawerwright.fit.compare_document import compare_document
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described, in_query
from drawerwright.web.api.quick import PARAMETERS as OPENING
from drawerwright.web.api.quick import by_key
from drawerwright.web.families import families_of
from drawerwright.web.slide_comparison import FAMILY, compare_asked, read_asked

router = APIRouter(tags=["fit"])

SAYS: Final = "A slide: a family, or family/length; two of them at least, each under its own `family`."
PARAMETERS: Final = (
    in_query(FAMILY, {"type": "array", "items": {"type": "string"}}, SAYS, example=["house-16", "house-19"]),
    *OPENING,
)


@router.get("/compare", **described("compare_in_address", answer="Comparison", parameters=PARAMETERS))
def compare(request: Request) -> Response:
    """Slides on one opening, asked in the address: the document of `drawerwright fit --compare --json`."""
    wanted, question = read_asked(request.query_params.multi_items())
    try:
        compared = compare_asked(wanted, question, families_of(request.app.state.store))
    except InputError as error:
        raise InputError(dict.fromkeys(map(by_key, error.faults))) from None
    return answer(compare_document(compared))
