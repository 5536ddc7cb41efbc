"""The quick answer: an opening in the address, its sheet on the page. No job is needed, nothing is kept."""

from __future__ import annotations

from typing import Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.model.family import SlideFamily
from drawerwright.units import BareUnit
from drawerwright.web.carried.asked import CARRY_KEYS, carry_pairs
from drawerwright.web.carried.page import answer_with_carry
from drawerwright.web.families import families_of
from drawerwright.web.fitting import answer_values
from drawerwright.web.quick_job import read_question
from drawerwright.web.sheet.asked import OWN_KEYS, Asked, besides_of, length_told
from drawerwright.web.sheet.fields import NAMES, STILE_NAMES
from drawerwright.web.sheet.page import SheetPage
from drawerwright.web.sheet.sheet import Sheet
from drawerwright.web.sheet.stiles import frame_of_stiles

EXAMPLE: Final = {
    "width": "562, 561.5",
    "height": "168",
    "depth": "530",
    "side": "16",
    "contents": "20",
    "front.style": "overlay",
}
"""An invented opening [mm, kg], for whoever comes without a question."""

router = APIRouter(include_in_schema=False)


@router.get("/")
def quick(request: Request) -> Response:
    """The sheet of the opening that the address tells of; of an invented one where it tells of none."""
    pairs = [
        (key, text) for key, text in request.query_params.multi_items() if key not in OWN_KEYS | CARRY_KEYS
    ]
    stiles = {key: text for key, text in pairs if key in STILE_NAMES}
    pairs = [(key, text) for key, text in pairs if key not in STILE_NAMES and text.strip()]
    typed = dict(pairs)
    bare: BareUnit = "in" if typed.get("units") == "in" else "mm"
    fields, wrong_stiles = frame_of_stiles({**typed, **stiles}, bare)
    if not wrong_stiles:
        pairs += [(key, text) for key, text in fields.items() if key not in typed]
    question = read_question(pairs)
    example = not question.told
    if example:
        question = read_question([*EXAMPLE.items(), *(("units", text) for _, text in pairs if text == "mm")])
    told = dict(EXAMPLE) if example else {key: text for key, text in pairs if key in NAMES}
    if wrong_stiles:
        told.update(stiles)
    asked = Asked(
        "/",
        told,
        question.units,
        request.query_params.get("show", ""),
        length_told(request.query_params.get("out")),
        (*besides_of(pairs), *carry_pairs(request.query_params.multi_items())),
    )
    families: tuple[SlideFamily, ...] = families_of(request.app.state.store)
    faults = [*question.faults, *wrong_stiles]
    sheet = None
    if not faults:
        answer = answer_values(question.values, families, units=question.units)
        faults += [*answer.faults, *(fault for one in answer.drawers for fault in one.faults)]
        fitted = answer.drawers[0].fitted if answer.drawers else None
        sheet = None if fitted is None or faults else Sheet(fitted, asked)
    page = SheetPage(
        asked=asked,
        bare=bare,
        sheet=sheet,
        faults=tuple(faults),
        twin=Asked("/api/v1/quick", asked.texts, asked.units, besides=besides_of(pairs)).address(),
        heading="Measured",
        job=("Example" if example else "Quick answer", "invented" if example else "not kept", ""),
        drawer="quick",
        families=families,
    )
    return answer_with_carry(request, "quick.html", page, [sheet.fitted] if sheet is not None else [])
